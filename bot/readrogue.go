package bot

// findsSome reports whether the message tells of rogue cells found or taken out. Such a
// search is never taken for one that found none, should their number not be read.
func (d *reader) findsSome() bool {
	finds := false
	for i := range d.toks {
		w := d.word(i)
		if clearWords[w] || negations[w] || w == "none" {
			return false
		}
		finds = finds || findsWords[w]
	}
	return finds
}

var findsWords = words(`found saw spotted cut removed destroyed squished squashed crushed killed scraped knocked pinched culled tore binned popped took pulled`)
