package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// boardSession starts a session of the strut in a folder of its own and logs the lines.
func boardSession(t *testing.T, start time.Time, lines ...[]string) string {
	t.Helper()
	job, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "telescope-strut.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "strut.yaml")
	if err := os.WriteFile(path, job, 0o644); err != nil {
		t.Fatal(err)
	}
	ran(t, "start", path, "--at", start.Format(time.RFC3339), "--long-ago")
	folder := filepath.Join(filepath.Dir(path), "strut.session")
	for _, line := range lines {
		ran(t, append([]string{"log", "--session", folder}, line...)...)
	}
	return folder
}

func ran(t *testing.T, args ...string) string {
	t.Helper()
	var out, errOut bytes.Buffer
	if code := run(args, &out, &errOut); code != exitDone {
		t.Fatalf("%q: exit %d, %s", args, code, errOut.String())
	}
	return out.String()
}

// windows are the sizes that the page is made for.
var windows = []struct {
	name          string
	width, height int64
}{{"phone", 390, 844}, {"tablet", 1024, 768}}

// TestBoardReadsFromAfar: on both sizes of window, by day and by night, calm and in alarm, the figure is
// as high as eyes three metres away need, nothing is wider than the window, and buttons are
// as high as gloves need.
//
// The height: capitals of 1/200 of the distance are read with ease (common practice of signs),
// 15 mm at 3 m. A dot of CSS is 0.26 mm by its definition (W3C, CSS Values 4, 1 in = 96 px);
// capitals and figures are 0.7 of the size of type (common practice).
func TestBoardReadsFromAfar(t *testing.T) {
	browser := newBrowser(t)
	start := clock().Add(-3 * time.Hour).Truncate(time.Second)
	at := func(minutes int) []string {
		return []string{"--at", start.Add(time.Duration(minutes) * time.Minute).Format(time.RFC3339)}
	}
	folder := boardSession(t, start,
		append([]string{"mixed", "239.3g"}, at(1)...), append([]string{"poured"}, at(6)...), append([]string{"begin"}, at(8)...),
		append([]string{"bath-temp", "24.5C"}, at(15)...)) // a pot that stands until the reserve is a hazard
	for _, moment := range []struct {
		alarm   string
		minutes int
	}{{"calm", 25}, {"reserve", 0}, {"over", 0}} {
		s := serve(t, folder, start.Add(25*time.Minute))
		if moment.minutes == 0 {
			s.passTo(moment.alarm)
		}
		for _, size := range windows {
			for _, style := range []string{"day", "night"} {
				w := open(t, browser, size.width, size.height, s.Address)
				if style == "night" {
					w.do(night())
				}
				w.until(`document.getElementById("link").textContent === "live"`)
				// On a busy machine the page may come from the answer before the last.
				w.until(fmt.Sprintf("document.body.dataset.alarm === %q", moment.alarm))
				w.picture(size.name + "-" + style + "-" + moment.alarm)
				found := js[struct {
					Alarm          string
					Figure         float64
					Wide           bool
					Short, Outside []string
				}](w, `({
					Alarm: document.body.dataset.alarm,
					Figure: parseFloat(getComputedStyle(document.querySelector(".figure b")).fontSize),
					Wide: document.documentElement.scrollWidth > innerWidth,
					Short: [...document.querySelectorAll("button, summary, input:not([type=hidden]), select")].filter((b) => b.checkVisibility() && b.getBoundingClientRect().height < 96).map((b) => b.textContent || b.name),
					Outside: [...document.querySelectorAll(".figure, .do, button")].filter((b) => b.checkVisibility() && (b.scrollWidth > b.clientWidth + 1 || b.getBoundingClientRect().right > innerWidth)).map((b) => b.className + " " + b.textContent),
				})`)
				if found.Alarm != moment.alarm {
					t.Errorf("%s %s: alarm is %s, want %s", size.name, style, found.Alarm, moment.alarm)
				}
				if high := found.Figure * 0.7 * 25.4 / 96; !(high >= 15) {
					t.Errorf("%s %s: figures are %.1f mm high, want 15", size.name, style, high)
				}
				if found.Wide || len(found.Short) > 0 || len(found.Outside) > 0 {
					t.Errorf("%s %s %s: wider than the window %t; lower than 96 px %q; cut off %q", size.name, style, moment.alarm, found.Wide, found.Short, found.Outside)
				}
				if style == "day" {
					w.do(scrollTo("#grams"))
					w.picture(size.name + "-" + moment.alarm + "-below")
				}
			}
		}
		s.stop()
	}
}

// zonedSession starts a session of the strut in a zone.
func zonedSession(t *testing.T, zone string, start time.Time) string {
	t.Helper()
	job, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "telescope-strut.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "strut.yaml")
	text := bytes.ReplaceAll(job, []byte("zone: local"), []byte("zone: "+zone))
	if err := os.WriteFile(path, text, 0o644); err != nil {
		t.Fatal(err)
	}
	ran(t, "start", path, "--at", start.Format(time.RFC3339), "--long-ago")
	return filepath.Join(filepath.Dir(path), "strut.session")
}
