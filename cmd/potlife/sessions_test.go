package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"potlife/kinetics/testrun"
	"potlife/schedule/session"
)

// sessionNames are all that there are: a text that was not read would be no test.
var sessionNames = []string{
	"bath-read-hot", "bath-warms", "below-lowest", "circuits", "cup-forgotten", "cup-spread", "day-ends", "deadline", "off-ratio-diluted", "off-ratio", "overfull", "past", "readings-hot", "reserve", "room", "shell", "silence", "standing-orders", "strut",
}

// alwaysMade is made anew by the default suite, too; of the others it asks a third of the recorded
// ones.
const alwaysMade = "strut"

// TestSessions makes each session of testdata/sessions again from its text, in a folder of
// its own, and compares it with the recorded one: every event but for when and by which version
// it was written, the copies and the files there are. With -update it is recorded anew. The default
// suite makes only [alwaysMade].
//
// The text holds a line "day DATE", and then what was logged in the order in which it was
// told: a time of that day, and the words after potlife log, or start. A line "job NAME" names
// the job where it is not called as the session, followed by some of its text to be replaced,
// old and new in turn.
//
// Between them stand orders: a time and "check", or "replan", with paths of their JSON answer of
// that time as [hasPath] reads them, of the session as it is by then. A value that is not JSON
// is a string.
func TestSessions(t *testing.T) {
	texts, err := filepath.Glob(filepath.Join("..", "..", "testdata", "sessions", "*.txt"))
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, text := range texts {
		names = append(names, strings.TrimSuffix(filepath.Base(text), ".txt"))
	}
	if diff := cmp.Diff(sessionNames, names); diff != "" {
		t.Fatalf("the sessions of testdata/sessions, - wanted, + there\n%s", diff)
	}
	for i, text := range texts {
		t.Run(names[i], func(t *testing.T) {
			recorded := strings.TrimSuffix(text, ".txt") + ".session"
			if !testrun.IsLong() && !*update && names[i] != alwaysMade {
				if i%3 == 0 {
					liveThrough(t, text, strings.TrimSuffix(text, ".txt"))
				}
				return
			}
			made := liveThrough(t, text, "")
			if *update {
				rerecord(t, made, recorded)
			}
			if diff := cmp.Diff(files(t, recorded), files(t, made)); diff != "" {
				t.Errorf("the recorded session is not what its text makes, - recorded, + made; go test ./cmd/potlife -run TestSessions -update records it anew\n%s", diff)
			}
		})
	}
}

// liveThrough runs the commands of a text on a copy of its job and returns the session's
// folder. Where one is recorded already only the orders are asked for.
func liveThrough(t *testing.T, text, recorded string) string {
	t.Helper()
	setClock(t, afterAll)
	source, err := os.ReadFile(text)
	if err != nil {
		t.Fatal(err)
	}
	l := life{t: t, stem: recorded, recorded: recorded != "", answers: map[string]any{}}
	if !l.recorded {
		l.stem = filepath.Join(t.TempDir(), "day")
		l.job(filepath.Dir(text), strings.TrimSuffix(filepath.Base(text), ".txt")+".yaml", nil, true)
	}
	for line := range strings.SplitSeq(string(source), "\n") {
		line, _, _ = strings.Cut(line, "#")
		if words := shellWords(line); len(words) > 1 {
			l.live(filepath.Dir(text), words)
		}
	}
	return l.stem + ".session"
}

// A life is a session as its text goes on.
type life struct {
	t         *testing.T
	stem, day string
	recorded  bool
	answers   map[string]any // by time
}

// job is the one that the session starts with.
func (l *life) job(folder, name string, replace []string, maybe bool) {
	l.t.Helper()
	job, err := os.ReadFile(filepath.Join(folder, name))
	if maybe && errors.Is(err, fs.ErrNotExist) {
		return // a line names it
	}
	if err != nil {
		l.t.Fatal(err)
	}
	for i := 0; i+1 < len(replace); i += 2 {
		if !bytes.Contains(job, []byte(replace[i])) {
			l.t.Fatalf("%s has no %q", name, replace[i])
		}
		job = bytes.ReplaceAll(job, []byte(replace[i]), []byte(replace[i+1]))
	}
	if err := os.WriteFile(l.stem+".yaml", job, 0o644); err != nil {
		l.t.Fatal(err)
	}
}

// live is one line of the text.
func (l *life) live(folder string, words []string) {
	l.t.Helper()
	at := []string{"--at", l.day + " " + words[0]}
	switch {
	case words[0] == "day":
		l.day = words[1]
	case words[1] == "check", words[1] == "replan":
		l.orders(words, append([]string{words[1], "--json", "--session", l.stem + ".session"}, at...))
	case l.recorded:
	case words[0] == "job":
		l.job(folder, words[1], words[2:], false)
	case words[1] == "start":
		l.run(append([]string{"start", l.stem + ".yaml"}, at...))
	default:
		l.run(append(append([]string{"log", "--session", l.stem + ".session"}, words[1:]...), at...))
	}
}

func (l *life) run(args []string) {
	l.t.Helper()
	var out, errOut bytes.Buffer
	if code := run(args, &out, &errOut); code != exitDone {
		l.t.Fatalf("%s\nexit %d: %s", strings.Join(args, " "), code, errOut.String())
	}
}

// orders compares an answer with what a line wants of it.
func (l *life) orders(words, args []string) {
	l.t.Helper()
	var out, errOut bytes.Buffer
	if code := run(args, &out, &errOut); code != exitDone && code != exitLimit {
		l.t.Fatalf("%s\nexit %d: %s", strings.Join(args, " "), code, errOut.String())
	}
	var answer any
	if err := json.Unmarshal(out.Bytes(), &answer); err != nil {
		l.t.Fatal(err)
	}
	for _, path := range words[2:] {
		if err := hasPath(answer, l.jsonPath(path)); err != nil {
			l.t.Errorf("%s %s: %s: %v", words[0], words[1], path, err)
		}
	}
	l.answers[words[0]] = answer
}

// jsonPath makes JSON of what a path is compared with.
func (l *life) jsonPath(path string) string {
	l.t.Helper()
	m := asked.FindStringSubmatch(path)
	if m == nil || json.Valid([]byte(m[3])) {
		return path
	}
	time, earlier := strings.CutPrefix(m[3], "@")
	if !earlier {
		return m[1] + m[2] + strconv.Quote(m[3])
	}
	value, err := inside(l.answers[time], m[1])
	if err != nil {
		l.t.Fatalf("%s: %v", path, err)
	}
	text, err := json.Marshal(value)
	if err != nil {
		l.t.Fatal(err)
	}
	return m[1] + m[2] + string(text)
}

// files are those of a session: the events without the moment at which they were written,
// and the others as they are.
func files(t *testing.T, folder string) map[string]any {
	t.Helper()
	s, err := session.OpenFolder(folder)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if s.Report.Cut > 0 {
		t.Errorf("%s: %+v", folder, s.Report.Warnings())
	}
	var events []map[string]any
	for _, entry := range s.Journal.Entries() {
		var event map[string]any
		if err := json.Unmarshal(entry.Payload, &event); err != nil {
			t.Fatal(err)
		}
		delete(event, "logged")
		delete(event, "program") // whichever records it
		delete(event, "after")   // a checksum of these, too
		events = append(events, event)
	}
	_, err = os.Stat(filepath.Join(folder, session.CountName))
	counted := err == nil // what it says was checked as the session was opened
	if format, _ := events[0]["format"].(float64); counted != (format >= 3) {
		t.Errorf("%s has format %v; a count: %t", folder, events[0]["format"], counted)
	}
	found := map[string]any{session.Name: events, session.CountName: counted}
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, entry := range entries {
		if _, seen := found[entry.Name()]; seen {
			continue
		}
		content, err := os.ReadFile(filepath.Join(folder, entry.Name()))
		if err != nil {
			t.Fatal(err)
		}
		found[entry.Name()] = string(content)
	}
	return found
}

func rerecord(t *testing.T, made, recorded string) {
	t.Helper()
	if err := os.RemoveAll(recorded); err != nil {
		t.Fatal(err)
	}
	if err := os.CopyFS(recorded, os.DirFS(made)); err != nil {
		t.Fatal(err)
	}
}
