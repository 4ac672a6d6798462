package wording

import (
	"yardbell/rules"
)

// Days words days off: each by itself, three or more in a row as a span.
func (v Voice) Days(days []rules.Date) string {
	var parts []string
	for i := 0; i < len(days); {
		j := i
		for j+1 < len(days) && days[j].Add(1) == days[j+1] {
			j++
		}
		switch {
		case j-i >= 2:
			parts = append(parts, v.Say("days_span", "From", v.Date(days[i]), "Until", v.Date(days[j])))
		default:
			for _, d := range days[i : j+1] {
				parts = append(parts, v.Date(d))
			}
		}
		i = j + 1
	}
	return JoinList(parts)
}

// words are those of a reminder, which are gone where whoever said them was forgotten.
func (v Voice) words(s string) string {
	if s == "" {
		return v.Say("remind_gone")
	}
	return s
}
