package main

import (
	"encoding/json"
	"maps"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"potlife/schedule/session"
)

// An oldSession is one of testdata/old with what its events meant when it was recorded.
type oldSession struct {
	folder, name string // the session is a folder in that folder
	events, day  any    // what log and report said of what was logged, as JSON
	last         time.Time
	finished     bool
	wound        bool // all layers are done
}

func oldSessions(t *testing.T) []oldSession {
	t.Helper()
	var list []oldSession
	for _, folder := range oldFolders(t) {
		paths, err := filepath.Glob(filepath.Join(folder, "*.session"))
		if err != nil || len(paths) == 0 {
			t.Fatalf("%d sessions in %s: %v", len(paths), folder, err)
		}
		for _, path := range paths {
			stem := strings.TrimSuffix(path, ".session")
			old := oldSession{folder: folder, name: filepath.Base(path), events: asJSON(t, readFile(t, stem+".events.json")), day: asJSON(t, readFile(t, stem+".day.json"))}
			var logged struct {
				Events []struct {
					Kind          string
					Logged        time.Time
					Layer, Layers int
				}
			}
			if err := json.Unmarshal(readFile(t, stem+".events.json"), &logged); err != nil {
				t.Fatal(err)
			}
			layers := 0
			for _, e := range logged.Events {
				layers = max(layers, e.Layers)
				old.wound = old.wound || e.Kind == "done" && e.Layer == layers
				old.last, old.finished = e.Logged, old.finished || e.Kind == "finish"
			}
			list = append(list, old)
		}
	}
	return list
}

func asJSON(t *testing.T, text []byte) any {
	t.Helper()
	var value any
	if err := json.Unmarshal(text, &value); err != nil {
		t.Fatal(err)
	}
	return value
}

// known adds the places of all members in a JSON value: events[].pot.
func known(value any, at string, places map[string]bool) {
	switch v := value.(type) {
	case map[string]any:
		for name, below := range v {
			places[at+"."+name] = true
			known(below, at+"."+name, places)
		}
	case []any:
		for _, below := range v {
			known(below, at+"[]", places)
		}
	}
}

// only is a JSON value without the members that are at none of the places. Of a list it leaves
// out objects that say nothing, such as a pot that was planned and not mixed.
func only(value any, at string, places map[string]bool) any {
	switch v := value.(type) {
	case map[string]any:
		kept := map[string]any{}
		for name, below := range v {
			if places[at+"."+name] {
				kept[name] = only(below, at+"."+name, places)
			}
		}
		return kept
	case []any:
		kept := []any{}
		for _, below := range v {
			below = only(below, at+"[]", places)
			if object, ok := below.(map[string]any); ok && empty(object) {
				continue
			}
			kept = append(kept, below)
		}
		return kept
	}
	return value
}

func empty(object map[string]any) bool {
	for _, value := range object {
		if value != nil {
			return false
		}
	}
	return true
}

// simulated are members of a day that say how the bath was reckoned, not what was logged: they
// follow the model, and one of the folders has them recorded.
var simulated = regexp.MustCompile(`^\.(wound|learnt|course|verdict|layers\[\]\.bath_at_end)\b|^\.readings\[\]\.(verdict|place|weighed|.*(low|likely|high)_)`)

// changedMeaning is how what was recorded differs from what is said today. Sentences may be
// reworded, and members may come that the recording did not know; a member that it knew must be
// as it was, and stay away where it was away.
func changedMeaning(recorded, today any) string {
	places := map[string]bool{}
	known(recorded, "", places)
	maps.DeleteFunc(places, func(at string, _ bool) bool { return simulated.MatchString(at) })
	delete(places, ".events[].what")
	delete(places, ".warnings")
	delete(places, ".warning_codes")
	// Durations come from times by subtraction.
	return cmp.Diff(only(recorded, "", places), only(today, "", places), cmpopts.EquateApprox(1e-9, 0))
}

// TestOldEventsMeanTheSame: old journals open and say the same events for ever, and what was
// logged has the same part in the report of the day.
func TestOldEventsMeanTheSame(t *testing.T) {
	seen := map[string]bool{}
	for _, old := range oldSessions(t) {
		t.Run(filepath.Base(old.folder)+"/"+old.name, func(t *testing.T) {
			t.Chdir(old.folder)
			setClock(t, afterAll)
			if diff := changedMeaning(old.events, asJSON(t, []byte(opens(t, "log --session "+old.name+" --json")))); diff != "" {
				t.Errorf("its events mean something else, - recorded, + now:\n%s", diff)
			}
			if diff := changedMeaning(old.day, asJSON(t, []byte(opens(t, "report "+old.name+" -o day.html --json")))); diff != "" {
				t.Errorf("its day is another, - recorded, + now:\n%s", diff)
			}
		})
		for _, e := range old.events.(map[string]any)["events"].([]any) {
			seen[e.(map[string]any)["kind"].(string)] = true
		}
	}
	for _, kind := range append([]session.Kind{session.Started, session.Weighed, session.Planned}, session.Kinds...) {
		if !seen[string(kind)] {
			t.Errorf("no session in testdata/old has an event %s: add a folder with one", kind)
		}
	}
}

// TestOldEventsDiffer: a change of what an event means is noticed, member by member; a new
// sentence or a new member is none.
func TestOldEventsDiffer(t *testing.T) {
	noticed := map[string]bool{}
	for _, old := range oldSessions(t) {
		for _, e := range old.events.(map[string]any)["events"].([]any) {
			event := e.(map[string]any)
			for name, value := range event {
				if noticed[name] {
					continue
				}
				changes := []any{"something else", nil}
				if number, ok := value.(float64); ok {
					changes = []any{number * 1.001, nil}
				}
				seen := 0
				for _, change := range changes {
					recorded := copied(t, old.events)
					event[name] = change
					if changedMeaning(recorded, old.events) != "" {
						seen++
					}
					event[name] = value
				}
				noticed[name] = seen == len(changes)
			}
			recorded := copied(t, old.events)
			event["told_by"] = "the board"
			if diff := changedMeaning(recorded, old.events); diff != "" {
				t.Fatalf("a new member is taken for a change: %s", diff)
			}
			delete(event, "told_by")
		}
	}
	for name, is := range noticed {
		if is == (name == "what") {
			t.Errorf("a change of %s is noticed: %v", name, is)
		}
	}
	if len(noticed) < 20 {
		t.Errorf("only %d members were changed", len(noticed))
	}
}

func copied(t *testing.T, value any) any {
	t.Helper()
	text, err := json.Marshal(value)
	if err != nil {
		t.Fatal(err)
	}
	return asJSON(t, text)
}
