package bot

import (
	"errors"
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"yardbell/bot/attach"
	rdg "yardbell/bot/reading"
	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// talk is the handling of one update.
type talk struct {
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

	logged     []rules.Entry
	later      []store.Message // to go out after the answer, because of what was logged
	lines      []string
	kind       string // reply, ask, error
	buttons    []store.Button
	step       rules.Step
	subject    rules.Subject
	silent     bool
	attach     attach.Attachment // a file that goes with the answer
	calendarAt string            // address under which calendars are served, empty for none
	photo      string            // came with the message: the transport's name for it
	album      string            // of photos that came together
	private    bool              // members have private chats with the bot
	spent      bool              // the member gets no answer to a question now
	reported   bool              // the message tells of work, logged or not
	warned     bool              // the answer warns of something
	danger     danger            // words of an emergency in it

	noticed bool          // the sign is its answer: see sign.go
	marked  *store.Update // the message with the sign that it replies to
	thumb   bool          // put on a message of the bot
	acts    []rdg.Act     // what is being done, as it was read
}

// run handles the update.
func (t *talk) run() error {
	if t.missing != 0 {
		t.fail("r_no_message", "Number", t.missing)
		return nil
	}
	if t.joined {
		t.welcome()
		return nil
	}
	if t.forwarded {
		return t.passedOn()
	}
	if t.about != "" {
		return t.picked()
	}
	switch {
	case t.thumb:
		return t.reacted()
	case t.marked != nil:
		return t.beneath()
	}
	switch t.update.Kind {
	case "press":
		return t.press()
	case "edit":
		return t.edit()
	}
	return t.message()
}

// message reads the origin's text and acts on it.
func (t *talk) message() error {
	text := t.origin.Text
	if t.danger.langs != nil && wording.Clean(t.danger.rest) == "" {
		t.hush()
		return nil
	}
	if t.photo != "" && !t.opt.rerun && wording.Clean(text) == "" {
		return t.photoAlone()
	}
	switch {
	case !utf8.ValidString(text):
		t.fail("r_bytes")
		return nil
	case utf8.RuneCountInString(text) > wording.MostRunes:
		t.fail("r_long", "Length", utf8.RuneCountInString(text), "Limit", wording.MostRunes)
		return nil
	case wording.Clean(text) == "":
		t.fail("r_empty")
		return nil
	}
	if t.which {
		return t.whichCrew(text)
	}
	if done, err := t.label(text); done || err != nil {
		return err
	}
	who, lang, err := t.personSaid(text)
	if err != nil {
		return err
	}
	if lang != "" {
		t.speak(lang)
	}
	if done, err := t.people(who); done || err != nil {
		return err
	}
	if done, err := t.forget(who); done || err != nil {
		return err
	}
	return t.hear(text)
}

func (t *talk) names() (n names, err error) {
	n.builders, n.yards, err = t.tx.Names(t.crew.ID)
	return n, err
}

// label takes a reply that repeats a button's words as a press of it.
func (t *talk) label(text string) (bool, error) {
	if t.replied == nil || t.opt.rerun {
		return false, nil
	}
	words := wording.Fold(wording.Clean(text))
	for _, b := range t.replied.Buttons {
		if !strings.HasPrefix(b.Do, "task|") && wording.SameLabel(b.Label, words) {
			written, err := t.writtenIn(*t.replied)
			if err != nil {
				return true, err
			}
			t.speak(written)
			return true, t.pressed(*t.replied, b)
		}
	}
	return false, nil
}

// act does what a reading asks for.
func (t *talk) act(r *reading) error {
	switch r.verb {
	case doUndo:
		return t.undo(r)
	case doFix:
		return t.fix(r)
	case doSet:
		return t.set(r)
	case doAdd:
		return t.add(r)
	case askDue:
		return t.due(r)
	case askShow:
		return t.show(r)
	case askWhy:
		return t.why(r)
	case askHelp:
		return t.help(r)
	case askLog:
		return t.recent()
	case askPicture:
		t.picture(r)
		return nil
	case askReport:
		t.report(r)
		return nil
	case askCal:
		return t.calendar(r)
	case askPhotos:
		return t.photos(r)
	case doOrder, askPlan:
		return t.order(r)
	case askOrders:
		return t.orders(r)
	case doCancel:
		return t.cancelOrder(r)
	case askYields:
		return t.yields(r)
	case askCapacity:
		return t.capacity()
	case askWhatIf:
		return t.whatIf(r)
	case askFit:
		return t.fit(r)
	case notYet:
		return t.cannot(r)
	case sayYes, sayNo:
		return t.yesNo(r)
	case doMine, doLater, doSkip:
		return t.claim(r)
	}
	if stop := t.doubt(r); stop {
		return nil
	}
	if r.verb == doDone {
		return t.done(r)
	}
	return t.deed(r)
}

// example is the nearest form for what was read.
func (t *talk) example(r *reading) string {
	if id := "form_" + string(r.step); r.step != "" && t.v.Has(id) {
		return t.v.Say(id)
	}
	return t.v.Say("form_done")
}

// summary says what was read, before the subject is looked for.
func (t *talk) summary(r *reading) string {
	e := rules.Entry{Action: rules.Did, Step: r.step, Count: r.count, Of: r.of, Mark: r.mark, Subject: r.subject(), Detail: rules.Detail{NoEggs: r.noEggs, Release: r.release}}
	if r.step == rules.Graft {
		e.From, e.Into, e.Subject = r.breeder, r.builder, rules.Subject{}
	} else if e.Subject.Kind != rules.YardKind {
		e.Into = r.yard
	}
	if r.verb == doDone {
		s := t.v.Say("b_done")
		if r.count != nil {
			s += fmt.Sprintf(" %d", *r.count)
		}
		return strings.ToLower(s)
	}
	return t.v.Line(e)
}

// say adds a line to the answer.
func (t *talk) say(id string, kv ...any) {
	s := t.v.Say(id, kv...)
	t.warned = t.warned || strings.HasPrefix(id, "w_")
	if !strings.HasPrefix(id, "help_") { // forms to type stay as they are typed
		s = wording.Upper(s)
	}
	t.lines = append(t.lines, s)
}

// join adds a sentence to the last line of the answer.
func (t *talk) join(id string, kv ...any) {
	s := t.v.Say(id, kv...)
	t.warned = t.warned || strings.HasPrefix(id, "w_")
	if n := len(t.lines); n > 0 {
		t.lines[n-1] += " " + s
	} else {
		t.lines = append(t.lines, s)
	}
}

func (t *talk) ask(id string, kv ...any) { t.kind = "ask"; t.say(id, kv...) }

func (t *talk) fail(id string, kv ...any) {
	t.kind, t.lines, t.buttons = "error", nil, nil
	t.say(id, kv...)
}

// hush leaves a message alone that was not for the bot.
func (t *talk) hush() { t.silent = true }

// refuse asks a refusal back, with the button that overrides it where it may be.
func (t *talk) refuse(r *rules.Refusal) {
	t.kind = "ask"
	t.lines = append(t.lines, t.v.Refusal(r))
	if r.Ask {
		t.offer("b_anyway", t.rerun("anyway="+r.Code))
		t.offer("b_no", "no")
	}
}

func (t *talk) offer(label, do string, kv ...any) {
	t.buttons = append(t.buttons, store.Button{Label: t.v.Say(label, kv...), Do: do})
}

// errNoAnswer: everything that is not for others to hear is answered.
var errNoAnswer = errors.New("nothing was said to what was read")

// finish queues the answer and settles the update.
func (t *talk) finish() error {
	if t.danger.langs != nil {
		if err := t.helpEmergency(); err != nil {
			return err
		}
		t.silent = t.silent || t.kind == "error" // which would only be in the way
	}
	if t.noticed {
		if err := t.sign(); err != nil {
			return err
		}
	}
	if t.noticed {
		return t.signed()
	}
	if err := t.unsign(); err != nil {
		return err
	}
	outcome := t.kind
	switch {
	case t.silent:
		outcome = "silent"
	case len(t.logged) > 0:
		outcome = "logged"
	}
	if err := t.tx.Settle(t.update.ID, outcome, !t.silent); err != nil || t.silent {
		return err
	}
	if err := t.putRight(); err != nil {
		return err
	}
	if err := t.captioned(); err != nil {
		return err
	}
	if len(t.lines) == 0 {
		return fmt.Errorf("update %d: %w", t.update.ID, errNoAnswer)
	}
	if len(t.crews) > 0 && !t.which {
		t.lines = append([]string{t.v.Say("g_crew", "Crew", t.title(t.crew))}, t.lines...)
	}
	m := store.Message{Crew: t.crew.ID, Key: fmt.Sprintf("answer/%d", t.update.ID), Kind: t.kind, Update: t.update.ID,
		Text: strings.Join(t.lines, "\n"), Buttons: t.buttons, Step: t.step, Subject: t.subject.String()}
	m.Chat, m.Priority = t.chat, t.place()
	if t.attach.Kind != "" {
		t.attach.Lang = t.v.Lang
		m.Attach = t.attach.String()
	}
	if t.update.Kind != "press" {
		m.Answers = t.update.Message
	}
	switch {
	case t.update.Kind == "press":
		m.ReplyTo = t.update.Message
	case t.replied != nil:
		m.ReplyTo = t.replied.Message
	}
	for _, k := range append([]store.Message{m}, t.later...) {
		if err := t.tx.Queue(k); err != nil {
			return err
		}
	}
	return nil
}

// append writes entries and derives what follows.
func (t *talk) append(entries ...rules.Entry) ([]rules.Entry, error) {
	was, err := t.watch(entries)
	if err != nil {
		return nil, err
	}
	for i := range entries {
		e := &entries[i]
		e.Said, e.By = t.origin.Said, t.by.Name
		if e.Happened.IsZero() {
			e.Happened = e.Said
		}
		id, err := t.tx.Append(t.crew.ID, t.update.ID, t.by, t.origin.Message, t.origin.Text, *e)
		if err != nil {
			return nil, err
		}
		e.ID = id
		if err := t.photosFollow(*e); err != nil {
			return nil, err
		}
		if t.subject.Zero() && e.Action != rules.Set && e.Step != rules.Add {
			t.step, t.subject = e.Step, e.Subject
		}
	}
	t.logged = append(t.logged, entries...)
	if err := t.tx.Replan(t.crew.ID); err != nil {
		return nil, err
	}
	s, err := t.tx.Settings(t.crew.ID)
	if err != nil {
		return nil, err
	}
	t.s = s
	t.speak(t.written)
	return entries, t.warn(was, entries)
}
