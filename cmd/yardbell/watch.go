package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"strings"
	"sync"
	"syscall"
	"time"

	"github.com/prometheus/client_golang/prometheus/promhttp"
	"github.com/spf13/cobra"
	"golang.org/x/sync/errgroup"

	"yardbell/store"
)

// watchFlags say who watches over a service, and how.
type watchFlags struct {
	at        string
	open      bool
	heartbeat time.Duration
	asked     bool // whether --heartbeat was given
}

// heartbeatDefault is longer than most faults of a network last, and short beside the
// two hours of a closing ping.
const heartbeatDefault = 15 * time.Minute

func (f *watchFlags) register(c *cobra.Command) {
	c.Flags().StringVar(&f.at, "watch", "", "answer /healthz, /readyz and /metrics on this loopback address, e.g. 127.0.0.1:8089")
	c.Flags().BoolVar(&f.open, "watch-open", false, "let --watch listen elsewhere than on loopback; whoever reaches it reads the figures")
	c.Flags().DurationVar(&f.heartbeat, "heartbeat", heartbeatDefault, "end with status 1 after so long without a tick or a word of the chat read and saved, to be started again; 0 for never")
}

// fault finds what is wrong with the flags.
func (f *watchFlags) fault() error {
	if f.heartbeat != 0 && f.heartbeat < leastHeartbeat {
		return usage("--heartbeat takes %s or more, since a tick may take four minutes, or 0 for never; not %s", inShort(leastHeartbeat), f.heartbeat)
	}
	if f.at == "" {
		if f.open {
			return usage("--watch-open needs --watch ADDRESS")
		}
		return nil
	}
	return listenFault("watch", f.at, "127.0.0.1:8089", f.open)
}

// listenFault finds what is wrong with an address to listen on. Elsewhere than on
// loopback everybody reaches it, which has to be asked for with a flag of its own.
func listenFault(flag, at, like string, open bool) error {
	host, _, err := net.SplitHostPort(at)
	if err != nil {
		return usage("--%s takes an address, e.g. %s, not %q", flag, like, at)
	}
	if !open && !loopback(host) {
		return usage("--%s listens on loopback alone, e.g. %s, not %q; --%s-open lets it listen elsewhere", flag, like, at, flag)
	}
	return nil
}

// loopback reports whether a host is this machine and nothing else.
func loopback(host string) bool {
	ip := net.ParseIP(host)
	return host == "localhost" || ip != nil && ip.IsLoopback()
}

// inShort writes a duration without the parts that are nothing.
func inShort(d time.Duration) string { return strings.TrimSuffix(d.String(), "0s") }

// freshFor is how long each part may be silent before the service is not ready. A tick
// comes every 20 seconds and may wait for a slow chat; a poll takes 50 seconds.
var freshFor = [heartbeatKinds]time.Duration{ticked: 2 * time.Minute, reached: 5 * time.Minute}

// probeEvery is how long the answer of the disk is taken for true, so that asking often
// writes seldom.
const probeEvery = 15 * time.Second

// readiness answers /readyz.
type readiness struct {
	heartbeats *heartbeats
	db         *store.DB
	clock      func() time.Time

	mu     sync.Mutex
	probed time.Time
	found  error
}

// look says how each part is, one line each, and whether all are well.
func (r *readiness) look(ctx context.Context) (lines []string, ready bool) {
	now := r.clock()
	ready = true
	say := func(part, fault string) {
		if fault == "" {
			lines = append(lines, part+": ok")
			return
		}
		ready = false
		lines = append(lines, part+": "+fault)
	}
	if err := r.writable(ctx, now); err != nil {
		say("database", "cannot be written")
	} else {
		say("database", "")
	}
	for s := range heartbeatKinds {
		last, n := r.heartbeats.of(s)
		fault := ""
		if silent := now.Sub(last); n == 0 {
			fault = "nothing yet" // a service that was started is not yet one that works
		} else if silent > freshFor[s] {
			fault = "nothing for " + silent.Round(time.Second).String()
		}
		say(s.String(), fault)
	}
	return lines, ready
}

func (r *readiness) writable(ctx context.Context, now time.Time) error {
	r.mu.Lock()
	defer r.mu.Unlock()
	if since := now.Sub(r.probed); !r.probed.IsZero() && since >= 0 && since < probeEvery {
		return r.found
	}
	ctx, cancel := context.WithTimeout(ctx, scrapeLimit)
	defer cancel()
	r.found, r.probed = r.db.Probe(ctx, now), now
	return r.found
}

// watched answers those who watch over the service: that the process lives, whether it
// does its work, and figures. It is a listener of its own, so that the one for calendars
// can be let out to the world and has none of it.
func watched(r *readiness, m *meter) http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /healthz", func(w http.ResponseWriter, _ *http.Request) { _, _ = fmt.Fprintln(w, "ok") })
	mux.HandleFunc("GET /readyz", func(w http.ResponseWriter, q *http.Request) {
		lines, ready := r.look(q.Context())
		w.Header().Set("Content-Type", "text/plain; charset=utf-8")
		if !ready {
			w.WriteHeader(http.StatusServiceUnavailable)
		}
		_, _ = fmt.Fprintln(w, strings.Join(lines, "\n"))
	})
	mux.Handle("GET /metrics", promhttp.HandlerFor(m.reg, promhttp.HandlerOpts{MaxRequestsInFlight: 2, Timeout: 2 * scrapeLimit}))
	return mux
}

// listen opens the address that a flag names.
func listen(flag, example, at string) (net.Listener, error) {
	l, err := net.Listen("tcp", at)
	if err == nil {
		return l, nil
	}
	why := "this machine has no such address"
	var lost *net.AddrError
	var port *net.DNSError
	switch {
	case errors.As(err, &lost), errors.As(err, &port):
		why = "that is no address and port"
	case errors.Is(err, syscall.EADDRINUSE):
		why = "another program listens there"
	case errors.Is(err, syscall.EACCES):
		why = "this user may not, ports below 1024 are kept for root"
	}
	return nil, usage("%s cannot listen on %q: %s; it takes ADDRESS:PORT, e.g. %s", flag, at, why, example)
}

// serveHTTP answers on a listener until ctx ends. Who is slow, or sends without end, is
// cut off.
func serveHTTP(ctx context.Context, g *errgroup.Group, l net.Listener, h http.Handler) {
	srv := &http.Server{Handler: h, ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 10 * time.Second, WriteTimeout: 30 * time.Second,
		IdleTimeout: time.Minute, MaxHeaderBytes: 16 << 10}
	g.Go(func() error {
		if err := srv.Serve(l); !errors.Is(err, http.ErrServerClosed) {
			return err
		}
		return nil
	})
	g.Go(func() error {
		<-ctx.Done()
		return srv.Close()
	})
}
