package board_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"potlife/cmd/potlife/internal/board"
	"potlife/cmd/potlife/internal/report"
	"potlife/schedule"
	"potlife/schedule/session"
	"potlife/schedule/session/advice"
	"potlife/schedule/session/replay"
)

var nine = time.Date(2026, 11, 28, 9, 0, 0, 0, time.UTC)

// newFolder starts a session of the strut at nine.
func newFolder(t testing.TB) string {
	t.Helper()
	source, err := os.ReadFile(filepath.Join("..", "..", "..", "..", "testdata", "jobs", "telescope-strut.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "strut.yaml")
	source = bytes.Replace(source, []byte("zone: local"), []byte("zone: UTC"), 1)
	if err := os.WriteFile(path, source, 0o644); err != nil {
		t.Fatal(err)
	}
	job, err := schedule.LoadJob(path)
	if err != nil {
		t.Fatal(err)
	}
	winding, err := schedule.Prepare(job)
	if err != nil {
		t.Fatal(err)
	}
	s, _, err := session.Start(job, session.Copies{Resin: winding.Record.Source}, nine, nine)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	return s.Folder
}

// look works out a true answer.
func look(folder string) func(time.Time) (*report.Check, error) {
	return func(now time.Time) (*report.Check, error) {
		s, err := session.OpenFolder(folder)
		if err != nil {
			return nil, err
		}
		defer s.Close()
		journal, err := replay.Read(s)
		if err != nil {
			return nil, err
		}
		script, err := journal.AsOf(now, false, now, 0)
		if err != nil {
			return nil, err
		}
		played, err := script.Play()
		if err != nil {
			return nil, err
		}
		answer, err := advice.Now(played)
		if err != nil {
			return nil, err
		}
		return report.NewCheck(folder, played, answer, 0, now, nil), nil
	}
}

// A shop is a board that is served, with a clock that goes when it is told to.
type shop struct {
	t       testing.TB
	folder  string
	address string
	token   string
	client  *http.Client

	mutex sync.Mutex
	now   time.Time
}

func (s *shop) clock() time.Time {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	return s.now
}

func (s *shop) pass(d time.Duration) time.Time {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	s.now = s.now.Add(d)
	return s.now
}

// newShop serves a session from nine on. change may change its settings.
func newShop(t testing.TB, change func(*board.Config)) *shop {
	t.Helper()
	s := &shop{t: t, folder: newFolder(t), now: nine.Add(time.Minute)}
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	cfg := board.Config{Folder: s.folder, Host: listener.Addr().String(), Now: s.clock, Look: look(s.folder)}
	if change != nil {
		change(&cfg)
	}
	s.address, s.token = "http://"+cfg.Host+"/", cfg.Token
	if cfg.Token != "" {
		s.address += cfg.Token + "/"
	}
	b, err := board.New(cfg)
	if err != nil {
		t.Fatal(err)
	}
	transport := &http.Transport{MaxConnsPerHost: 0}
	s.client = &http.Client{Transport: transport, CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- b.Serve(ctx, listener) }()
	t.Cleanup(func() {
		transport.CloseIdleConnections()
		stop()
		if err := <-ended; err != nil {
			t.Error(err)
		}
		if err := b.Close(); err != nil {
			t.Error(err)
		}
	})
	return s
}

// An answer of the server.
type answer struct {
	status   int
	text     string
	header   http.Header
	location string
}

func (s *shop) send(r *http.Request) answer {
	s.t.Helper()
	response, err := s.client.Do(r)
	if err != nil {
		s.t.Fatal(err)
	}
	defer response.Body.Close()
	text, err := io.ReadAll(response.Body)
	if err != nil {
		s.t.Fatal(err)
	}
	return answer{response.StatusCode, string(text), response.Header, response.Header.Get("Location")}
}

func (s *shop) get(path string) answer {
	s.t.Helper()
	r, err := http.NewRequest(http.MethodGet, s.address+path, nil)
	if err != nil {
		s.t.Fatal(err)
	}
	return s.send(r)
}

func (s *shop) request(form url.Values, headers ...string) *http.Request {
	s.t.Helper()
	r, err := http.NewRequest(http.MethodPost, s.address+"tap", strings.NewReader(form.Encode()))
	if err != nil {
		s.t.Fatal(err)
	}
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	for i := 0; i < len(headers); i += 2 {
		r.Header.Set(headers[i], headers[i+1])
	}
	return r
}

// outcome is what a page with JavaScript is told of a tap.
type outcome struct {
	Logged bool
	Known  bool
	Seq    int
	Text   string
	At     string
}

// tap sends a form as a page with JavaScript does.
func (s *shop) tap(form url.Values) (int, outcome) {
	s.t.Helper()
	a := s.send(s.request(form, "Accept", "application/json"))
	var o outcome
	if err := json.Unmarshal([]byte(a.text), &o); err != nil {
		s.t.Fatalf("%d, %s: %v", a.status, a.text, err)
	}
	return a.status, o
}

// form is one of a fresh page: pairs of fields beside the key and what was done.
func form(key int, do string, fields ...string) url.Values {
	f := url.Values{"key": {fmt.Sprintf("%032x", key)}, "do": {do}, "seen": {"1000000"}}
	for i := 0; i < len(fields); i += 2 {
		f.Set(fields[i], fields[i+1])
	}
	return f
}

// events are those in the journal.
func (s *shop) events() []session.Event {
	s.t.Helper()
	opened, err := session.OpenFolder(s.folder)
	if err != nil {
		s.t.Fatal(err)
	}
	defer opened.Close()
	all, err := opened.Events()
	if err != nil {
		s.t.Fatal(err)
	}
	return all
}

// damage changes a letter in the first line of a journal and lets the file grow.
func damage(folder string) error {
	path := filepath.Join(folder, session.Name)
	text, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	text[20] ^= 1
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_TRUNC, 0)
	if err != nil {
		return err
	}
	defer f.Close()
	_, err = f.Write(append(text, "x"...))
	return err
}
