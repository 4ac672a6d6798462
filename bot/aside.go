package bot

// A piece set off behind a whole report says nothing that a line has where none of its
// words could bear on it: "moved 36 to North, smooth ride", "caught 20, got stung on
// the nose". What could bear on it is listed, and what lies one slip from that, so that
// a doubt, a plan, a loss, a thing of the trade, a name or a number in it is asked
// about as before.

// asideStops bear on a report beside the words that the reader knows.
var asideStops = words(`kidding joking joke jk prank scratch ignore disregard nevermind oops whoops woops actually mistake mistaken wrong meant mixed mixup typo rather instead anyhow
	nope nah nay hardly barely scarcely sort kind give take ish circa supposedly seemingly seems seem looked sounds say says said saying tell told telling heard hear ask asked asking
	suppose assume assuming assumed figure hope hopefully wish wished dream dreamt dreamed imagine pretend pretending suspect doubt doubtful certain sure unclear confirm check checking verify recount
	some few fewer couple most several many much more less lot lots bunch bit rest others other another remainder balance both either pair dozen half double twice once again each extra spare
	lost lose losing loss died dying dead dud duds dropped dropping broke broken crushed squashed smashed spilled spilt spoiled chewed chilled killed missing missed gone left leaving remain remains stayed stuck
	need needs should must want wants can could may might would will gonna going please let lets somebody someone anyone whoever who whose what which where when why how whether
	yesterday today tomorrow tonight morning noon afternoon evening night hour hours minute minutes monday tuesday wednesday thursday friday saturday sunday week weekend early earlier late later soon ago since until till before after next last first second third final
	new old fresh red blue white yellow green pink orange purple black brown grey gray dark light cage caged screen excluder starter finisher builder builders breeder breeders mother mothers mama queen queens virgin virgins cell cells cup cups larva larvae egg eggs brood comb combs frame frames bar bars nuc nucs hive hives box boxes colony colonies yard yards batch batches drone drones graft grafts grafted grafting pin pins marker mark marked clip clipped incubator temperature temp degrees
	feed fed feeding feeder syrup sugar honey pollen candy fondant water mite mites varroa treat treated treatment swarm swarmed robbing robbed super supers
	move moved moving confine confined release released releasing accept accepted cap capped capping emerge emerged emerging hatch hatched lay laying catch caught bank banked ship shipped sell sold customer customers order orders pull pulled put place placed set add added remove removed swap swapped switch switched split combine combined install installed introduce introduced
	undo delete cancel change correct correction fix amend edit count counted counts number numbers total percent
	typed typing wrote write writing written wrote spelled read reading lie lies lying laugh laughs laughing film movie roasted dreaming away closed open opened true false real fake story fiction bluff fool fooled fooling april test tests testing example demo practice practise exercise
	doing did done work worked working try tried trying fail failed failing bluff bluffing pulling leg gotcha paper fun yesterday's today's tomorrow's had have has escape escaped flew fly flown ran run stole stolen`)

// asideFree may stand in an aside though the reader knows them.
var asideFree = words(`the a an i we i've we've i'm we're he she he's she's it it's its is was are were am be been and as best worst my our me us her his him them they you your
	this that of with too so now got get getting truck trucks trailer chatter well guys there here these those than also even very just stuck nose toes face chin cheek lip ear ears thumb thumbs finger bone bones home house barn shed gate fence field grass lake town tree trees dirt dust wind sky phone boot boots shirt hat pants keys
	bump bumps ride rides drive driving drove walk walked sun moon machine nap bed game tire flat hot cold ants spider spiders`)

// asideLeads may stand before a determiner: "in the mud", "on my nose".
var asideLeads = words(`out in on at from into to off through behind by for around under over`)

const longestAside = 12

// asides takes out of the message what is said behind a report and is no report.
func (d *reader) asides() {
	if d.r.question || len(d.toks) < 4 {
		return
	}
	for i := 1; i < len(d.toks); i++ {
		from := i
		switch {
		case d.toks[i-1].comma:
		case joins[d.word(i)]:
			from++
		default:
			continue
		}
		k := from
		for k < len(d.toks) && !d.toks[k].comma {
			k++
		}
		k = min(k+1, len(d.toks))
		if !d.reported(i) || !d.chat(from, k) {
			continue
		}
		d.toks[i-1].comma = true
		d.toks, d.joined = append(d.toks[:i:i], d.toks[k:]...), ""
		i--
	}
}

// chat reports whether nothing from token i to k bears on a report.
func (d *reader) chat(i, k int) bool {
	for i < k && (joins[d.word(i)] || remarkLeads[d.word(i)]) {
		i++
	}
	if w := d.word(i); k-i > 2 && (w == "not" || w == "need" || w == "want") && determiners[d.word(i+1)] {
		i += 2 // "not a bump on the road"
	} else if w == "i" && k-i > 2 && (d.word(i+1) == "need" || d.word(i+1) == "want") {
		i += 2
	} else if k-i < 2 {
		return false
	}
	if k-i > longestAside || remarkOpen[d.word(k-1)] {
		return false
	}
	if k-i == 2 && d.word(i) == "nice" && len(d.word(i+1)) == 4 && !asideFree[d.word(i+1)] && !remarkWords[d.word(i+1)] {
		return false // "nice try", and its slips
	}
	for j := i; j < k; j++ {
		w, t := d.word(j), d.toks[j]
		switch {
		case d.phrase(j, "good as"), t.isNum || t.glossed || t.doubt || d.ownAt(j, d.n.yards) > 0 || d.ownAt(j, d.n.builders) > 0:
			return false
		case w == "off" && d.word(j+1) == "my" && (d.word(j-1) == "i'm" || d.word(j-1) == "im"):
			return false // off one's head, and its slips: it may all be in jest
		case asideLeads[w]:
			if next := d.word(j + 1); j+1 == k || !determiners[next] && next != "here" && next != "there" {
				return false
			}
		case ownLoss[w] && d.word(j+1) == "my": // a phone, and no cells
		case asideFree[w], remarkWords[w], remarkSmall[w] && !asideStops[w], praise[w]:
		case !d.idle(w):
			return false
		}
	}
	return true
}

// ownLoss is what happens to one's own things.
var ownLoss = words(`dropped lost broke left forgot ripped tore`)

// idle reports whether a word bears on nothing, nor what it may be a slip of: a short
// one may be a slip of anything.
func (d *reader) idle(w string) bool {
	if len(w) < 4 || d.known(w) || asideStops[w] || spanish.single[w] != nil || len(w) > longestWord+8 {
		return false
	}
	for _, r := range w {
		if (r < 'a' || r > 'z') && r != '\'' && r != '-' {
			return false
		}
	}
	for _, c := range cuts(w) {
		for _, s := range stopCuts[c] {
			d.looks++
			if oneSlip(w, s) {
				return false
			}
		}
	}
	return true
}

// stopCuts finds the words that bear on a report, of four letters and more, by what is
// left of them with a letter out.
var stopCuts = func() map[string][]string {
	m := map[string][]string{}
	for _, set := range []map[string]bool{asideStops, vocabulary} {
		for w := range set {
			if len(w) < 4 {
				continue
			}
			for _, c := range cuts(w) {
				m[c] = append(m[c], w)
			}
		}
	}
	return m
}()

// reported reports whether what was done stands before token i, in so many words: a
// bare "move 34" may be an order to somebody, and what follows it a part of that.
func (d *reader) reported(i int) bool {
	for j := 0; j < i; j++ {
		w := d.word(j)
		switch f := stepForms[w]; {
		case doneWords[w], f == past || f == state:
			return true
		case f == thing && i > 1:
			return true // a thing found is told of
		case j == 0 && d.r.addressed && (i == 1 && (w == "mine" || w == "later") || i <= 4 && takesOn[d.spell(0, i)]):
			return true
		}
	}
	return false
}

// takesOn are ways to say that a task is one's own.
var takesOn = turnsOf(`i'll do it|i will do it|i got it|i've got it|got it|on it|i'm on it|i'll take it|i'll get it|i've got this|i got this|my job`)
