package conversation

import (
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// Scene is what an update is handled against: who says what, in answer to what, and how the
// crew stands. It is never written once it is handed on: what changes on the way, as the
// language or whose words are read, is changed in a copy, which the Answer brings back.
type Scene struct {
	Look     *store.Tx        // the file, with the lines logged so far; it cannot write
	model    *rules.Crew      // the crew as it stands by them
	buyers   []store.Customer // the customers, those that this update adds among them
	Crew     store.Crew
	Member   store.Member // who sent the update
	By       store.Member // whose words are read: the sender, or for a press who asked
	Settings *rules.Settings
	Voice    wording.Voice
	written  string         // the language the text is plainly written in, "" where it does not say
	Update   store.Update   // what came in
	Origin   store.Update   // whose text is read: the same, or for a press an earlier one
	Replied  *store.Message // the bot's message it replies to
	Missing  int64          // a message replied to that is not there
	opt      options
	follows  bool      // more of the same stands in the next part of the message
	at       time.Time // when it happened, where a line is logged anew

	Chat      int64        // a private chat, 0 for the crew's group
	Crews     []store.Crew // in private, of somebody who is on several
	Which     bool         // … and which of them is meant is not known
	About     string       // … or a button said it, of this earlier message
	Lead      bool         // may change settings and take back the lines of others
	Joined    bool         // the update claimed the group
	Addressed bool         // the transport knows that it is for the bot
	Forwarded bool         // it is somebody else's message
	HearsAll  bool
	Button    *store.Button // pressed, where the transport named it by its data
	Stale     bool          // a press of a button that is not there any more

	CalendarAt string        // address under which calendars are served, empty for none
	Photo      string        // came with the message: the transport's name for it
	Album      string        // of photos that came together
	Private    bool          // members have private chats with the bot
	Spent      bool          // the member gets no answer to a question now
	Danger     danger        // words of an emergency in it
	Marked     *store.Update // the message with the sign that it replies to
	Thumb      bool          // put on a message of the bot
	acts       []rdg.Act     // what is being done, as it was read
	bars       []string      // pressed below a ping about several bars: their tasks
}

// Run handles the update.
func (sc *Scene) Run() (Answer, error) {
	var ans Answer
	if sc.Missing != 0 {
		ans.Fail(sc.Voice, "r_no_message", "Number", sc.Missing)
		return ans, nil
	}
	if sc.Joined {
		ans.add(sc.Welcome())
		return ans, nil
	}
	if sc.Forwarded {
		return sc.passedOn()
	}
	if sc.About != "" {
		return sc.picked()
	}
	switch {
	case sc.Thumb:
		return sc.reacted()
	case sc.Marked != nil:
		return sc.beneath()
	}
	switch sc.Update.Kind {
	case "press":
		return sc.press()
	case "edit":
		return sc.edit()
	}
	return sc.message()
}

// message reads the origin's text and acts on it.
func (sc *Scene) message() (Answer, error) {
	var ans Answer
	text := sc.Origin.Text
	if sc.Danger.Langs != nil && wording.Clean(sc.Danger.Rest) == "" {
		ans.Ignore()
		return ans, nil
	}
	if sc.Photo != "" && !sc.opt.rerun && wording.Clean(text) == "" {
		return sc.photoAlone()
	}
	switch {
	case !utf8.ValidString(text):
		ans.Fail(sc.Voice, "r_bytes")
		return ans, nil
	case utf8.RuneCountInString(text) > wording.MostRunes:
		ans.Fail(sc.Voice, "r_long", "Length", utf8.RuneCountInString(text), "Limit", wording.MostRunes)
		return ans, nil
	case wording.Clean(text) == "":
		ans.Fail(sc.Voice, "r_empty")
		return ans, nil
	}
	if sc.Which {
		return sc.whichCrew(text)
	}
	if done, err := ans.taken(sc.label(text)); done || err != nil {
		return ans, err
	}
	who, lang, err := sc.personSaid(text)
	if err != nil {
		return ans, err
	}
	if lang != "" {
		sc = sc.Speaking(lang)
		ans.of = sc
	}
	if done, err := ans.taken(sc.people(who)); done || err != nil {
		return ans, err
	}
	return ans.then(sc.hear(text))
}

// names are the crew's own builders and yards.
func (sc *Scene) names() (n names) {
	for _, b := range sc.model.Builders() {
		n.builders = append(n.builders, b.Name)
	}
	for _, y := range sc.model.Yards() {
		n.yards = append(n.yards, y.Name)
	}
	return n
}

// open are the crew's open tasks, by their best time. A planned step whose turn has come
// while no comb is in for it is not among them.
func (sc *Scene) open() []rules.Task {
	return slices.DeleteFunc(sc.model.Open(), func(k rules.Task) bool { return k.NeedsComb() && !sc.Look.Now.Before(k.Earliest) })
}

// Seeing is the scene with another look at the file.
func (sc *Scene) Seeing(look *store.Tx) (*Scene, error) {
	m, err := look.Model(sc.Crew.ID)
	if err != nil {
		return sc, err
	}
	next := *sc
	if next.model == nil { // at the beginning of an update
		if next.buyers, err = look.Customers(sc.Crew.ID); err != nil {
			return sc, err
		}
	}
	next.Look, next.model, next.Settings = look, m, m.Settings()
	return &next, nil
}

// label takes a reply that repeats a button's words as a press of it.
func (sc *Scene) label(text string) (Answer, bool, error) {
	if sc.Replied == nil || sc.opt.rerun {
		return Answer{}, false, nil
	}
	words := wording.Fold(wording.Clean(text))
	for _, b := range sc.Replied.Buttons {
		if !strings.HasPrefix(b.Do, "task|") && !strings.HasPrefix(b.Do, "tasks|") && wording.SameLabel(b.Label, words) {
			written, err := sc.writtenIn(*sc.Replied)
			if err != nil {
				return Answer{}, true, err
			}
			more, err := sc.Speaking(written).pressed(*sc.Replied, b)
			return more, true, err
		}
	}
	return Answer{}, false, nil
}

// act does what a reading asks for.
func (sc *Scene) act(r *reading) (Answer, error) {
	var ans Answer
	switch r.verb {
	case doUndo:
		return sc.undo(r)
	case doFix:
		return sc.fix(r)
	case doSet:
		return sc.set(r)
	case doAdd:
		return sc.add(r)
	case askDue:
		return sc.due(r)
	case askShow:
		return sc.show(r)
	case askCells:
		return sc.whereCells()
	case askWhy:
		return sc.why(r)
	case askHelp:
		return sc.help(r)
	case askLog:
		return sc.recent()
	case askPicture:
		ans.add(sc.picture(r))
		return ans, nil
	case askReport:
		ans.add(sc.report(r))
		return ans, nil
	case askCal:
		return sc.calendar(r)
	case askRound:
		return sc.showRound(r)
	case askPhotos:
		return sc.photos(r)
	case doOrder, askPlan:
		return sc.order(r)
	case askOrders:
		return sc.orders(r)
	case doCancel:
		return sc.cancelOrder(r)
	case askYields:
		return sc.yields(r)
	case askCapacity:
		return sc.capacity()
	case askNucs:
		return sc.askedNucs(r)
	case askWhatIf:
		return sc.whatIf(r)
	case askFit:
		return sc.fit(r)
	case doForget:
		return sc.forgetCustomer(r.buyer)
	case notYet:
		return sc.cannot(r)
	case sayYes, sayNo:
		return sc.yesNo(r)
	case doAway:
		return sc.away(r)
	case doRemind:
		return sc.remind(r)
	case doMine, doAssign, doLater, doSkip:
		return sc.claim(r)
	}
	if stop := ans.is(sc.doubt(r)); stop {
		return ans, nil
	}
	if r.verb == doDone {
		return ans.then(sc.done(r))
	}
	return ans.then(sc.deed(r))
}

// example is the nearest form for what was read.
func (sc *Scene) example(r *reading) string {
	if id := "form_" + string(r.step); r.step != "" && sc.Voice.Has(id) {
		return sc.Voice.Say(id)
	}
	return sc.Voice.Say("form_done")
}

// summary says what was read, before the subject is looked for.
func (sc *Scene) summary(r *reading) string {
	if (inStock[r.step] || r.stock) && r.verb == doStep {
		return sc.stockInWords(r)
	}
	e := rules.Entry{Action: rules.Did, Step: r.step, Count: r.count, Of: r.of, Mark: r.mark, Subject: r.subject(), Detail: rules.Detail{NoEggs: r.noEggs, Release: r.release}}
	if r.step == rules.Nuc && r.yard != "" {
		e.Subject, e.Detail.State, e.Detail.Batch = rules.YardSubject(r.yard), r.nuc, r.batch
		if len(r.labels) == 1 && r.count == nil {
			e.Subject = rules.NucSubject(r.yard, r.labels[0])
		}
	} else if r.step == rules.Nuc {
		e.Detail.State = r.nuc
	} else if r.step == rules.Graft {
		e.From, e.Into, e.Subject = r.breeder, r.builder, rules.Subject{}
	} else if e.Subject.Kind != rules.YardKind {
		e.Into = r.yard
	}
	if r.verb == doDone {
		s := sc.Voice.Say("b_done")
		if r.count != nil {
			s += fmt.Sprintf(" %d", *r.count)
		}
		return strings.ToLower(s)
	}
	return sc.Voice.Line(e)
}

// log has entries logged. after is the scene as it stands then.
func (sc *Scene) log(ans *Answer, entries ...rules.Entry) (after *Scene, done []rules.Entry, err error) {
	was, err := sc.watch(entries)
	if err != nil {
		return sc, nil, err
	}
	for i := range entries {
		e := &entries[i]
		e.Said, e.By = sc.Origin.Said, sc.By.Name
		if e.Happened.IsZero() {
			e.Happened = e.Said
		}
	}
	look, done, err := sc.Look.With(sc.Crew.ID, sc.Update.ID, sc.By, sc.Origin.Message, sc.Origin.Text, entries...)
	if err != nil {
		return sc, nil, err
	}
	next, err := sc.Seeing(look)
	if err != nil {
		return sc, nil, err
	}
	ans.log(done...)
	after = next.Speaking(next.written)
	ans.of = after
	later, err := after.warn(was, done)
	ans.Later = append(ans.Later, later...)
	return after, done, err
}
