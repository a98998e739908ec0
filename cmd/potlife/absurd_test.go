package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"hash/crc32"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"potlife/kinetics/testrun"
	"potlife/schedule/session"
)

// An absurd journal is one whose lines are sound and whose events cannot have been logged.
type absurd []map[string]any

// sealed writes its lines with the numbers, the chain and the checksums that the package comment
// of session asks for.
func (a absurd) sealed(t testing.TB) []byte {
	t.Helper()
	var text []byte
	after := "00000000"
	for i, event := range a {
		event := mapsWithout(event, "seq", "after", "key")
		body, err := json.Marshal(event)
		if err != nil {
			t.Fatal(err)
		}
		object := fmt.Appendf(nil, `{"seq":%d,"after":"%s"`, i+1, after)
		if len(event) > 0 {
			object = append(append(object, ','), body[1:]...)
		} else {
			object = append(object, '}')
		}
		after = fmt.Sprintf("%08x", crc32.Checksum(object, crc32.MakeTable(crc32.Castagnoli)))
		text = fmt.Appendf(text, "%s\t%s\n", object, after)
	}
	return text
}

func mapsWithout(m map[string]any, names ...string) map[string]any {
	rest := map[string]any{}
	for name, value := range m {
		if !slices.Contains(names, name) {
			rest[name] = value
		}
	}
	return rest
}

// readAbsurd reads the events of a recorded session.
func readAbsurd(t testing.TB, folder string) absurd {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(folder, session.Name))
	if err != nil {
		t.Fatal(err)
	}
	var a absurd
	for line := range strings.Lines(string(text)) {
		object, _, _ := strings.Cut(line, "\t")
		var event map[string]any
		if err := json.Unmarshal([]byte(object), &event); err != nil {
			t.Fatal(err)
		}
		a = append(a, event)
	}
	return a
}

// absurdValues take the place of a number, a moment or a text.
var (
	absurdNumbers = []any{0, -1, 1, 2, 7, 0.5, -0.5, 1e-300, 1e300, -1e300, 1e9, 1_000_000, 999, -273.16, 1e18, int64(1) << 62, json.Number("1e999"), "NaN", nil, []any{}, map[string]any{}, true}
	absurdMoments = []any{
		"0001-01-01T00:00:00Z", "1900-01-01T00:00:00Z", "9999-12-31T23:59:59Z", "2126-11-21T09:00:00+01:00", "1969-12-31T23:59:59Z", "2026-11-21T10:00:00+23:59",
		"2026-11-21T02:00:00-23:59", "2026-11-20T09:30:00+01:00", "2026-11-22T09:30:00+01:00", "2262-04-12T00:00:00Z", "", "NaN", 5, nil,
	}
	absurdTexts = []any{"", "NaN", "fill", "change", "top-up", "undo", "start", "mixed", "poured", "begin", "done", "finish", "plan", "bath-temp", "changed", "../..", strings.Repeat("x", 4000), 1e300, nil}
)

// mutated changes one thing of a journal, at a place that chance names.
func (a absurd) mutated(random *rand.Rand) (absurd, string) {
	copied := make(absurd, len(a))
	for i, event := range a {
		text, _ := json.Marshal(event)
		_ = json.Unmarshal(text, &copied[i])
	}
	i, j := random.IntN(len(a)), random.IntN(len(a))
	switch random.IntN(12) {
	case 0:
		return slices.Delete(copied, i, i+1), fmt.Sprintf("without line %d", i+1)
	case 1:
		return slices.Insert(copied, j, copied[i]), fmt.Sprintf("line %d again at %d", i+1, j+1)
	case 2:
		copied[i], copied[j] = copied[j], copied[i]
		return copied, fmt.Sprintf("lines %d and %d swapped", i+1, j+1)
	case 3:
		name := []string{"layer", "pot", "of", "mass_g", "resin_g", "is_C", "grams", "seconds", "is_Pa_s", "layers", "format", "bath"}[random.IntN(12)]
		copied[i][name] = absurdNumbers[random.IntN(len(absurdNumbers))]
		return copied, fmt.Sprintf("line %d has %s %v", i+1, name, copied[i][name])
	}
	what := mutateIn(copied[i], random)
	return copied, fmt.Sprintf("line %d, %s", i+1, what)
}

// mutateIn changes one member of an object, or of one below it.
func mutateIn(object map[string]any, random *rand.Rand) string {
	var names []string
	for name := range object {
		if name != "seq" {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		return "which is empty"
	}
	slices.Sort(names)
	name := names[random.IntN(len(names))]
	below := object[name]
	if list, ok := below.([]any); ok && len(list) > 0 && random.IntN(6) > 0 {
		if inner, ok := list[random.IntN(len(list))].(map[string]any); ok {
			return name + ": " + mutateIn(inner, random)
		}
	}
	switch value := below.(type) {
	case map[string]any:
		if random.IntN(6) > 0 {
			return name + ": " + mutateIn(value, random)
		}
		object[name] = absurdNumbers[random.IntN(len(absurdNumbers))]
	case string:
		values := absurdTexts
		if _, err := time.Parse(time.RFC3339, value); err == nil {
			values = absurdMoments
		}
		object[name] = values[random.IntN(len(values))]
	default:
		object[name] = absurdNumbers[random.IntN(len(absurdNumbers))]
	}
	if random.IntN(8) == 0 {
		delete(object, name)
		return "without " + name
	}
	return fmt.Sprintf("%s %v", name, object[name])
}

// absurdLines are the commands that read a journal; S is the session.
var absurdLines = []string{
	"check --session S --json", "check --session S", "report S -o day.html", "cure --session S", "replan --session S", "log --session S", "log --session S note on", "log --session S bath-temp 24C",
	"weigh --session S --coupon 2.034g --residue 1.261g --balance 1mg", "session export S -o tables", "learn S -o learned.yaml", "session copy S copy", "session restore S", "log --session S undo",
}

// absurdPatience is far more than any answer of these sessions takes on a busy machine.
const absurdPatience = 2 * time.Minute

// answersAbsurd runs a command on a journal and requires an answer, or a refusal of one of the
// codes that are for it: no panic, no failure of the program, and no endless search.
func answersAbsurd(t testing.TB, line, what string) {
	t.Helper()
	var out, errOut bytes.Buffer
	ended := make(chan int, 1)
	begun := hostClock()
	go func() { ended <- run(strings.Fields(line), &out, &errOut) }()
	select {
	case code := <-ended:
		// Quoted, plainly or in JSON, it is what the journal holds, and no figure.
		text := strings.NewReplacer(`\"NaN\"`, "", `"NaN"`, "").Replace(errOut.String())
		if code == exitFailed || strings.Contains(text, "NaN") {
			t.Errorf("%s, %s: exit %d, %s", line, what, code, text)
		}
		if took := hostClock().Sub(begun); took > absurdPatience/4 {
			t.Logf("%s, %s: %v", line, what, took)
		}
	case <-time.After(absurdPatience):
		stack := make([]byte, 1<<20)
		t.Fatalf("%s, %s: no end after %v\n%s", line, what, absurdPatience, stack[:runtime.Stack(stack, true)])
	}
}

// TestAbsurdJournals: journals whose checksums fit and whose contents cannot have been logged,
// one thing changed in a recorded one, are answered or refused by every command that reads them.
func TestAbsurdJournals(t *testing.T) {
	random := rand.New(rand.NewPCG(20, 16))
	var recorded []string
	for _, name := range []string{"strut", "circuits", "cup-spread", "shell", "bath-warms"} {
		folder, err := filepath.Abs(filepath.Join("..", "..", "testdata", "sessions", name+".session"))
		if err != nil {
			t.Fatal(err)
		}
		recorded = append(recorded, folder)
	}
	t.Chdir(t.TempDir())
	for n := range testrun.Draws(30, 300) {
		folder := recorded[random.IntN(len(recorded))]
		sound := readAbsurd(t, folder)
		journal, what := sound.mutated(random)
		for random.IntN(3) == 0 && len(journal) > 0 {
			var more string
			journal, more = journal.mutated(random)
			what += "; " + more
		}
		if err := os.RemoveAll("day.session"); err != nil {
			t.Fatal(err)
		}
		for _, left := range []string{"tables", "copy", "learned.yaml", "day.html"} {
			if err := os.RemoveAll(left); err != nil {
				t.Fatal(err)
			}
		}
		if err := os.CopyFS("day.session", os.DirFS(folder)); err != nil {
			t.Fatal(err)
		}
		_ = os.Remove("day.session/" + session.CountName)
		if err := os.WriteFile("day.session/"+session.Name, journal.sealed(t), 0o644); err != nil {
			t.Fatal(err)
		}
		// Some time of the day, so that it is in the middle of something.
		at := time.Now
		if text, ok := sound[random.IntN(len(sound))]["at"].(string); ok {
			moment, err := time.Parse(time.RFC3339, text)
			if err != nil {
				t.Fatal(err)
			}
			at = func() time.Time { return moment.Add(time.Minute) }
		}
		was := clock
		clock = at
		lines := absurdLines
		if !testrun.IsLong() {
			lines = lines[n%len(lines) : n%len(lines)+1]
		}
		for _, line := range lines {
			answersAbsurd(t, strings.ReplaceAll(line, "S", "day.session"), filepath.Base(folder)+" of "+at().Format(time.RFC3339)+": "+what)
		}
		clock = was
		if t.Failed() && !testrun.IsLong() {
			return
		}
	}
}

// FuzzJournal: whatever events a journal holds whose checksums fit, every command that reads it
// answers or refuses. A text is one object a line.
func FuzzJournal(f *testing.F) {
	folder, err := filepath.Abs(filepath.Join("..", "..", "testdata", "sessions", "cup-spread.session"))
	if err != nil {
		f.Fatal(err)
	}
	sound := readAbsurd(f, folder)
	for n := range len(sound) {
		var text []byte
		for _, event := range sound[:n+1] {
			line, err := json.Marshal(mapsWithout(event, "seq", "after", "key"))
			if err != nil {
				f.Fatal(err)
			}
			text = append(append(text, line...), '\n')
		}
		f.Add(text, uint8(n))
	}
	was := clock
	f.Cleanup(func() { clock = was })
	f.Fuzz(func(t *testing.T, text []byte, which uint8) {
		var journal absurd
		for line := range bytes.Lines(text) {
			var event map[string]any
			if json.Unmarshal(line, &event) == nil && event != nil && len(journal) < 60 { // the rest finds nothing new
				journal = append(journal, event)
			}
		}
		t.Chdir(t.TempDir())
		if err := os.CopyFS("day.session", os.DirFS(folder)); err != nil {
			t.Fatal(err)
		}
		_ = os.Remove("day.session/" + session.CountName)
		if err := os.WriteFile("day.session/"+session.Name, journal.sealed(t), 0o644); err != nil {
			t.Fatal(err)
		}
		clock = func() time.Time { return time.Date(2026, 11, 24, 9, 10, 0, 0, time.UTC) }
		answersAbsurd(t, strings.ReplaceAll(absurdLines[int(which)%len(absurdLines)], "S", "day.session"), string(text))
	})
}
