package outside

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var (
	update  = flag.Bool("update", false, "write testdata/published anew")
	written = flag.String("rows", "", "folder with the rows that POTLIFE_ROWS let the tests write")
)

func pageFile() string { return filepath.Join(root, "testdata", "published", "README.md") }

func committed(t *testing.T) []Line {
	t.Helper()
	lines, err := readFolder(rowsFolder(root))
	if err != nil {
		t.Fatal(err)
	}
	return lines
}

// TestPage: the page is what the rows make of it, and they are enough, from enough
// sources, and none of them stands twice.
func TestPage(t *testing.T) {
	if *update && *written != "" {
		lines, err := readFolder(*written)
		if err != nil || len(lines) == 0 {
			t.Fatalf("no rows in %s: %v", *written, err)
		}
		if err := replace(rowsFolder(root), lines); err != nil {
			t.Fatal(err)
		}
	}
	lines := committed(t)
	page, c, err := render(lines)
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile(pageFile(), []byte(page), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	was, err := os.ReadFile(pageFile())
	if err != nil || string(was) != page {
		t.Errorf("testdata/published/README.md is not what the rows make of it (%v): run go test ./kinetics/outside -update", err)
	}
	for _, fault := range unsound(lines, c) {
		t.Error(fault)
	}
}

// leastChecks and leastSources are what the page promises.
const (
	leastChecks  = 60
	leastSources = 20
)

// unsound tells what is wrong with rows as a whole.
func unsound(lines []Line, c contents) []string {
	var faults []string
	if c.Checks < leastChecks || c.Sources < leastSources {
		faults = append(faults, "too few checks or sources")
	}
	ids, same, used := map[string]bool{}, map[string]string{}, map[string]bool{}
	for _, l := range lines {
		if ids[l.ID] {
			faults = append(faults, l.ID+" stands twice")
		}
		ids[l.ID], used[l.Source] = true, true
		key := strings.Join([]string{l.What, l.Source, l.Printed, l.Unit}, "|")
		if before, twice := same[key]; twice {
			faults = append(faults, before+" and "+l.ID+" compare the same")
		}
		same[key] = l.ID
		if strings.ContainsAny(l.What+l.Why+l.Where+l.Anchored, "|\n") {
			faults = append(faults, l.ID+" breaks the table")
		}
	}
	for key := range Sources {
		if !used[key] {
			faults = append(faults, "no row names the source "+key)
		}
	}
	return faults
}

// TestUnsound proves that the test above can fail.
func TestUnsound(t *testing.T) {
	lines := committed(t)
	_, c, err := render(lines)
	if err != nil || len(lines) < 2 {
		t.Fatalf("%d rows, %v", len(lines), err)
	}
	copied := lines[0]
	copied.ID = "another"
	piped := lines[0]
	piped.ID, piped.What = "third", "a | b"
	for fault, now := range map[string][]Line{
		"stands twice":      append([]Line{lines[0]}, lines...),
		"compare the same":  append([]Line{copied}, lines...),
		"breaks the table":  append([]Line{piped}, lines...),
		"no row names":      lines[:1],
		"too few checks or": lines,
	} {
		counts := c
		if fault == "too few checks or" {
			counts.Sources = leastSources - 1
		}
		if said := strings.Join(unsound(now, counts), "\n"); !strings.Contains(said, fault) {
			t.Errorf("%s: %q", fault, said)
		}
	}
}

// apart compares the rows that all tests wrote with those committed.
func apart(committed, now []Line) []string {
	var faults []string
	of := map[string]Line{}
	for _, l := range now {
		of[l.ID] = l
	}
	for _, l := range committed {
		if got, found := of[l.ID]; !found {
			faults = append(faults, l.ID+": no test writes this row any more")
		} else if !alike(l, got) {
			faults = append(faults, l.ID+": written "+got.encode())
		}
		delete(of, l.ID)
	}
	for id := range of {
		faults = append(faults, id+": not in testdata/published")
	}
	return faults
}

// TestWritten compares the rows of a whole run of tests, see the package comment.
func TestWritten(t *testing.T) {
	if *written == "" {
		t.Skip("no -rows")
	}
	now, err := readFolder(*written)
	if err != nil {
		t.Fatal(err)
	}
	for _, fault := range apart(committed(t), now) {
		t.Error(fault)
	}
}

// TestApart proves that the test above can fail.
func TestApart(t *testing.T) {
	a, b := Line{ID: "a", Ours: "1.1"}, Line{ID: "b", Ours: "2"}
	moved := a
	moved.Ours = "1.3"
	for want, now := range map[string][]Line{
		"":                                    {b, a},
		"b: no test writes this row any more": {a},
		"c: not in testdata/published":        {a, b, {ID: "c"}},
		"a: written " + moved.encode():        {moved, b},
	} {
		if said := strings.Join(apart([]Line{a, b}, now), "\n"); said != want {
			t.Errorf("said %q, want %q", said, want)
		}
	}
}
