package console

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/fatih/color"

	"yardbell/bot/wording"
	"yardbell/rules"
	"yardbell/store"
)

// Console is the transport for a terminal, a script or a test: it writes every
// message as a block of text, or as one JSON object a line.
type Console struct {
	mu    sync.Mutex
	w     io.Writer
	json  bool
	color bool
	db    *store.DB
	line  int

	// Folder is where the files that go with messages are written; empty is the folder
	// the process runs in.
	Folder string

	// Beside, where it is set, gets every message as one JSON object a line as well.
	Beside io.Writer
}

// NewConsole writes to w. asJSON gives one object a line, colored ANSI colours.
func NewConsole(w io.Writer, db *store.DB, asJSON, colored bool) *Console {
	return &Console{w: w, json: asJSON, color: colored, db: db}
}

// Line says which input line is being worked on; what goes out names it.
func (c *Console) Line(n int) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.line = n
}

// Reopen takes another handle on the database, after a restart.
func (c *Console) Reopen(db *store.DB) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.db = db
}

// Deliver numbers a message and writes it.
func (c *Console) Deliver(ctx context.Context, d wording.Delivery) (int64, error) {
	if d.Row.Ping == store.Sign {
		return 0, c.sign(d)
	}
	if d.Edits != 0 {
		return 0, nil // what is written here stays as it was
	}
	c.mu.Lock()
	defer c.mu.Unlock()
	// What a chat keeps for itself cannot be had here.
	d.Files = slices.DeleteFunc(slices.Clone(d.Files), func(f wording.File) bool { return f.Kept != "" })
	var n int64
	var logged []store.Line
	err := c.db.View(ctx, d.Out.Now, func(tx *store.Tx) (err error) {
		if n, err = tx.LastNumber(d.Out.Crew.ID); err != nil || d.Row.Update == 0 {
			return err
		}
		logged, err = tx.UpdateLines(d.Row.Update)
		return err
	})
	if err != nil {
		return 0, err
	}
	n++
	for i, f := range d.Files {
		if err := os.WriteFile(filepath.Join(c.Folder, f.Name), f.Data, 0o600); err != nil {
			// The words are said all the same: trying again would not make room.
			d.Files[i].Name += ": not written, " + fileTrouble(err)
		}
	}
	if c.json {
		return n, wording.WriteJSON(c.w, c.object(n, d, logged))
	}
	return n, errors.Join(c.block(n, d), c.beside(n, d, logged))
}

// mostEcho is how much of a line of the chat is shown.
const mostEcho = 200

// Echo writes a line of the chat that somebody else wrote.
func (c *Console) Echo(at time.Time, s *rules.Settings, who, text string) {
	c.mu.Lock()
	defer c.mu.Unlock()
	l := at.In(s.Zone)
	head := fmt.Sprintf("%s  %s:", l.Format("Mon 2 Jan 15:04"), who)
	// Direction marks and control characters would mix up what stands around them.
	text = wording.Visible(wording.Clean(text))
	if r := []rune(text); len(r) > mostEcho {
		text = string(r[:mostEcho]) + "…"
	}
	_, _ = fmt.Fprintf(c.w, "%s %s\n\n", c.paint(head, color.FgGreen, color.Bold), text)
}

func (c *Console) paint(s string, attrs ...color.Attribute) string {
	if !c.color {
		return s
	}
	p := color.New(attrs...)
	p.EnableColor()
	return p.Sprint(s)
}

func (c *Console) block(n int64, d wording.Delivery) error {
	l := d.Out.Now.In(d.Out.Settings.Zone)
	shade := color.FgCyan
	switch {
	case d.Kind == "error":
		shade = color.FgRed
	case d.Kind == "ping" && d.Out.Task != nil && d.Out.Task.Weight == rules.Critical, d.Kind == "ask":
		shade = color.FgYellow
	}
	var b strings.Builder
	b.WriteString(c.paint(fmt.Sprintf("[%d] %s", n, l.Format("Mon 2 Jan 2006 15:04")), shade, color.Bold))
	b.WriteString("\n" + d.Text + "\n")
	for _, f := range d.Files {
		b.WriteString("(" + f.Name + ")\n")
	}
	for i, k := range d.Buttons {
		if i > 0 {
			b.WriteString(" ")
		}
		b.WriteString("[" + k.Label + "]")
	}
	if len(d.Buttons) > 0 {
		b.WriteString("\n")
	}
	b.WriteString("\n")
	_, err := io.WriteString(c.w, b.String())
	return err
}

// sign writes that the sign was set, which is no message and has no number.
func (c *Console) sign(d wording.Delivery) error {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.json {
		return wording.WriteJSON(c.w, c.object(0, d, nil))
	}
	_, err := io.WriteString(c.w, wording.New(d.Out.Settings, d.Out.Now).Say("console_sign", "Sign", wording.SeenSign)+"\n\n")
	return errors.Join(err, c.beside(0, d, nil))
}

func (c *Console) beside(n int64, d wording.Delivery, logged []store.Line) error {
	if c.Beside == nil {
		return nil
	}
	return wording.WriteJSON(c.Beside, c.object(n, d, logged))
}

// object is one message in the console protocol.
type object struct {
	N       int64     `json:"n"`
	Line    int       `json:"line"`
	At      string    `json:"at"`
	Kind    string    `json:"kind"`
	Ping    *string   `json:"ping"`
	Step    *string   `json:"step"`
	Subject *string   `json:"subject"`
	ReplyTo *int64    `json:"reply_to"`
	Text    string    `json:"text"`
	Buttons []string  `json:"buttons"`
	Logged  []Logged  `json:"logged"`
	Items   *[]listed `json:"items,omitempty"`
	Files   []string  `json:"files,omitempty"` // names of the files that go with it
}

// Logged is a logbook entry in the console protocol and in exports. Happened is
// local time with its offset.
type Logged struct {
	Action   string  `json:"action"`
	Step     *string `json:"step"`
	Subject  *string `json:"subject"`
	Count    *int    `json:"count"`
	Of       *int    `json:"of"`
	From     *int    `json:"from"`
	Into     *string `json:"into"`
	Mark     *string `json:"mark"`
	Happened string  `json:"happened"`
	By       string  `json:"by"`

	// All else that some steps need, where it was said; Until in local time, as Happened is.
	rules.Detail
	Until *string `json:"until,omitempty"`
}

type listed struct {
	Step    string `json:"step"`
	Subject string `json:"subject"`
	Best    string `json:"best"`
	Latest  string `json:"latest"`
}

func orNull(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

// stepName is a step as the protocol names it. An order is no step of a round: its
// lines are known by their subject.
func stepName(s rules.Step) *string {
	if s == rules.Ordered {
		return nil
	}
	return orNull(string(s))
}

// LocalTime writes an instant in a zone with its offset.
func LocalTime(t time.Time, zone *time.Location) string { return t.In(zone).Format(time.RFC3339) }

// AsLogged puts an entry into the protocol's form.
func AsLogged(e rules.Entry, zone *time.Location) Logged {
	l := Logged{Action: string(e.Action), Step: stepName(e.Step), Subject: orNull(e.Subject.String()), Count: e.Count, Of: e.Of,
		Into: orNull(e.Into), Mark: orNull(e.Mark), Happened: LocalTime(e.Happened, zone), By: e.By, Detail: e.Detail}
	if e.Detail.Until != 0 {
		l.Until = orNull(LocalTime(time.UnixMilli(e.Detail.Until), zone))
	}
	if e.From != 0 {
		from := e.From
		l.From = &from
	}
	return l
}

func (c *Console) object(n int64, d wording.Delivery, lines []store.Line) object {
	zone := d.Out.Settings.Zone
	o := object{N: n, Line: c.line, At: LocalTime(d.Out.Now, zone), Kind: d.Kind, Ping: orNull(d.Ping), Text: d.Text,
		Step: stepName(d.Row.Step), Subject: orNull(d.Row.Subject), Buttons: []string{}, Logged: []Logged{}}
	if d.Row.ReplyTo != 0 {
		o.ReplyTo = &d.Row.ReplyTo
	}
	for _, f := range d.Files {
		o.Files = append(o.Files, f.Name)
	}
	for _, b := range d.Buttons {
		o.Buttons = append(o.Buttons, b.Label)
	}
	for _, l := range lines {
		// A setting is kept in the logbook so that everything can be rebuilt from
		// it, but it is no line of work.
		if l.Action != rules.Set && !(l.Action == rules.Void && l.Step == "") {
			o.Logged = append(o.Logged, AsLogged(l.Entry, zone))
		}
	}
	if d.Kind == "digest" {
		o.Step, o.Subject = nil, nil
		items := []listed{}
		for _, k := range d.Out.Items {
			items = append(items, listed{string(k.Step), k.Subject.String(), LocalTime(k.Best, zone), LocalTime(k.Latest, zone)})
		}
		o.Items = &items
	}
	return o
}

// fileTrouble is why a file could not be written, without its path.
func fileTrouble(err error) string {
	var pe *os.PathError
	if errors.As(err, &pe) {
		return pe.Err.Error()
	}
	return err.Error()
}
