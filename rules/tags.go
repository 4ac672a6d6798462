package rules

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
)

// HighestTag is the highest number a queen's tag has: discs come with two digits, some with
// three; more than four is no tag (common practice).
const HighestTag = 9999

// Tags are the numbers on marked queens, rising, each once. They say who is who among the
// queens marked in one year; the next year begins anew.
type Tags []int

// ParseTags reads "1-24, 30": numbers and ranges. ok is false where it is none, runs
// backwards, has a number twice or one that no tag has.
func ParseTags(s string) (t Tags, ok bool) {
	for _, part := range strings.Split(s, ",") {
		lo, hi, ranged := strings.Cut(strings.TrimSpace(part), "-")
		a, err := strconv.Atoi(strings.TrimSpace(lo))
		b := a
		if err == nil && ranged {
			b, err = strconv.Atoi(strings.TrimSpace(hi))
		}
		if err != nil || a < 1 || b < a || b > HighestTag {
			return nil, false
		}
		for n := a; n <= b; n++ {
			t = append(t, n)
		}
	}
	slices.Sort(t)
	for i := 1; i < len(t); i++ {
		if t[i] == t[i-1] {
			return nil, false
		}
	}
	return t, len(t) > 0
}

// String writes them shortly: "1-24,30". It is the form that Detail keeps.
func (t Tags) String() string {
	var b strings.Builder
	for i := 0; i < len(t); {
		k := i
		for k+1 < len(t) && t[k+1] == t[k]+1 {
			k++
		}
		if b.Len() > 0 {
			b.WriteByte(',')
		}
		b.WriteString(strconv.Itoa(t[i]))
		if k > i {
			b.WriteString("-" + strconv.Itoa(t[k]))
		}
		i = k + 1
	}
	return b.String()
}

// Has reports whether a number is among them.
func (t Tags) Has(n int) bool {
	_, found := slices.BinarySearch(t, n)
	return found
}

// without are those that are not in other.
func (t Tags) without(other Tags) Tags {
	return slices.DeleteFunc(slices.Clone(t), other.Has)
}

// markColours are those of the international code, by the last digit of the year: years that
// end in 1 or 6 white, 2 or 7 yellow, 3 or 8 red, 4 or 9 green, 5 or 0 blue (common practice).
var markColours = [5]string{"blue", "white", "yellow", "red", "green"}

// MarkColour is the colour in which the queens of a year are marked.
func MarkColour(year int) string { return markColours[((year%5)+5)%5] }

// byTime orders lines as a fold takes them.
func byTime(a, b Entry) int { return cmp.Or(a.Happened.Compare(b.Happened), cmp.Compare(a.ID, b.ID)) }
