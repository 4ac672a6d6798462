package bot

import (
	"fmt"
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
	tx      *store.Tx
	crew    store.Crew
	member  store.Member // who sent the update
	by      store.Member // whose words are read: the sender, or for a press who asked
	s       *rules.Settings
	v       wording.Voice
	written string         // the language the text is plainly written in, "" where it does not say
	update  store.Update   // what came in
	origin  store.Update   // whose text is read: the same, or for a press an earlier one
	replied *store.Message // the bot's message it replies to
	missing int64          // a message replied to that is not there
	opt     options
	follows bool      // more of the same stands in the next part of the message
	at      time.Time // when it happened, where a line is logged anew

	chat      int64        // a private chat, 0 for the crew's group
	crews     []store.Crew // in private, of somebody who is on several
	which     bool         // … and which of them is meant is not known
	about     string       // … or a button said it, of this earlier message
	lead      bool         // may change settings and take back the lines of others
	joined    bool         // the update claimed the group
	addressed bool         // the transport knows that it is for the bot
	forwarded bool         // it is somebody else's message
	hearsAll  bool
	button    *store.Button // pressed, where the transport named it by its data
	stale     bool          // a press of a button that is not there any more

	calendarAt string        // address under which calendars are served, empty for none
	photo      string        // came with the message: the transport's name for it
	album      string        // of photos that came together
	private    bool          // members have private chats with the bot
	spent      bool          // the member gets no answer to a question now
	danger     danger        // words of an emergency in it
	marked     *store.Update // the message with the sign that it replies to
	thumb      bool          // put on a message of the bot
	acts       []rdg.Act     // what is being done, as it was read
}

// run handles the update.
func (sc *Scene) run() (Answer, error) {
	var ans Answer
	if sc.missing != 0 {
		ans.fail(sc.v, "r_no_message", "Number", sc.missing)
		return ans, nil
	}
	if sc.joined {
		ans.add(sc.welcome())
		return ans, nil
	}
	if sc.forwarded {
		return sc.passedOn()
	}
	if sc.about != "" {
		return sc.picked()
	}
	switch {
	case sc.thumb:
		return sc.reacted()
	case sc.marked != nil:
		return sc.beneath()
	}
	switch sc.update.Kind {
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
	text := sc.origin.Text
	if sc.danger.langs != nil && wording.Clean(sc.danger.rest) == "" {
		ans.hush()
		return ans, nil
	}
	if sc.photo != "" && !sc.opt.rerun && wording.Clean(text) == "" {
		return sc.photoAlone()
	}
	switch {
	case !utf8.ValidString(text):
		ans.fail(sc.v, "r_bytes")
		return ans, nil
	case utf8.RuneCountInString(text) > wording.MostRunes:
		ans.fail(sc.v, "r_long", "Length", utf8.RuneCountInString(text), "Limit", wording.MostRunes)
		return ans, nil
	case wording.Clean(text) == "":
		ans.fail(sc.v, "r_empty")
		return ans, nil
	}
	if sc.which {
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
		sc = sc.speaking(lang)
		ans.of = sc
	}
	if done, err := ans.taken(sc.people(who)); done || err != nil {
		return ans, err
	}
	if done, err := ans.taken(sc.forget(who)); done || err != nil {
		return ans, err
	}
	return ans.then(sc.hear(text))
}

func (sc *Scene) names() (n names, err error) {
	n.builders, n.yards, err = sc.tx.Names(sc.crew.ID)
	return n, err
}

// label takes a reply that repeats a button's words as a press of it.
func (sc *Scene) label(text string) (Answer, bool, error) {
	if sc.replied == nil || sc.opt.rerun {
		return Answer{}, false, nil
	}
	words := wording.Fold(wording.Clean(text))
	for _, b := range sc.replied.Buttons {
		if !strings.HasPrefix(b.Do, "task|") && wording.SameLabel(b.Label, words) {
			written, err := sc.writtenIn(*sc.replied)
			if err != nil {
				return Answer{}, true, err
			}
			more, err := sc.speaking(written).pressed(*sc.replied, b)
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
	case askWhatIf:
		return sc.whatIf(r)
	case askFit:
		return sc.fit(r)
	case notYet:
		return sc.cannot(r)
	case sayYes, sayNo:
		return sc.yesNo(r)
	case doMine, doLater, doSkip:
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
	if id := "form_" + string(r.step); r.step != "" && sc.v.Has(id) {
		return sc.v.Say(id)
	}
	return sc.v.Say("form_done")
}

// summary says what was read, before the subject is looked for.
func (sc *Scene) summary(r *reading) string {
	e := rules.Entry{Action: rules.Did, Step: r.step, Count: r.count, Of: r.of, Mark: r.mark, Subject: r.subject(), Detail: rules.Detail{NoEggs: r.noEggs, Release: r.release}}
	if r.step == rules.Graft {
		e.From, e.Into, e.Subject = r.breeder, r.builder, rules.Subject{}
	} else if e.Subject.Kind != rules.YardKind {
		e.Into = r.yard
	}
	if r.verb == doDone {
		s := sc.v.Say("b_done")
		if r.count != nil {
			s += fmt.Sprintf(" %d", *r.count)
		}
		return strings.ToLower(s)
	}
	return sc.v.Line(e)
}
