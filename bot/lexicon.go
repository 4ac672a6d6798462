package bot

import "yardbell/rules"

// The words the reader knows: its own, which happen to be English. Another language is
// put into these first (gloss.go): what a word means does not depend on the language
// of the crew, since crews mix them.

// form is how a word names a step.
type form string

const (
	bare  form = "bare"  // "graft": said of work done, and of work to do
	past  form = "past"  // "grafted": it was done
	going form = "going" // "grafting": it may lie ahead
	state form = "state" // "laying": what was found
	thing form = "thing" // "nucs": a thing as often as a deed; a step where no other is named
)

var stepTable = []struct {
	step  rules.Step
	form  form
	words string
}{
	{rules.Confine, bare, "confine isolate"},
	{rules.Confine, past, "confined isolated caged"},
	{rules.Confine, going, "confining isolating"},
	{rules.Eggs, thing, "eggs egg"},
	{rules.CombOut, bare, "combout comb-out release"},
	{rules.CombOut, past, "released freed"},
	{rules.CombOut, going, "releasing"},
	{rules.Graft, bare, "graft"},
	{rules.Graft, past, "grafted"},
	{rules.Graft, going, "grafting"},
	{rules.Graft, thing, "grafts"},
	{rules.Accept, bare, "accept"},
	{rules.Accept, past, "accepted"},
	{rules.Accept, state, "took started"},
	{rules.Accept, thing, "acceptance"},
	{rules.Finish, bare, "finish"},
	{rules.Finish, thing, "finisher"},
	{rules.Capped, bare, "cap"},
	{rules.Capped, past, "capped sealed"},
	{rules.HandsOff, bare, "hands-off handsoff"},
	{rules.Rogue, state, "clear cleared"},
	{rules.Rogue, thing, "rogue rogues"},
	{rules.Nucs, thing, "nucs nuc"},
	{rules.Move, bare, "move transfer"},
	{rules.Move, past, "moved placed transferred"},
	{rules.Move, going, "moving placing transferring"},
	{rules.Emerge, bare, "emerge"},
	{rules.Emerge, past, "emerged hatched"},
	{rules.Emerge, going, "emerging hatching"},
	{rules.Laying, state, "laying"},
	{rules.Catch, bare, "catch"},
	{rules.Catch, past, "caught"},
	{rules.Catch, going, "catching"},
	{rules.Recell, bare, "recell re-cell"},
	{rules.Recell, past, "recelled re-celled"},
	{rules.Recell, going, "recelling re-celling"},
	{rules.Feed, bare, "feed"},
	{rules.Feed, past, "fed"},
	{rules.Feed, going, "feeding"},
	{rules.Drones, thing, "drones drone"},
	{rules.Dearth, thing, "dearth"},
	{rules.Flow, thing, "flow"},
}

// stepWords and stepForms are stepTable by word.
var stepWords, stepForms = func() (map[string]rules.Step, map[string]form) {
	steps, forms := map[string]rules.Step{}, map[string]form{}
	for _, l := range stepTable {
		for w := range words(l.words) {
			steps[w], forms[w] = l.step, l.form
		}
	}
	return steps, forms
}()

// stepPhrases are steps named by two words near each other: one of first, then
// one of then, at most within words later.
var stepPhrases = []struct {
	first, then string
	within      int
	step        rules.Step
	form        form
}{
	{"comb", "out", 3, rules.CombOut, past},
	{"pulled removed took taken", "comb", 4, rules.CombOut, past},
	{"pull remove take", "comb", 4, rules.CombOut, bare},
	{"comb", "pulled removed", 3, rules.CombOut, past},
	{"let", "out go", 3, rules.CombOut, past},
	{"hands", "off", 1, rules.HandsOff, bare},
	{"made set built prepped prepared stocked assembled", "nucs nuc", 4, rules.Nucs, past},
	{"make", "nucs nuc", 4, rules.Nucs, bare},
	{"making", "nucs nuc", 4, rules.Nucs, going},
	{"drone", "comb combs frame frames", 1, rules.Drones, past},
	{"drones", "in started", 2, rules.Drones, past},
	{"started", "drones", 2, rules.Drones, past},
	{"dearth", "over ended gone finished", 2, rules.Flow, past},
	{"dearth", "on started here began begun", 2, rules.Dearth, past},
	{"flow", "over ended gone stopped finished", 2, rules.Dearth, past},
	{"flow", "on started here began begun", 2, rules.Flow, past},
	{"wild", "cell cells", 1, rules.Rogue, thing},
	{"in into", "nucs", 2, rules.Move, thing},
	{"has have", "laid", 1, rules.Eggs, past},
}

// releaseWords are the comb-out words that say that she went free.
var releaseWords = words(`release released releasing freed let`)

// clearWords say that a builder was searched and nothing was found: a number
// beside them is not a count.
var clearWords = words(`clear cleared`)

// standing are the words that name a step all by themselves. The others are too
// common in talk: alone they are read only where the bot is spoken to.
var standing = words(`confined grafted accepted capped moved emerged caught recelled re-celled released comb dearth flow`)

// outcome are the steps that count what was found, so that none is a count.
var outcome = map[rules.Step]bool{rules.Accept: true, rules.Capped: true, rules.Emerge: true, rules.Laying: true, rules.Rogue: true}

// subjectFirst are the steps whose first bare number names the breeder.
var subjectFirst = map[rules.Step]bool{rules.Confine: true, rules.Eggs: true, rules.CombOut: true, rules.Feed: true}

// placed are the steps that happen at a yard, so that an unknown name after "to",
// "at" or "in" is one. builderPlaced happen at a builder.
var (
	placed        = map[rules.Step]bool{rules.Nucs: true, rules.Move: true, rules.Emerge: true, rules.Laying: true, rules.Catch: true, rules.Recell: true, rules.Feed: true, rules.Drones: true, rules.Dearth: true, rules.Flow: true}
	builderPlaced = map[rules.Step]bool{rules.Graft: true, rules.Finish: true}
)

// countedBy are the things each step counts.
var countedBy = map[rules.Step]map[string]bool{
	rules.Graft:  words(`cells cell larvae larva cups grafts`),
	rules.Accept: words(`cells cell grafts`),
	rules.Finish: words(`cells cell`),
	rules.Capped: words(`cells cell`),
	rules.Rogue:  words(`rogues rogue cells cell`),
	rules.Nucs:   words(`nucs nuc`),
	rules.Move:   words(`cells cell`),
	rules.Emerge: words(`cells cell queens queen virgins virgin`),
	rules.Laying: words(`queens queen nucs nuc`),
	rules.Catch:  words(`queens queen`),
	rules.Recell: words(`nucs nuc cells cell`),
}

// countedThings are things of the trade that are counted. Where a step counts
// something else, the number is not its count.
var countedThings = words(`cells cell larvae larva cups grafts queens queen virgins virgin nucs nuc rogues rogue
	bars bar frames frame combs bees drones percent %`)

// hiveThings are counted too, but in work that is none of the bot's.
var hiveThings = words(`boxes box hives hive colonies colony supers super swarms swarm pallets pallet trailers trailer trucks truck crates crate buckets bucket
	pails chairs tables lids posts bricks stands stand ladders tarps tools bales stones fish trout bass salmon crabs`)

// plainKinds may stand between a number and what it counts.
var plainKinds = words(`good nice ripe mated new young more mating capped of the them`)

// praised are such words of praise, which are talk anywhere else.
var praised = words(`beautiful lovely fat plump big healthy solid strong gorgeous great fine sealed perfect`)

// measureWords are what feed is measured in, stuffWords what it is made of.
var (
	measureWords = words(`l liter liters litre litres lb lbs kg g gal gallon gallons quart quarts pint pints jar jars bag bags ml patty patties`)
	stuffWords   = words(`syrup sugar fondant candy pollen honey feed water 1:1 2:1 3:2`)
)

// fillers carry nothing that changes what is logged, beside a step that was read.
// A word that can turn a deed into a plan, a wish or another deed (to, for, out,
// ready, need, been asked) must never stand here, nor one that a slip of the thumb
// makes of a word that does: "on" comes of "no".
var fillers = words(`the them it this that these those there now just only so also already and i we i've ive we've weve
	please pls ok okay yes yep yeah hi hey thanks thx today have has had was were is are been got
	cells cell queens queen virgins virgin larvae larva ripe comb pin mark builder breeder yard batch far`)

// strictFillers may be passed over where no step was read.
var strictFillers = words(`the it them this that please pls just of`)

// stepFillers may be passed over beside one step only.
var stepFillers = map[rules.Step]map[string]bool{
	rules.Confine: words(`her on empty drawn fresh dark clean new light cage checked`),
	rules.Eggs:    words(`seen saw see found in there her from checked on spotted present visible`),
	rules.CombOut: words(`her out of from go free`),
	rules.Graft:   words(`bar grafts`),
	rules.Accept:  words(`bar count counted grafts checked nicely`),
	rules.Finish:  words(`bar bars to in into put moved finisher over went gone across on they're frame safely`),
	rules.Capped:  words(`bar count counted finisher checked`),
	rules.Rogue:   words(`checked searched found all in rogues rogue seen cut out removed destroyed squished squashed crushed killed scraped knocked down em 'em off`),
	rules.Nucs:    words(`ready made up set out nucs mating more another counted built prepped prepared stocked together`),
	rules.Move:    words(`nucs mating in into to out more another`),
	rules.Emerge:  words(`nucs checked found counted count`),
	rules.Laying:  words(`nucs checked found eggs mated counted count`),
	rules.Catch:   words(`nucs more another mated counted`),
	rules.Recell:  words(`nucs nuc more another`),
	rules.Feed:    words(`nucs finisher her with to of some both breeders builders our`),
	rules.Drones:  words(`in put went frame comb started dropped popped set stuck hung added gave got`),
	rules.Dearth:  words(`in a nectar here started we're were`),
	rules.Flow:    words(`in a nectar here started honey`),
}

// needsWord are the fillers of which one must stand beside a thing word that has
// neither a count nor a name with it.
var needsWord = map[rules.Step]map[string]bool{
	rules.Eggs: words(`seen saw found`),
	rules.Nucs: words(`ready made up`),
}

// negations turn a message into one that never logs, unless the grammar knows
// the phrase ("no eggs", "not 45, 54").
var negations = words(`not no don't dont didn't didnt did'nt haven't havent hasn't hasnt hadn't hadnt isn't isnt wasn't wasnt weren't werent
	aren't arent ain't aint doesn't doesnt couldn't couldnt can't cant won't wont wouldn't wouldnt shouldn't shouldnt never nothing
	without neither nor cannot forgot forget unable failed fail cancel cancelled canceled nobody unless undone ❌ ✖ ✖️ 👎 🚫`)

// openers make a question of what follows them at the start.
var openers = words(`did do does is are can could should would will when where who what which how has was were shall may might let's lets
	what's whats when's whens who's whos where's wheres how's hows if anyone anybody someone somebody whoever wonder wondering why`)

// chatter may stand before the word a sentence opens with.
var chatter = words(`hey hi hello ok okay so and but well guys all please pls just anyway morning sorry`)

// hedges make a count a guess: asked back.
var hedges = words(`maybe perhaps about around roughly approx approximately circa almost nearly probably possibly think guess guessing ~ 🤔
	ish or unsure reckon believe supposedly apparently ± +/- +-`)

// comparing makes a guess of the number after it.
var comparing = words(`least than over under up below above`)

// notNow puts a deed into the future, the past of a story, or a condition: left
// alone, unless the bot is spoken to.
var notNow = words(`will i'll ill we'll well he'll she'll they'll should gonna going need needs needed want wants wanted plan plans planning planned hope
	hoping try trying tonight next soon might could would must gotta supposed let's lets shall when while if once before after until till
	unless because remember thinking considering used usually always every instead year years season month months weeks soon wait waiting someone somebody anyone
	time ready later`)

var marks = words(`red blue green yellow white orange black pink purple brown grey gray silver gold violet turquoise`)

// doneWords say that what was due is done. Each is read alone; doneAside only
// beside something that says what.
var (
	doneWords = words(`done did finished completed complete`)
	doneAside = words(`did complete`)
)

// thingWords say what kind of thing a number or name after them is.
var thingWords = words(`batch breeder builder yard`)

// leads may stand before a thing or place; which of them fits is up to the step.
var leads = words(`for in at on to into from of`)

var weekdays = map[string]int{
	"sunday": 0, "sun": 0, "monday": 1, "mon": 1, "tuesday": 2, "tue": 2, "tues": 2, "wednesday": 3, "wed": 3,
	"thursday": 4, "thu": 4, "thur": 4, "thurs": 4, "friday": 5, "fri": 5, "saturday": 6, "sat": 6,
}

var months = map[string]int{
	"jan": 1, "january": 1, "feb": 2, "february": 2, "mar": 3, "march": 3, "apr": 4, "april": 4, "may": 5, "jun": 6, "june": 6,
	"jul": 7, "july": 7, "aug": 8, "august": 8, "sep": 9, "sept": 9, "september": 9, "oct": 10, "october": 10, "nov": 11, "november": 11, "dec": 12, "december": 12,
}

// datePrep stand before a date: "on 8/5" is no count of a count.
var datePrep = words(`on by`)

func words(s string) map[string]bool {
	m := map[string]bool{}
	for _, w := range splitSpace(s) {
		m[w] = true
	}
	return m
}
