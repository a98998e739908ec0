package main

import (
	"bytes"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"potlife/kinetics/testrun"
)

// openedBy are the commands that take a kind of files, which is known by a line that no other
// kind has. FILE is the file, STEM its name without the ending.
var openedBy = []struct {
	mark  string
	lines []string
}{
	{`^layers:`, []string{
		"plan FILE --sheet STEM.html --ics STEM.ics --chart STEM.svg --csv STEM.tables", "cure FILE --json",
	}},
	{`^evidence:`, []string{
		"resins check FILE", "resins show FILE --json", "resins show FILE --why",
		"worktime --resin ./FILE --mass 250g --room 22C --vessel @vessel.yaml --limits @limits.yaml --datasheet @datasheet.yaml",
	}},
	{`^statements:`, []string{"resins fit FILE -o STEM.made.yaml", "resins check STEM.made.yaml"}},
	{`^tests:`, []string{"resins cooling FILE"}},
	{`^steps:`, []string{"cure strut.yaml --program FILE --json"}},
	{`^epoxy-`, []string{"resins new --answers FILE -o STEM.made.yaml"}},
	{`^width:`, []string{"worktime --resin epoxy-ipda --mass 250g --room 22C --vessel @FILE"}},
	{`^bath_viscosity:`, []string{"worktime --resin epoxy-ipda --mass 250g --room 22C --vessel @vessel.yaml --limits @FILE"}},
	{`^pot_life:`, []string{"worktime --resin epoxy-ipda --mass 250g --room 22C --vessel @vessel.yaml --datasheet @FILE"}},
}

// Commands that take a session, S, beside report, by which TestOldEventsMeanTheSame asks what
// the events mean. Those that log come last.
var (
	openedInSession = []string{
		"log --session S", "check --session S", "weigh --session S WEIGHTS", "session export S -o S.tables", "session copy S S.copy", "session restore S.copy S.back",
	}
	openedWhenFinished = []string{"learn S -o S.learned.yaml"}
	openedWhenWound    = []string{"cure --session S"}
	openedWhenOpen     = []string{"replan --session S --sheet S.html --json"}
	loggedInSession    = []string{"log --session S note read again", "weigh --session S WEIGHTS --log --json", "log --session S undo"}
)

// oldWeights are possible whatever was wound.
const oldWeights = "--coupon 2.034g --residue 1.261g --balance 1mg"

// oldFolders are copies of the folders of testdata/old.
func oldFolders(t *testing.T) []string {
	t.Helper()
	copied := t.TempDir()
	if err := os.CopyFS(copied, os.DirFS(filepath.Join("..", "..", "testdata", "old"))); err != nil {
		t.Fatal(err)
	}
	folders, err := filepath.Glob(filepath.Join(copied, "*"))
	if err != nil || len(folders) == 0 {
		t.Fatalf("%d folders of old files: %v", len(folders), err)
	}
	return folders
}

// opens runs a command that must give an answer, within its limits or not: figures may move.
func opens(t *testing.T, line string) string {
	t.Helper()
	var out, errOut bytes.Buffer
	if code := run(strings.Fields(line), &out, &errOut); code != exitDone && code != exitLimit {
		t.Errorf("%s: exit %d, %s", line, code, errOut.String())
	}
	if out.Len() == 0 {
		t.Errorf("%s: no answer", line)
	}
	return out.String()
}

// TestOldFiles opens every file of testdata/old with every command that takes it.
func TestOldFiles(t *testing.T) {
	if !testrun.IsLong() {
		t.Skip("every command on every old file: " + testrun.Long + "=1 runs it")
	}
	for _, folder := range oldFolders(t) {
		t.Run(filepath.Base(folder), func(t *testing.T) {
			setClock(t, afterAll)
			t.Chdir(folder)
			names, err := filepath.Glob("*.*")
			if err != nil {
				t.Fatal(err)
			}
			texts := map[string]string{}
			for _, name := range names {
				if info, err := os.Stat(name); err == nil && info.Mode().IsRegular() {
					texts[name] = string(readFile(t, name))
				}
			}
			for name := range texts {
				openOldFile(t, name, texts)
			}
		})
	}
}

func openOldFile(t *testing.T, name string, texts map[string]string) {
	t.Helper()
	ending := filepath.Ext(name)
	if ending == ".md" || ending == ".json" {
		return // for people and for tests
	}
	stem := strings.TrimSuffix(name, ending)
	for _, kind := range openedBy {
		if !regexp.MustCompile(`(?m)` + kind.mark).MatchString(texts[name]) {
			continue
		}
		for _, line := range kind.lines {
			opens(t, strings.NewReplacer("FILE", name, "STEM", stem).Replace(line))
		}
		return
	}
	for other, text := range texts { // it is read with the file that names it
		if other != "README.md" && strings.Contains(text, "./"+name) {
			return
		}
	}
	t.Errorf("no command opens %s", name)
}

// TestOldJobsStart starts a session of each old job.
func TestOldJobsStart(t *testing.T) {
	jobs := 0
	for _, folder := range oldFolders(t) {
		setClock(t, afterAll)
		t.Chdir(folder)
		sessions, err := filepath.Glob("*.session")
		if err != nil {
			t.Fatal(err)
		}
		for _, session := range sessions {
			if err := os.RemoveAll(session); err != nil {
				t.Fatal(err)
			}
			stem := strings.TrimSuffix(session, ".session")
			opens(t, "start "+stem+".yaml --json")
			opens(t, "check --session "+session)
			jobs++
		}
	}
	if jobs < 3 {
		t.Errorf("only %d jobs", jobs)
	}
}

// TestOldSessions opens every session of testdata/old with every command that takes one, a
// minute after its last event. Looking changes no journal, and logging goes on.
func TestOldSessions(t *testing.T) {
	if !testrun.IsLong() {
		t.Skip("every command on every old session: " + testrun.Long + "=1 runs it")
	}
	for _, old := range oldSessions(t) {
		t.Run(filepath.Base(old.folder)+"/"+old.name, func(t *testing.T) {
			t.Chdir(old.folder)
			setClock(t, old.last.Add(time.Minute).Format(time.RFC3339))
			lines := slices.Concat(openedInSession, openedWhenOpen)
			if old.finished {
				lines = slices.Concat(openedInSession, openedWhenFinished)
			}
			if old.finished && old.wound {
				lines = append(lines, openedWhenWound...)
			}
			kept := t.TempDir()
			if err := os.CopyFS(kept, os.DirFS(old.name)); err != nil {
				t.Fatal(err)
			}
			for _, line := range lines {
				opens(t, strings.NewReplacer("WEIGHTS", oldWeights, "S", old.name).Replace(line))
			}
			showsOnBoard(t, old.name, clock())
			if diff := cmp.Diff(files(t, kept), files(t, old.name)); diff != "" {
				t.Errorf("looking has changed the session: %s", diff)
			}
			if !old.finished {
				opens(t, "replan --take --session "+old.name)
			}
			for _, line := range loggedInSession {
				opens(t, strings.NewReplacer("WEIGHTS", oldWeights, "S", old.name).Replace(line))
			}
		})
	}
}

// showsOnBoard asks for the page of the board.
func showsOnBoard(t *testing.T, folder string, now time.Time) {
	t.Helper()
	served := serve(t, folder, now)
	defer served.stop()
	r, err := http.Get(served.Address)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	page, err := io.ReadAll(r.Body)
	if err != nil || r.StatusCode != http.StatusOK || !strings.Contains(string(page), `data-place="mixed"`) {
		t.Errorf("the board answers %d, %v:\n%.300s", r.StatusCode, err, page)
	}
}
