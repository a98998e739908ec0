package board

import (
	"cmp"
	"context"
	"errors"
	"log"
	"net"
	"net/http"
	"sync"
	"sync/atomic"
	"time"

	"potlife/cmd/potlife/internal/report"
	"potlife/schedule/session"
)

// Config is what a board shows and where.
type Config struct {
	Folder string // of the session
	Token  string // first folder of the address; empty: loopback only
	Host   string // host and port that is listened on; used where there is no token

	Now  func() time.Time
	Look func(now time.Time) (*report.Check, error)
	// Curve draws the bath of the day as SVG. Nil: nothing is shown.
	Curve func(now time.Time) ([]byte, error)
	// Renew asks, after a tap that was logged, whether the plan in force still holds, and logs
	// another where it does not. Nil: no plan is checked.
	Renew func(session.Event)

	// HeaderTimeout is how long a client may take for its header, and half of what it may
	// take for all of its request; none: [headerTimeout].
	HeaderTimeout time.Duration
	// Connections are the most that may be open at once; none: [mostConnections].
	Connections int
}

// A Board serves one session.
type Board struct {
	cfg     Config
	setting session.Setting
	pages   *pages

	taps    sync.Mutex // one tap after another
	session *session.Session
	settled map[session.Kind]time.Time
	refused *outcomes

	looks  sync.Mutex // one look after another
	state  atomic.Pointer[state]
	kick   chan time.Time
	hub    *hub
	slow   slowly
	crowd  *crowd
	closed chan struct{}
	once   sync.Once
}

// New opens the session of a board. Close it when it is not served any more.
func New(cfg Config) (*Board, error) {
	s, err := session.OpenFolder(cfg.Folder)
	if err != nil {
		return nil, err
	}
	setting, err := s.Setting()
	if err != nil {
		_ = s.Close()
		return nil, err
	}
	b := &Board{
		cfg: cfg, setting: setting, pages: newPages(), session: s,
		settled: map[session.Kind]time.Time{}, refused: newOutcomes(),
		kick: make(chan time.Time, 1), hub: newHub(), crowd: newCrowd(cmp.Or(cfg.Connections, mostConnections)), closed: make(chan struct{}),
	}
	if _, err := b.look(); err != nil {
		_ = s.Close()
		return nil, err
	}
	return b, nil
}

// Close tells the streams that it is over and closes the journal.
func (b *Board) Close() error {
	b.end()
	b.taps.Lock()
	defer b.taps.Unlock()
	return b.session.Close()
}

// end lets the streams return.
func (b *Board) end() { b.once.Do(func() { close(b.closed) }) }

const (
	headerTimeout = 5 * time.Second
	idleTimeout   = 20 * time.Second // a page without JavaScript comes again within it
	stopTimeout   = 5 * time.Second
	longestHeader = 16 << 10
)

// Serve serves the board until ctx ends; then streams are told, requests finished.
func (b *Board) Serve(ctx context.Context, listener net.Listener) error {
	header := cmp.Or(b.cfg.HeaderTimeout, headerTimeout)
	server := &http.Server{
		Handler: b.Handler(), ReadHeaderTimeout: header, ReadTimeout: 2 * header, IdleTimeout: idleTimeout,
		MaxHeaderBytes: longestHeader, ConnState: b.crowd.changed, ConnContext: withConnection,
		// What strangers send in vain is no news for the crew's terminal.
		ErrorLog: log.New(discard{}, "", 0),
	}
	running, stop := context.WithCancel(ctx)
	defer stop()
	var wait sync.WaitGroup
	wait.Go(func() { b.keepLooking(running) })
	wait.Go(func() { b.keepTelling(running) })
	failed := make(chan error, 1)
	wait.Go(func() { failed <- server.Serve(listener) })
	var err error
	select {
	case err = <-failed:
	case <-ctx.Done():
		b.end()
		patience, done := context.WithTimeout(context.Background(), stopTimeout)
		defer done()
		if server.Shutdown(patience) != nil {
			_ = server.Close() // whoever still sends has had its time
		}
		err = <-failed
	}
	stop()
	wait.Wait()
	if errors.Is(err, http.ErrServerClosed) {
		return nil
	}
	return err
}

type discard struct{}

func (discard) Write(p []byte) (int, error) { return len(p), nil }
