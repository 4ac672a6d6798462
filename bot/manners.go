package bot

import "strings"

// Greetings, thanks and harmless comment stand before and after what was done: "hi
// all, moved 34 to North, looking good". They are passed over where every word of
// them is on these lists, and never because a word is unknown: "just kidding", "not
// all" and "almost" must go on stopping a line.

var (
	// praise are words of which one must stand in a comment; small ones may stand
	// beside it.
	praise = words(`good great nice nicely beautiful beautifully lovely perfect perfectly awesome amazing excellent fantastic gorgeous brilliant wonderful
		fat plump solid strong sweet cool fine happy healthy tidy textbook decent pleased proud smooth smoothly easy calm gentle quiet quick quickly
		phew whew wow woohoo woo wahoo yay hooray hurray yeehaw yess yesss woot haha hahaha lol lmao hehe booyah bingo sunny warm windy chilly muddy humid foggy
		finally thanks thx thank ty tysm cheers whoop whoops-a-daisy champion champ stoked cracking looker lookers delicious tired sweaty sticky
		hot-day legend legends rockstars pattern brood jelly weather sunshine sunrise breeze`)
	praiseSmall = words(`the a an and it it's its that that's this they they're these those is are was were be looks look looked looking feel feels feeling seems
		so very really pretty quite today's today day morning afternoon evening job work stuff ones one batch bunch lot lots of all everything everyone everybody
		team crew guys folks girls ladies bees bee queens queen cells cell larvae nucs too again as here there out up man oh ah ya yall y'all you
		what such my our your super well went going always to see still nicest best with for both ever yet-another`)
	// comments are turns that are passed over as they stand, whatever their words.
	comments = turnsOf(`
		never seen that|never seen that before|never seen this before|never seen anything like it|never had that before|not one dropped|not one lost|not one dented|not a one dropped|not a single one lost|not a single one dropped|none dropped|none dented
		forgot to write|forgot to say|forgot to log|forgot to log it|forgot to tell|forgot to write it|forgot to write it down|forgot to type|i forgot to write|i forgot to say|i forgot to log it
		all good|so far so good|all is well|all's well|all well|going well|went well|no problem|no problems|no issues|no worries|no trouble|no drama|no losses|no casualties
		not bad|not bad at all|not too bad|not too shabby|not shabby|no complaints|no stings|can't complain|cant complain|couldn't be better
		hot day|cold day|sun's out|the sun's out|sun is out|long day|hot one|hot out|hot out here|hot today|hot out there|what a day|cold out|cold out here|cold today|wet out here|hot as hell|it's hot|hot and sticky|so hot
		about time|at last|finally|as planned|right on time|on time|on schedule|right on schedule|like clockwork|easy peasy|job done|good to go|happy days|well done|well done all
		cut em out|cut them out|cut 'em out|cut it out|all cut out|cut out|cut both out|cut both|knocked it down|knocked them down|knocked em down|knocked down|squished it|squished them|squished em|squished
		squashed it|squashed them|crushed it|crushed them|removed|removed it|removed them|all removed|destroyed|destroyed it|destroyed them|killed it|killed them|pinched it|pinched them|took it out|took them out|took em out
		tore it down|tore them down|tore em down|scraped it off|scraped them off|got rid of it|got rid of them|got rid of em|got em|got em all|got them all|dealt with|dealt with it|dealt with them|gone now|all gone|all gone now|they're gone|they're gone now|gone|both gone|culled|culled it|culled them
		heading home|heading back|heading home now|heading back now|headed home|on my way home|on my way back|home now|going home|going home now|coming home|packing up|packing up now|off home|back to the truck|lunch now|lunch time|lunchtime|coffee time|coffee now|beer time|time for coffee|time for lunch|time for a beer|beer o'clock|break time
		see you all|see you soon|see you there|see ya|cya|talk soon|over and out|that's it|that's all|that is all|that's it for today|that's all for today|that's all from me|end of report
		fyi|just fyi|btw|by the way|for the record|for the log|for the logbook|just so you know|so you know|heads up|quick update|update|quick note|quick one|small update|status|report|news|good news|great news|log this|log it|log it please|please log|please log it|pls log|for your records|note to the log|note for the log|yardbell
		hi|hey|hello|hi all|hey all|hello all|hi team|hey team|hi guys|hey guys|hi folks|hey folks|hi everyone|hey everyone|hello everyone|hi everybody|morning|morning all|morning everyone|morning team|morning guys|morning folks|morning crew|good morning|good morning all|good morning everyone|good morning team|good morning crew|evening all|evening everyone|good evening|good evening all|good afternoon|afternoon all|hiya|howdy|howdy all|howdy folks|yo|yo all|hey crew|hi crew|hey there|hi there|hey bot|hi bot|hello bot|ok team|ok all|ok guys|ok folks|alright|alright all|right|righto|okay|ok|hey y'all|g'day
		bye|bye all|later all|later guys|later folks|cheers all|cheers guys|please and thanks|thanks in advance|that was quick|that was fast|that was easy|that was hard work|hard work|tough one|bees were calm|bees are calm|bees are happy|bees were happy|bees were grumpy|bees are grumpy|grumpy bees|bees were angry|got stung|got stung twice|got stung again|stung twice|ouch
		took a while|took ages|took forever|took all morning|took all day|took some time|slow going|slow work|that took a while|good times|sore back|my back hurts|no rush|fun morning|one down|two down|boom|note|safe and sound|no robbing|both cut out|both squished|both gone|wall to wall|zero losses|zero issues|total bust|what a bust|running late|stuck in traffic|oh well|sad times|gutted
		nothing coming in|not a thing coming in|no nectar|no nectar coming in|not a drop coming in|nothing in bloom|finally done|leaving now|on my way|on our way|heading out|heading out now|heading over|heading over now|going there now|going now|driving over|driving over now|on the road|finally
		they look good|they look great|they're good|they're great|they're beautiful|looking good|looking great|looks good|looks great|look good|look great|smells great|nice and warm|nice and early|nice and easy|nice and fat|nice and clean
		as usual|as always|as discussed|as agreed|as you said|like you said|like we said|good work everyone|good job everyone|go team|let's go|lets go|let's gooo|not a bad start|what a relief|what a morning|what a beauty|best batch yet|best yet|best one yet|new record|record|personal best|a record|fingers crossed|knock on wood|touch wood|lucky us
		period|full stop|total loss|a total loss|total wipeout|all nice and fat
		black locust|locust|clover|white clover|linden|basswood|acacia|goldenrod|sumac|tulip poplar|blackberry|fireweed|sourwood|buckwheat|dandelion|willow|maple|canola|orange blossom`)
	thanksLeads = words(`thanks thx thank ty cheers tysm`)
	greetWords  = words(`hi hey hello morning evening afternoon howdy hiya yo`)
	addressees  = words(`all everyone everybody team crew guys folks y'all yall gang people bot there friends boss both`)
	ackWords    = words(`ok okay k kk cool great nice perfect awesome thanks thx ty thank you cheers lovely brilliant sweet wow lol haha hahaha super amazing
		excellent much so very tysm work job good well welcome bot team all everyone guys folks mate man dude it that's for now a lot wonderful fantastic noted`)
	ackNeeds = words(`thanks thx ty thank cheers cool great nice perfect awesome lovely brilliant sweet wow lol haha hahaha amazing excellent tysm wonderful fantastic welcome`)
)

// turnsOf reads turns of words, one beside the other parted by bars.
func turnsOf(table string) map[string]bool {
	m := map[string]bool{}
	for _, line := range strings.Split(table, "\n") {
		for _, s := range strings.Split(line, "|") {
			if s = strings.TrimSpace(s); s != "" {
				m[s] = true
			}
		}
	}
	return m
}

// manners takes greetings, thanks and comment out of the message, unless it is
// nothing else.
func (d *reader) manners() {
	if d.courteous(0, len(d.toks), ackNeeds, ackWords) {
		d.r.courtesy = true
		return
	}
	d.greeting()
	d.goodbye()
	d.lossTail()
	var out []token
	dropped := false
	for i := 0; i < len(d.toks); {
		k := i + 1
		for k < len(d.toks) && !d.toks[k-1].comma {
			k++
		}
		if k-i < len(d.toks) && d.harmless(i, k) {
			dropped = true
			if n := len(out); n > 0 {
				out[n-1].comma = true
			}
		} else {
			a, b := d.joinedRemark(i, k)
			dropped = dropped || b-a < k-i
			out = append(out, d.toks[a:b]...)
			out[len(out)-1].comma = d.toks[k-1].comma || b < k
		}
		i = k
	}
	if dropped && len(out) > 0 {
		d.toks, d.joined = out, ""
		d.goodbye()
	}
}

// joinedRemark leaves a remark out that "and" or "but" joins to the piece from token i
// to k: "that took forever but all are moved and nothing got shaken".
func (d *reader) joinedRemark(i, k int) (int, int) {
	for j := k - 4; j > i; j-- {
		if joins[d.word(j)] && d.remark(j+1, k) {
			k = j
		}
	}
	for j := i + 2; j < k-1; j++ {
		if joins[d.word(j)] && d.remark(i, j) {
			return j + 1, k
		}
	}
	return i, k
}

// spell is the words from token i up to k.
func (d *reader) spell(i, k int) string {
	parts := make([]string, 0, k-i)
	for ; i < k; i++ {
		parts = append(parts, d.word(i))
	}
	return strings.Join(parts, " ")
}

// courteous reports whether the tokens from i to k are all of some words, and one of
// those that must be there.
func (d *reader) courteous(i, k int, needs, may map[string]bool) bool {
	found := false
	for ; i < k; i++ {
		w := d.word(i)
		found = found || needs[w]
		if !needs[w] && !may[w] {
			return false
		}
	}
	return found
}

const longestComment = 8

// harmless reports whether the piece from token i to k says nothing that a line has.
func (d *reader) harmless(i, k int) bool {
	if k-i <= longestComment && comments[d.spell(i, k)] {
		return true
	}
	if w := d.word(i + 1); w == "good" && (d.word(i) == "as" || d.word(i) == "ad") || d.phrase(i, "good as") || d.phrase(i, "as good") {
		return false // it was almost so
	}
	return d.courteous(i, k, praise, praiseSmall) || d.thanks(i, k) || d.greets(i, k) || d.losses(i, k) || d.remark(i, k)
}

// thanks reports whether somebody is thanked for something: "thx for the help Rowan".
func (d *reader) thanks(i, k int) bool {
	if !thanksLeads[d.word(i)] || k-i > 12 {
		return false
	}
	for j := i + 1; j < k; j++ {
		w := d.word(j)
		if d.toks[j].isNum || negations[w] || hedges[w] || w == "if" || w == "undo" || w == "wrong" || stepForms[w] == past {
			return false
		}
	}
	next := d.word(i + 1)
	if next == "you" || next == "so" || next == "a" {
		return true
	}
	return k-i == 2 || next == "for" || next == "to" || addressees[next]
}

// greets reports whether a piece greets somebody.
func (d *reader) greets(i, k int) bool {
	if i != 0 || !greetWords[d.word(i)] || k-i > 3 {
		return false
	}
	for j := i + 1; j < k; j++ {
		t := d.toks[j]
		if t.isNum || d.known(t.text) && !addressees[t.text] {
			return false
		}
	}
	return true
}

// losses reports whether a piece says why the count is less than what it is of:
// "34 of 36, 2 duds".
func (d *reader) losses(i, k int) bool {
	if d.accounts(i, k) {
		return true
	}
	if !d.toks[i].isNum || k-i < 2 || k-i > 6 {
		return false
	}
	for j := i + 1; j < k; j++ {
		if !lossWords[d.word(j)] {
			return false
		}
	}
	// Of "34 of 36" it must be the rest, and of a count alone far less than it.
	of, most := false, 0
	for j := 0; j < i; j++ {
		if !d.toks[j].isNum {
			continue
		}
		most = max(most, d.toks[j].num)
		if d.word(j+1) == "of" && j+2 < i && d.toks[j+2].isNum {
			if of = true; d.toks[j+2].num-d.toks[j].num == d.toks[i].num {
				return true
			}
		}
	}
	return !of && most > 2*d.toks[i].num && (k-i > 2 || dudWords[d.word(i+1)] && d.nextTo(hatchedWords)) // "moved 34, 2 broken" may be of the 34
}

var hatchedWords = words(`emerged hatched laying`)

var dudWords = words(`dud duds missing stillborn no-shows`)

var lossWords = words(`dud duds bad dead failed empty rejected culled tossed broken damaged crushed chilled binned small puny were was are is cells cell ones one queens virgins no-shows missing lost didn't make it got stillborn duds in the their squashed dented dropped`)

// greeting takes a greeting that no comma parts from the rest: "morning all moved 34".
func (d *reader) greeting() {
	n := 0
	for k := min(4, len(d.toks)-1); k > 0 && n == 0; k-- {
		if greetWords[d.word(0)] && addressees[d.word(k-1)] || d.word(0) == "good" && greetWords[d.word(1)] && addressees[d.word(k-1)] {
			if comments[d.spell(0, k)] {
				n = k
			}
		} else if headTurns[d.spell(0, k)] {
			n = k
		}
	}
	if n > 0 {
		d.toks, d.joined = d.toks[n:], ""
	}
}

var headTurns = turnsOf(`quick update|just fyi|heads up|ok so|ok team|right so|alright so|good news|for the log|for the record`)

// goodbye takes a last word that no comma parts from the rest: "moved 34 to North lol".
func (d *reader) goodbye() {
	for range 3 {
		n := len(d.toks)
		cut := 0
		for k := min(5, n-1); k > 0 && cut == 0; k-- {
			s := d.spell(n-k, n)
			if tailTurns[s] || k > 1 && thanksLeads[d.word(n-k)] && d.thanks(n-k, n) {
				cut = k
			}
		}
		if cut == 0 {
			return
		}
		d.toks[n-cut-1].comma = true
		d.toks, d.joined = d.toks[:n-cut], ""
	}
}

var tailTurns = turnsOf(`dammit|damnit|damn it|damn|dang|dang it|darn|darn it|ugh|argh|grr|sheesh|sigh|lol|lmao|haha|hahaha|hehe|phew|whew|woohoo|yay|wow|woot|finally|thanks|thx|ty|cheers|guys|folks|everyone|everybody|team|crew|fyi|btw|yall|y'all|looking good|looking great
		|all good|so far so good|thank you|thanks all|thank you all|as planned|right on time|on time|boss|mate|thanks guys|thanks team|thanks bot|no problem|no problems|no issues|at last|my friends|my friend|for the log|for the record|and all good|they look great|they look good|looks good|looks great|and they look great|and they look good|i'm happy to say|happy to report`)

// asBot takes "bot" for the name of it where it is asked something; "the bot" and "bot
// is down" are talk of it.
func (d *reader) asBot() {
	i := 0
	if greetWords[d.word(0)] {
		i = 1
	}
	if d.word(i) == "bot" && (botAsked[d.word(i+1)] || len(d.toks) == i+2 && d.word(i+1) == "help") {
		d.toks = d.toks[i+1:]
		d.r.addressed = true
	}
}

var botAsked = words(`what what's whats show list due undo why week season log`)
