package bot

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"yardbell/rules"
)

// What went wrong is told in few words that sound like a step: a virgin that hatched, cells
// that were dropped, nucs without a queen. They are looked for in the message as it was
// typed, in both languages at once, and stand over whatever step was read of it.

// What is told of but cannot be logged yet, as notYet has it.
const (
	aLoss        = "loss"      // cells, nucs or queens that are gone
	nucState     = "nuc"       // nucs in a state that the log does not know
	inIncubator  = "incubator" // cells that went into an incubator
	mostHatching = 3           // virgins out at once that are still an alarm: more are a count
)

var (
	virginWords = words(`virgin virgins virgen virgenes`)
	oneVirgin   = words(`virgin virgen queen reina`)
	bornVerbs   = words(`hatched emerged nacio nacieron nacida emergio emergieron eclosiono eclosionaron`)
	looseWords  = words(`out loose running walking free afuera fuera suelta sueltas salio salieron anda andan caminando`)
	seenWords   = words(`found saw spotted there there's theres hay encontre encontramos encontraron vi vimos halle`)
	oneWords    = words(`one una un first primera`)
	articles    = words(`a an`) // one, before a thing
	nucPlaces   = words(`nuc nucs nucleo nucleos`)
	// atCells are where a virgin that is seen is among cells.
	atCells = words(`builder finisher starter bar bars cells criadora acabadora iniciadora barra barras celdas realeras`)
	// alarmSmall say nothing beside a virgin that is out.
	alarmSmall = words(`the in on of at is are was has have we i i've we've my our just now already ya early too soon one's there there's theres it she her guys team all oh ah ay no hey
		help alarm alarma urgent urgente look careful bad news builder bar bars frame finisher starter cell cells comb batch queen virgin virgins running loose walking around
		la el los las en de del se nos hay que esta estan muy antes tiempo adelantada temprano ojo cuidado ayuda criadora acabadora barra barras lote celda celdas realera realeras reina y and a an un una one first primera`)
	// otherVirgins are what people speak of that is no queen.
	otherVirgins = words(`oil olive aceite oliva mary maria santa guadalupe carmen dios misa procesion islands`)
	doubts       = words(`maybe perhaps possibly probably think guess unsure supposedly apparently reckon believe creo quizas quiza parece talvez`)
	// wailing stand before a "no" that denies nothing: "oh no, a virgin is out".
	wailing = words(`oh ah ay uy no`)
)

// harm reads a message that tells of harm. It reports whether it was one.
func (d *reader) harm() bool {
	r := d.r
	if r.question || d.planned || d.ahead || r.verb != noVerb && r.verb != doStep && r.verb != justCount && r.verb != doDone {
		return false
	}
	d.hear()
	switch r.verb {
	case doStep, noVerb, justCount:
		if d.virginOut() || d.breederGone() {
			return true
		}
		d.oneHatched()
	}
	if r.verb == doStep && r.step == rules.Move && r.yard != "" && d.incubator(fromWords) {
		r.rest = d.restWithout(incubators, fromWords, words(`the la`)) // where they were until then
		return false
	}
	if kind := d.cannot(); kind != "" {
		*r = reading{verb: notYet, topic: kind, batch: d.about.batch, builder: d.about.builder, count: r.count, addressed: r.addressed, digits: r.digits, lang: r.lang, text: r.text}
		return true
	}
	return false
}

// harmWords are the longer words for what went wrong, by what they mean: they are also
// taken with one slip of the thumb.
var harmWords = func() map[string]string {
	m := map[string]string{"virgin": "virgin", "virgen": "virgin", "virgins": "virgin", "virgenes": "virgin"}
	for mean, ws := range map[string]map[string]bool{"hatched": bornVerbs, "incubator": incubators, "died": deathWords} {
		for w := range ws {
			if len(w) >= 5 {
				m[w] = mean
			}
		}
	}
	return m
}()

// hear puts slips of harmWords right in the message as typed.
func (d *reader) hear() {
	for i := range d.raw {
		w := d.raw[i].text
		if harmWords[w] != "" || len(w) < 5 || vocabulary[w] || spanish.word[w] || realSpanish[w] {
			continue
		}
		if k, ok := nearWord(w, harmWords); ok {
			d.raw[i].text = k
		}
	}
}

// has reports whether a word left over is one of what was named.
func (n things) has(w string) bool {
	return n.builder != "" && fold(w) == fold(n.builder) || w == strconv.Itoa(n.batch) || w == strconv.Itoa(n.breeder)
}

// denied reports whether the message as typed says that something is not so.
func (d *reader) denied() bool {
	cried := false
	for i, t := range d.raw {
		w := t.text
		cry := w == "no" && (i > 0 && wailing[d.raw[i-1].text] || i == 0 && t.comma)
		next := i+1 < len(d.raw) && (d.raw[i+1].isNum || builderForm.MatchString(d.raw[i+1].text)) && numberSigns[w]
		if (negations[w] || w == "none" || noneES[w]) && !cry && !next {
			return true
		}
		cried = cried || cry
	}
	return d.r.negated && !cried || d.r.count != nil && *d.r.count == 0 // by a slip of such a word
}

var noneES = words(`ninguna ninguno ningun nunca tampoco nadie sin nada`)

// has reports whether the message as typed has one of some words.
func (d *reader) has(ws map[string]bool) bool {
	for _, t := range d.raw {
		if ws[t.text] {
			return true
		}
	}
	return false
}

// virginOut reads a virgin that is out where cells are: "one virgin is out", "a virgin
// hatched in B1", "encontré una virgen en la B1".
func (d *reader) virginOut() bool {
	r := d.r
	hatched, out, seen := d.has(bornVerbs), d.has(looseWords), d.has(seenWords)
	named, one, at := d.has(virginWords), d.oneOut(), d.about.builder != "" || d.has(atCells)
	if !one && !(named && (hatched || out || at)) && !((hatched || out) && d.oneBefore(oneVirgin) != nil) {
		return false
	}
	unsure := !one && !hatched && (!named || !out && !seen) // "a queen is out in B1", "virgin B1"
	if unsure && (d.about.builder == "" || d.outOf()) || r.yard != "" || d.has(nucPlaces) || d.has(otherVirgins) || d.denied() {
		return false
	}
	if r.verb == doStep && r.step != rules.Emerge && d.tellsStep() {
		return false // "caught 3 virgins that were out"
	}
	count, single := r.count, one || d.has(oneVirgin)
	for i := 0; i+1 < len(d.raw); i++ {
		n, spelled := esNumbers[d.raw[i].text]
		if d.raw[i].isNum {
			n = d.raw[i].num
		}
		if virginWords[d.raw[i+1].text] && (d.raw[i].isNum || spelled) {
			count = &n
			r.rest = slices.DeleteFunc(slices.Clone(r.rest), func(w string) bool { return fold(w) == fold(d.raw[i].orig) })
			if d.about.breeder == n && !d.namedBreeder {
				d.about.breeder = 0
			}
		}
	}
	if count != nil && *count < 2 {
		count = nil // one at the least
	}
	switch {
	case count == nil && !single && d.about.builder == "" && d.about.batch == 0:
		return false // "the virgins are out" of the nucs
	case count != nil && (*count < 1 || *count > mostHatching):
		return false
	}
	rest := d.restWithout(alarmSmall, doubts, virginWords, bornVerbs, looseWords, seenWords, oneWords, articles)
	rest = slices.DeleteFunc(rest, func(w string) bool { return d.about.has(w) })
	if unsure && len(rest) > 0 {
		return false // "put a virgin in B1"
	}
	*r = reading{verb: doStep, step: rules.Virgin, batch: d.about.batch, builder: d.about.builder, breeder: d.about.breeder, count: count, when: r.when, rest: rest, hedged: d.has(doubts) || unsure,
		addressed: r.addressed, digits: r.digits, lang: r.lang, text: r.text}
	return true
}

// oneOut reports whether "one is out", and no more, is said in reply to a ping about cells
// that hang.
func (d *reader) oneOut() bool {
	if !d.r.addressed || !d.n.hang || d.n.ping != rules.Move && d.n.ping != rules.Nucs && d.n.ping != rules.Rogue {
		return false
	}
	one, out := false, false
	for _, t := range d.raw {
		w := t.text
		one, out = one || oneWords[w] || t.isNum && t.num == 1, out || bornVerbs[w] || looseWords[w]
		if !(oneOutWords[w] || bornVerbs[w] || looseWords[w] || oneWords[w] || t.isNum && t.num == 1) {
			return false
		}
	}
	return one && out
}

var oneOutWords = words(`the is has already just now there's ya la se hay que esta oh no ay`)

// outOf reports whether "out of" stands there, said of a queen that was taken out.
func (d *reader) outOf() bool {
	for i := 1; i < len(d.raw); i++ {
		if d.raw[i].text == "of" && d.raw[i-1].text == "out" {
			return true
		}
	}
	return false
}

// oneBefore is a count of one where a word for it stands shortly before one of some.
func (d *reader) oneBefore(sets ...map[string]bool) *int {
	for i, t := range d.raw {
		if !slices.ContainsFunc(sets, func(ws map[string]bool) bool { return ws[t.text] }) {
			continue
		}
		for k := max(i-3, 0); k < min(i+2, len(d.raw)); k++ {
			if w := d.raw[k].text; oneWords[w] || articles[w] && k < i && oneVirgin[t.text] {
				one := 1
				return &one
			}
		}
	}
	return nil
}

// oneHatched counts the one of "one hatched", which is no number elsewhere.
func (d *reader) oneHatched() {
	r := d.r
	if r.verb != doStep || r.step != rules.Emerge || r.count != nil || r.all {
		return
	}
	if r.count = d.oneBefore(bornVerbs); r.count != nil {
		r.rest = d.restWithout(oneWords, words(`cell celda early`))
		if d.has(words(`one`)) { // one slip from "none"
			r.hedged, r.among = true, d.n.hang
		}
	}
}

// restWithout are the words left over that are in none of the sets.
func (d *reader) restWithout(sets ...map[string]bool) (out []string) {
	for _, s := range d.r.rest {
		for _, w := range splitSpace(s) {
			if f := fold(w); !slices.ContainsFunc(sets, func(ws map[string]bool) bool { return ws[f] }) {
				out = append(out, w)
			}
		}
	}
	return out
}

// tellsStep reports whether a verb of some step stands in the message as typed.
func (d *reader) tellsStep() bool {
	for i, t := range d.raw {
		if f := stepForms[t.text]; f == past || f == going || f == state && !(t.text == "laying" && i+1 < len(d.raw) && workerWords[d.raw[i+1].text]) {
			return true
		}
		if v := spanish.single[t.text]; v != nil && !vocabulary[t.text] && v.past != "" && v.rank == esPast && stepWords[v.past] != "" {
			return true
		}
	}
	return false
}

// What is said of a breeder that is gone. Where the crew has one of that number, "7 died"
// is said of her; "lost 7", "7 dead" and "moved 30, 7 died" are said of cells.
var (
	goneForms = []*regexp.Regexp{
		regexp.MustCompile(`\b(breeder|queen|mother|madre|reina) (?:number |no |numero )?(\d{1,4}) (?:(?:is|has|was|just|sadly|se|nos|me|ya|esta|amanecio) )*(?:died|dead|murio|muerta|fallecio)\b`),
		regexp.MustCompile(`\b(?:(la) )?(\d{1,4}) (?:(?:has|just|sadly|se|nos|me|ya) )*(?:died|murio|fallecio|is dead|was dead|esta muerta|amanecio muerta)\b`),
		regexp.MustCompile(`\b(?:murio|fallecio|muerta) (?:hoy )?(?:a )?(?:((?:la )?(?:madre|reina)|la) )?(?:numero )?(\d{1,4})\b`),
		regexp.MustCompile(`\b(?:lost|perdimos|perdi|perdio|retire|retired|retirar|retiramos|retiren) (?:a )?(?:the |la )?(breeder|queen|mother|madre|reina) (?:number |no |numero )?(\d{1,4})\b`),
		regexp.MustCompile(`\b(breeder|queen|mother) (?:number |no )?(\d{1,4}) (?:is |has |was )?(?:gone|retired)\b`),
		regexp.MustCompile(`^()(?:retire|retired) (\d{1,4})$`),
		regexp.MustCompile(`\b()found (\d{1,4}) dead\b`),
	}
	deathWords = words(`died dead murio muerta fallecio`)
	goneSmall  = words(`is has was just sadly found we i the our she her on in comb cage se nos me la el ya esta amanecio encontre encontramos a hoy lost gone retire retired retirar retiramos retiren
		perdimos perdi perdio breeder queen mother madre reina number no numero panal jaula en su`)
	// manyThings are what a number counts that is no breeder's.
	manyThings = words(`cells cell nucs nuc queens virgins celdas celda realeras nucleos nucleo reinas virgenes bees abejas them those ellas`)
)

// breederGone reads "7 died", "murió la 7", "retire breeder 7".
func (d *reader) breederGone() bool {
	r := d.r
	if !d.has(deathWords) && !d.has(goneSmall) || r.verb == doStep || d.has(manyThings) || d.denied() || d.tellsStep() {
		return false
	}
	parts := make([]string, len(d.raw))
	for i, t := range d.raw {
		parts[i] = t.text
		if t.isNum {
			parts[i] = strconv.Itoa(t.num)
		}
	}
	text := strings.Join(parts, " ")
	for _, f := range goneForms {
		m := f.FindStringSubmatch(text)
		if m == nil {
			continue
		}
		n, _ := strconv.Atoi(m[2])
		rest := slices.DeleteFunc(d.restWithout(goneSmall, deathWords), func(w string) bool { return strings.TrimPrefix(w, "#") == m[2] })
		if r.yard != "" {
			rest = append(rest, r.yard)
		}
		if r.count != nil && *r.count != n {
			rest = append(rest, strconv.Itoa(*r.count)) // "7 and 12 died"
		}
		if d.about.builder != "" {
			rest = append(rest, d.about.builder)
		}
		cause := ""
		if d.has(deathWords) {
			cause = rules.CauseDied
		}
		if m[1] == "" && cause != "" && (d.n.counts || !slices.Contains(d.n.breeders, n)) {
			continue // so many of the cells
		}
		*r = reading{verb: doStep, step: rules.Retire, breeder: n, reason: cause, when: r.when, rest: rest, hedged: d.has(doubts),
			addressed: r.addressed, digits: true, lang: r.lang, text: r.text}
		return true
	}
	return false
}

var (
	incubators  = words(`incubator incubadora`)
	intoWords   = words(`to in into inside a en al`)
	fromWords   = words(`from of de desde`)
	cellsThere  = words(`cells cell celdas celda realeras bar bars barra barras batch lote all todas everything`)
	workerWords = words(`worker workers`)
	nucBad      = words(`absconded abandoned queenless robbed swarmed huerfano huerfanos huerfana huerfanas enjambro enjambraron abandonaron abandonados fugaron fugados robados saqueados pillados
		zanganera zanganeras zanganero zanganeros`)
	lostThings = words(`cells cell celdas celda realeras realera queens queen virgins virgin reinas reina virgenes nucs nuc nucleos nucleo batch lote bar barra`)
	goneVerbs  = words(`lost dropped dead died gone broke broken fell chilled overheated perdi perdimos perdio perdieron perdidas perdidos cayo cayeron murio murieron muerta muertas muertos muerto rompieron rompimos
		enfriaron absconded robbed fueron`)
	wholeThings = words(`all whole everything bar batch todas todos toda barra lote`)
	layersBad   = [][2]string{{"laying", "worker"}, {"laying", "workers"}, {"obrera", "ponedora"}, {"obreras", "ponedoras"}, {"drone", "layer"}, {"drone", "layers"}}
)

// cannot finds what the message tells of that the log has no line for yet, "" for
// nothing: it must not be offered as a step that sounds like it.
func (d *reader) cannot() string {
	r := d.r
	counted := r.verb == justCount && r.clear()
	if d.accounted || d.denied() || counted || r.verb == doDone {
		return ""
	}
	number, some := false, false
	for i, t := range d.raw {
		number = number || t.isNum
		some = some || t.isNum || wholeThings[t.text] || (oneWords[t.text] || articles[t.text]) && i+1 < len(d.raw) && lostThings[d.raw[i+1].text]
	}
	if d.incubator(intoWords) && (number || d.has(cellsThere)) {
		return inIncubator
	}
	if r.yard != "" && r.step == rules.Move || d.tellsStep() {
		return ""
	}
	if r.verb == doStep && r.step == rules.Move && d.has(goneVerbs) {
		return aLoss // "dropped 5" of anything, and where to nobody said
	}
	for i := 0; i+1 < len(d.raw); i++ {
		if slices.Contains(layersBad, [2]string{d.raw[i].text, d.raw[i+1].text}) {
			return nucState
		}
	}
	alone := len(d.raw) == 2 && number && len(d.n.stand) > 0 // "lost 7", "queenless: 6"
	if d.has(nucBad) && (d.has(nucPlaces) || number && r.addressed || alone) && (number || d.has(oneWords) || d.has(articles) || r.addressed) {
		return nucState
	}
	if d.has(goneVerbs) && (some || d.about.batch != 0) && (d.has(lostThings) || r.addressed || alone) {
		if d.has(nucPlaces) {
			return nucState
		}
		return aLoss
	}
	return ""
}

// incubator reports whether an incubator stands behind one of some words.
func (d *reader) incubator(ws map[string]bool) bool {
	for i, t := range d.raw {
		if !incubators[t.text] {
			continue
		}
		for k := i - 1; k >= 0; k-- {
			w := d.raw[k].text
			if ws[w] {
				return true
			}
			if !determiners[w] && w != "la" && w != "una" {
				break
			}
		}
	}
	return false
}

var (
	rogueNames = words(`rogue rogues wild stray emergency swarm rouge rouges celda celdas realera realeras ajenas ajena`)
	searched   = words(`checked searched search check looked look looking searching revise revisamos revisada revisado reviso revisaron busque buscamos chequee done did hecho hecha listo lista`)
	thereAre   = words(`there there's theres hay habia habian some several many few lots plenty muchas varias algunas aparecieron salieron hicieron building built drawing`)
	rogueLeads = words(`has have had got with and con y tiene tienen tenia unas`)
)

// roguesThere reports whether a search of which no number was read tells of rogue cells
// that are there: named without a word that they were searched for, or with one that
// they are there.
func (d *reader) roguesThere() bool {
	looked, there, sought := false, false, false
	for i, t := range d.raw {
		w := t.text
		if clearWords[w] || negations[w] || noneES[w] || w == "none" || w == "clean" || strings.HasPrefix(w, "limpi") {
			return false
		}
		looked, there = looked || searched[w], there || thereAre[w]
		if i > 0 && rogueNames[w] {
			prev := d.raw[i-1].text
			there, sought = there || rogueLeads[prev], sought || prev == "for" || prev == "por"
		}
	}
	return stepWords[d.said] == rules.Rogue && !clearWords[d.said] && (there && !sought || !looked)
}
