package main

import (
	"fmt"
	"os"
	"testing"
	"time"

	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// axe is the source of axe-core, an automated accessibility checker, whose file POTLIFE_AXE
// names; see .ci/run.
func axe(t *testing.T) string {
	t.Helper()
	path := os.Getenv("POTLIFE_AXE")
	if path == "" {
		if os.Getenv("CI") != "" || os.Getenv("POTLIFE_CI") != "" {
			t.Fatal("POTLIFE_AXE names no file, and this run must have one")
		}
		t.Skip("POTLIFE_AXE does not name the file of axe-core")
	}
	source, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(source)
}

// violation is what axe-core finds wrong.
type violation struct {
	ID    string
	Help  string
	Nodes []struct{ HTML string }
}

// violations runs axe-core with all rules of WCAG 2.2 AA and good practice in a window.
func (w *window) violations(source string) []violation {
	w.t.Helper()
	w.js1(source)
	found, err := chromedp.Run(w.ctx, chromedp.Evaluate[[]violation](`axe.run(document, {resultTypes: ["violations"]}).then((r) => r.violations.map((v) => ({ID: v.id, Help: v.help, Nodes: v.nodes.map((n) => ({HTML: n.html}))})))`,
		func(p *runtime.EvaluateParams) { chromedp.EvalAwaitPromise(p) }))
	if err != nil {
		w.fail(err)
	}
	return found
}

// TestBoardIsAccessible: axe-core finds nothing, by day and by night, calm and in alarm,
// with everything open, and without a connection; it does find what is wrong when a label is
// taken away and a colour made pale.
func TestBoardIsAccessible(t *testing.T) {
	source := axe(t)
	browser := newBrowser(t)
	start := clock().Add(-3 * time.Hour).Truncate(time.Second)
	at := func(minutes int) []string {
		return []string{"--at", start.Add(time.Duration(minutes) * time.Minute).Format(time.RFC3339)}
	}
	folder := boardSession(t, start,
		append([]string{"mixed", "239.3g"}, at(1)...), append([]string{"poured"}, at(6)...), append([]string{"begin"}, at(8)...))
	for _, alarm := range []string{"calm", "reserve", "over", "hazard"} {
		if alarm == "hazard" {
			ran(t, append([]string{"log", "--session", folder, "bath-temp", "52C"}, at(20)...)...)
		}
		s := serve(t, folder, start.Add(20*time.Minute))
		if alarm == "reserve" || alarm == "over" {
			s.passTo(alarm)
		}
		for _, size := range windows {
			for _, style := range []string{"day", "night"} {
				w := open(t, browser, size.width, size.height, s.Address)
				if style == "night" {
					w.do(night())
				}
				w.until(`document.getElementById("link").textContent === "live"`)
				if stands := js[bool](w, `document.querySelector(".hazard") !== null`); stands != (alarm == "hazard") {
					t.Errorf("%s: there is a hazard: %t", alarm, stands)
				}
				w.js1(`for (const id of ["trouble", "gone", "seconds"]) document.getElementById(id).open = true`)
				for _, v := range w.violations(source) {
					t.Errorf("%s %s %s: %s, %s: %v", size.name, style, alarm, v.ID, v.Help, v.Nodes)
				}
				if alarm == "calm" && style == "day" {
					w.js1(`document.querySelectorAll(".ago span").forEach((e) => e.remove()); document.querySelector(".why").style.color = "#bbb"`)
					found := map[string]bool{}
					for _, v := range w.violations(source) {
						found[v.ID] = true
					}
					if !found["label"] || !found["color-contrast"] {
						t.Errorf("a missing label and a pale text are not found, only %v: the check checks nothing", found)
					}
				}
				if alarm == "over" {
					s.stop()
					w.until(`!document.getElementById("lost").hidden`)
					for _, v := range w.violations(source) {
						t.Errorf("%s %s without a connection: %s, %s: %v", size.name, style, v.ID, v.Help, v.Nodes)
					}
					s.listen("127.0.0.1:0")
				}
			}
		}
		s.stop()
	}
}

// TestBoardByKeyboard: the tab key reaches every control that is on, in the order of the
// page, and each shows that it has the focus; Enter in a field logs nothing.
func TestBoardByKeyboard(t *testing.T) {
	browser := newBrowser(t)
	start := clock().Add(-3 * time.Hour).Truncate(time.Second)
	folder := boardSession(t, start)
	s := serve(t, folder, start.Add(time.Minute))
	w := open(t, browser, 1024, 768, s.Address)
	w.until(`document.getElementById("link").textContent === "live"`)
	const controls = `[...document.querySelectorAll("a, button, summary, input:not([type=hidden]), select")].filter((e) => !e.disabled && e.checkVisibility())`
	n := js[int](w, controls+`.length`)
	for i := range n {
		w.do(chromedp.KeyEvent("\t"))
		if !js[bool](w, fmt.Sprintf(`document.activeElement === %s[%d]`, controls, i)) {
			t.Fatalf("tab %d of %d reaches %s", i+1, n, js[string](w, `document.activeElement.outerHTML`))
		}
		if !js[bool](w, `parseFloat(getComputedStyle(document.activeElement).outlineWidth) >= 3`) {
			t.Errorf("no focus is seen on %s", js[string](w, `document.activeElement.outerHTML`))
		}
	}
	w.do(chromedp.Focus("#in-grams"), chromedp.KeyEvent("\r"), chromedp.Focus("#seconds summary"), chromedp.KeyEvent("\r"))
	w.do(chromedp.Focus("#in-seconds"), chromedp.KeyEvent("\r"))
	w.do(chromedp.Focus(`button[data-place="mixed"]`), chromedp.KeyEvent("\r"))
	w.until(`document.body.dataset.seq === "2"`)
	if all := journal(t, folder); len(all) != 2 || all[1]["kind"] != "mixed" {
		t.Errorf("by keys: %v", all)
	}
}
