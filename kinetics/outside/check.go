package outside

import (
	"errors"
	"strings"
	"sync"
	"testing"
)

var keep struct {
	sync.Mutex
	committed map[string]Line   // of this package, read once
	seen      map[string]string // test and row by ID
}

// Check demands that ours is what the row prints, within its tolerance, and that the
// page has this row.
func Check(t testing.TB, r Row, ours float64) {
	t.Helper()
	j, err := r.judge(ours)
	if err != nil {
		t.Errorf("%s: %s: %v", r.ID, r.What, err)
		return
	}
	record(t, r, j)
}

// CheckText demands that ours is the very text that the row prints.
func CheckText(t testing.TB, r Row, ours string) {
	t.Helper()
	err := r.fault()
	if err == nil && (r.Within != 0 || r.Factor != 0 || r.To != "" || strings.ContainsAny(r.Printed, "|\n")) {
		err = errors.New("a text is equal or not")
	}
	if err != nil {
		t.Errorf("%s: %v", r.ID, err)
		return
	}
	if ours != r.Printed {
		t.Errorf("%s: %s: %q, printed %q", r.ID, r.What, ours, r.Printed)
		return
	}
	record(t, r, judgement{ours: ours, off: "the same", allowed: "nothing"})
}

// record writes the row to the folder of POTLIFE_ROWS, or compares it with the
// committed one.
func record(t testing.TB, r Row, j judgement) {
	t.Helper()
	keep.Lock()
	defer keep.Unlock()
	top, _, _ := strings.Cut(t.Name(), "/")
	line := lineOf(r, j, here, top)
	text := line.encode()
	if keep.seen == nil {
		keep.seen = map[string]string{}
	}
	if before, twice := keep.seen[r.ID]; twice && before != text {
		t.Errorf("%s stands for two rows\n%s\n%s", r.ID, before, text)
		return
	}
	keep.seen[r.ID] = text
	if folder := writesTo(); folder != "" {
		if err := appendLine(folder, line); err != nil {
			t.Error(err)
		}
		return
	}
	if keep.committed == nil {
		lines, err := readLines(rowsFile(root, here))
		if err != nil {
			t.Error(err)
			return
		}
		keep.committed = map[string]Line{}
		for _, l := range lines {
			keep.committed[l.ID] = l
		}
	}
	if was, found := keep.committed[r.ID]; !found || !alike(was, line) {
		t.Errorf("testdata/published lacks or has another row\n%s\nthan\n%s\nSee the doc of package outside for how to take it over.", text, was.encode())
	}
}
