package outside

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// listener is a test that only notes what is wrong.
type listener struct {
	testing.TB
	said []string
}

func (l *listener) Helper()           {}
func (l *listener) Name() string      { return "TestSomething/case" }
func (l *listener) Error(args ...any) { l.said = append(l.said, fmt.Sprint(args...)) }
func (l *listener) Errorf(format string, a ...any) {
	l.said = append(l.said, fmt.Sprintf(format, a...))
}

func (l *listener) heard(what string) (found bool) {
	for _, s := range l.said {
		found = found || strings.Contains(s, what)
	}
	l.said = nil
	return found
}

// alone lets Check work in a repository of its own until the test ends.
func alone(t *testing.T) (rows string) {
	t.Helper()
	before, beforeWrites := root, writesTo
	seen, committed := keep.seen, keep.committed
	root, keep.seen, keep.committed = t.TempDir(), nil, nil
	t.Cleanup(func() { root, writesTo, keep.seen, keep.committed = before, beforeWrites, seen, committed })
	writeTo("")
	return t.TempDir()
}

func writeTo(folder string) { writesTo = func() string { return folder } }

// TestCheckCanFail: a wrong value fails, and one that is no number; so do a row that the
// page lacks, one that it has otherwise, and one ID for two rows.
func TestCheckCanFail(t *testing.T) {
	rows := alone(t)
	var l listener
	Check(&l, sound(), 66.36)
	if !l.heard("off by 0.06") {
		t.Error("a value that is off passes")
	}
	Check(&l, sound(), math.NaN())
	if !l.heard("NaN") {
		t.Error("NaN passes")
	}
	Check(&l, sound(), 66.32)
	if !l.heard("lacks") {
		t.Error("a row that the page lacks passes")
	}
	// Written anew and taken over, the row passes, and another value no longer does.
	writeTo(rows)
	keep.seen = nil
	if Check(&l, sound(), 66.32); len(l.said) > 0 {
		t.Fatalf("writing fails: %v", l.said)
	}
	if Check(&l, sound(), 66.28); !l.heard("two rows") {
		t.Error("one ID stands for two rows")
	}
	lines, err := readFolder(rows)
	if err != nil || len(lines) != 1 || lines[0].Test != "TestSomething" || lines[0].Ours != "66.32" {
		t.Fatalf("%+v, %v", lines, err)
	}
	if err := replace(rowsFolder(root), lines); err != nil {
		t.Fatal(err)
	}
	writeTo("")
	keep.seen, keep.committed = nil, nil
	if Check(&l, sound(), 66.32); len(l.said) > 0 {
		t.Errorf("the row that the page has fails: %v", l.said)
	}
	keep.seen = nil
	if Check(&l, sound(), 66.28); !l.heard("another row") {
		t.Error("a value that moved within its tolerance passes")
	}
}

// TestCheckText: a text is the same or fails.
func TestCheckText(t *testing.T) {
	writeTo(alone(t))
	var l listener
	r := sound()
	r.Printed = "8a9136aa"
	if CheckText(&l, r, "8a9136aa"); len(l.said) > 0 {
		t.Errorf("the same text fails: %v", l.said)
	}
	if CheckText(&l, r, "8a9136ab"); !l.heard("printed") {
		t.Error("another text passes")
	}
	r.Within, r.Why = 1, "a reason"
	if CheckText(&l, r, "8a9136aa"); !l.heard("equal or not") {
		t.Error("a text with a tolerance passes")
	}
}

// TestReadFolder: a file that is no rows, and rows in another package's file, are told.
func TestReadFolder(t *testing.T) {
	folder := t.TempDir()
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write("kinetics.jsonl", "{\"id\":\"a\",\"package\":\"kinetics\"}\n{\"id\":\"a\",\"package\":\"kinetics\"}\n")
	if lines, err := readFolder(folder); err != nil || len(lines) != 1 {
		t.Errorf("one row written twice is %d rows, %v", len(lines), err)
	}
	write("resins.jsonl", "{\"id\":\"b\",\"package\":\"kinetics\"}\n")
	if _, err := readFolder(folder); err == nil {
		t.Error("rows in the file of another package are taken")
	}
	write("resins.jsonl", "| a | b |\n")
	if _, err := readFolder(folder); err == nil {
		t.Error("a file that is no rows is taken")
	}
}

// TestAlike: one unit of the last digit, no more, and nothing else may differ.
func TestAlike(t *testing.T) {
	was := Line{ID: "a", Ours: "66.32", Off: "+0.02"}
	for _, c := range []struct {
		now   Line
		alike bool
	}{
		{was, true},
		{Line{ID: "a", Ours: "66.33", Off: "+0.03"}, true},
		{Line{ID: "a", Ours: "66.31", Off: "+0.01"}, true},
		{Line{ID: "a", Ours: "66.34", Off: "+0.04"}, false},
		{Line{ID: "a", Ours: "66.33", Off: "+0.03", Printed: "66.3"}, false},
		{Line{ID: "a", Ours: "none", Off: "+0.02"}, false},
	} {
		if got := alike(was, c.now); got != c.alike {
			t.Errorf("%+v: alike is %t", c.now, got)
		}
	}
	if alike(Line{Ours: "8a9136aa"}, Line{Ours: "8a9136ab"}) || !alike(Line{Ours: "8a9136aa"}, Line{Ours: "8a9136aa"}) {
		t.Error("texts are alike by another rule")
	}
}
