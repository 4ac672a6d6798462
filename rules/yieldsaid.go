package rules

import (
	"strconv"
	"strings"
)

// YieldSetting leads the names of settings that say what a crew gets at a stage before it
// has counts: "yield accept" with the value "80", in percent of the stage before.
const YieldSetting = "yield "

// applyYield sets a rate that the crew says it gets.
func (s *Settings) applyYield(step Step, value string, bad func() error) error {
	g, ok := StageOf(step)
	if !ok {
		return bad()
	}
	if value == "default" {
		s.Said[g] = 0
		return nil
	}
	n, err := strconv.Atoi(strings.TrimSpace(strings.TrimSuffix(value, "%")))
	if err != nil || n < 1 || n > 99 {
		return bad()
	}
	s.Said[g] = float64(n) / 100
	return nil
}

// yieldValue shows a rate that was said as it would be typed.
func (s *Settings) yieldValue(step Step) string {
	if g, ok := StageOf(step); ok && s.Said[g] > 0 {
		return strconv.Itoa(int(s.Said[g]*100 + 0.5))
	}
	return "default"
}

// prior of a stage: what the crew said it gets, as uncertain as what is published, else
// that itself.
func prior(g Stage, said float64) (alpha, beta float64) {
	if said <= 0 {
		return Published[g].Prior()
	}
	half := (Published[g].Hi - Published[g].Lo) / 2
	r := Range{Lo: said - half, Hi: said + half}
	alpha, beta = r.Prior()
	if least := 1.0; alpha < least || beta < least { // so near to none or all that the range runs over
		k := max(least/said, least/(1-said))
		return said * k, (1 - said) * k
	}
	return alpha, beta
}
