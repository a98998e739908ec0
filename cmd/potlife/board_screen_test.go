package main

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"potlife/cmd/potlife/internal/report"
)

// A moment is a state of the day that a board can show.
type boardMoment struct {
	name    string
	lines   [][]string // logged before, each with its minute
	minutes int        // 0: as soon as there is the alarm
	alarm   string
	due     string // what the bar sends; empty: nothing is due
}

// boardMoments are those in which the first screen differs most.
func boardMoments() []boardMoment {
	filled := [][]string{{"1", "mixed", "239.3g"}, {"6", "poured"}}
	running := append(filled[:2:2], []string{"8", "begin"})
	paused := append(running[:3:3], []string{"15", "pause", "tow broke"})
	swapped := [][]string{{"1", "mixed", "--resin", "46.3g", "--hardener", "193g"}, {"6", "poured"}, {"8", "begin"}, {"9", "bath-temp", "52C"}, {"10", "mixed", "--resin", "30g", "--hardener", "90g"}}
	wound := running[:3:3]
	for layer, at := 1, 20; layer <= 6; layer, at = layer+1, at+3 {
		if layer > 1 {
			wound = append(wound, []string{fmt.Sprint(at), "begin"})
		}
		wound = append(wound, []string{fmt.Sprint(at + 2), "done"})
	}
	return []boardMoment{
		{"empty", nil, 1, "calm", "mixed"},
		{"pot", filled[:1], 3, "calm", "poured e2"},
		{"filled", filled, 7, "calm", "begin 1"},
		{"running", running, 12, "calm", "done 1"},
		{"paused", paused, 16, "calm", "resume"},
		{"reserve", running, 0, "reserve", ""},
		{"over", running, 0, "over", "pause machine stopped"},
		{"stopped over", paused, 0, "over", "changed"},
		{"warnings", swapped, 12, "", ""},
		{"hazard liquid", [][]string{{"1", "mixed", "450g", "--temp", "31C"}}, 16, "dangerous", "spread e2"},
		{"hazard set", [][]string{{"1", "mixed", "450g", "--temp", "31C"}}, 150, "dangerous", ""},
		{"hazard in the bath", append(running[:3:3], []string{"9", "bath-temp", "52C"}), 10, "dangerous", "spread bath"},
		{"clocks", append(running[:3:3], []string{"80", "note", "by another clock"}), 12, "over", ""},
		{"wound", wound, 45, "", "left-over"},
		{"finished", append(wound[:len(wound):len(wound)], []string{"44", "left-over", "30g"}, []string{"45", "finish"}), 46, "calm", ""},
	}
}

// screens are the sizes on which the first screen is measured: with the smallest phones.
var screens = append([]struct {
	name          string
	width, height int64
}{{"small", 360, 640}}, windows...)

// A place of the page: where it lies, and whether a finger on its middle meets it.
type boardPlace struct {
	Top, Bottom, Left, Right float64
	Meets                    bool
}

const boxOf = `(selector) => {
	const e = document.querySelector(selector);
	if (!e) return {Top: 0, Bottom: 0, Left: 0, Right: 0, Meets: false};
	const r = e.getBoundingClientRect(), hit = document.elementFromPoint((r.left + r.right) / 2, (r.top + r.bottom) / 2);
	return {Top: r.top, Bottom: r.bottom, Left: r.left, Right: r.right, Meets: e.contains(hit)};
}`

// TestBoardFirstScreen: in every state, without a scroll, the button that is due lies whole on
// the screen with nothing over it, so do the caution and what was logged last, and the order
// ends above the bar; of several hazards at once a phone shows those.
func TestBoardFirstScreen(t *testing.T) {
	browser := newBrowser(t)
	start := clock().Add(-3 * time.Hour).Truncate(time.Second)
	for _, m := range boardMoments() {
		folder := boardSession(t, start)
		for _, line := range m.lines {
			minute, err := time.ParseDuration(line[0] + "m")
			if err != nil {
				t.Fatal(err)
			}
			ran(t, append([]string{"log", "--session", folder, "--at", start.Add(minute).Format(time.RFC3339)}, line[1:]...)...)
		}
		s := serve(t, folder, start.Add(time.Duration(max(m.minutes, 20))*time.Minute))
		if m.minutes > 0 {
			s.mutex.Lock()
			s.now = start.Add(time.Duration(m.minutes) * time.Minute)
			s.mutex.Unlock()
		} else {
			s.passTo(m.alarm)
		}
		answer, err := lookedAt(folder, &checkOptions{}, s.clock())
		if err != nil {
			t.Fatal(err)
		}
		for _, size := range screens {
			w := open(t, browser, size.width, size.height, s.Address)
			w.until(`document.getElementById("link").textContent === "live"`)
			name := size.name + " " + m.name
			t.Logf("%s: %s", name, m.alarm)
			if m.alarm != "" {
				w.until(fmt.Sprintf("document.body.dataset.alarm === %q", m.alarm))
			}
			w.picture(size.name + "-first-" + m.name)
			w.firstScreen(name, size.width, size.height)
			due := js[string](w, `document.querySelector(".bar [data-place=next]").value`)
			if due != m.due && m.alarm != "reserve" && m.name != "warnings" || due == "" && len(answer.Hazards) == 0 && answer.Clocks == nil && answer.Alarm() != report.Calm {
				t.Errorf("%s: %q is due, want %q (%s)", name, due, m.due, answer.Rule)
			}
			if grid := js[string](w, `[...document.querySelectorAll(".taps .due")].map((e) => e.value || e.dataset.due).join()`); grid != "" {
				// What is due may have changed while the page was on its way: then the bar holds it
				// for as long as a bounce. It comes on, or this ends the test.
				w.until(`!document.querySelector(".bar [data-place=next]").disabled`)
			}
		}
		if m.name == "warnings" {
			w := open(t, browser, 360, 640, s.Address)
			w.until(`document.getElementById("link").textContent === "live"`)
			s.stop()
			w.until(`!document.getElementById("lost").hidden`)
			w.picture("small-first-lost")
			if bar := js[boardPlace](w, `(`+boxOf+`)(".bar")`); !(bar.Bottom <= 641) || !bar.Meets {
				t.Errorf("without a connection the bar lies at %+v", bar)
			}
		}
		s.stop()
	}
}

// firstScreen checks that what must be seen first lies on the screen as it was opened.
func (w *window) firstScreen(name string, width, height int64) {
	w.t.Helper()
	const dot = 1 // of a screen: places are fractions of one
	bar := js[boardPlace](w, `(`+boxOf+`)(".bar")`)
	for _, selector := range []string{".bar [data-place=next]", ".bar [data-place=undo]", ".caution", ".said", ".do strong"} {
		at := js[boardPlace](w, `(`+boxOf+`)("`+selector+`")`)
		switch {
		case selector == ".do strong" && width < 800 && js[int](w, `document.querySelectorAll(".hazard").length`) > 1:
		case !(at.Top >= 0 && at.Bottom <= float64(height)+dot && at.Left >= 0 && at.Right <= float64(width)+dot && at.Right > at.Left):
			w.t.Errorf("%s: %s lies outside the first screen: %+v", name, selector, at)
		case !at.Meets:
			w.t.Errorf("%s: something lies over %s: %+v", name, selector, at)
		case selector == ".do strong" && !(at.Bottom <= bar.Top+dot):
			w.t.Errorf("%s: the order ends at %.0f, behind the bar from %.0f on", name, at.Bottom, bar.Top)
		}
	}
	if scrolled := js[float64](w, `scrollY`); scrolled != 0 {
		w.t.Errorf("%s: the page is scrolled by %g", name, scrolled)
	}
	// What is measured can fail: scrolled away, the order is not on the screen.
	w.do(scrollTo("footer"), chromedp.Evaluate[chromedp.Void](`scrollTo(0, document.body.scrollHeight)`))
	if at := js[boardPlace](w, `(`+boxOf+`)(".do strong")`); width < 800 && at.Top >= 0 {
		w.t.Errorf("%s: scrolled to its end the page still shows the order: nothing is measured", name)
	}
	if at := js[boardPlace](w, `(`+boxOf+`)(".bar [data-place=next]")`); !at.Meets {
		w.t.Errorf("%s: scrolled to its end the page hides what is due: %+v", name, at)
	}
}

// TestBoardKeys: a reading is sent only after a key was pressed, whatever its keys begin with;
// the bar leads to the keys of what is due; "10 min ago" is good for one tap and shows on the
// buttons until then.
func TestBoardKeys(t *testing.T) {
	browser := newBrowser(t)
	start := clock().Add(-3 * time.Hour).Truncate(time.Second)
	moments := boardMoments()
	wound := moments[len(moments)-2]
	folder := boardSession(t, start)
	for _, line := range wound.lines {
		minute, err := time.ParseDuration(line[0] + "m")
		if err != nil {
			t.Fatal(err)
		}
		ran(t, append([]string{"log", "--session", folder, "--at", start.Add(minute).Format(time.RFC3339)}, line[1:]...)...)
	}
	ran(t, "log", "--session", folder, "--at", start.Add(44*time.Minute).Format(time.RFC3339), "bath-temp", "24.5C")
	s := serve(t, folder, start.Add(45*time.Minute))
	w := open(t, browser, 390, 844, s.Address)
	w.until(`document.getElementById("link").textContent === "live"`)

	seq := js[int](w, `Number(document.body.dataset.seq)`)
	const temp = `button[data-place="bath-temp"]`
	w.do(chromedp.Click(`#temp summary`))
	w.until(`document.getElementById("in-temp").placeholder === "24.5"`)
	if !js[bool](w, `document.querySelector('`+temp+`').disabled`) {
		t.Error("the last reading can be sent again untouched")
	}
	w.do(chromedp.Click(`button[value="temp:0.5"]`))
	w.until(`document.getElementById("in-temp").value === "25" && !document.querySelector('` + temp + `').disabled`)
	for _, key := range []string{"=<", "=<", "=3", "=1", "=.", "=5", "=5"} {
		w.do(chromedp.Click(`button[value="temp:` + key + `"]`))
	}
	w.until(`document.getElementById("in-temp").value === "31.5"`)
	w.do(chromedp.Click(`.ago input`))
	w.until(`getComputedStyle(document.querySelector('` + temp + ` .note'), "::after").content.includes("10 min ago")`)
	w.picture("phone-keys")
	w.do(chromedp.Click(temp))
	w.until(fmt.Sprintf(`document.body.dataset.seq === "%d" && !document.querySelector(".ago input").checked`, seq+1))
	if said := w.text("#said"); !strings.Contains(said, start.Add(35*time.Minute).Format("15:04:05")) {
		t.Errorf("a tap of ten minutes ago is confirmed as %q", said)
	}
	w.until(`document.getElementById("in-temp").value === ""`)

	w.until(`document.querySelector(".bar [data-place=next]").value === "left-over" && !document.querySelector(".bar [data-place=next]").disabled`)
	w.do(chromedp.Click(`.bar [data-place=next]`))
	w.until(`document.getElementById("left").open && document.activeElement.id === "in-left"`)
	w.picture("phone-keys-left-over")
	for _, key := range []string{"=3", "=0"} {
		w.do(chromedp.Click(`button[value="left:` + key + `"]`))
	}
	w.until(`document.querySelector(".bar [data-place=next] .note").textContent === "30 g"`)
	w.do(chromedp.Click(`.bar [data-place=next]`))
	w.until(fmt.Sprintf(`document.body.dataset.seq === "%d"`, seq+2))
	all := journal(t, folder)
	if last := all[len(all)-1]; last["kind"] != "left-over" || last["grams"] != 30.0 {
		t.Errorf("the bar logged %v", last)
	}
}
