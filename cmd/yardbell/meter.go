package main

import (
	"context"
	"errors"
	"log/slog"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"

	"yardbell/bot"
	"yardbell/bot/telegram"
	"yardbell/scheduler"
	"yardbell/store"
)

// meter counts what a service does. Its labels are words of ours alone: no name, no text
// and no number of a chat is among them.
type meter struct {
	reg      *prometheus.Registry
	updates  *prometheus.CounterVec
	handling prometheus.Histogram
	withheld prometheus.Counter
	messages *prometheus.CounterVec
	sending  prometheus.Histogram
	delay    prometheus.Histogram
	ticks    prometheus.Counter
	lines    *prometheus.CounterVec
}

func newMeter(p *heartbeats) *meter {
	m := &meter{
		reg: prometheus.NewRegistry(),
		updates: prometheus.NewCounterVec(prometheus.CounterOpts{Name: "yardbell_updates_total",
			Help: "Updates of the chat, by kind: message, edit, press, other (not for the bot), unread (set aside), failed (read again)."}, []string{"kind"}),
		handling: prometheus.NewHistogram(prometheus.HistogramOpts{Name: "yardbell_update_duration_seconds",
			Help: "How long an update took from reading to commit; those saved together took the same.", Buckets: prometheus.ExponentialBuckets(0.001, 4, 8)}),
		withheld: prometheus.NewCounter(prometheus.CounterOpts{Name: "yardbell_answers_withheld_total",
			Help: "Answers not given because somebody wrote too much at once."}),
		messages: prometheus.NewCounterVec(prometheus.CounterOpts{Name: "yardbell_messages_total",
			Help: "Messages to the chat, by kind (reply, ask, error, ping, digest, aside) and outcome (sent, again, held, refused)."}, []string{"kind", "outcome"}),
		sending: prometheus.NewHistogram(prometheus.HistogramOpts{Name: "yardbell_send_duration_seconds",
			Help: "How long sending one message took, its turn under the chat's limits included.", Buckets: prometheus.ExponentialBuckets(0.01, 3, 8)}),
		delay: prometheus.NewHistogram(prometheus.HistogramOpts{Name: "yardbell_ping_delay_seconds",
			Help: "How long after its time a ping reached the chat.", Buckets: []float64{5, 30, 60, 120, 300, 900, 3600, 6 * 3600, 24 * 3600}}),
		ticks: prometheus.NewCounter(prometheus.CounterOpts{Name: "yardbell_ticks_total", Help: "Ticks that ended well."}),
		lines: prometheus.NewCounterVec(prometheus.CounterOpts{Name: "yardbell_log_lines_total", Help: "Lines of the service's own log, by level."}, []string{"level"}),
	}
	for _, k := range []string{"message", "edit", "press", "other", "unread", "failed"} {
		m.updates.WithLabelValues(k)
	}
	for _, l := range []string{"warn", "error"} {
		m.lines.WithLabelValues(l)
	}
	m.reg.MustRegister(m.updates, m.handling, m.withheld, m.messages, m.sending, m.delay, m.ticks, m.lines,
		collectors.NewGoCollector(), collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))
	for s, name := range map[heartbeat]string{ticked: "yardbell_last_tick_timestamp_seconds", reached: "yardbell_last_contact_timestamp_seconds"} {
		help := map[heartbeat]string{ticked: "When the last tick ended well; 0 for none yet.", reached: "When the chat was last read; 0 for not yet."}[s]
		m.reg.MustRegister(prometheus.NewGaugeFunc(prometheus.GaugeOpts{Name: name, Help: help}, func() float64 {
			last, n := p.of(s)
			if n == 0 {
				return 0 // what stands there is the start of the service
			}
			return seconds(last)
		}))
	}
	return m
}

// seconds of an instant since 1970; 0 for none.
func seconds(t time.Time) float64 {
	if t.IsZero() {
		return 0
	}
	return float64(t.UnixMilli()) / 1000
}

// logged counts a line of the log.
func (m *meter) logged(l slog.Level) {
	switch {
	case l >= slog.LevelError:
		m.lines.WithLabelValues("error").Inc()
	case l >= slog.LevelWarn:
		m.lines.WithLabelValues("warn").Inc()
	}
}

// around counts what passes between the parts.
func (m *meter) around(s hooks, clock func() time.Time) hooks {
	return hooks{meteredHandler{s.in, m, clock}, meteredSender{s.to, m, clock}}
}

type meteredHandler struct {
	telegram.Handler
	m     *meter
	clock func() time.Time
}

func (h meteredHandler) Handle(ctx context.Context, now time.Time, in bot.Incoming) error {
	err := h.Handler.Handle(ctx, now, in)
	h.m.handling.Observe(h.clock().Sub(now).Seconds())
	kind := in.Kind
	if err != nil {
		kind = "failed"
	}
	h.m.updates.WithLabelValues(kind).Inc()
	return err
}

func (h meteredHandler) Pass(ctx context.Context, now time.Time, source string, id int64, raw string) error {
	err := h.Handler.Pass(ctx, now, source, id, raw)
	switch {
	case err != nil:
		h.m.updates.WithLabelValues("failed").Inc()
	case raw != "":
		h.m.updates.WithLabelValues("unread").Inc()
	default:
		h.m.updates.WithLabelValues("other").Inc()
	}
	return err
}

type meteredSender struct {
	scheduler.Sender
	m     *meter
	clock func() time.Time
}

func (s meteredSender) Send(ctx context.Context, out store.Outgoing) (store.Receipt, error) {
	began := s.clock()
	r, err := s.Sender.Send(ctx, out)
	now := s.clock()
	s.m.sending.Observe(now.Sub(began).Seconds())
	first := out.Messages[0]
	kind := first.Kind
	if first.Aside() {
		kind = "aside"
	}
	outcome := "sent"
	var se *scheduler.SendError
	switch {
	case err == nil:
		if first.Ping != "" && first.Edits == 0 {
			for _, m := range out.Messages {
				s.m.delay.Observe(max(0, now.Sub(m.Fire).Seconds()))
			}
		}
	case errors.As(err, &se) && se.Final:
		outcome = "refused"
	case errors.As(err, &se) && se.Held:
		outcome = "held"
	default:
		outcome = "again"
	}
	s.m.messages.WithLabelValues(kind, outcome).Inc()
	return r, err
}

// stock tells how the database stands at every scrape. One waits for the other, so that
// scraping costs no more than one reader of the database.
type stock struct {
	db      *store.DB
	clock   func() time.Time
	backups string // their folder, "" for none
	log     *slog.Logger

	crews, lines, open, waiting, oldest, parked, late, size, backup, up *prometheus.Desc
}

func newStock(db *store.DB, clock func() time.Time, backups string, log *slog.Logger) *stock {
	d := func(name, help string) *prometheus.Desc { return prometheus.NewDesc("yardbell_"+name, help, nil, nil) }
	return &stock{db: db, clock: clock, backups: backups, log: log,
		crews: d("crews", "Groups that were claimed."), lines: d("logbook_lines", "Lines of the logbook."), open: d("open_tasks", "Tasks that are open."),
		waiting: d("outbox_waiting_messages", "Messages that are due and not sent yet."),
		oldest:  d("outbox_oldest_age_seconds", "How long the oldest message that waits has been due."),
		parked:  d("outbox_parked_messages", "Messages that the chat refused for good, or that were given up."),
		late:    d("late_messages_day", "Messages sent late in the last 24 hours."),
		size:    d("database_size_bytes", "The database on the disk."),
		backup:  d("last_backup_timestamp_seconds", "When the newest backup was made; 0 for none."),
		up:      d("database_up", "1 where the database could be read."),
	}
}

// Describe names nothing, so that a figure that cannot be had is left out.
func (s *stock) Describe(chan<- *prometheus.Desc) {}

// scrapeLimit is how long the database may take to answer a scrape.
const scrapeLimit = 3 * time.Second

func (s *stock) Collect(out chan<- prometheus.Metric) {
	gauge := func(d *prometheus.Desc, v float64) {
		out <- prometheus.MustNewConstMetric(d, prometheus.GaugeValue, v)
	}
	now := s.clock()
	ctx, cancel := context.WithTimeout(context.Background(), scrapeLimit)
	defer cancel()
	err := s.db.View(ctx, now, func(tx *store.Tx) error {
		crews, err := tx.Crews()
		if err != nil {
			return err
		}
		lines, err := tx.CountLines(0)
		if err != nil {
			return err
		}
		open, err := tx.CountOpen()
		if err != nil {
			return err
		}
		t, err := tx.Traffic(0, now.Add(-24*time.Hour))
		if err != nil {
			return err
		}
		age := 0.0
		if !t.Oldest.IsZero() {
			age = max(0, now.Sub(t.Oldest).Seconds())
		}
		gauge(s.crews, float64(len(crews)))
		gauge(s.lines, float64(lines))
		gauge(s.open, float64(open))
		gauge(s.waiting, float64(t.Waiting))
		gauge(s.oldest, age)
		gauge(s.parked, float64(t.Parked))
		gauge(s.late, float64(t.Late))
		return nil
	})
	if err != nil {
		s.log.Warn("the database could not be read for the metrics", "err", err)
		gauge(s.up, 0)
		return
	}
	gauge(s.up, 1)
	if n, err := s.db.Size(); err == nil {
		gauge(s.size, float64(n))
	}
	if s.backups != "" {
		if last, err := lastBackup(ctx, s.db, s.backups); err == nil {
			gauge(s.backup, seconds(last))
		}
	}
}

// lastBackup is when the newest backup in a folder was made, zero for none.
func lastBackup(ctx context.Context, db *store.DB, dir string) (time.Time, error) {
	last, _, err := db.LastBackup(ctx, dir, endOfTime)
	return last.Made, err
}

// endOfTime is after every time that a backup can have in its name.
var endOfTime = time.Date(10000, 1, 1, 0, 0, 0, 0, time.UTC)
