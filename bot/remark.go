package bot

import (
	"regexp"
	"strings"
)

// Remarks are asides that nobody could put on a list word by word: "my neck knows
// it", "as pretty a pattern as you'd want". They are told by how they begin, and only
// where no word stands in them that could change what was done, or take it back.

// remarkWords are words of which one must stand in a remark that is made of these and
// of remarkSmall alone: the weather, the body, food, the mood of people and bees.
var (
	remarkWords = words(`neck back knees knee eyes hands fingers feet arms shoulders legs wrists elbow hurt hurts aching aches ache sore stiff glad relieved hungry thirsty exhausted
		beat knackered sleepy soaked drenched sweating sunburnt sunburned freezing melting boiling roasting baking dusty dirty filthy feisty cranky grumpy angry cross ornery hot cold
		smoker veil suit gloves sting stings stung stinging coffee tea lunch breakfast dinner beer beers pizza sandwich donuts doughnuts cake mum mom dad wife husband kids dog cat grandma neighbour
		rain raining rained rainy storm stormy thunder lightning clouds cloudy sun shining heat frost drizzle drizzling life luck lucky bless blessed lord hallelujah amen god
		beauties beauty peach peaches pearls jewels gems peanuts love loved loving enjoyed busy humming roaring purring buzzing bloom blooming blossom clover linden dandelions flowers
		traffic road radio song singing bushed pooped wiped wrecked shattered starving famished hangry delighted chuffed thrilled excited grinning smiling mud mosquitoes ticks wasps flies
		light lighter sticky messy slow slowly tricky fiddly pain sweat tears crazy mad nuts hectic chaos everywhere monsters whoppers stunners gorgeous chunky huge massive drumsticks sausages`)
	remarkSmall = words(`i i'm im i've he she his my me in on at by with for from of off like just am have has had been can than even though tho though already now more until-now
		getting gets got feeling today's these our not-bad whole entire little bit few-clouds am him us we we're were long big girl lady mama old too both them their its god's oh boy half-asleep well know knows day days week month year`)
)

// remarkMore are words that say nothing by themselves, in the free places of a remark.
var remarkMore = words(`bone bones nose ear lip face chin cheek knuckle toe foot night man's man woman to and or a an the i you we us it he she they you'd i'd want seen had ever asked wanted life season career years year long
	behind tractor truck cow cows sheep gate bridge town road works school bus home house way drive driving walk walking work working works smiling killing hurting burning itching hurt itch`)

// openings are the ways that a remark begins and what may follow: a word in its free
// places must be one of the lists, but for one that is unknown; in openingsStrict each.
var (
	openings = remarkForms(`
		(?:the |my |our )?(?:best|nicest|fattest|prettiest) (?:graft|batch|move) (?:of my life|of my career|ever|yet|all year|in years|this year|this season|so far)
		(?:my|our) (?:neck|back|knees?|eyes|hands?|fingers|feet|arms?|shoulders?|legs) (?:is|are) done(?: in)?
		(?:my|our) (?:neck|back|knees?|eyes|hands?|fingers|feet|arms?|shoulders?|legs|wrists?|gloves|veil|suit|smoker|wife|husband|mum|mom|dad|kids?|dog|phone|battery|thumbs?)(?: [\w']+){1,6}
		(?:these|those) (?:old )?(?:eyes|hands|gloves|bees|girls|ladies)(?: [\w']+){0,5}
		as (?:pretty|nice|good|fine|lovely|fat|smooth|calm|big|beautiful|plump|healthy|happy|neat|tidy|perfect)(?: an?)?(?: [\w']+){1,7}
		(?:hot|cold|dry|wet|calm|busy|smooth|quiet|happy|fat|black|good|sweet|easy|slow|cool|gentle|light|clean|strong|big) as [\w']+(?: [\w']+){0,4}
		(?:are|is|was|were) (?:my|our) (?:neck|back|knees?|eyes|hands?|fingers|feet|arms?|shoulders?|legs)(?: [\w']+){1,3}
		what (?:beauties|monsters|whoppers|stunners|fun|weather|heat|wind)(?: [\w']+){0,3}
		(?:just )?(?:loading|packing|grabbing|washing|cleaning|parking)(?: up)? (?:the|my|our) (?:truck|van|car|gear|kit|tools|coffee|boots|suit|smoker)(?: [\w']+){0,3}
		(?:the )?(?:syrup|jars?|feeders?|lids?) (?:is|was|were|are) (?:so |very |really |all )?(?:cold|warm|hot|heavy|sticky|thick|dry|bone dry|licked clean|empty)(?: [\w']+){0,2}
		(?:god |lord |heaven )?bless (?:them|'em|em|her|him|you|the|those|these|their|my|our)(?: [\w']+){0,4}
		(?:off|time|ready|going|heading|headed|back|gone|out|now|driving|on my way|on our way|leaving|packing|washing|cleaning)(?: up)?(?: (?:to|for|home|now|back|over|there|out|off|the|my|our|a|up|in|some|soon|down|bed|shower|lunch|dinner|breakfast|coffee|beer|tea|swim|nap|town|road|shortly|right|already|yard))+
		(?:see|catch|talk to) (?:you|ya|y'all|u)(?: (?:all|guys|there|soon|around|at|tonight|in|the|morning|monday|later|lunch|dinner))*
		(?:i|we) (?:got|was|were) (?:stung|soaked|drenched|sunburnt|sunburned|chased|wet)(?: [\w']+){0,5}
		(?:got|been) (?:stung|soaked|drenched|chased|sunburnt|sunburned)(?: [\w']+){0,5}
		(?:i|we) (?:love|loved|enjoyed|need|needed|deserve|want|could use|earned)(?: (?:a|an|my|this|that|these|some|the|another|new|it|more|job|days?|like|bees|coffee|beer|beers|nap|shower|lunch|break|tea|drink|sleep|glasses|raise|holiday|vacation|bed|swim|cold|hot|long|strong|big|work|hat|chair))+
		(?:i|we) (?:cut|knocked|squished|squashed|crushed|removed|destroyed|killed|pinched|tore|scraped|took|dealt|got rid)(?: (?:it|them|em|'em|both|all|out|off|down|with|of|too|away|right|straight))+
		(?:what|how) an? (?:lovely |nice |great |beautiful |gorgeous |hot |cold |long |good |mess |crazy |rotten )*(?:day|morning|afternoon|evening|night|sight|batch|graft|week|mess|view|job|team|crew|relief|beauty|year|season|start|pattern|start to the day)(?: [\w']+){0,4}
		(?:hats off|kudos|props|credit|shout out|shoutout|high five|high fives|good job|great job|nice job|well done|good work|great work|nice work|drinks|beers|cake|coffee|donuts|doughnuts|pizza)(?: [\w']+){0,6}
		(?:easy|smooth|quick|calm|slow|hard|tough|sweaty|sticky|hot|cold|windy|muddy|wet|good|nice|great|lovely|fun|pleasant|busy) (?:going|work|morning|afternoon|day|job|evening|one|stuff|bees|start|move|drive|ride|session|trip|graft)(?: [\w']+){0,3}
		(?:same|just|more or less|exactly) (?:as|like) (?:always|usual|last time|planned|clockwork|that|before)
		(?:thank|praise) (?:god|goodness|heavens|heaven|the lord|you|y'all)(?: [\w']+){0,4}
	`)
	openingsStrict = remarkForms(`
		(?:not|not half) bad for (?:a|an|the|this|one|my)(?: [\w']+){1,4}
		(?:the )?(?:roads?|tracks?|lane|mud) (?:is|are|was|were) (?:so |very |really |pretty |all )?(?:awful|bad|terrible|muddy|wet|icy|dry|fine|good|rough|a mess)
		(?:that's|thats|that is) (?:me|us|it|all|my|our)(?: [\w']+){1,6}
		(?:the |my |our )?(?:best|nicest|fattest|prettiest|finest|biggest|smoothest|easiest|quickest|hottest|coldest|longest)(?: [\w']+){1,7}
		(?:i'm|im|i am|we're|we are) (?:a |an |one |so |very |really |pretty |quite |well |dead |all )?(?:happy|glad|pleased|proud|tired|knackered|beat|hungry|soaked|wet|cold|hot|sweaty|sticky|relieved|exhausted|thrilled|chuffed|delighted|starving|stoked|bushed|toast|cooked|covered|grinning|impressed|lucky|off|heading|headed|going|leaving|packing)(?: [\w']+){0,6}
		(?:couldn't|couldnt|could not|can't|cant|could hardly|could barely) (?:see|hear|feel|ask|complain|be happier|be better|be prouder)(?: [\w']+){0,6}
		(?:she|he)(?:'s| is) (?:a|an|such an?|some|one|our) (?:[\w']+ )?(?:machine|beauty|star|champ|champion|trooper|legend|keeper|gem|monster|peach|darling|sweetheart|powerhouse)(?: [\w']+){0,3}
		(?:not|hardly) (?:my|our|the) (?:best|finest|worst|prettiest|greatest)(?: [\w']+){0,3}
		(?:a |what a |total |complete |bit of a |oh )?(?:bust|disaster|bummer|flop|shame|pity|damn shame|let down|letdown|disappointment|well)(?: [\w']+){0,2}
		(?:i )?(?:dropped|forgot|broke|lost|left) (?:my|the) (?:phone|smoker|hat|glasses|keys|gloves|veil|lunch|coffee)(?: [\w']+){0,5}
		(?:running|stuck|caught) (?:a bit |a little |really )?(?:late|behind|in traffic|on the road|at the gate|in mud|in the mud)(?: [\w']+){0,4}
		(?:tractor|traffic|gate|phone|truck|van)(?: [\w']+){1,5}
		(?:ha|haha|lol|phew|whew|wow|woo|yay|boom)(?: [\w']+){0,3}
		(?:not one|not a|not a single|no|never a|nary a) (?:one |single )?(?:cell |queen |bee |sting |problem |hitch |hiccup |bump )?(?:dented|damaged|bruised|shaken|dropped|chilled|broken|crushed|squashed|lost|hurt|harmed|sting|stings|hitch|hitches|hiccup|hiccups|problem|bump|bumps|fuss|scratch|stung)(?: [\w']+){0,3}
		(?:nothing|none|nobody|no one)(?: of them)? (?:got |was |were |is |are )?(?:dented|damaged|bruised|shaken|dropped|chilled|broken|crushed|squashed|hurt|harmed|stung|spilled|spilt|coming in|in bloom)(?: [\w']+){0,3}
		not a (?:thing|drop|bee|flower)(?: is| was)?(?: coming in| in bloom| left| flying| moving)?(?: [\w']+){0,3}
		(?:that |it |this )?took (?:me |us )?(?:ages|forever|a while|all|the whole|longer|hours|some|most|long|an age|its time|our time)(?: [\w']+){0,4}
		(?:it's|its|it is|it was|was|it's been|man it's|boy it's|damn it's) (?:so |very |really |too |pretty |dang |freaking |bloody |awfully )?(?:hot|cold|warm|wet|windy|muddy|humid|raining|pouring|freezing|boiling|foggy|dark|sticky|sunny|dusty|buggy|muggy|drizzling|gorgeous|lovely|beautiful|blowing)(?: [\w']+){0,6}
		(?:the )?(?:bees|girls|ladies|colony|hive|builder|smoker|weather|sun|wind|rain|road|gate|dog|truck|radio|mud|heat)(?: [\w']+)?(?: is| are| was| were|'s)? (?:so |very |really |pretty |a bit |in a |all |well |nice and |super )?(?:calm|gentle|grumpy|angry|hot|cross|feisty|happy|quiet|busy|loud|nasty|mean|sweet|cranky|mood|foul mood|bad mood|good mood|awful|perfect|lovely|terrible|humming|roaring|purring|defensive|testy|ornery|stuck|locked|muddy|wet|out|playing up|acting up|in my eyes|brutal)(?: [\w']+){0,3}
		(?:they|they're|they are|they were|she|she's|she is|she was|these|those|it)(?: all)?(?: is| are| was| were| look| looked| looks)?(?: all)? (?:so |very |really |pretty |a bit |a little |getting |real |quite |nice and |super )?(?:light|hungry|starving|fat|happy|calm|grumpy|feisty|beautiful|gorgeous|lovely|plump|perfect|pretty|great|good|nice|strong|healthy|fine|quiet|sweet|busy|cranky|thirsty|dry|fuming|thriving|magnificent|stunning|huge|big|monsters|whoppers|beauties)(?: [\w']+){0,4}
		(?:hope|hoping|fingers|knock|touch)(?: [\w']+){0,4} (?:well|crossed|wood)
		(?:all|everything|everyone|everybody)(?: is|'s| went| looks| looked| was)? (?:fine|good|well|great|smooth|smoothly|calm|happy|quiet|lovely|as planned|dandy|peachy)(?: [\w']+){0,3}
		(?:looks?|looking|looked|feels?|feeling|smells?) (?:like )?(?:a |really |very |so |pretty |real )?(?:good|great|nice|fine|strong|lovely|healthy|happy|fat|fantastic|promising|solid|winner|beautiful|perfect|gorgeous)(?: [\w']+){0,4}
	`)
)

// free are the free places of a remark's form.
var free = regexp.MustCompile(`\(\?:(?: \[\\w'\]\+|\[\\w'\]\+ )\)(?:\{\d,\d\}|\?)?|\[\\w'\]\+`)

// remarkForms are the forms of a table, one a line, as one pattern that gives what
// stands in their free places.
func remarkForms(table string) *regexp.Regexp {
	return regexp.MustCompile(`^(?:` + free.ReplaceAllString(strings.Join(splitLines(table), "|"), "($0)") + `)$`)
}

// splitLines are the lines of a table, without blank ones.
func splitLines(table string) (out []string) {
	for _, l := range strings.Split(table, "\n") {
		if l = strings.TrimSpace(l); l != "" {
			out = append(out, l)
		}
	}
	return out
}

// remarkNever are words that no remark has: with one of them it may say that things
// were otherwise, or of whom they are said.
var remarkNever = words(`wrong kidding joke joking lie lied mistake error correct correction actually wait oops sorry undo cancel half rest remaining some few most others other except but only however
	lost died dead duds missing tomorrow yesterday monday tuesday wednesday thursday friday saturday sunday later pretend test testing practice practise guess maybe probably possibly might should would will if unless
	when once before after until till than-that said says told tell heard hear apparently supposedly suppose dream dreamt dreamed wish hope-not again instead ago last-week rowan's
	hardly nearly almost about around roughly another more less fewer did didn't done undone finish finished fed feed moved move accepted capped emerged caught grafted confined released recelled hatched clear cleared
	mine skip snooze remind due also plus first second third one's two pin marked red blue green yellow white comb eggs rogue finisher`)

// remarkSure are words of remarkNever that may stand where a remark begins in one way.
var remarkSure = regexp.MustCompile(`^(?:(?:i )?(?:forgot|lost|left) (?:my|the) |my [\w']+ (?:is|are) done|hardly (?:my|our)|(?:(?:i|we) )?(?:got|was|were|been) (?:stung|soaked)|(?:not one|not a|no|nothing|none) (?:[\w']+ )*lost|(?:see|catch) (?:you|ya) |(?:the |my |our )?(?:best|nicest) (?:one |graft |batch |batch of [\w']+ )|(?:i'm|im|we're|i am) (?:done in|going|off|heading|leaving))`)

const longestRemark = 12

// remark reports whether the piece from token i to k is an aside.
func (d *reader) remark(i, k int) bool {
	for i < k-1 && (joins[d.word(i)] || remarkLeads[d.word(i)]) {
		i++
	}
	if k-i > longestRemark || k <= i {
		return false
	}
	s := d.spell(i, k)
	if remarkOpen[d.word(k-1)] {
		return false // there is more to come
	}
	if comments[s] && k-i <= longestComment {
		return true
	}
	sure := remarkSure.MatchString(s)
	for j := i; j < k; j++ {
		t, w := d.toks[j], d.word(j)
		switch {
		case t.isNum, t.glossed, marks[w], builderForm.MatchString(w), d.ownAt(j, d.n.yards) > 0, d.ownAt(j, d.n.builders) > 0:
			return false
		case remarkNever[w] && !(sure && (w == "again" || w == "later" || w == "monday" || w == "lost" || w == "more" || w == "done" || w == "hardly")):
			return false
		case hedges[w]:
			return false
		}
	}
	if d.opens(openings, s, 1) || d.opens(openingsStrict, s, 0) {
		return true
	}
	found := false
	for j := i; j < k; j++ {
		w := d.word(j)
		c := remarkWords[w] || praise[w]
		found = found || c
		if !c && !remarkSmall[w] && !praiseSmall[w] {
			return false
		}
	}
	return found
}

// remarkOpen are words that no remark ends with.
var remarkOpen = words(`to and or but as the a an if of`)

// opens reports whether a remark is of one of the forms, with no more unknown words in
// it than some.
func (d *reader) opens(forms *regexp.Regexp, s string, unknown int) bool {
	m := forms.FindStringSubmatch(s)
	if m == nil {
		return false
	}
	for _, w := range splitSpace(strings.Join(m[1:], " ")) {
		switch {
		case remarkWords[w] || remarkSmall[w] || praise[w] || praiseSmall[w] || remarkMore[w]:
		case d.known(w) || negations[w] || unknown == 0 || nearAny(w, takesBack) || nearAny(w, remarkNever):
			return false
		default:
			unknown--
		}
	}
	return true
}

// nearAny reports whether a word is one of some words, or a slip of one.
func nearAny(w string, some map[string]bool) bool {
	for p := range some {
		if w == p || len(p) > 2 && oneSlip(w, p) {
			return true
		}
	}
	return false
}

// takesBack are words that may say that nothing of it is so.
var takesBack = words(`log logged logging record recorded write wrote written note noted enter entered entry bot message text texted typed typing send sent post posted list
	trap prank pranked pranking fool fooled fooling psych gotcha bluff bluffing bluffed pulling pull leg jest jk lying liar untrue false fake faked fiction imagine imagined imaginary scratch scrap void
	need needed unneeded ignore disregard strike nevermind nvm nope nah negative retract retracted unsay reverse revert rewind premature invented invention story stories bogus bull bullshit rubbish nonsense hypothetical
	theory hoax sarcasm sarcastic troll trolling teasing tease wind winding mixing mixed confused muddled botched screwed messed talking speaking daydreaming dreaming sleeptyping autocorrect keyboard
	thumbs pocket screen copied pasted copypaste paste old stale news history memory duplicate repeat repeated twice double`)

var (
	joins       = words(`and but so`)
	remarkLeads = words(`oh ah man boy wow well phew ugh ok okay lol haha yeah yep damn dang gosh folks guys anyway`)
)
