package main

import (
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/google/go-cmp/cmp"

	"potlife/cmd/potlife/internal/report"
	"potlife/schedule/session"
)

// A told event is said twice: by a tap, with what the steppers hold, and on the command
// line.
type toldTwice struct {
	place  string // of the button
	value  string // of the button, where several are at one place
	fields map[string]string
	line   []string
	passes time.Duration // before
}

// wholeWinding is a day of the strut by taps, with trouble, readings, a slip and a change of
// the bath.
func wholeWinding() []toldTwice {
	day := []toldTwice{
		{place: "mixed", fields: map[string]string{"in-grams": "239.3"}, line: []string{"mixed", "239.3 g"}},
		{place: "poured", line: []string{"poured"}, passes: 5 * time.Minute},
		{place: "begin", line: []string{"begin"}},
		{place: "bath-temp", fields: map[string]string{"in-temp": "24.5"}, line: []string{"bath-temp", "24.5 °C"}, passes: 6 * time.Minute},
		{place: "room", fields: map[string]string{"in-room": "21.5"}, line: []string{"room", "21.5 °C"}},
		{place: "pause", value: "pause tow broke", line: []string{"pause", "tow", "broke"}},
		{place: "resume", line: []string{"resume"}, passes: 4 * time.Minute},
		{place: "mixed", fields: map[string]string{"in-grams": "176.6"}, line: []string{"mixed", "176.6 g"}, passes: 10 * time.Minute},
		{place: "done", line: []string{"done"}, passes: 5 * time.Minute},
		{place: "poured", line: []string{"poured"}},
		{place: "flow-cup", fields: map[string]string{"in-cup": "zahn-5", "in-seconds": "31"}, line: []string{"flow-cup", "zahn-5", "31 s"}},
		{place: "undo", line: []string{"undo"}},
		{place: "mixed", fields: map[string]string{"in-grams": "60"}, line: []string{"mixed", "60 g"}},
		{place: "thrown-out e14", line: []string{"thrown-out", "3"}},
	}
	for layer := 2; layer <= 6; layer++ {
		day = append(day,
			toldTwice{place: "begin", line: []string{"begin"}, passes: 2 * time.Minute},
			toldTwice{place: "done", line: []string{"done"}, passes: 25 * time.Minute})
		if layer == 4 {
			day = append(day,
				toldTwice{place: "changed", line: []string{"changed"}},
				toldTwice{place: "left-over", fields: map[string]string{"in-left": "35"}, line: []string{"left-over", "35 g"}},
				toldTwice{place: "mixed", fields: map[string]string{"in-grams": "250"}, line: []string{"mixed", "250 g"}},
				toldTwice{place: "poured", line: []string{"poured"}, passes: 6 * time.Minute})
		}
	}
	return day
}

// button is the selector of a told event's button.
func (e toldTwice) button() string {
	selector := fmt.Sprintf(`button[data-place=%q]`, e.place)
	if e.value != "" {
		selector += fmt.Sprintf(`[value=%q]`, e.value)
	}
	return selector
}

// keysOf are the keypads that hold a button.
var keysOf = map[string]string{"bath-temp": "temp", "flow-cup": "seconds", "room": "room", "left-over": "left"}

// tap taps a button as a finger does, once it is on, and waits for the event to be told.
func (w *window) tap(e toldTwice, seq int) {
	w.t.Helper()
	w.until(fmt.Sprintf(`document.body.dataset.seq === "%d"`, seq-1))
	if e.place == "pause" {
		w.do(chromedp.Click(`#trouble summary`))
	}
	if strings.HasPrefix(e.place, "thrown-out ") {
		w.do(chromedp.Click(`#gone summary`))
	}
	if keys := keysOf[e.place]; keys != "" && !js[bool](w, fmt.Sprintf(`document.getElementById(%q).open`, keys)) {
		w.do(chromedp.Click(`#` + keys + ` summary`))
	}
	for id, value := range e.fields {
		w.set(id, value)
	}
	// On a loaded machine the page may lose its connection for a moment, just as the tap comes: then
	// its buttons are off and a finger taps again.
	on, logged := fmt.Sprintf(`!document.querySelector('%s').disabled`, e.button()), fmt.Sprintf(`document.body.dataset.seq === "%d"`, seq)
	const tries, patience = 4, 15 * time.Second // the page itself gives an answer 5 s
	for try := 1; ; try++ {
		w.until(on + " || " + logged)
		if !js[bool](w, logged) {
			w.do(chromedp.Click(e.button()))
		}
		if w.within(patience, logged) {
			break
		}
		if try == tries {
			w.fail(fmt.Errorf("tapped %d times and not logged: %s", tries, e.button()))
		}
	}
	w.until(`document.getElementById("said").textContent.includes("✓")`)
}

// journal is what a session has logged, without times, keys and chain, and without plans: the taps of
// these tests make none. Events have the numbers that they would have without them.
func journal(t *testing.T, folder string) []map[string]any {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(folder, session.Name))
	if err != nil {
		t.Fatal(err)
	}
	var list []map[string]any
	numbers := map[any]float64{}
	for line := range strings.Lines(string(text)) {
		object, _, _ := strings.Cut(line, "\t")
		event := map[string]any{}
		if err := json.Unmarshal([]byte(object), &event); err != nil {
			t.Fatal(err)
		}
		if event["kind"] == string(session.Planned) {
			continue
		}
		numbers[event["seq"]] = float64(len(list) + 1)
		for _, field := range []string{"seq", "pot", "of"} {
			if of, found := event[field]; found {
				event[field] = numbers[of]
			}
		}
		for _, field := range []string{"at", "logged", "key", "plan", "after"} {
			delete(event, field)
		}
		list = append(list, event)
	}
	return list
}

// byCommandLine logs a day on the command line and returns its journal.
func byCommandLine(t *testing.T, start time.Time, day []toldTwice) []map[string]any {
	t.Helper()
	folder := boardSession(t, start)
	at := start
	for _, e := range day {
		at = at.Add(e.passes + time.Second)
		ran(t, append([]string{"log", "--session", folder, "--at", at.Format(time.RFC3339)}, e.line...)...)
	}
	return journal(t, folder)
}

// TestBoardWholeWindingByTaps: on both sizes of window the taps of a day end in the journal
// that the command line gives.
func TestBoardWholeWindingByTaps(t *testing.T) {
	browser := newBrowser(t)
	day := wholeWinding()
	start := clock().Add(-24 * time.Hour).Truncate(time.Second)
	want := byCommandLine(t, start, day)
	for _, size := range windows {
		t.Run(size.name, func(t *testing.T) {
			folder := boardSession(t, start)
			s := serve(t, folder, start)
			w := open(t, browser, size.width, size.height, s.Address)
			for i, e := range day {
				s.pass(e.passes + 3*time.Second)
				w.tap(e, i+2)
				if i == 2 {
					w.picture(size.name + "-logged")
				}
			}
			w.picture(size.name + "-wound")
			if diff := cmp.Diff(want, journal(t, folder)); diff != "" {
				t.Errorf("taps and command line differ (-command line, +taps):\n%s", diff)
			}
		})
	}
}

// TestBoardWithoutJavaScript: the same day by forms and pages that load anew.
func TestBoardWithoutJavaScript(t *testing.T) {
	browser := newBrowser(t)
	day := wholeWinding()
	start := clock().Add(-24 * time.Hour).Truncate(time.Second)
	folder := boardSession(t, start)
	s := serve(t, folder, start)
	w := open(t, browser, 390, 844, s.Address, noScripts())
	for i, e := range day {
		s.pass(e.passes + 3*time.Second)
		w.do(chromedp.Navigate(s.Address)) // as it does by itself after a while
		w.tap(e, i+2)
	}
	w.picture("phone-without-scripts")
	if diff := cmp.Diff(byCommandLine(t, start, day), journal(t, folder)); diff != "" {
		t.Errorf("forms and command line differ (-command line, +forms):\n%s", diff)
	}

	w.do(chromedp.Navigate(s.Address))
	for _, key := range []struct{ key, holds string }{{"grams:=7", "7"}, {"grams:=5", "75"}, {"grams:10", "85"}} {
		w.do(chromedp.Click(`button[value="` + key.key + `"]`))
		w.until(fmt.Sprintf(`location.search.includes("grams") && document.getElementById("in-grams").value === %q`, key.holds))
		w.do(chromedp.Reload())
		if holds := js[string](w, `document.getElementById("in-grams").value`); holds != key.holds {
			t.Errorf("a page loaded anew presses the key again: %s, want %s", holds, key.holds)
		}
	}
	if n := len(journal(t, folder)); n != len(day)+1 {
		t.Errorf("a key has logged something: %d events, want %d", n, len(day)+1)
	}
}

// TestBoardTwoWindows: what is tapped in one window shows in the other, with the same clock;
// a double tap is one event, in one window and in both.
func TestBoardTwoWindows(t *testing.T) {
	browser := newBrowser(t)
	start := clock().Add(-24 * time.Hour).Truncate(time.Second)
	folder := boardSession(t, start)
	s := serve(t, folder, start.Add(time.Minute))
	one := open(t, browser, 390, 844, s.Address)
	two := open(t, browser, 1024, 768, s.Address)
	mixed := toldTwice{place: "mixed", fields: map[string]string{"in-grams": "200"}}
	for _, w := range []*window{one, two} {
		w.until(`document.getElementById("link").textContent === "live"`)
		w.set("in-grams", "200")
	}
	one.do(chromedp.DoubleClick(mixed.button()))
	two.until(`document.body.dataset.seq === "2"`)
	two.until(`document.getElementById("said").textContent.includes("mixed pot 1, 200 g")`)
	two.do(chromedp.Click(mixed.button())) // within the second, by somebody else
	two.until(`document.getElementById("said").textContent.includes("Not logged")`)
	if text := two.text("#said"); !strings.Contains(text, "a second tap so soon") {
		t.Errorf("the second tap is told: %s", text)
	}
	s.pass(5 * time.Minute)
	for _, w := range []*window{one, two} {
		clock := s.clock().Format("15:04:05")
		w.until(fmt.Sprintf(`document.getElementById("clock").textContent === %q`, clock))
	}
	two.tap(toldTwice{place: "poured"}, 3)
	one.tap(toldTwice{place: "begin"}, 4)
	if n := len(journal(t, folder)); n != 4 {
		t.Errorf("%d events, want 4: a double tap counts once", n)
	}
	// A page that is behind: both windows have layer 1 done, one of them twice.
	one.js1(`document.querySelector('button[data-place="done"]').click()`)
	two.js1(`document.querySelector('button[data-place="done"]').click()`)
	for _, w := range []*window{one, two} {
		w.until(`document.body.dataset.seq === "5"`)
	}
	one.do(chromedp.Reload())
	two.do(chromedp.Reload())
	for _, w := range []*window{one, two} {
		w.until(`document.getElementById("link").textContent === "live"`)
	}
	if n := len(journal(t, folder)); n != 5 {
		t.Errorf("%d events, want 5: a layer is done once", n)
	}
}

// js1 evaluates a statement.
func (w *window) js1(statement string) {
	w.t.Helper()
	w.do(chromedp.Evaluate[chromedp.Void](statement))
}

// boardProgram runs the program on an address until it is killed.
func boardProgram(t *testing.T, folder, listen string) (address string, kill func()) {
	t.Helper()
	cmd := exec.Command("potlife", "board", "--session", folder, "--listen", listen, "--json")
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	kill = func() {
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
	}
	t.Cleanup(kill)
	var told struct{ Addresses []string }
	if err := json.NewDecoder(out).Decode(&told); err != nil || len(told.Addresses) != 1 {
		t.Fatalf("it tells %v, %v", told, err)
	}
	return told.Addresses[0], kill
}

// TestBoardEndsTogetherWhenTold: on an interrupt and on SIGTERM the program ends by itself and well.
func TestBoardEndsTogetherWhenTold(t *testing.T) {
	folder := boardSession(t, clock().Add(-time.Hour).Truncate(time.Second))
	for _, told := range []os.Signal{os.Interrupt, syscall.SIGTERM} {
		cmd := exec.Command("potlife", "board", "--session", folder, "--json")
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		var where report.Board
		if err := json.NewDecoder(out).Decode(&where); err != nil || len(where.Addresses) != 1 {
			t.Fatalf("it tells %+v, %v", where, err)
		}
		r, err := http.Get(where.Addresses[0] + "stream")
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Process.Signal(told); err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(r.Body)
		if err != nil || !strings.Contains(string(text), "event: bye\n") {
			t.Errorf("%v: the stream ends with %v and says no farewell", told, err)
		}
		_ = r.Body.Close()
		if err := cmd.Wait(); err != nil {
			t.Errorf("%v: %v", told, err)
		}
	}
}

// TestBoardKilledAndStarted: while the server is gone the page says so and takes no tap; when
// it is back, what was logged is there once and the winding goes on.
func TestBoardKilledAndStarted(t *testing.T) {
	browser := newBrowser(t)
	folder := boardSession(t, clock().Add(-time.Hour).Truncate(time.Second))
	address, kill := boardProgram(t, folder, "127.0.0.1:0")
	w := open(t, browser, 390, 844, address)
	w.tap(toldTwice{place: "mixed", fields: map[string]string{"in-grams": "239.3"}}, 2)
	kill()
	w.until(`!document.getElementById("lost").hidden`)
	w.picture("phone-lost")
	if n := js[int](w, `document.querySelectorAll("button.tap:enabled").length`); n != 0 {
		t.Errorf("%d buttons are on without a connection", n)
	}
	for _, part := range []string{".do", ".why", ".caution"} {
		line := js[string](w, `getComputedStyle(document.querySelector("`+part+`")).textDecorationLine`)
		if struck := line == "line-through"; struck != (part != ".caution") {
			t.Errorf("without a connection %s has the line %q", part, line)
		}
	}
	for _, part := range []string{".left", ".strip"} {
		if js[bool](w, `!!document.querySelector("`+part+`")`) && js[string](w, `getComputedStyle(document.querySelector("`+part+`"), "::after").content`) == "none" {
			t.Errorf("without a connection %s is not struck out", part)
		}
	}
	w.js1(`document.querySelector('button[data-place="poured"]').disabled = false`)
	w.js1(`document.querySelector('button[data-place="poured"]').click()`)
	w.until(`document.getElementById("said").textContent.includes("no connection")`)

	_, kill = boardProgram(t, folder, strings.TrimSuffix(strings.TrimPrefix(address, "http://"), "/"))
	w.until(`document.getElementById("lost").hidden && document.getElementById("link").textContent === "live"`)
	if n := len(journal(t, folder)); n != 2 {
		t.Errorf("%d events after the server came back, want 2: no tap is kept for later", n)
	}
	w.tap(toldTwice{place: "poured"}, 3)
	w.do(chromedp.Reload())
	w.until(`document.getElementById("link").textContent === "live"`)
	w.tap(toldTwice{place: "begin"}, 4)
	kill()
	if n := len(journal(t, folder)); n != 4 {
		t.Errorf("%d events, want 4", n)
	}
}

// TestBoardHourChange: summer time ends between two taps (Europe, 2026-10-25, 03:00 to
// 02:00); the clock goes back, the order stays, and the page tells the two hours apart.
func TestBoardHourChange(t *testing.T) {
	browser := newBrowser(t)
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	start := time.Date(2026, 10, 25, 2, 30, 0, 0, time.FixedZone("", 2*3600))
	setClock(t, afterAll)
	folder := zonedSession(t, "Europe/Berlin", start)
	s := serve(t, folder, start.Add(10*time.Minute))
	w := open(t, browser, 390, 844, s.Address)
	w.tap(toldTwice{place: "mixed", fields: map[string]string{"in-grams": "200"}}, 2)
	if text := w.text("#said"); !strings.Contains(text, "02:40:00 CEST") {
		t.Errorf("before the change it says %s", text)
	}
	s.pass(50 * time.Minute)
	w.tap(toldTwice{place: "poured"}, 3)
	if text := w.text("#said"); !strings.Contains(text, "02:30:00 CET") {
		t.Errorf("after the change it says %s", text)
	}
	opened, err := session.OpenFolder(folder)
	if err != nil {
		t.Fatal(err)
	}
	defer opened.Close()
	all, err := opened.Events()
	if err != nil || len(all) != 3 {
		t.Fatalf("%d events, %v", len(all), err)
	}
	if passed := all[2].At.Sub(all[1].At); passed != 50*time.Minute || all[2].At.In(berlin).Format("15:04 MST") != "02:30 CET" {
		t.Errorf("%v passed between the taps, the last at %v", passed, all[2].At)
	}
}
