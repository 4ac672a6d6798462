package bot

import (
	"regexp"
	"slices"
	"strings"
)

// unsaidTurns take back or change what stands before them, or are said in jest. Where
// one stands in a message, or what one slip of the thumb makes of a word of it, the
// message is asked back, however plain the rest.
var unsaidTurns = splitForms("as good as", "like a lie", "in my head", "scratch all that")

// unsaid reports whether a message may be taken back by its own end, or may be a slip of
// another that is as plain.
func unsaid(text string) bool {
	s := fold(text)
	if slices.ContainsFunc(twinMarks, func(m string) bool { return strings.Contains(s, m) }) && twins.MatchString(s) {
		return true
	}
	var toks []token
	for _, turn := range unsaidTurns {
		if !mayTurn(s, turn) {
			continue
		}
		if toks == nil {
			toks = tokenize(s)
		}
		for i := 0; i+len(turn) <= len(toks); i++ {
			if slippedTurn(toks[i:i+len(turn)], turn) {
				return true
			}
		}
	}
	return false
}

// mayTurn reports whether all words of a turn, but for one, are in a text at all, which
// is seen sooner than the text is cut into words.
func mayTurn(s string, turn []string) bool {
	missing := 0
	for _, w := range turn {
		if !strings.Contains(s, w) {
			missing++
		}
	}
	return missing <= 1
}

// slippedTurn reports whether words are a turn, but for one slip in one of them.
func slippedTurn(toks []token, turn []string) bool {
	slips := 0
	for i, w := range turn {
		switch {
		case toks[i].text == w:
		case slips == 0 && oneSlip(toks[i].text, w):
			slips++
		default:
			return false
		}
	}
	return true
}

// twins are forms that one slip makes of others that are as plain: "red 7" of "fed 7",
// "tue B1" of "the B1", "las 8 y cuatro" of "las 8 y cuarto", "thirty are" of "thirty
// ate", "list three" of "lost three", "one did" of "one dud", "two to to" of "two to
// go", and a doubled letter in "had". "Nice try" has too many twins to be told from
// thanks: it is any short word after "nice".
var twins = regexp.MustCompile(`(?:^|, |\band )red (?:[a-z]?\d+|her)\b|\bfee?d tue\b|\btue a las?\b` +
	`|\ba las \S+ y (?:uno|dos|tres|cuatro|[1-4])\b|\bacabadora +las \d+$|, li?st \w+$` +
	`|\b(?:twenty|thirty|forty|fifty|sixty) are$|, (?:one|two|three|\d) (?:to to|to go|did)$` +
	`|\band h+a+d+ \w+$|, nice \w{1,2}y?$`)

// twinMarks are what stands in each of them, which is sooner sought than the forms.
var twinMarks = []string{"red ", "tue", "a las ", "acabadora", ", ", "ty are", "and h"}
