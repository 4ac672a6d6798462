package store

import (
	"cmp"
	"container/list"
	"context"
	"fmt"
	"reflect"
	"slices"
	"sync"
	"time"

	"yardbell/rules"
)

// mostLinesKept is how many lines of logbooks are kept in memory, over all crews: the models
// used longest ago go, and are folded again when their crew next writes. A line, with the
// tasks it leads to, takes 1.5 KB (measured on ten seasons), and what is garbage until it is
// collected as much again.
const mostLinesKept = 12_000

// models are the crews' models in memory, each as of the last commit. The writing
// connection alone puts them here and reads them, one transaction at a time; a reading
// transaction may see an older state of the file, and takes one only where it is of the
// same line.
type models struct {
	mu    sync.Mutex
	crews map[int64]*list.Element // of keptModel
	byUse *list.List              // the one used last in front
	lines int
	limit int
}

type keptModel struct {
	crew  int64
	model *rules.Crew
}

func newModels() *models {
	m := &models{limit: mostLinesKept}
	m.clear()
	return m
}

func (m *models) clear() {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.crews, m.byUse, m.lines = map[int64]*list.Element{}, list.New(), 0
}

func (m *models) get(crew int64) *rules.Crew {
	m.mu.Lock()
	defer m.mu.Unlock()
	at := m.crews[crew]
	if at == nil {
		return nil
	}
	m.byUse.MoveToFront(at)
	return at.Value.(keptModel).model
}

// put keeps a model in the place of the one before, none for nil.
func (m *models) put(crew int64, model *rules.Crew) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.drop(crew)
	if model == nil {
		return
	}
	m.crews[crew] = m.byUse.PushFront(keptModel{crew, model})
	m.lines += model.Len()
	for m.lines > m.limit && m.byUse.Len() > 1 {
		m.drop(m.byUse.Back().Value.(keptModel).crew)
	}
}

func (m *models) drop(crew int64) {
	if at := m.crews[crew]; at != nil {
		m.lines -= at.Value.(keptModel).model.Len()
		m.byUse.Remove(at)
		delete(m.crews, crew)
	}
}

// ofTx are the models that a transaction has used.
type ofTx struct {
	model *rules.Crew
	own   bool // a copy, which the transaction may write
}

// Model is a crew as the transaction sees it, to be looked at only.
func (t *Tx) Model(crew int64) (*rules.Crew, error) {
	m, err := t.atHand(crew)
	if m != nil || err != nil {
		return m, err
	}
	if m, err = t.fold(crew); err != nil {
		return nil, err
	}
	t.use(crew, ofTx{model: m})
	if t.writes {
		t.db.models.put(crew, m) // it is of committed lines: this transaction wrote none yet
	}
	return m, nil
}

// atHand is a crew's model where the transaction or the memory has it, nil where it would
// have to be folded. The tick asks for the settings, the open tasks and the names of crews
// that have not written for days. It reads those out of the file where nothing is at hand:
// else what it costs would grow with the logbook, and every evening the crews that are
// reminded would push those out of memory that write. Pings about batches are an exception:
// which bars are told of together only the model says, and those crews are folded for it.
func (t *Tx) atHand(crew int64) (*rules.Crew, error) {
	if m, used := t.models[crew]; used {
		return m.model, nil
	}
	m, err := t.kept(crew)
	if m != nil {
		t.use(crew, ofTx{model: m})
	}
	return m, err
}

// kept is the model in memory, nil where there is none of the lines that the transaction
// sees.
func (t *Tx) kept(crew int64) (*rules.Crew, error) {
	m := t.db.models.get(crew)
	if m == nil || t.writes {
		return m, nil
	}
	var last int64
	if _, err := t.one(`SELECT coalesce(max(id), 0) FROM entries WHERE crew_id = 0 + ?`, []any{crew}, &last); err != nil || last != m.Last() {
		return nil, err
	}
	return m, nil
}

// fold reads a crew's model out of its logbook.
func (t *Tx) fold(crew int64) (*rules.Crew, error) {
	m, err := t.unsettled(crew)
	if err == nil {
		m.Settle()
	}
	return m, err
}

// unsettled is the model with no line worked out yet.
func (t *Tx) unsettled(crew int64) (*rules.Crew, error) {
	entries, err := t.entries(`e.crew_id = 0 + ?`, crew)
	if err != nil {
		return nil, err
	}
	m := rules.NewCrew(t.start())
	for _, e := range entries {
		m.Apply(e)
	}
	return m, nil
}

// start are the settings of a crew that set nothing.
func (t *Tx) start() *rules.Settings {
	s := rules.DefaultSettings()
	s.Table = t.db.table
	return s
}

// entries are lines as the model takes them, in their order.
func (t *Tx) entries(where string, args ...any) ([]rules.Entry, error) {
	lines, err := t.lines(where, args...)
	if err != nil {
		return nil, err
	}
	entries := make([]rules.Entry, len(lines))
	for i, l := range lines {
		entries[i] = l.Entry
	}
	slices.SortFunc(entries, func(a, b rules.Entry) int { return cmp.Compare(a.ID, b.ID) })
	return entries, nil
}

// settingsInFile, openInFile (of those that close from a time on) and namesInFile are parts
// of a crew's model that is not at hand, as they come out of its lines and its rows of tasks.
func (t *Tx) settingsInFile(crew int64) (*rules.Settings, error) {
	entries, err := t.entries(`e.crew_id = 0 + ? AND e.subject_kind IN ('', 'member')`, crew)
	if err != nil {
		return nil, err
	}
	off := slices.DeleteFunc(slices.Clone(entries), func(e rules.Entry) bool { return e.Subject.Zero() })
	whole := slices.DeleteFunc(entries, func(e rules.Entry) bool { return !e.Subject.Zero() })
	s := rules.SettingsOf(t.start(), whole)
	s.Leaves = rules.LeavesOf(off)
	return s, nil
}

func (t *Tx) openInFile(crew int64, closing time.Time) ([]rules.Task, error) {
	list, err := all(t, scanTask, `SELECT `+taskColumns+` FROM tasks WHERE crew_id = 0 + ? AND state = 'open' AND latest >= ?`, crew, toMS(closing))
	slices.SortFunc(list, func(a, b rules.Task) int { return cmp.Or(a.Best.Compare(b.Best), cmp.Compare(a.Key, b.Key)) })
	return list, err
}

// namesInFile folds the lines that add builders and yards alone, with those that take that
// back or change it, which have the same step: whether there is one hangs on no others.
func (t *Tx) namesInFile(crew int64) (*rules.Crew, error) {
	entries, err := t.entries(`e.crew_id = 0 + ? AND e.subject_kind IN ('builder', 'yard') AND e.step = 'add'`, crew)
	if err != nil {
		return nil, err
	}
	return rules.Fold(t.start(), entries), nil
}

func (t *Tx) use(crew int64, m ofTx) {
	if t.models == nil {
		t.models = map[int64]ofTx{}
	}
	t.models[crew] = m
}

// ownModel is a copy of a crew's model, which others see once the transaction is committed.
func (t *Tx) ownModel(crew int64) (*rules.Crew, error) {
	m, err := t.Model(crew)
	if err != nil || t.models[crew].own {
		return m, err
	}
	m = m.Clone()
	t.use(crew, ofTx{m, true})
	return m, nil
}

// refold reads a crew's model anew, after its lines were written past it: every line names
// who wrote it.
func (t *Tx) refold(crew int64) (*rules.Crew, error) {
	m, err := t.fold(crew)
	if err == nil {
		t.use(crew, ofTx{m, true})
	}
	return m, err
}

// publish lets others see what the transaction made of the models.
func (t *Tx) publish() {
	for crew, m := range t.models {
		if m.own {
			t.db.models.put(crew, m.model)
		}
	}
}

// sameFile forgets the models where another program wrote the file since.
func (t *Tx) sameFile() error {
	var version int64
	if _, err := t.one(`PRAGMA data_version`, nil, &version); err != nil {
		return err
	}
	if w := t.db.w; version != w.version || w.conn != w.counts {
		t.db.models.clear()
		w.version, w.counts = version, w.conn
	}
	return nil
}

// Replan brings the rows of tasks and their queued pings in line with the model.
func (t *Tx) Replan(crew int64) error {
	m, err := t.ownModel(crew)
	if err != nil {
		return err
	}
	planned, all := m.Settle()
	for _, p := range planned {
		if err := t.putTasks(crew, m, p, all); err != nil {
			return err
		}
	}
	if all {
		return t.EnsureDigest(crew)
	}
	return nil
}

// replanAll does so for every subject of a crew, folded anew.
func (t *Tx) replanAll(crew int64) error {
	m, err := t.unsettled(crew)
	if err != nil {
		return err
	}
	m.TouchAll()
	t.use(crew, ofTx{m, true})
	return t.Replan(crew)
}

// CheckModels compares every model in memory with one folded anew from the file, and its
// tasks with their rows. It is for tests: they must never differ.
func (d *DB) CheckModels(ctx context.Context, now time.Time) error {
	return d.Update(ctx, now, (*Tx).checkModels)
}

func (t *Tx) checkModels() error {
	for crew, at := range t.db.models.crews {
		had := at.Value.(keptModel).model
		now, err := t.fold(crew)
		if err != nil {
			return err
		}
		if a, b := had.Describe(), now.Describe(); a != b {
			return fmt.Errorf("crew %d: in memory is\n%s\nfolded anew it is\n%s", crew, a, b)
		}
		rows, err := t.tasks(`crew_id = 0 + ?`, crew)
		if err != nil {
			return err
		}
		if err := t.checkInFile(crew, now); err != nil {
			return err
		}
		if tasks := now.AllTasks(); len(rows) != len(tasks) || len(rows) > 0 && !reflect.DeepEqual(rows, tasks) {
			return fmt.Errorf("crew %d: tasks are\n%+v\ntheir rows are\n%+v", crew, tasks, rows)
		}
	}
	return nil
}

// checkInFile compares what is read of a crew that is not at hand with its model.
func (t *Tx) checkInFile(crew int64, m *rules.Crew) error {
	s, err := t.settingsInFile(crew)
	if err != nil {
		return err
	}
	open, err := t.openInFile(crew, time.Time{})
	if err != nil {
		return err
	}
	part, err := t.namesInFile(crew)
	if err != nil {
		return err
	}
	builders, yards := namesOf(m)
	b, y := namesOf(part)
	is, was := *s, *m.Settings()
	temps, before := fmt.Sprint(is.Incubator), fmt.Sprint(was.Incubator) // one that is off is no number, and equal to none
	is.Incubator, was.Incubator = nil, nil
	for _, pair := range [][2]any{{is, was}, {temps, before}, {open, m.Open()}, {b, builders}, {y, yards}} {
		if !reflect.DeepEqual(pair[0], pair[1]) {
			return fmt.Errorf("crew %d: the file has\n%+v\nfolded anew it is\n%+v", crew, pair[0], pair[1])
		}
	}
	return nil
}
