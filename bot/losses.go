package bot

// What was lost on the way is not logged. It is passed over where it accounts for the
// difference between the count and what the batch stood at: "34, two duds", of 36. Where
// it does not, "34, two duds" may as well be 32.

// accountWords may stand beside the number of what was lost. lossVerbs may stand before
// it as well.
var (
	accountWords = words(`dud duds bad dead failed empty empties rejected culled tossed broken damaged crushed chilled binned small puny missing lost gone flew fell escaped off away dry flat nothing
		stillborn no-shows squashed dented dropped broke torn down chewed out unhatched drone queenless blanks blank rejects shy short misses were was are is have has been went got
		a an the in on cells cell one ones queens virgins nucs nuc only still didn't make it take hatch emerge their with no eggs to drive way ride road at`)
	lossVerbs = words(`dropped lost broke squashed crushed damaged tossed binned chucked killed smashed missing only binning`)
)

// lost is the number that the piece from token i to k says was lost.
func (d *reader) lost(i, k int) (n int, ok bool) {
	from := i
	if k-i > 1 && lossVerbs[d.word(i)] || d.word(i) == "and" || d.word(i) == "but" {
		i++
	}
	for lossVerbs[d.word(i)] || d.word(i) == "the" || d.word(i) == "other" {
		i++
	}
	switch {
	case i >= k:
		return 0, false
	case d.toks[i].isNum:
		n = d.toks[i].num
	case d.word(i) == "one":
		n = 1
	default:
		return 0, false
	}
	for j := i + 1; j < k; j++ {
		if w := d.word(j); !accountWords[w] || d.toks[j].isNum {
			return 0, false
		}
	}
	return n, n > 0 && (k > i+1 || i > from && lossVerbs[d.word(i-1)])
}

// accounts reports whether the piece from token i to k says what was lost, and that
// and the counts beside it are what a batch stood at.
func (d *reader) accounts(i, k int) (ok bool) {
	defer func() { d.accounted = d.accounted || ok }()
	if k-i < 2 || k-i > 8 {
		return false
	}
	n, says := d.lost(i, k)
	if !says {
		return false
	}
	sum, counts := 0, 0
	for j, t := range d.toks {
		if !t.isNum || j >= i && j < k || thingWords[d.word(j-1)] || breederWords[d.word(j-1)] || d.word(j-1) == "at" {
			continue
		}
		if d.word(j-1) == "of" && j > 1 && d.toks[j-2].isNum {
			return d.toks[j-2].num+n == t.num // what it is of is said
		}
		if t.num <= n {
			return false // most of it is no loss that is told in passing
		}
		if sum, counts = sum+t.num, counts+1; d.stood(t.num+n) || d.n.accounted {
			return true
		}
	}
	return counts > 1 && d.stood(sum+n)
}

// stood reports whether a batch of the crew's stands at a count.
func (d *reader) stood(n int) bool {
	for _, s := range d.n.stand {
		if s == n {
			return true
		}
	}
	return false
}

// lossLeads before a number make it another, or are a part of what was lost.
var lossLeads = words(`of at other the and but only batch breeder builder`)

// shortMoves are moves without a word for it, which what was lost beside them makes
// plain: "35 to North, dropped one".
var shortMoves = sayings("^ # cells? to|into|in|at Y $ => moved =2 =3 =4 =5")

// lossTail parts what was lost from the end of a message without a comma: "20 North 15
// Creek one dud".
func (d *reader) lossTail() {
	n := len(d.toks)
	for i := n - 2; i > 0 && i >= n-6; i-- {
		if !d.toks[i-1].comma && d.accounts(i, n) && !lossLeads[d.word(i-1)] && !lossVerbs[d.word(i-1)] {
			d.toks[i-1].comma = true
			return
		}
	}
}

// yardPairs parts "20 North 15 Creek" in an answer to the bot.
func (d *reader) yardPairs() {
	var ends []int
	for i := 0; i < len(d.toks); {
		k := i + 1
		if d.word(k) == "to" || d.word(k) == "at" || d.word(k) == "in" {
			k++
		}
		n := 0
		if k < len(d.toks) {
			n = d.ownAt(k, d.n.yards)
		}
		if !d.toks[i].isNum || n == 0 {
			return
		}
		i = k + n
		ends = append(ends, i-1)
	}
	for _, e := range ends[:max(len(ends)-1, 0)] {
		d.toks[e].comma = true
	}
}

// hatched reads "31 out" where the virgins of a batch are due, and "took 43" before
// what was fed.
func (d *reader) hatched() {
	n := len(d.toks)
	if n > 3 && d.word(0) == "took" && d.toks[1].isNum && d.toks[1].comma && d.word(2) == "fed" {
		d.toks[0].text, d.joined = "accepted", ""
	}
	for n > 2 && (d.word(n-1) == "now" || d.word(n-1) == "already" || d.word(n-1) == "today") {
		n--
	}
	if n != 2 || !d.toks[0].isNum || d.word(1) != "out" {
		return
	}
	for _, most := range d.n.hatching {
		if d.toks[0].num > 0 && d.toks[0].num <= most {
			d.toks[1].text, d.joined = "emerged", ""
			return
		}
	}
}
