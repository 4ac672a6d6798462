package bot

import (
	"regexp"
	"strconv"

	"yardbell/rules"
)

// litresIn is how many litres a measure of syrup holds. Gallons and the like are those
// of the United States (NIST Handbook 44, appendix C, from memory).
var litresIn = map[string]float64{
	"l": 1, "lt": 1, "lts": 1, "liter": 1, "liters": 1, "litre": 1, "litres": 1, "ml": 0.001,
	"gal": 3.785, "gallon": 3.785, "gallons": 3.785, "quart": 0.946, "quarts": 0.946, "pint": 0.473, "pints": 0.473,
}

var (
	amountWord   = regexp.MustCompile(`^(\d+(?:\.\d+)?)(l|lts?|ml|gal)?$`)
	mostLitres   = 1000.0
	eachPhrases  = []string{"to each nuc", "for each nuc", "in each nuc", "per nuc", "a nuc", "to each", "each nuc", "each"}
	halfMeasures = []string{"half a", "half an"}
)

// syrup reads how much was fed: "2 l", "1.5l", "half a litre", "200 ml each". What is
// weighed or counted in jars is not turned into litres.
func (d *reader) syrup() {
	r := d.r
	if r.verb != doStep || r.step != rules.Feed {
		return
	}
	for i := range d.toks {
		r.honey = r.honey || d.word(i) == "honey"
		if d.toks[i].used || r.litres > 0 {
			continue
		}
		x, unit, n := 0.0, "", 0
		if m := amountWord.FindStringSubmatch(d.word(i)); m != nil {
			x, _ = strconv.ParseFloat(m[1], 64)
			if unit, n = m[2], 1; unit == "" {
				unit, n = d.word(i+1), 2
			}
		} else if k := d.lead(i, halfMeasures); k > 0 {
			x, unit, n = 0.5, d.word(i+k), k+1
		} else if v, ok := d.number(i); ok {
			x, unit, n = float64(v), d.word(i+1), 2
		}
		per, known := litresIn[unit]
		if !known || !(x > 0) || x*per > mostLitres {
			continue
		}
		r.litres = x * per
		d.use(i, n)
		if i += n; d.word(i) == "of" {
			d.use(i, 1)
			i++
		}
		for stuffWords[d.word(i)] {
			d.use(i, 1)
			i++
		}
		if k := d.lead(i, eachPhrases); k > 0 {
			r.each = true
			d.use(i, k)
		}
	}
}
