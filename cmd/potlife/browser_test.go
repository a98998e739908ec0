package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"potlife/cmd/potlife/internal/board"
	"potlife/cmd/potlife/internal/report"
	"potlife/kinetics/testrun"
)

// chromium is the browser's program. Without one a test is skipped, but fails where CI or
// POTLIFE_CI is set.
func chromium(t *testing.T) string {
	t.Helper()
	if !testrun.IsLong() {
		t.Skip("a browser takes minutes: " + testrun.Long + "=1 starts it")
	}
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	if os.Getenv("CI") != "" || os.Getenv("POTLIFE_CI") != "" {
		t.Fatal("no chromium here, and this run must have one")
	}
	t.Skip("no chromium here")
	return ""
}

// deed is what is done in a window.
type deed = chromedp.Action[chromedp.Void]

// A window is a tab of a browser, on a page of the board.
type window struct {
	t   *testing.T
	ctx context.Context
}

// longWait is far more than anything takes on a loaded machine; it only ends a test that
// hangs.
const longWait = 60 * time.Second

// newBrowser starts a browser for a test.
func newBrowser(t *testing.T) context.Context {
	t.Helper()
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(chromium(t)), chromedp.NoSandbox,
		chromedp.WSURLReadTimeout(longWait), chromedp.Flag("autoplay-policy", "no-user-gesture-required"))
	allocator, stop := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(stop)
	ctx, closeBrowser := chromedp.NewContext(allocator)
	t.Cleanup(closeBrowser)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	return ctx
}

// open opens a window of a size on an address.
func open(t *testing.T, browser context.Context, width, height int64, address string, before ...deed) *window {
	t.Helper()
	ctx, closeTab := chromedp.NewContext(browser)
	t.Cleanup(closeTab)
	if err := chromedp.Do(ctx); err != nil { // the first must not end with a timeout's context
		t.Fatal(err)
	}
	w := &window{t, ctx}
	w.do(chromedp.EmulateViewport(width, height))
	w.do(before...)
	w.do(chromedp.Navigate(address))
	return w
}

func (w *window) do(deeds ...deed) {
	w.t.Helper()
	ctx, stop := context.WithTimeout(w.ctx, longWait)
	defer stop()
	if err := chromedp.Do(ctx, deeds...); err != nil {
		w.fail(err)
	}
}

func (w *window) fail(err error) {
	w.t.Helper()
	text, _ := chromedp.Run(w.ctx, chromedp.Evaluate[string](`document.body.innerText`))
	w.picture("failed")
	w.t.Fatalf("%v; the page says:\n%s", err, text)
}

// js evaluates an expression in a window.
func js[T any](w *window, expression string) T {
	w.t.Helper()
	ctx, stop := context.WithTimeout(w.ctx, longWait)
	defer stop()
	value, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression))
	if err != nil {
		w.fail(fmt.Errorf("%s: %w", expression, err))
	}
	return value
}

// text is that of an element.
func (w *window) text(selector string) string {
	w.t.Helper()
	return js[string](w, `document.querySelector("`+selector+`").innerText`)
}

// until waits for an expression to be true.
func (w *window) until(expression string) {
	w.t.Helper()
	if !w.within(longWait, expression) {
		w.fail(fmt.Errorf("never true: %s", expression))
	}
}

// within reports whether an expression becomes true in that time.
func (w *window) within(wait time.Duration, expression string) bool {
	for end := time.Now().Add(wait); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		// While a page goes and the next one comes there is nothing to evaluate in.
		if found, err := chromedp.Run(w.ctx, chromedp.Evaluate[bool](expression)); err == nil && found {
			return true
		}
	}
	return false
}

// picture keeps what the window shows where POTLIFE_PICTURES names a folder, for eyes.
func (w *window) picture(name string) {
	folder := os.Getenv("POTLIFE_PICTURES")
	if folder == "" {
		return
	}
	if shot, err := chromedp.Run(w.ctx, chromedp.CaptureScreenshot()); err == nil {
		_ = os.WriteFile(filepath.Join(folder, name+".png"), shot, 0o644)
	}
}

// set fills a field as a finger on the keys would, without a tap.
func (w *window) set(id, value string) {
	w.t.Helper()
	js[bool](w, `(() => { const f = document.getElementById("`+id+`"); f.value = "`+value+`"; f.dispatchEvent(new Event("input", {bubbles: true})); return true; })()`)
}

// A served board runs in this process with a clock of its own.
type served struct {
	t       *testing.T
	Folder  string
	Address string

	mutex sync.Mutex
	now   time.Time
	stop  func()
}

func (s *served) clock() time.Time {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	return s.now
}

func (s *served) pass(d time.Duration) {
	s.mutex.Lock()
	defer s.mutex.Unlock()
	s.now = s.now.Add(d)
}

// serve serves the session of a folder from a moment on.
func serve(t *testing.T, folder string, now time.Time) *served {
	t.Helper()
	s := &served{t: t, Folder: folder, now: now}
	s.listen("127.0.0.1:0")
	t.Cleanup(func() { s.stop() })
	return s
}

func (s *served) listen(at string) {
	s.t.Helper()
	listener, err := net.Listen("tcp", at)
	if err != nil {
		s.t.Fatal(err)
	}
	cfg := boardOf(s.Folder, listener.Addr().String(), s.clock)
	cfg.Renew = nil // a plan logged behind a tap would move the numbers that are waited for
	b, err := board.New(cfg)
	if err != nil {
		s.t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- b.Serve(ctx, listener) }()
	s.Address = "http://" + listener.Addr().String() + "/"
	s.stop = sync.OnceFunc(func() {
		cancel()
		if err := errors.Join(<-ended, b.Close()); err != nil {
			s.t.Error(err)
		}
	})
}

// noScripts turns JavaScript off.
func noScripts() deed {
	return chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
		return err
	})
}

// night asks for the dark style.
func night() deed {
	return chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: "dark"}},
		})
		return err
	})
}

// passTo lets time pass, ten minutes at a time, until the answer has an alarm.
func (s *served) passTo(alarm string) {
	s.t.Helper()
	want := map[string]report.Alarm{"reserve": report.ReserveReached, "over": report.LifeOver}[alarm]
	for range 100 {
		answer, err := lookedAt(s.Folder, &checkOptions{}, s.clock())
		if err != nil {
			s.t.Fatal(err)
		}
		if answer.Alarm() == want {
			return
		}
		s.pass(10 * time.Minute)
	}
	s.t.Fatalf("there is no alarm %s within many hours", alarm)
}

// scrollTo brings an element to the top of the window.
func scrollTo(selector string) deed {
	return chromedp.Evaluate[chromedp.Void](`document.querySelector("` + selector + `").scrollIntoView({block: "start"})`)
}
