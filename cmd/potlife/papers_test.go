package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"time"

	ical "github.com/arran4/golang-ical"
	"rsc.io/pdf"

	"potlife/cmd/potlife/internal/report"
	"potlife/cmd/potlife/internal/sheet"
)

// planned runs plan and returns its two papers.
func planned(t *testing.T, job string) (page, calendar string) {
	t.Helper()
	folder := t.TempDir()
	page, calendar = filepath.Join(folder, "p.html"), filepath.Join(folder, "p.ics")
	var out, errOut bytes.Buffer
	if code := run([]string{"plan", job, "--sheet", page, "--ics", calendar}, &out, &errOut); code != exitDone {
		t.Fatalf("exit %d: %s", code, errOut.String())
	}
	return page, calendar
}

func demoJob(name string) string { return filepath.Join("..", "..", "testdata", "jobs", name) }

// printed is a page as the browser prints it.
func printed(t *testing.T, page string) *pdf.Reader {
	t.Helper()
	browser := chromium(t)
	folder := t.TempDir()
	out := filepath.Join(folder, "p.pdf")
	cmd := exec.CommandContext(t.Context(), browser, "--headless", "--no-sandbox", "--disable-gpu", "--user-data-dir="+filepath.Join(folder, "profile"),
		"--no-pdf-header-footer", "--print-to-pdf="+out, "file://"+page)
	if said, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	f, err := pdf.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// TestSheetIsOnePage prints the sheets of both demos: A4, one page each.
func TestSheetIsOnePage(t *testing.T) {
	for _, name := range []string{"telescope-strut.yaml", "softener-shell.yaml"} {
		page, _ := planned(t, demoJob(name))
		f := printed(t, page)
		if n := f.NumPage(); n != 1 {
			t.Errorf("%s: %d pages", name, n)
		}
		// A4 is 210 mm by 297 mm, in points of 1/72 inch; the browser rounds to 1/96 inch.
		box := f.Page(1).V.Key("MediaBox")
		if w, h := box.Index(2).Float64(), box.Index(3).Float64(); !(w-595.28 <= 0.75 && 595.28-w <= 0.75 && h-841.89 <= 0.75 && 841.89-h <= 0.75) {
			t.Errorf("%s: %v by %v points", name, w, h)
		}
	}
}

// TestSheetOfManyPots prints forty pots: more pages, each with the heads of the table.
func TestSheetOfManyPots(t *testing.T) {
	p := &sheet.Page{Title: "Many", Day: "Saturday", Resin: "resin", Mix: "100 : 30", Verdict: "40 pots", Care: []string{"care"}}
	for i := range 40 {
		p.Rows = append(p.Rows, sheet.Row{
			Pot:   &sheet.Pot{Number: fmt.Sprint(i + 1), Into: "top up", Resin: "100", Hardener: "30", Mass: "130", Mix: "09:00", Pour: "09:05"},
			Layer: &sheet.Layer{Name: fmt.Sprint(i+1, " hoop"), Begin: "09:06", Done: "09:30"},
		})
	}
	content, err := p.Encode()
	if err != nil {
		t.Fatal(err)
	}
	page := filepath.Join(t.TempDir(), "many.html")
	if err := os.WriteFile(page, content, 0o644); err != nil {
		t.Fatal(err)
	}
	f := printed(t, page)
	if f.NumPage() < 3 || f.NumPage() > 5 {
		t.Errorf("%d pages", f.NumPage())
	}
	// The browser writes the numbers of glyphs, not letters. Two rows share some twenty of
	// them in a row, and the two lines of the table's head have more than sixty.
	first := glyphs(f, 1)
	for i := 2; i <= f.NumPage(); i++ {
		if n := shared(first, glyphs(f, i)); n < 60 {
			t.Errorf("page %d shares %d glyphs in a row with the first: it has no head", i, n)
		}
	}
}

func glyphs(f *pdf.Reader, page int) string {
	var all strings.Builder
	for _, text := range f.Page(page).Content().Text {
		all.WriteString(strings.ReplaceAll(text.S, "\x00", ""))
	}
	return all.String()
}

// shared is the length of the longest run that both texts have.
func shared(a, b string) int {
	longest := 0
	for i := range len(a) {
		for i+longest < len(a) && strings.Contains(b, a[i:i+longest+1]) {
			longest++
		}
	}
	return longest
}

// TestCalendarIsThePlan reads the calendar of both demos with an independent parser and
// holds it against the pots of the answer: the same minutes, in UTC, whatever the zone.
func TestCalendarIsThePlan(t *testing.T) {
	for _, name := range []string{"telescope-strut.yaml", "softener-shell.yaml"} {
		_, path := planned(t, demoJob(name))
		file, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		read, err := ical.ParseCalendar(bytes.NewReader(file))
		if err != nil {
			t.Fatal(err)
		}
		var out, errOut bytes.Buffer
		if code := run([]string{"plan", demoJob(name), "--json"}, &out, &errOut); code != exitDone {
			t.Fatal(errOut.String())
		}
		var plan report.Plan
		if err := json.Unmarshal(out.Bytes(), &plan); err != nil {
			t.Fatal(err)
		}
		if len(read.Events()) != len(plan.Pots) || len(plan.Pots) == 0 {
			t.Fatalf("%s: %d events for %d pots", name, len(read.Events()), len(plan.Pots))
		}
		for i, e := range read.Events() {
			start, err := e.GetStartAt()
			if err != nil || !start.Equal(plan.Pots[i].MixAt.Round(time.Minute)) {
				t.Errorf("%s, pot %d starts at %v, %v", name, i+1, start, err)
			}
			end, err := e.GetEndAt()
			if err != nil || !end.Equal(plan.Pots[i].PourAt.Round(time.Minute)) {
				t.Errorf("%s, pot %d ends at %v, %v", name, i+1, end, err)
			}
			if a := e.Alarms(); len(a) != 1 || a[0].GetProperty(ical.ComponentPropertyTrigger).Value != "-PT5M" {
				t.Errorf("%s, pot %d: alarms %v", name, i+1, a)
			}
		}
		// Written again, only the stamp is another.
		_, again := planned(t, demoJob(name))
		second, err := os.ReadFile(again)
		if err != nil {
			t.Fatal(err)
		}
		stamp := regexp.MustCompile(`DTSTAMP:.*`)
		if !bytes.Equal(stamp.ReplaceAll(file, nil), stamp.ReplaceAll(second, nil)) {
			t.Errorf("%s: the calendar is another the second time", name)
		}
	}
}

// TestHostileName: a job's name with all that means something in either file stays a name.
func TestHostileName(t *testing.T) {
	source, err := os.ReadFile(demoJob("telescope-strut.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	job := filepath.Join(t.TempDir(), "job.yaml")
	name := `"a, b; c END:VCALENDAR <script>alert('x')</script> \\n \u00e4"`
	source = bytes.Replace(source, []byte("name: Telescope strut"), []byte("name: "+name), 1)
	if err := os.WriteFile(job, source, 0o644); err != nil {
		t.Fatal(err)
	}
	page, path := planned(t, job)
	html, err := os.ReadFile(page)
	if err != nil || bytes.Contains(html, []byte("<script")) || !bytes.Contains(html, []byte("&lt;script&gt;")) {
		t.Errorf("the sheet holds the script, or not its text: %v", err)
	}
	file, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	read, err := ical.ParseCalendar(bytes.NewReader(file))
	if err != nil || len(read.Events()) != 4 || bytes.Count(file, []byte("\nEND:VCALENDAR")) != 1 {
		t.Fatalf("%v in\n%s", err, file)
	}
	flat := strings.ReplaceAll(string(file), "\r\n ", "")
	if want := `DESCRIPTION:a\, b\; c END:VCALENDAR <script>alert('x')</script> \\n ä\nMix`; !strings.Contains(flat, want) {
		t.Errorf("no %s in\n%s", want, flat)
	}
}

// TestFullDisk: a file that the disk has no room for is not the user's fault.
func TestFullDisk(t *testing.T) {
	full := &fs.PathError{Op: "write", Path: "strut.html", Err: syscall.ENOSPC}
	if code := exitCode(unwritable(fmt.Errorf("cannot be written: %w", full))); code != exitFailed {
		t.Errorf("a full disk ends with %d", code)
	}
	if code := exitCode(unwritable(fs.ErrPermission)); code != exitInput {
		t.Errorf("a folder that may not be written to ends with %d", code)
	}
}

// TestNoFolderForAFile: what is to be done is to make it; the same command again would fail again.
func TestNoFolderForAFile(t *testing.T) {
	gone := fmt.Errorf("cannot be written: %w", &fs.PathError{Op: "open", Path: "no/strut.html", Err: syscall.ENOENT})
	for name, sorted := range map[string]func(error) error{"unwritten": unwritten, "unwritable": unwritable} {
		if says := sorted(gone).Error(); !strings.HasSuffix(says, "\n   make its folder first, or name a file in another") {
			t.Errorf("%s says %q", name, says)
		}
		if err := sorted(nil); err != nil {
			t.Errorf("%s of nothing is %v", name, err)
		}
	}
}
