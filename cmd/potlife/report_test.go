package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"

	"potlife/cmd/potlife/internal/report"
	"potlife/kinetics/testrun"
	"potlife/schedule/session"
	"potlife/schedule/session/daytest"
)

// crowdedDay is a session of 120 layers from 40 pots, with pauses, changes, readings, a room,
// notes and an event that was taken back.
func crowdedDay(tb testing.TB) (folder string) {
	tb.Helper()
	// Without a helper the plan of so many layers is found sooner.
	d := daytest.New(daytest.Prepared(tb, append(daytest.Alike(120, 4), "helper: true", "helper: false")...))
	after := func(minutes float64) float64 { return d.Last() + minutes }
	read := reads(tb, d)
	for k := range 120 {
		if k%3 == 0 {
			grams := 100.0
			if k%30 == 0 {
				grams = 260
			}
			pot := d.MixedParts(after(1), grams/1.24, grams*0.24/1.24)
			d.Poured(after(5), pot)
		}
		d.Begin(after(1), k+1)
		if k%5 == 0 {
			read(after(2), 0.4*math.Sin(float64(k)))
		}
		if k%40 == 7 {
			d.Pause(after(0.5))
			d.Resume(after(4))
		}
		d.Done(after(2), k+1)
		if k%30 == 29 {
			d.LeftOver(after(0.5), 180)
			d.Changed(after(0.5))
		}
	}
	d.Room(after(1), 24)
	d.Note(after(1), "swept")
	wrong := d.Note(after(1), "in the wrong journal")
	d.Undo(after(1), wrong)
	d.Finish(after(1))
	return d.Keep(tb)
}

// shortDay is a day of three layers of eight minutes that has not begun; some of its job's
// text is replaced.
func shortDay(t *testing.T, replace ...string) *daytest.Day {
	t.Helper()
	return daytest.New(daytest.Prepared(t, append(daytest.Alike(3, 8), replace...)...))
}

// reported runs report and returns the page, the Markdown and the JSON.
func reported(t *testing.T, folder string) (page, markdown string, day report.Day) {
	t.Helper()
	out := filepath.Join(t.TempDir(), "day")
	var stdout, stderr bytes.Buffer
	for _, args := range [][]string{{"-o", out + ".md"}, {"-o", out + ".html", "--json"}} {
		stdout.Reset()
		if code := run(append([]string{"report", folder}, args...), &stdout, &stderr); code != exitDone {
			t.Fatalf("exit %d: %s", code, stderr.String())
		}
	}
	if err := json.Unmarshal(stdout.Bytes(), &day); err != nil {
		t.Fatal(err)
	}
	text := func(ending string) string {
		content, err := os.ReadFile(out + ending)
		if err != nil {
			t.Fatal(err)
		}
		return string(content)
	}
	return text(".html"), text(".md"), day
}

// activeEvents are those of a session's journal that were not taken back, by kind, and how
// many there are in all.
func activeEvents(t *testing.T, folder string) (kinds map[session.Kind]int, all int) {
	t.Helper()
	s, err := session.OpenFolder(folder)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	events, err := s.Events()
	if err != nil {
		t.Fatal(err)
	}
	kinds = map[session.Kind]int{}
	for _, e := range session.Active(events) {
		kinds[e.Kind]++
	}
	return kinds, len(events)
}

// rowsUnder counts the rows of the table under a heading, in HTML and in Markdown.
func rowsUnder(page, markdown, heading string) (html, lines int) {
	if _, after, found := strings.Cut(page, "<h2>"+heading+"</h2>"); found {
		body, _, _ := strings.Cut(after, "</tbody>")
		_, body, _ = strings.Cut(body, "<tbody>")
		html = strings.Count(body, "<tr>")
	}
	if _, after, found := strings.Cut(markdown, "\n## "+heading+"\n"); found {
		after, _, _ = strings.Cut(after, "\n## ")
		lines = strings.Count(after, "\n| ") - 2 // head and rule
	}
	return html, lines
}

// TestReportCountsTheJournal holds the rows of every table against the events of the journal:
// two recorded sessions, and one of 40 pots and 120 layers.
func TestReportCountsTheJournal(t *testing.T) {
	t.Parallel()
	folders := []string{
		filepath.Join("..", "..", "testdata", "sessions", "strut.session"),
		filepath.Join("..", "..", "testdata", "sessions", "shell.session"),
	}
	if testrun.IsLong() {
		folders = append(folders, crowdedDay(t))
	}
	for _, folder := range folders {
		page, markdown, day := reported(t, folder)
		n, events := activeEvents(t, folder)
		readings := n[session.BathTemp] + n[session.FlowCup] + n[session.Viscosity]
		for heading, want := range map[string]int{
			"Layers": n[session.Done], "Pots": max(n[session.Mixed], day.Totals.PotsPlanned), "Readings": readings, "Room": n[session.Room],
			"Pauses": n[session.Pause], "Changes and left-over": n[session.Changed] + n[session.LeftOver], "Notes": n[session.Note],
		} {
			if html, lines := rowsUnder(page, markdown, heading); html != want || lines != want && want > 0 {
				t.Errorf("%s, %s: %d rows on the page and %d in Markdown, want %d", folder, heading, html, lines, want)
			}
		}
		got := []int{
			day.Totals.Events, day.Totals.LayersDone, day.Totals.PotsMixed, day.Totals.Changes, len(day.Readings), len(day.Room),
			len(day.Pauses), len(day.Changes), len(day.LeftOver), len(day.Notes),
		}
		want := []int{
			events, n[session.Done], n[session.Mixed], n[session.Changed], readings, n[session.Room],
			n[session.Pause], n[session.Changed], n[session.LeftOver], n[session.Note],
		}
		if fmt.Sprint(got) != fmt.Sprint(want) {
			t.Errorf("%s: the JSON counts %v, the journal %v", folder, got, want)
		}
		if strings.Count(page, "<svg ") != 2 {
			t.Errorf("%s: %d charts, want two", folder, strings.Count(page, "<svg "))
		}
	}
	if !testrun.IsLong() {
		return
	}
	_, _, day := reported(t, folders[2])
	if day.Totals.LayersDone != 120 || day.Totals.PotsMixed != 40 || day.Totals.Undone != 1 {
		t.Errorf("the crowded day is not what it should be: %+v", day.Totals)
	}
}

// TestReportSums checks figures of the strut's day against its journal, by hand: five pots of
// 239.5, 176.8, 182.3, 120.1 and 181.4 g; a pause from 9:58 to 10:32 in layer 2, whose end
// is logged for 10:45, 65 min after its begin.
func TestReportSums(t *testing.T) {
	_, _, day := reported(t, filepath.Join("..", "..", "testdata", "sessions", "strut.session"))
	// Sums of figures with one decimal each: what is left is rounding of binary fractions.
	const exact = 1e-6
	if d := math.Abs(day.Totals.MixedG - (239.5 + 176.8 + 182.3 + 120.1 + 181.4)); !(d <= exact) {
		t.Errorf("%v g mixed", day.Totals.MixedG)
	}
	second := day.Layers[1]
	if !(math.Abs(*second.RanS-31*60) <= exact) || !(math.Abs(*second.PausedS-34*60) <= exact) {
		t.Errorf("layer 2 ran %v s and stood %v s, want 31 and 34 min", *second.RanS, *second.PausedS)
	}
	if late := second.End.Sub(*second.PlannedEnd).Seconds(); !(math.Abs(*second.EndLateS-late) <= exact) {
		t.Errorf("layer 2 is said to be %v s late, and is %v s", *second.EndLateS, late)
	}
	if p := day.Pauses[0]; p.Layer != 2 || p.Reason != "tow broke" || p.DurationS != 34*60 {
		t.Errorf("the pause is %+v", p)
	}
	third := day.Pots[2]
	if third.Mixed.Into != "change" || !(math.Abs(*third.MoreG-(third.Mixed.MassG-third.Planned.MassG)) <= exact) {
		t.Errorf("the third pot is %+v", third.Mixed)
	}
	// 35.2 g to 147.1 g, where the record's ratio is 24 to 100.
	if want := 35.2/147.1/0.24 - 1; !(math.Abs(*third.Mixed.RatioError-want) <= exact) {
		t.Errorf("the ratio is off by %v, want %v", *third.Mixed.RatioError, want)
	}
}

// outside is whatever would make a browser fetch, run or send something.
var outside = regexp.MustCompile(`(?i)https?:|\bsrc\s*=|\bhref|@import|\burl\s*\(|xmlns|<script|<link|<iframe|<object|<embed|<base|<form|javascript:|\son[a-z]+\s*=`)

func TestReportNeedsNothingOutside(t *testing.T) {
	page, _, _ := reported(t, filepath.Join("..", "..", "testdata", "sessions", "strut.session"))
	if found := outside.FindString(page); found != "" {
		t.Errorf("the page holds %q", found)
	}
	for _, want := range []string{
		`<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'">`,
		"size: A4", "table-header-group", "<title>Telescope strut, 2026-11-21</title>",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
}

// mischief is a text that would do something if it were taken for HTML or Markdown.
const mischief = `</td></table><script>alert(1)</script><img src=x onerror=alert(2)> | *bold* [go](javascript:alert(3)) &amp; "q" ` + "`c`"

var tag = regexp.MustCompile(`</?([a-zA-Z!]+)`)

// TestReportEscapes writes mischief wherever a crew can write: the name of the job, notes and
// reasons. The page has no tag that a page without it does not have.
func TestReportEscapes(t *testing.T) {
	build := func(text string) string {
		d := shortDay(t, "name: Tube", "name: "+string(quoted(t, text)))
		d.Fill(0, 300)
		d.Begin(6, 1)
		d.Add(7, session.Event{Kind: session.Pause, Text: text})
		d.Note(8, text)
		return d.Keep(t)
	}
	tags := func(page string) string {
		var names []string
		for _, m := range tag.FindAllStringSubmatch(page, -1) {
			names = append(names, m[0])
		}
		return strings.Join(names, " ")
	}
	page, markdown, day := reported(t, build(mischief))
	harmless, _, _ := reported(t, build("plain"))
	if tags(page) != tags(harmless) {
		t.Errorf("the tags of the page with mischief are not those of the one without")
	}
	if n := strings.Count(page, "&lt;script&gt;alert(1)"); n < 4 {
		t.Errorf("the text stands %d times on the page, want in the title, the heading, a pause and a note", n)
	}
	if day.Notes[0].Text != mischief {
		t.Errorf("the JSON has the note as %q", day.Notes[0].Text)
	}
	markdown, _, _ = strings.Cut(markdown, "<!-- written by potlife as ") // its mark
	for _, live := range []string{"<", "[go]", " *bold*", "`c`"} {
		for at := 0; ; {
			i := strings.Index(markdown[at:], live)
			if i < 0 {
				break
			}
			if at += i; at == 0 || markdown[at-1] != '\\' {
				t.Errorf("Markdown holds %q that is not escaped", live)
				break
			}
			at++
		}
	}
	if rows, lines := rowsUnder(page, markdown, "Notes"); rows != 1 || lines != 1 {
		t.Errorf("the note makes %d rows and %d lines", rows, lines)
	}
}

func quoted(t *testing.T, text string) []byte {
	t.Helper()
	out, err := json.Marshal(text) // a JSON string is one of YAML
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestReportOfADayBegun tells a day that has hardly begun: nothing mixed, then a layer in hand
// and the machine standing.
func TestReportOfADayBegun(t *testing.T) {
	d := shortDay(t)
	page, _, day := reported(t, d.Keep(t))
	if strings.Contains(page, "<svg") || day.Wound != nil || day.Learnt != nil || day.Ended != nil || len(day.Layers) != 3 {
		t.Error("a day without a pour has a bath, or lacks its layers")
	}
	if !strings.Contains(day.Verdict[0], "Nothing is wound") || !strings.Contains(day.Verdict[0], "open") {
		t.Errorf("the verdict begins %q", day.Verdict[0])
	}
	d.Fill(0, 300)
	d.Begin(6, 1)
	d.Pause(8)
	d.Note(28, "still there")
	page, _, day = reported(t, d.Keep(t))
	first := day.Layers[0]
	if strings.Count(page, "<svg ") != 2 || first.Start == nil || first.End != nil || *first.RanS != 120 || *first.PausedS != 1200 {
		t.Errorf("the layer in hand is %+v", first)
	}
	if p := day.Pauses[0]; p.To != nil || p.DurationS != 1200 {
		t.Errorf("the pause that goes on is %+v", p)
	}
}

// TestReportWithoutAPlan tells the day of a job that no plan fits: its layers must be laid from
// a bath that cannot hold one.
func TestReportWithoutAPlan(t *testing.T) {
	d := shortDay(t, "lowest: 120 g, highest: 900 g", "lowest: 120 g, highest: 125 g")
	_, markdown, day := reported(t, d.Keep(t))
	if day.Feasible || day.Layers[0].PlannedStart != nil || day.Totals.PotsPlanned != 0 {
		t.Fatalf("there is a plan: %+v", day.Layers[0])
	}
	if !strings.Contains(markdown, "there was no plan that keeps every limit") {
		t.Error("the report does not say that there was no plan")
	}
}

// TestReportOverMidnight marks times of the next day.
func TestReportOverMidnight(t *testing.T) {
	d := shortDay(t, "09:00", "23:50")
	d.Fill(0, 300)
	d.Layer(1, 6, 14)
	_, markdown, _ := reported(t, d.Keep(t))
	if !strings.Contains(markdown, "| 23:56–00:04+1 |") {
		t.Error("the end of layer 1 is not told as that of the next day")
	}
}

// TestUnwritable: a full disk is nobody's wrong input.
func TestUnwritable(t *testing.T) {
	full := &os.PathError{Op: "write", Path: "day.html", Err: syscall.ENOSPC}
	if code := exitCode(unwritable(full)); code != exitFailed {
		t.Errorf("a full disk: exit %d, want %d", code, exitFailed)
	}
	if code := exitCode(unwritable(os.ErrPermission)); code != exitInput {
		t.Errorf("a folder that may not be written to: exit %d, want %d", code, exitInput)
	}
	if says := unwritable(os.ErrPermission).Error(); !strings.Contains(says, "\n   name a file in a folder that you may write to") {
		t.Errorf("no next step: %s", says)
	}
}

// TestUnwritableJournal: as for any other file.
func TestUnwritableJournal(t *testing.T) {
	for cause, want := range map[error]int{syscall.EACCES: exitInput, syscall.EROFS: exitInput, syscall.ENOSPC: exitFailed, syscall.EIO: exitFailed} {
		if code := exitCode(sessionError(&session.Failed{Doing: "write", Path: "journal.jsonl", Err: cause})); code != want {
			t.Errorf("%v: exit %d, want %d", cause, code, want)
		}
	}
}

// BenchmarkReportCrowdedDay is report as one command.
func BenchmarkReportCrowdedDay(b *testing.B) {
	folder := crowdedDay(b)
	out := filepath.Join(b.TempDir(), "day.html")
	b.ReportAllocs()
	for b.Loop() {
		var stdout, stderr bytes.Buffer
		if code := run([]string{"report", folder, "-o", out}, &stdout, &stderr); code != exitDone {
			b.Fatalf("exit %d: %s", code, stderr.String())
		}
	}
}

// TestReportPlannedAtLayers: where the machine may stop at circuits and the plan needs no such
// stop, the report is of the plan that was made.
func TestReportPlannedAtLayers(t *testing.T) {
	d := shortDay(t, "refill: layers", "refill: circuits")
	d.Fill(1, 250)
	d.Begin(8, 1)
	d.Done(16, 1)
	_, _, day := reported(t, d.Keep(t))
	for _, l := range day.Layers {
		if l.PlannedStart == nil || l.PlannedEnd == nil || !l.PlannedEnd.After(*l.PlannedStart) {
			t.Errorf("%s is planned from %v to %v", l.Name, l.PlannedStart, l.PlannedEnd)
		}
	}
	if len(day.Layers) != 3 {
		t.Errorf("%d layers", len(day.Layers))
	}
}
