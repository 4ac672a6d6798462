package bot

import (
	"regexp"
	"strconv"
	"strings"
)

// How much was fed, said in words: "a litre", "one and a half litres", "un litro y
// medio", "1,5 l". Before anything else is read it is put as a number before its
// measure, in a message that speaks of feeding.

// amountUnits are measures as they are typed, in either language.
var amountUnits = words(`l lt lts liter liters litre litres litro litros gal gallon gallons galon galones quart quarts pint pints`)

// feedStems tell that a message speaks of feeding, and so does any form of "alimentar".
var feedStems = words(`fed feed feeding gave syrup sugar di dimos dio dieron eche echamos echo puse pusimos jarabe azucar`)

// tailUnit is the end of an amount whose comma parts it from its whole: the "5l" of
// "1,5l".
var tailUnit = regexp.MustCompile(`^\d{1,3}(l|lt|lts|ml|gal)?$`)

// barWords hold a row of cells each.
var barWords = words(`bar bars barra barras liston listones`)

// rows takes "4 bars of 12" for one thing that is not read: neither number counts cells,
// and which comb they are from is said elsewhere.
func (d *reader) rows() {
	number := func(i int) bool {
		return i < len(d.toks) && (d.toks[i].isNum || esNumbers[d.word(i)] > 0)
	}
	for i := 0; i+3 < len(d.toks); i++ {
		if w := d.word(i + 2); number(i) && barWords[d.word(i+1)] && (w == "of" || w == "de" || w == "x" || w == "with" || w == "con") && number(i+3) {
			t := d.merged(i, 4, "bars#")
			t.comma = d.toks[i+3].comma
			d.toks = append(append(d.toks[:i:i], t), d.toks[i+4:]...)
		}
	}
}

func (d *reader) amounts() {
	speaks := false
	for _, t := range d.toks {
		speaks = speaks || feedStems[t.text] || strings.HasPrefix(t.text, "aliment")
	}
	if !speaks {
		return
	}
	out := make([]token, 0, len(d.toks))
	for i := 0; i < len(d.toks); {
		if text, n, unit := d.amount(i); n > 0 {
			out = append(out, d.merged(i, n, text))
			if i += n; unit >= 0 {
				out = append(out, d.toks[unit])
				if i <= unit {
					i = unit + 1
				} else {
					out[len(out)-1].comma = d.toks[i-1].comma // what followed the measure is in the number now
				}
			}
			continue
		}
		out = append(out, d.toks[i])
		i++
	}
	d.toks = out
}

// amount reads an amount at i: the number it makes, how many tokens it took and where
// its measure stands, below 0 where the number holds it.
func (d *reader) amount(i int) (text string, n, unit int) {
	isUnit := func(k int) bool { return k < len(d.toks) && (k == i || !d.toks[k-1].comma) && amountUnits[d.word(k)] }
	half := func(k int) int { // "and a half", "y medio"
		switch {
		case k < len(d.toks) && k > 0 && d.toks[k-1].comma:
		case d.phrase(k, "and a half"):
			return 3
		case d.phrase(k, "and half"), d.phrase(k, "y medio"), d.phrase(k, "y media"):
			return 2
		}
		return 0
	}
	t := d.toks[i]
	whole, isNum := t.num, t.isNum && isDigits(strconv.Itoa(t.num))
	if v, ok := esNumbers[t.text]; ok && !isNum {
		whole, isNum = v, true
	}
	switch t.text {
	case "a", "an", "one", "un", "una":
		whole, isNum = 1, d.word(i-1) != "half"
	}
	switch {
	case t.isNum && t.comma && i+1 < len(d.toks) && tailUnit.MatchString(d.word(i+1)) && d.toks[i+1].at == t.at+len(t.orig)+1 && d.text[t.at+len(t.orig)] == ',':
		switch tail := d.word(i + 1); {
		case !isDigits(tail):
			return t.text + "." + strings.Replace(strings.TrimSuffix(tail, "ts"), "lt", "l", 1), 2, -1
		case isUnit(i + 2):
			return t.text + "." + tail, 2, i + 2
		}
	case !isNum && (t.text == "litro" || t.text == "liter" || t.text == "litre") && half(i+1) > 0:
		return "1.5", 1 + half(i+1), i // "litro y medio"
	case !isNum || t.comma:
	case half(i+1) > 0 && isUnit(i+1+half(i+1)):
		return strconv.Itoa(whole) + ".5", 1 + half(i+1), i + 1 + half(i+1)
	case isUnit(i+1) && half(i+2) > 0:
		return strconv.Itoa(whole) + ".5", 2 + half(i+2), i + 1
	case isUnit(i+1) && !t.isNum && (whole == 1 || esNumbers[t.text] > 0):
		return strconv.Itoa(whole), 1, i + 1
	}
	return "", 0, 0
}

// merged is one token of n from i on.
func (d *reader) merged(i, n int, text string) token {
	first, last := d.toks[i], d.toks[i+n-1]
	t := token{text: text, orig: d.text[first.at:min(last.at+len(last.orig), len(d.text))], at: first.at}
	t.num, t.isNum = numeral(text)
	return t
}
