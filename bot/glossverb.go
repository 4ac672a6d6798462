package bot

// esVerb is a Spanish verb of the trade and the reader's words for it.
type esVerb struct {
	stems    string // the stem, and another where the stress falls on it: "solt suelt"
	ending   string // ar, er or ir
	bare     string // the reader's word for the deed without a time
	past     string // and for the deed done
	going    string
	class    string // as in the table of words
	takes    string // further words that say that it was done
	takesNow string // further words that only name it
}

// esVerbs are the verbs crews say the steps with. Regional doubles stand beside each
// other; passing, taking and sticking are said of many things, and are read only
// beside a count.
var esVerbs = []esVerb{
	{stems: "confin", ending: "ar", bare: "confine", past: "confined", going: "confining"},
	{stems: "encerr encierr", ending: "ar", bare: "confine", past: "confined", going: "confining"},
	{stems: "aisl", ending: "ar", bare: "isolate", past: "isolated", going: "isolating"},
	{stems: "sac", ending: "ar", bare: "pull", past: "pulled", going: "pulling", takes: "saque"},
	{stems: "jal", ending: "ar", bare: "pull", past: "pulled", going: "pulling"},
	{stems: "retir", ending: "ar", bare: "remove", past: "removed", going: "removing"},
	{stems: "quit", ending: "ar", bare: "remove", past: "removed", going: "removing"},
	{stems: "solt suelt", ending: "ar", bare: "release", past: "released", going: "releasing"},
	{stems: "liber", ending: "ar", bare: "release", past: "released", going: "releasing"},
	{stems: "injert", ending: "ar", bare: "graft", past: "grafted", going: "grafting"},
	{stems: "enjert", ending: "ar", bare: "graft", past: "grafted", going: "grafting"},
	{stems: "ingert", ending: "ar", bare: "graft", past: "grafted", going: "grafting"},
	{stems: "traslarv", ending: "ar", bare: "graft", past: "grafted", going: "grafting"},
	{stems: "graft", ending: "ar", bare: "graft", past: "grafted", going: "grafting", takes: "graftee grafteamos graftearon grafteo grafteadas grafteado", takesNow: "graftear"},
	{stems: "acept", ending: "ar", bare: "accept", past: "accepted", going: "accepting"},
	{stems: "prend", ending: "er", bare: "accept", past: "accepted", going: "accepting", class: "c"},
	{stems: "peg", ending: "ar", bare: "accept", past: "accepted", going: "accepting", class: "c", takes: "pegue"},
	{stems: "agarr", ending: "ar", bare: "accept", past: "accepted", going: "accepting", class: "c"},
	{stems: "opercul", ending: "ar", bare: "cap", past: "capped", going: "capping"},
	{stems: "sell", ending: "ar", bare: "cap", past: "sealed", going: "capping"},
	{stems: "mov muev", ending: "er", bare: "move", past: "moved", going: "moving"},
	{stems: "pas", ending: "ar", bare: "move", past: "moved", going: "moving", class: "c"},
	{stems: "traslad", ending: "ar", bare: "move", past: "moved", going: "moving"},
	{stems: "llev", ending: "ar", bare: "move", past: "moved", going: "moving", class: "c"},
	{stems: "nac", ending: "er", bare: "emerge", past: "emerged", going: "emerging"},
	{stems: "emerg", ending: "er", bare: "emerge", past: "emerged", going: "emerging", takesNow: "emergir"},
	{stems: "eclosion", ending: "ar", bare: "emerge", past: "emerged", going: "emerging"},
	{stems: "captur", ending: "ar", bare: "catch", past: "caught", going: "catching"},
	{stems: "atrap", ending: "ar", bare: "catch", past: "caught", going: "catching"},
	{stems: "enjaul", ending: "ar", bare: "cage", past: "caged", going: "caging"}, // see caged
	{stems: "receld", ending: "ar", bare: "recell", past: "recelled", going: "recelling"},
	{stems: "repon", ending: "er", bare: "recell", past: "recelled", going: "recelling", class: "c", takes: "repuse repuso repusimos repusieron repuesto repuesta repuestos repuestas"},
	{stems: "aliment", ending: "ar", bare: "feed", past: "fed", going: "feeding"},
	{stems: "arm", ending: "ar", bare: "make", past: "made", going: "making"},
	{stems: "prepar", ending: "ar", bare: "make", past: "made", going: "making"},
	{ending: "er", bare: "make", past: "made", going: "making", takes: "hice hicimos hicieron hizo", takesNow: "hacer"},
	{ending: "er", bare: "place", past: "placed", going: "placing", class: "c", takes: "meti metimos metieron metio puse pusimos pusieron coloque colocamos colocaron", takesNow: "poner colocar meter"},
	{stems: "revis", ending: "ar", bare: "check", past: "checked", going: "checking", takes: "recorri recorrimos recorrieron"},
	{stems: "busc", ending: "ar", bare: "search", past: "searched", going: "searching", takes: "busque"},
	{stems: "encontr encuentr", ending: "ar", bare: "find", past: "found", going: "finding"},
	{stems: "cont cuent", ending: "ar", bare: "count", past: "counted", going: "counting"},
	{ending: "er", bare: "see", past: "saw", going: "seeing", class: "w", takes: "vi vimos vieron", takesNow: "ver"},
}

// How sure each form is that the deed was done, from the least. A slip of the thumb
// that may be one form or another is read as the least sure.
const (
	esPlan   = iota // "injertaré": will graft
	esTold          // "injertaba": used to graft
	esPlease        // "injerta": do graft, or grafts
	esSaid          // "movemos": we move
	esGoing         // "injertando"
	esBare          // "injertar"
	esPast          // "injerté"
)

// esForms are the endings of each kind of verb, without accents. What is said of
// work done reads as past, what is said of work ahead takes a word that says so.
// The unaccented "injerte" is taken as the "injerté" that a hurried thumb means.
var esForms = map[string][]struct {
	rank    int
	before  string // the word put before the bare one; none before past and going
	endings string
}{
	"ar": {
		{esPlan, "will", "are ara aremos aran"},
		{esPlan, "would", "aria ariamos arian"},
		{esPlan, "should", "en emos"},
		{esTold, "used", "aba abamos aban"},
		{esPlease, "please", "a alo ala alos alas"},
		{esSaid, "they", "an"},
		{esSaid, "you", "as aste"},
		{esGoing, "", "ando"},
		{esBare, "", "ar arlo arla arlos arlas arle arles arse"},
		{esPast, "", "e amos aron ado ada ados adas"},
	},
	"er": {
		{esPlan, "will", "ere era eremos eran"},
		{esPlan, "would", "eria eriamos erian"},
		{esPlan, "should", "a an amos"},
		{esTold, "used", "ia iamos ian"},
		{esPlease, "please", "e elo ela elos elas"},
		{esSaid, "they", "en"},
		{esSaid, "we", "emos"},
		{esSaid, "you", "es iste"},
		{esGoing, "", "iendo"},
		{esBare, "", "er erlo erla erlos erlas erle erse"},
		{esPast, "", "i io imos ieron ido ida idos idas"},
	},
}

// stressed are the forms that are made of the second stem: "muevo", "suelten".
var stressed = words(`should please they you`)

// verbForms puts every form of the verbs into the glossary.
func (g *glossary) verbForms() {
	for _, v := range esVerbs {
		put := func(word, means string, rank int) {
			if old := g.single[word]; old == nil || old.mean == v.bare && old.rank < rank {
				g.add(word, means, v.class, v.bare, rank)
				g.single[word].past = v.past
			}
		}
		for k, stem := range splitSpace(v.stems) {
			for _, f := range esForms[v.ending] {
				if k > 0 && !stressed[f.before] {
					continue
				}
				for e := range words(f.endings) {
					switch f.rank {
					case esPast:
						put(stem+e, v.past, f.rank)
					case esGoing:
						put(stem+e, v.going, f.rank)
					default:
						put(stem+e, joinWords(f.before, v.bare), f.rank)
					}
				}
			}
			put(stem+"o", joinWords("i", v.bare), esSaid) // "muevo"; see accented for "injertó"
		}
		for w := range words(v.takes) {
			put(w, v.past, esPast)
		}
		for w := range words(v.takesNow) {
			put(w, v.bare, esBare)
		}
	}
}

func joinWords(a, b string) string {
	if a == "" {
		return b
	}
	return a + " " + b
}
