package board_test

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"potlife/cmd/potlife/internal/board"
	"potlife/cmd/potlife/internal/report"
	"potlife/kinetics/testrun"
)

// A screen is an event stream and the last event that it has seen.
type screen struct {
	seq    atomic.Int64
	frames atomic.Int64
	body   io.ReadCloser
	ended  chan struct{}
}

func (s *shop) screen(client *http.Client) (*screen, error) {
	r, err := client.Get(s.address + "stream")
	if err != nil {
		return nil, err
	}
	if r.StatusCode != http.StatusOK {
		return nil, fmt.Errorf("status %s", r.Status)
	}
	c := &screen{body: r.Body, ended: make(chan struct{})}
	go func() {
		defer close(c.ended)
		lines := bufio.NewScanner(r.Body)
		lines.Buffer(nil, 1<<20)
		for lines.Scan() {
			data, found := strings.CutPrefix(lines.Text(), `data: {"seq":`)
			if !found {
				continue
			}
			var seq int64
			if _, err := fmt.Sscanf(data, "%d,", &seq); err == nil {
				c.seq.Store(seq)
				c.frames.Add(1)
			}
		}
	}()
	return c, nil
}

// heap is what lives after everything dead was collected, in bytes.
func heap() uint64 {
	runtime.GC()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// TestLoad: with 200 streams open, thousands of taps from eight clients at once are each
// logged once, every stream comes to the last, the heap grows by what the journal holds and
// no more, and when all is closed no goroutine is left. The answer is not worked out here:
// it is that of an empty bath, since thousands of readings of one bath are no day's work.
func TestLoad(t *testing.T) {
	posts := testrun.Count(300, 2000)
	const screens, clients = 200, 8
	before := runtime.NumGoroutine()
	t.Run("shop", func(t *testing.T) {
		var once sync.Once
		var first *report.Check
		clock := &shop{now: nine}
		s := newShop(t, func(c *board.Config) {
			look := c.Look
			// Between two looks at the clock more time passes than a tap needs to settle.
			c.Now = func() time.Time { return clock.pass(3 * time.Second) }
			c.Look = func(now time.Time) (*report.Check, error) {
				var err error
				once.Do(func() { first, err = look(now) })
				return first, err
			}
		})
		transport := &http.Transport{}
		defer transport.CloseIdleConnections()
		watching := &http.Client{Transport: transport}
		var open []*screen
		for range screens {
			c, err := s.screen(watching)
			if err != nil {
				t.Fatal(err)
			}
			open = append(open, c)
		}
		opened := heap()
		var next atomic.Int64
		var wait sync.WaitGroup
		for range clients {
			wait.Go(func() {
				for n := int(next.Add(1)); n <= posts; n = int(next.Add(1)) {
					if err := s.post(n); err != nil {
						t.Errorf("tap %d: %v", n, err)
						return
					}
				}
			})
		}
		wait.Wait()
		if n := len(s.events()); n != posts+1 {
			t.Fatalf("%d events, want %d: one a tap", n, posts+1)
		}
		for _, c := range open {
			for c.seq.Load() != int64(posts)+1 {
				select {
				case <-c.ended:
					t.Fatalf("a stream ended at event %d", c.seq.Load())
				case <-time.After(20 * time.Millisecond):
				}
			}
		}
		// An event lives about ten times: as a line, decoded, in what was read before. 1 kB for
		// each of these is some five times an event; 20 MB is what buffers of 200 streams take.
		if grown, most := int64(heap())-int64(opened), int64(posts)*10_000+20_000_000; grown > most {
			t.Errorf("the heap has grown by %d kB for %d events, want %d kB at most", grown/1000, posts, most/1000)
		}
		for _, c := range open {
			_ = c.body.Close()
			<-c.ended
		}
	})
	for range 200 {
		if runtime.NumGoroutine() <= before {
			break
		}
		time.Sleep(20 * time.Millisecond) // connections end by themselves
	}
	if after := runtime.NumGoroutine(); after > before {
		stacks := make([]byte, 1<<16)
		t.Errorf("%d goroutines before, %d after:\n%s", before, after, stacks[:runtime.Stack(stacks, true)])
	}
}

// post taps a pot that was mixed.
func (s *shop) post(n int) error {
	r := s.request(form(n, "mixed", "grams", fmt.Sprint(100+n%100)), "Accept", "application/json")
	response, err := s.client.Do(r)
	if err != nil {
		return err
	}
	defer response.Body.Close()
	var o outcome
	if err := json.NewDecoder(response.Body).Decode(&o); err != nil {
		return err
	}
	if !o.Logged {
		return errors.New(o.Text)
	}
	return nil
}

// TestStreamsEnd: when the board stops, streams are told so and end.
func TestStreamsEnd(t *testing.T) {
	var c *screen
	var told atomic.Bool
	t.Run("shop", func(t *testing.T) {
		s := newShop(t, nil)
		var err error
		if c, err = s.screen(http.DefaultClient); err != nil {
			t.Fatal(err)
		}
		r, err := http.Get(s.address + "stream")
		if err != nil {
			t.Fatal(err)
		}
		go func() {
			text, _ := io.ReadAll(r.Body)
			told.Store(strings.Contains(string(text), "event: bye\n"))
			_ = r.Body.Close()
			_ = c.body.Close()
		}()
		for c.frames.Load() == 0 {
			time.Sleep(time.Millisecond)
		}
	})
	<-c.ended
	for range 200 {
		if told.Load() {
			return
		}
		time.Sleep(10 * time.Millisecond)
	}
	t.Error("the streams were not told that the board stops")
}

// TestTooManyScreens: more streams than a workshop has screens are refused.
func TestTooManyScreens(t *testing.T) {
	s := newShop(t, nil)
	refused := false
	for range 300 {
		r, err := s.client.Get(s.address + "stream")
		if err != nil {
			t.Fatal(err)
		}
		defer r.Body.Close()
		if r.StatusCode == http.StatusServiceUnavailable {
			refused = true
			break
		}
	}
	if !refused {
		t.Error("300 streams are open and none was refused")
	}
}
