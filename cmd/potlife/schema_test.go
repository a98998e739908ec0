package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"potlife/resins"
	"potlife/resins/catalogue"
	"potlife/resins/document"
	"potlife/resins/document/schema"
	"potlife/resins/fit"
	"potlife/schedule"
	"potlife/schedule/cure"
)

// readers read a source as the program does, each kind of fileKinds.
var readers = map[string]func(source []byte) error{
	"job":        func(source []byte) error { _, err := schedule.ReadJob("job.yaml", source); return err },
	"statements": func(source []byte) error { _, err := fit.Read("resin.yaml", source); return err },
	"resin":      func(source []byte) error { _, err := resins.Read("resin.yaml", source); return err },
	"cooling":    func(source []byte) error { _, err := fit.ReadCooling("bath.yaml", source); return err },
	"program":    func(source []byte) error { _, err := cure.ReadProgram("oven.yaml", source); return err },
	"lessons":    func(source []byte) error { _, err := schedule.ReadLearned("learned.yaml", source); return err },
}

// compiledSchema is the schema of a kind as an independent validator takes it.
func compiledSchema(t *testing.T, kind fileKind) *jsonschema.Schema {
	t.Helper()
	text, err := schema.Of(kind.title, kind.table())
	if err != nil {
		t.Fatal(err)
	}
	parsed, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	compiler := jsonschema.NewCompiler()
	name := kind.name + ".schema.json"
	if err := compiler.AddResource(name, parsed); err != nil {
		t.Fatal(err)
	}
	compiled, err := compiler.Compile(name) // it validates the schema against its draft
	if err != nil {
		t.Fatal(err)
	}
	return compiled
}

// validate judges a YAML source as an editor does: by its values, not by its text.
func validate(compiled *jsonschema.Schema, source []byte) error {
	var value any
	if err := yaml.Unmarshal(source, &value); err != nil {
		return err
	}
	text, err := json.Marshal(finite(value))
	if err != nil {
		return err
	}
	instance, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		return err
	}
	return compiled.Validate(instance)
}

// finite makes large numbers of those that JSON does not have: .inf is a number in YAML.
func finite(value any) any {
	switch v := value.(type) {
	case float64:
		if math.IsInf(v, 0) || math.IsNaN(v) {
			return math.MaxFloat64
		}
	case map[string]any:
		for key := range v {
			v[key] = finite(v[key])
		}
	case []any:
		for i := range v {
			v[i] = finite(v[i])
		}
	}
	return value
}

// onlyTheProgram are the malformed files of testdata that no schema refuses, and why.
var onlyTheProgram = map[string]string{
	"jobs/not-utf-8":                  "bytes",
	"jobs/helical-95-degrees":         "range of a quantity",
	"jobs/too-hot":                    "range of a quantity",
	"jobs/fraction-over-all":          "range of a quantity",
	"jobs/fraction-of-no-resin":       "range of a quantity",
	"jobs/measured-in-no-time":        "range of a quantity",
	"jobs/tolerance-of-nothing":       "range of a quantity",
	"jobs/year-of-two-digits":         "years that can be meant",
	"jobs/name-of-two-lines":          "what a screen can show",
	"jobs/layer-name-of-two-lines":    "what a screen can show",
	"jobs/name-with-escape":           "what a screen can show",
	"jobs/lowest-equals-highest":      "two values",
	"jobs/pot-larger-than-bath":       "two values",
	"jobs/pots-that-round-up-too-far": "several values",
	"jobs/helical-and-hoop":           "hoop: false may stand beside an angle",
	"jobs/label-ends-below-start":     "two values",
	"jobs/lowest-above-highest":       "two values",
	"jobs/smallest-above-largest":     "two values",
	"jobs/scale-of-kilograms":         "two values",
	"jobs/scale-misses-ratio":         "several values",
	"jobs/room-out-of-order":          "several values",
	"jobs/label-impossible":           "what resin can do",
	"jobs/room-time-leapt-over":       "the clocks of a zone",
	"jobs/start-leapt-over":           "the clocks of a zone",
	"jobs/unknown-zone":               "the zones that there are",
	"jobs/resin-file-missing":         "another file",
	"resins/cured-below-uncured":      "two values",
	"resins/valid-empty":              "two values",
	"resins/nothing-starts-the-cure":  "two values",
	"resins/mass-to-volume":           "two mappings",
	"resins/energy-in-joules":         "range of a quantity",
}

// TestSchemasOnFiles: the schemas take every file that the program takes and refuse every
// malformed one but those listed.
func TestSchemasOnFiles(t *testing.T) {
	data := filepath.Join("..", "..", "testdata")
	kinds := map[string]fileKind{}
	for _, kind := range fileKinds {
		kinds[kind.name] = kind
	}
	taken := map[string][]string{
		"job":        {"jobs/telescope-strut.yaml", "jobs/softener-shell.yaml", "sessions/strut.yaml", "sessions/shell.yaml", "sessions/strut.session/job.yaml"},
		"resin":      {"resins/club-epoxy-slow.yaml", "sessions/strut.session/resin.yaml", "sessions/shell.session/resin.yaml"},
		"statements": {"resins/club-epoxy-medium.yaml"},
		"cooling":    {"resins/bath-cooling.yaml"},
		"program":    {"jobs/strut-oven.yaml"},
	}
	seen := 0
	for kind, files := range taken {
		compiled := compiledSchema(t, kinds[kind])
		for _, file := range files {
			source := readFile(t, filepath.Join(data, file))
			if err := readers[kind](source); err != nil {
				t.Errorf("%s is not read: %v", file, err)
			}
			if err := validate(compiled, source); err != nil {
				t.Errorf("%s is read and its schema refuses it: %v", file, err)
			}
			seen++
		}
	}
	record := compiledSchema(t, kinds["resin"])
	for _, name := range catalogue.Systems() {
		source, _ := catalogue.System(name)
		if err := validate(record, source); err != nil {
			t.Errorf("%s is built in and the schema refuses it: %v", name, err)
		}
		seen++
	}
	learned := filepath.Join(t.TempDir(), "learned.yaml")
	if code := run([]string{"learn", filepath.Join(data, "sessions", "strut.session"), "-o", learned}, &bytes.Buffer{}, &bytes.Buffer{}); code != exitDone {
		t.Fatalf("learn: exit %d", code)
	}
	if err := validate(compiledSchema(t, kinds["lessons"]), readFile(t, learned)); err != nil {
		t.Errorf("what learn writes is refused: %v", err)
	}
	if seen < 15 {
		t.Errorf("only %d files", seen)
	}
}

func readFile(t *testing.T, path string) []byte {
	t.Helper()
	source, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return source
}

// TestSchemasOnMalformedFiles: what a schema can refuse it refuses; what only the program
// can is listed, and the list holds nothing else.
func TestSchemasOnMalformedFiles(t *testing.T) {
	listed := map[string]bool{}
	for folder, kind := range map[string]int{"jobs": 0, "resins": 2} {
		compiled := compiledSchema(t, fileKinds[kind])
		files, err := filepath.Glob(filepath.Join("..", "..", "testdata", folder, "bad", "*.yaml"))
		if err != nil || len(files) < 15 {
			t.Fatalf("%d files: %v", len(files), err)
		}
		for _, file := range files {
			name := folder + "/" + strings.TrimSuffix(filepath.Base(file), ".yaml")
			err := validate(compiled, readFile(t, file))
			why, passes := onlyTheProgram[name]
			listed[name] = true
			switch {
			case passes && err != nil:
				t.Errorf("%s is listed as passing (%s), and is refused: %v", name, why, err)
			case !passes && err == nil:
				t.Errorf("%s passes its schema", name)
			}
		}
	}
	for name := range onlyTheProgram {
		if !listed[name] {
			t.Errorf("%s is listed and not there", name)
		}
	}
}

// TestEveryKeyIsDescribed: an editor shows what a key means, and so does the message about
// one that is missing.
func TestEveryKeyIsDescribed(t *testing.T) {
	keys := 0
	var walk func(path string, f document.Field)
	walk = func(path string, f document.Field) {
		for _, part := range f.Fields {
			keys++
			if part.Doc == "" && !described(part.Forms) {
				t.Errorf("%s.%s has no description", path, part.Name)
			}
			if strings.HasSuffix(part.Doc, ".") || strings.TrimSpace(part.Doc) != part.Doc {
				t.Errorf("%s.%s: %q ends with a full stop or a space", path, part.Name, part.Doc)
			}
			walk(path+"."+part.Name, part)
		}
		for _, form := range f.Forms {
			walk(path, form)
		}
		if f.Item != nil {
			walk(path+"[]", f.Item())
		}
	}
	for _, kind := range fileKinds {
		if kind.table().Doc == "" {
			t.Errorf("%s has no description", kind.name)
		}
		walk(kind.name, kind.table())
	}
	if keys < 150 {
		t.Errorf("only %d keys seen", keys)
	}
}

func described(forms []document.Field) bool {
	return len(forms) > 0 && !slices.ContainsFunc(forms, func(f document.Field) bool { return f.Doc == "" })
}

// TestSchemaCommand runs the command for every kind: to the terminal and to a file.
func TestSchemaCommand(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, kind := range fileKinds {
		var out, errOut, told bytes.Buffer
		if code := run([]string{"schema", kind.name, "--json"}, &out, &errOut); code != exitDone || !json.Valid(out.Bytes()) || errOut.Len() > 0 {
			t.Fatalf("%s: exit %d, %s", kind.name, code, errOut.String())
		}
		file := kind.name + ".schema.json"
		if code := run([]string{"schema", kind.name, "-o", file}, &told, &errOut); code != exitDone {
			t.Fatalf("%s: exit %d, %s", kind.name, code, errOut.String())
		}
		written := readFile(t, file)
		if _, behind, marked := bytes.Cut(written, []byte("{\n  \"$comment\": \"written by potlife as a JSON Schema, check ")); marked {
			_, written, _ = bytes.Cut(behind, []byte("\n")) // behind its mark
			written = append([]byte("{\n"), written...)
		}
		if !json.Valid(readFile(t, file)) || !bytes.Equal(written, out.Bytes()) {
			t.Errorf("%s: the file is not what the terminal shows", kind.name)
		}
		if want := "# yaml-language-server: $schema=./" + file; !strings.Contains(told.String(), want) {
			t.Errorf("%s: %q does not tell %q", kind.name, told.String(), want)
		}
	}
	for _, args := range [][]string{{"schema", "jobs"}, {"schema", "job", "resin"}, {"schema", "-o", "x.json"}} {
		refused(t, args...)
	}
	if _, err := os.Stat("x.json"); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("x.json is there: %v", err)
	}
}
