package main

import (
	"bufio"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A meetingPlace is where the product sets goroutines going: a go statement, or what is
// given to a wait group's Go or to ensemble.Each.
type meetingPlace struct {
	file         string // in the module, with slashes
	line, column int    // of the first statement that the goroutine runs, where it stands there
}

func (m meetingPlace) String() string { return fmt.Sprintf("%s:%d", m.file, m.line) }

// meetingPlaces finds those of one file.
func meetingPlaces(set *token.FileSet, file *ast.File, name string) []meetingPlace {
	var found []meetingPlace
	add := func(call *ast.CallExpr) {
		at := call.Pos()
		for _, part := range append([]ast.Expr{call.Fun}, call.Args...) {
			if f, literal := part.(*ast.FuncLit); literal && len(f.Body.List) > 0 {
				at = f.Body.List[0].Pos() // of several the last: Each makes its workers first
			}
		}
		where := set.Position(at)
		found = append(found, meetingPlace{name, where.Line, where.Column})
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.GoStmt:
			add(n.Call)
		case *ast.CallExpr:
			fun := n.Fun
			if generic, of := fun.(*ast.IndexExpr); of {
				fun = generic.X
			}
			if s, selected := fun.(*ast.SelectorExpr); selected && (s.Sel.Name == "Go" || s.Sel.Name == "Each") {
				add(n)
			}
		}
		return true
	})
	return found
}

// allMeetingPlaces are those of the product, tests left out.
func allMeetingPlaces(t *testing.T) []meetingPlace {
	t.Helper()
	var all []meetingPlace
	root := filepath.Join("..", "..")
	for _, layer := range layers {
		err := filepath.WalkDir(filepath.Join(root, layer), func(path string, entry fs.DirEntry, err error) error {
			if err != nil || entry.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			set := token.NewFileSet()
			file, err := parser.ParseFile(set, path, nil, parser.SkipObjectResolution)
			if err != nil {
				return err
			}
			inside, err := filepath.Rel(root, path)
			all = append(all, meetingPlaces(set, file, "potlife/"+filepath.ToSlash(inside))...)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return all
}

// A runBlock is a block of statements that was run, in a coverage profile.
type runBlock struct{ fromLine, fromColumn, toLine, toColumn int }

func (r runBlock) holds(m meetingPlace) bool {
	after := m.line > r.fromLine || m.line == r.fromLine && m.column >= r.fromColumn
	before := m.line < r.toLine || m.line == r.toLine && m.column < r.toColumn
	return after && before
}

// readProfile gives the blocks that were run, by file.
func readProfile(t *testing.T, path string) map[string][]runBlock {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	blocks := map[string][]runBlock{}
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		file, rest, found := strings.Cut(lines.Text(), ".go:")
		if !found {
			continue // its first line
		}
		var r runBlock
		var statements, times int
		if _, err := fmt.Sscanf(rest, "%d.%d,%d.%d %d %d", &r.fromLine, &r.fromColumn, &r.toLine, &r.toColumn, &statements, &times); err != nil {
			t.Fatalf("%q: %v", lines.Text(), err)
		}
		if times > 0 {
			blocks[file+".go"] = append(blocks[file+".go"], r)
		}
	}
	if err := lines.Err(); err != nil {
		t.Fatal(err)
	}
	return blocks
}

// missed are the meeting places that a profile never came to.
func missed(places []meetingPlace, blocks map[string][]runBlock) []meetingPlace {
	var list []meetingPlace
	for _, m := range places {
		if !slices.ContainsFunc(blocks[m.file], func(r runBlock) bool { return r.holds(m) }) {
			list = append(list, m)
		}
	}
	return list
}

// TestMeetingPlacesAreWatched: the race detector, which CI runs on a choice of tests, has come
// to every place where goroutines meet. POTLIFE_RACED names the coverage profile of that run;
// without it the places are only found.
func TestMeetingPlacesAreWatched(t *testing.T) {
	places := allMeetingPlaces(t)
	if len(places) < 20 {
		t.Fatalf("only %d places found, the search has lost them: %v", len(places), places)
	}
	profile := os.Getenv("POTLIFE_RACED")
	if profile == "" {
		t.Skipf("%d places; POTLIFE_RACED names no profile to look for them in", len(places))
	}
	blocks := readProfile(t, profile)
	for _, m := range missed(places, blocks) {
		t.Errorf("%s: goroutines meet here, and no test with Together in its name, nor one of the board, comes to it", m)
	}
	t.Logf("%d places", len(places))
}

// TestMeetingPlaceIsMissed: a place that was not run is told, for each way to start one.
func TestMeetingPlaceIsMissed(t *testing.T) {
	const source = `package p

func f() {
	go g()
	wait.Go(func() {
		g()
	})
	ensemble.Each(n, func() int { return 0 }, func(_ int, i int) error {
		return g()
	})
	ensemble.Each[int](n, workers, func(_ int, i int) error {
		return g()
	})
}
`
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, "p.go", source, 0)
	if err != nil {
		t.Fatal(err)
	}
	places := meetingPlaces(set, file, "p.go")
	profile := filepath.Join(t.TempDir(), "profile")
	for line, want := range map[int]string{0: "[]", 4: "[p.go:4]", 6: "[p.go:6]", 9: "[p.go:9]", 12: "[p.go:12]"} {
		text := "mode: atomic\n"
		for at := range 15 {
			times := 1
			if at == line {
				times = 0
			}
			text += fmt.Sprintf("p.go:%d.1,%d.99 1 %d\n", at, at, times)
		}
		if err := os.WriteFile(profile, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if got := fmt.Sprint(missed(places, readProfile(t, profile))); got != want {
			t.Errorf("where line %d was not run: %s missed, want %s", line, got, want)
		}
	}
}
