package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/report"
	"potlife/resins/document/documenttest"
	"potlife/schedule/session"
)

// answeredOrRefused runs a command line and holds it to what all promise: an answer and no complaint, or
// a complaint with a mend and no answer; never a failure, since whatever is typed can be
// mended by who typed it.
func answeredOrRefused(t *testing.T, args []string) (code int, out string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	code = run(args, &stdout, &stderr)
	told := stderr.String()
	switch code {
	case exitDone:
		if stdout.Len() == 0 {
			t.Fatalf("%q: done, and nothing is told", args)
		}
	case exitInput:
		if stdout.Len() > 0 {
			t.Fatalf("%q: refused, and told all the same: %s", args, stdout.String())
		}
		if !refuses(told) {
			t.Fatalf("%q: %q is no refusal with a mend", args, told)
		}
	default:
		t.Fatalf("%q: exit %d: %s", args, code, told)
	}
	documenttest.Told(t, strings.Join(args, " "), stdout.String()+told)
	return code, stdout.String()
}

// refuses tells whether a complaint is one: words of the program with a mend, or as JSON, behind
// the warnings if there are any, with what is wrong and what to do about it.
func refuses(told string) bool {
	lines := strings.Split(strings.TrimSuffix(told, "\n"), "\n")
	var is report.Errors
	if json.Unmarshal([]byte(lines[len(lines)-1]), &is) != nil {
		return strings.HasPrefix(told, "potlife: ") && mends(told)
	}
	lacking := func(e report.Error) bool { return e.Code == "" || e.Message == "" || e.Fix == "" }
	return is.Exit == exitInput && len(is.Errors) > 0 && !slices.ContainsFunc(is.Errors, lacking) &&
		(len(lines) == 1 || strings.HasPrefix(told, "potlife: "))
}

// mends tells whether a complaint says what to do: on a line of its own, behind a semicolon
// where it is about one value, behind a colon where a folder is none.
func mends(told string) bool {
	return strings.Contains(told, "\n   ") || strings.Contains(told, "; ") || strings.Contains(told, ": name another")
}

// asksHelp tells whether a command line asks how it is written, and does nothing else.
func asksHelp(args []string) bool {
	return slices.ContainsFunc(args, func(a string) bool {
		return strings.HasPrefix(a, "--help") || strings.HasPrefix(a, "-") && strings.Contains(a, "h") && !strings.HasPrefix(a, "--")
	})
}

// lists tells whether a command line of log names no event, and so prints the journal.
func lists(args []string) bool {
	cmd, _, err := newRoot().Find([]string{"log"})
	if err == nil {
		err = cmd.ParseFlags(args)
	}
	return err == nil && cmd.Flags().NArg() == 0
}

// FuzzLogLine: whatever stands on the command line of log, in whatever order, one event more is
// in the journal, or none and a refusal.
func FuzzLogLine(f *testing.F) {
	for _, line := range []string{
		"mixed\n239.3g", "mixed\n--resin\n193g\n--hardener\n46.3g\n--temp\n25C", "--hardener=46.3g\nmixed\n--resin=193g\n--json", "poured", "poured\n2\n--at\n09:06", "begin\n--at=09:10",
		"bath-temp\n24.5\nC", "bath-temp\n24.5C\n--temp\n3C", "flow-cup\niso-6\n62s", "flow-cup\n62s\niso-6", "62s\nflow-cup", "pause\ntow\nbroke", "note\n--\n--at", "note\n--at\n25:00", "undo\n2",
		"undo\n-1", "undo\n--\n-1", "left-over\n-5g", "left-over\n--\n-5g", "--json\nviscosity\n0.8Pa·s", "finish\nnow", "", "--session\nnowhere\nnote\nx", "room\n1e300K", "note\n\xff\x1b[2J", "note\n" + strings.Repeat("\x01", 3999),
		"done\n--at\n9999-12-31T23:59:59-23:59", "--at", "start", "weighed", "mixed\n0x1p-2kg", "mixed\n9g\n--lot\nresin=R2217,expires=2027-03\n--lot=hardener=H0450", "mixed\nNaN g", "mixed\n--resin=193w\n--json",
	} {
		f.Add(line)
	}
	folder, journal := begunDay(f)
	count, err := os.ReadFile(filepath.Join(folder, session.CountName))
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, line string) {
		args := strings.Split(line, "\n")
		if asksHelp(args) || lists(args) {
			return
		}
		for name, content := range map[string][]byte{session.Name: journal, session.CountName: count} {
			if err := os.WriteFile(filepath.Join(folder, name), content, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		code, out := answeredOrRefused(t, append([]string{"log", "--session", folder}, args...))
		now, err := os.ReadFile(filepath.Join(folder, session.Name))
		if err != nil {
			t.Fatal(err)
		}
		more, same := bytes.CutPrefix(now, journal)
		// Beside the event only a new plan is kept, where the event makes the old one break a limit.
		plans := bytes.Count(more, []byte(`"kind":"plan"`))
		if lines := bytes.Count(more, []byte("\n")); !same || plans > 1 || code == exitDone && lines != 1+plans || code != exitDone && len(more) > 0 {
			t.Fatalf("%q: exit %d, and the journal has %d lines more: %q", args, code, lines, more)
		}
		if code == exitDone && !strings.HasPrefix(out, "logged") && !json.Valid([]byte(out)) {
			t.Fatalf("%q: %s", args, out)
		}
		s, err := session.OpenFolder(folder)
		if err != nil {
			t.Fatal(err)
		}
		defer s.Close()
		if _, err := s.Day(); err != nil {
			t.Fatalf("after %q: %v", args, err)
		}
	})
}

// begunDay is a session with a pot mixed, poured and a layer begun, and one pot more.
func begunDay(f *testing.F) (folder string, journal []byte) {
	job, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "telescope-strut.yaml"))
	if err != nil {
		f.Fatal(err)
	}
	path := filepath.Join(f.TempDir(), "strut.yaml")
	if err := os.WriteFile(path, job, 0o644); err != nil {
		f.Fatal(err)
	}
	folder = strings.TrimSuffix(path, ".yaml") + ".session"
	setClock(f, afterAll)
	const day = "2026-11-20 "
	for _, line := range [][]string{
		{"start", path, "--at", day + "09:00"},
		{"log", "mixed", "240 g", "--at", day + "09:01"},
		{"log", "poured", "--at", day + "09:06"},
		{"log", "begin", "--at", day + "09:08"},
		{"log", "mixed", "200 g", "--at", day + "09:20"},
	} {
		if line[0] == "log" {
			line = append(line, "--session", folder)
		}
		var out, errOut bytes.Buffer
		if code := run(line, &out, &errOut); code != exitDone {
			f.Fatalf("%q: exit %d: %s", line, code, errOut.String())
		}
	}
	if journal, err = os.ReadFile(filepath.Join(folder, session.Name)); err != nil {
		f.Fatal(err)
	}
	return folder, journal
}

// FuzzWeigh: whatever weights and measures stand on the command line of weigh, it answers,
// or refuses with a mend.
func FuzzWeigh(f *testing.F) {
	for _, line := range []string{
		"--part\n4520g\n--mandrel\n3200g\n--tow\n250m\n--tex\n800tex\n--tows\n4\n--mixed\n640g\n--left-over\n55g\n--target\n62 % by mass",
		"--coupon\n2.034g\n--residue\n1.261g\n--balance\n1mg\n--air\n5.012g\n--water\n1.660g\n--fibre-density\n1.80g/cm³\n--resin-density\n1.20g/cm³", "--part\n1534g\n--fibre\n951g\n--json",
		"--part\n1e299kg\n--fibre\n1e-299g", "--part\n0g\n--fibre\n0g\n--scale\n1e-299g", "--thickness\n2mm\n--areal-weight\n200g/m²\n--plies\n8\n--fibre-density\n1.8g/cm³", "--part=1534g\n--fibre=951g\n--band\n2 %\n--target=50 % by volume",
		"--spool-before\n5kg\n--spool-after\n4kg\n--part\n1.5kg\n--volume\n850mL\n--water-temperature\n1e290K", "--log", "--part\n-1g\n--fibre\n-1g", "--tows\n99999999999\n--tex\n800tex\n--tow\n1e250m\n--part\n1kg", "x",
	} {
		f.Add(line)
	}
	f.Fuzz(func(t *testing.T, line string) {
		args := strings.Split(line, "\n")
		if asksHelp(args) || slices.ContainsFunc(args, func(a string) bool { return strings.HasPrefix(a, "--session") || strings.HasPrefix(a, "--log") }) {
			return // FuzzLogLine
		}
		code, out := answeredOrRefused(t, append([]string{"weigh"}, args...))
		if code == exitDone && slices.Contains(args, "--json") && !json.Valid([]byte(out)) {
			t.Fatalf("%q: %s", args, out)
		}
	})
}

// FuzzWorktime: whatever stands on the command line of worktime is refused with a mend, or
// is finite and within the bounds of what is simulated. Files are read elsewhere.
func FuzzWorktime(f *testing.F) {
	for _, line := range []string{
		"--resin\nepoxy-ipda\n--mass\n250g\n--vessel\n{cup: 90 mm}\n--room\n22C", "--resin=epoxy-teta\n--mass=1kg\n--vessel={length: 300 mm, width: 120 mm}\n--room=22C\n--from=0K\n--limits={reserve: 0 s}",
		"--mass\n250g", "--resin\nepoxy-ipda\n--mass\n1e-4kg\n--vessel\n{cup: 2 m, jacket: 200 °C}\n--room\n-20C\n--limits\n{bath_temperature: 200 °C, bath_viscosity: 1000 Pa·s}", "--resin", "--json\n--json=x",
	} {
		f.Add(line)
	}
	f.Fuzz(func(t *testing.T, line string) {
		if strings.ContainsAny(line, `@/\`) || strings.Contains(line, ".y") || strings.Contains(line, "--datasheet") {
			return // paths; FuzzLabel
		}
		var o worktimeOptions
		cmd := &cobra.Command{}
		for name, into := range map[string]*string{"resin": &o.resin, "mass": &o.mass, "vessel": &o.vessel, "room": &o.room, "from": &o.from, "limits": &o.limits} {
			cmd.Flags().StringVar(into, name, "", "")
		}
		if cmd.ParseFlags(strings.Split(line, "\n")) != nil {
			return
		}
		s, _, err := o.parse()
		if err != nil {
			if !mends(err.Error()) {
				t.Fatalf("%q: %q is no refusal with a mend", line, err)
			}
			return
		}
		documenttest.Finite(t, s)
		if !(s.Mass > 0 && s.Room > 0 && s.From >= 0) {
			t.Fatalf("%q: %+v", line, s)
		}
	})
}

// FuzzPause: the pause that check is asked about is none, or up to two days.
func FuzzPause(f *testing.F) {
	for _, text := range []string{"", "15min", "1 h 05 min", "2 d", "48.0001 h", "1e-299 s", "-1 s", "0 s"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		pause, err := readPause(text)
		if err != nil {
			if !strings.HasPrefix(err.Error(), "--pause: ") || !mends(err.Error()) {
				t.Fatalf("%q: %q is no refusal with a mend", text, err)
			}
			return
		}
		if pause < 0 || pause.Hours() > 48 || (pause == 0) != (text == "") {
			t.Fatalf("%q is %v", text, pause)
		}
	})
}
