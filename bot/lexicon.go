package bot

import "yardbell/rules"

// The words the reader knows, in English. A second language adds its words to
// the same tables: what a word means does not depend on the language of the
// sentence, since crews mix them.

// stepWords name a step by one word.
var stepWords = map[string]rules.Step{
	"confine": rules.Confine, "confined": rules.Confine, "confining": rules.Confine, "cage": rules.Confine, "caged": rules.Confine,
	"isolate": rules.Confine, "isolated": rules.Confine,
	"eggs": rules.Eggs, "egg": rules.Eggs,
	"combout": rules.CombOut,
	"release": rules.CombOut, "released": rules.CombOut,
	"graft": rules.Graft, "grafted": rules.Graft, "grafting": rules.Graft, "grafts": rules.Graft,
	"accept": rules.Accept, "accepted": rules.Accept, "acceptance": rules.Accept, "took": rules.Accept, "started": rules.Accept,
	"finisher": rules.Finish, "finish": rules.Finish,
	"capped": rules.Capped, "cap": rules.Capped, "sealed": rules.Capped,
	"clear": rules.Rogue, "cleared": rules.Rogue, "rogue": rules.Rogue, "rogues": rules.Rogue,
	"nucs": rules.Nucs, "nuc": rules.Nucs,
	"moved": rules.Move, "move": rules.Move, "placed": rules.Move, "transferred": rules.Move,
	"emerged": rules.Emerge, "emerge": rules.Emerge, "hatched": rules.Emerge,
	"laying": rules.Laying,
	"caught": rules.Catch, "catch": rules.Catch,
	"recelled": rules.Recell, "recell": rules.Recell, "re-celled": rules.Recell, "re-cell": rules.Recell,
	"fed": rules.Feed, "feed": rules.Feed,
	"drones": rules.Drones, "drone": rules.Drones,
	"dearth": rules.Dearth, "flow": rules.Flow,
}

// softSteps are words that only name a step where no other step word stands:
// they are things as often as deeds.
var softSteps = map[string]bool{
	"eggs": true, "egg": true, "nucs": true, "nuc": true, "started": true, "took": true, "flow": true, "grafts": true,
	"clear": true, "drone": true, "drones": true, "rogue": true, "rogues": true,
}

// fillers carry nothing that changes what is logged.
var fillers = words(`the a an and all cells cell queens virgins larvae larva bar bars frame just now please pls we i i've ive we've have has had
	got were are is was been them it with on for in hi hey ok yes ready made up set out done so far good that this today then
	comb pin mark marked number no. nr into to at of from by them those there some looking looks look found see seen saw
	queen old hours hour hrs hr h builder breeder yard batch bees check checked also too me my our her she he`)

// strictFillers may be passed over in any message; the other fillers only where
// a step word has been read.
var strictFillers = words(`the a an please pls just hi hey ok it them that this so`)

// negations turn a message into one that never logs, unless the grammar knows
// the phrase ("no eggs", "not 45, 54").
var negations = words(`not no don't dont didn't didnt haven't havent hasn't hasnt isn't isnt wasn't wasnt aren't arent couldn't couldnt
	can't cant won't wont never nothing without neither nor cannot forgot forget unable failed cancel cancelled`)

// openers make a question or a plan of what follows.
var openers = words(`did do does is are can could should would will when where who what which how has shall may might let's lets
	what's whats when's whens who's whos where's wheres how's hows if unless`)

// hedges make a count a guess and a deed a plan.
var hedges = words(`maybe perhaps about around roughly approx approximately almost nearly probably think guess ~ should will gonna going need
	needs want wants plan planning hope try trying tomorrow tonight next soon might could would must`)

var marks = words(`red blue green yellow white orange black pink purple brown grey gray silver gold violet turquoise`)

var doneWords = words(`done did finished completed complete`)

var weekdays = map[string]int{
	"sunday": 0, "sun": 0, "monday": 1, "mon": 1, "tuesday": 2, "tue": 2, "tues": 2, "wednesday": 3, "wed": 3,
	"thursday": 4, "thu": 4, "thur": 4, "thurs": 4, "friday": 5, "fri": 5, "saturday": 6, "sat": 6,
}

var months = map[string]int{
	"jan": 1, "january": 1, "feb": 2, "february": 2, "mar": 3, "march": 3, "apr": 4, "april": 4, "may": 5, "jun": 6, "june": 6,
	"jul": 7, "july": 7, "aug": 8, "august": 8, "sep": 9, "sept": 9, "september": 9, "oct": 10, "october": 10, "nov": 11, "november": 11, "dec": 12, "december": 12,
}

func words(s string) map[string]bool {
	m := map[string]bool{}
	for _, w := range splitSpace(s) {
		m[w] = true
	}
	return m
}
