package bot

import "regexp"

// unsaid are turns that take back or change what stands before them, and what one slip
// of the thumb makes of them: "as good as moved", "as god as moved", "nice ty". Where
// one stands in a message it is asked back, however plain the rest. So are slips that
// make another word of the trade: "red 7" for "fed 7", "tue B1" for "the B1".
var unsaid = regexp.MustCompile(`\bas go+d as\b|\bas good (?:a|as|at|s)\b|\ba good as\b` +
	`|\blike a l+i+e$|\bin my (?:h\w{1,3}|ead)$|, nice \w{1,2}y?$|\bc?ratch all that\b` +
	`|\band h+a+d+ \w+$|\b(?:twenty|thirty|forty|fifty|sixty) are$` +
	`|, (?:one|two|three|\d) (?:to to|to go|did)$` +
	`|(?:^|, |\band )red (?:[a-z]?\d+|her)\b|\bfee?d tue\b|\btue a las?\b` +
	`|\ba las \S+ y (?:uno|dos|tres|cuatro|[1-4])\b|\bacabadora +las \d+$|, li?st \w+$`)
