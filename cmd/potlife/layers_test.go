package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// layers are the folders of the house from the lowest up: a file may import its
// own layer and those below it.
var layers = []string{"kinetics", "resins", "schedule", "cmd"}

func layerOf(path string) int {
	top, _, _ := strings.Cut(path, "/")
	for i, layer := range layers {
		if top == layer {
			return i
		}
	}
	return -1
}

// against returns the imports of a file in folder that point up the house.
func against(folder string, imports []string) []string {
	var wrong []string
	for _, path := range imports {
		inside, found := strings.CutPrefix(path, "potlife/")
		if found && layerOf(inside) > layerOf(folder) {
			wrong = append(wrong, path)
		}
	}
	return wrong
}

// Packages for tests only: no program holds what it was checked against, a
// test's size or an invented day.
const (
	outsidePath = "potlife/kinetics/outside"
	testrunPath = "potlife/kinetics/testrun"
	daytestPath = "potlife/schedule/session/daytest"
)

func forTests(name string) bool {
	return name == outsidePath || name == testrunPath || name == daytestPath
}

// alone returns the imports that a file must not have though they do not point up: ode,
// quantity and outside stand alone, and only tests know what is for tests.
func alone(file string, imports []string) []string {
	folder := filepath.ToSlash(filepath.Dir(file))
	standsAlone := folder == "kinetics/ode" || folder == "kinetics/quantity" || "potlife/"+folder == outsidePath
	var wrong []string
	for _, name := range imports {
		switch {
		case forTests(name):
			if !strings.HasSuffix(file, "_test.go") {
				wrong = append(wrong, name)
			}
		case standsAlone && strings.HasPrefix(name, "potlife/") && name != "potlife/"+folder:
			wrong = append(wrong, name)
		}
	}
	return wrong
}

// TestImportsPointDown fails the build when a lower layer imports an upper one,
// when ode learns chemistry, or when Go code turns up outside the layers.
func TestImportsPointDown(t *testing.T) {
	root := filepath.Join("..", "..")
	files := 0
	err := filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if entry.IsDir() && strings.HasPrefix(entry.Name(), ".") && path != root {
			return filepath.SkipDir
		}
		// Others' code is a module of its own and knows nothing of this one.
		if entry.IsDir() && path == filepath.Join(root, "cmd", "third_party") {
			return filepath.SkipDir
		}
		if entry.IsDir() || !strings.HasSuffix(path, ".go") {
			return nil
		}
		files++
		inside, err := filepath.Rel(root, path)
		if err != nil {
			return err
		}
		folder := filepath.ToSlash(filepath.Dir(inside))
		if layerOf(folder) < 0 {
			t.Errorf("%s lies outside the layers %v", inside, layers)
		}
		parsed, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		var imports []string
		for _, spec := range parsed.Imports {
			name, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				return err
			}
			imports = append(imports, name)
		}
		for _, name := range against(folder, imports) {
			t.Errorf("%s imports %s, which is above it", inside, name)
		}
		for _, name := range alone(inside, imports) {
			t.Errorf("%s imports %s, which it must not", inside, name)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if files < 50 {
		t.Errorf("only %d files seen: the walk misses the house", files)
	}
}

// TestAlone proves that the other half of the test above can fail.
func TestAlone(t *testing.T) {
	for _, c := range []struct {
		file  string
		names []string
		wrong int
	}{
		{"kinetics/ode/solver.go", []string{"math", "potlife/kinetics"}, 1},
		{"kinetics/ode/solver.go", []string{outsidePath}, 1},
		{"kinetics/ode/problems_test.go", []string{outsidePath, "potlife/kinetics/ode"}, 0},
		{"kinetics/quantity/parse_test.go", []string{"potlife/kinetics"}, 1},
		{"kinetics/outside/page.go", []string{"potlife/kinetics/quantity"}, 1},
		{"cmd/potlife/main.go", []string{outsidePath, testrunPath, daytestPath, "potlife/kinetics"}, 3},
		{"cmd/potlife/main_test.go", []string{outsidePath, "potlife/kinetics"}, 0},
	} {
		if got := alone(c.file, c.names); len(got) != c.wrong {
			t.Errorf("%s must not import %v of %v, want %d", c.file, got, c.names, c.wrong)
		}
	}
}

// TestAgainst proves that the test above can fail.
func TestAgainst(t *testing.T) {
	got := against("kinetics/vessel", []string{"fmt", "potlife/kinetics/ode", "potlife/resins", "potlife/cmd/potlife/internal/report"})
	if len(got) != 2 {
		t.Errorf("imports against the layers: %v, want the two upper ones", got)
	}
	if got := against("cmd/potlife", []string{"potlife/kinetics", "potlife/schedule"}); got != nil {
		t.Errorf("imports down the layers refused: %v", got)
	}
}
