package bot

// fileWords ask for the records or the calendar, by their first word.
var fileWords = map[string]verb{"report": askReport, "records": askReport, "spreadsheet": askReport, "csv": askReport, "calendar": askCal}

// calendarWords may stand after "calendar".
var calendarWords = words(`link file on off new`)

// filed reads "report", "report 2031", "csv", "calendar" and "calendar link". A
// sentence that only begins so is talk.
func (d *reader) filed() bool {
	i := d.lead(0, []string{"show me the", "show me", "show", "send me the", "send me", "send", "the", "my"})
	if w := d.word(i); w == "photos" || (w == "photo" || w == "pictures") && len(d.toks) > i+1 {
		return d.photos(i + 1)
	}
	v, known := fileWords[d.word(i)]
	if !known {
		return false
	}
	r := d.r
	topic := d.word(i)
	for i++; i < len(d.toks); i++ {
		w := d.word(i)
		switch n, isNum := d.number(i); {
		case v == askReport && isNum && n >= 2000 && n < 2200 && r.days == 0:
			r.days = n
		case v == askReport && (w == "for" || w == "of" || w == "season" || w == "year" || w == "this"):
		case v == askCal && calendarWords[w] && topic == "calendar":
			topic = w
		case w == "please" || w == "pls":
		default:
			r.days = 0
			return false
		}
	}
	r.verb, r.topic, r.question = v, topic, false
	return true
}

// photos reads what photos are asked for, from the word behind "photos" on: "batch 4",
// "of breeder 7", "B2", "North"; nothing for the newest.
func (d *reader) photos(i int) bool {
	r := d.r
	n := len(d.toks)
	for n > i && showTails[d.word(n-1)] {
		n--
	}
	for w := d.word(i); i < n && (w == "of" || w == "from" || w == "the" || w == "for"); w = d.word(i) {
		i++
	}
	if i < n {
		kind, k := d.word(i), i+1
		for numberSigns[d.word(k)] {
			k++
		}
		v, isNum := d.number(k)
		if kind == "builder" || kind == "yard" {
			i++
		}
		switch m := builderForm.FindStringSubmatch(d.word(i)); {
		case kind == "batch" && isNum && n == k+1:
			r.batch = v
		case breederWords[kind] && isNum && n == k+1:
			r.breeder = v
		case m != nil && n == i+1:
			r.builder = "B" + m[1]
		default:
			var found bool
			if r.builder, found = d.ownName(i, n, d.n.builders); found {
				break
			}
			if r.yard, found = d.ownName(i, n, d.n.yards); !found {
				return false
			}
		}
	}
	r.verb, r.question = askPhotos, false
	return true
}
