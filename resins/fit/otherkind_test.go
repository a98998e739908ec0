package fit_test

import (
	"errors"
	"os"
	"strings"
	"testing"

	"potlife/resins"
	"potlife/resins/document"
	"potlife/resins/fit"
)

// TestTheOtherKindOfFile: statements read as a record, and a record read as statements, are
// one fault that says so; a file with keys of both is read as what it was named for, and each
// of its faults is told.
func TestTheOtherKindOfFile(t *testing.T) {
	source, err := os.ReadFile("../../testdata/resins/club-epoxy-slow.yaml")
	if err != nil {
		t.Fatal(err)
	}
	record := string(source)
	_, asRecord := resins.Read("my/club.statements.yaml", []byte(whole))
	_, asStatements := fit.Read("slow.yaml", source)
	_, cut := fit.Read("slow.yaml", []byte("name: x\nthermal: {density: 1 kg}\nanything: 5\n"))
	_, job := fit.Read("strut.yaml", []byte("name: strut\ncure: {target: {glass: 85 °C}}\nlayers:\n  - hoop\n"))
	for _, c := range []struct {
		name          string
		err           error
		line          int
		problem, mend string
	}{
		{"statements as a record", asRecord, 4, "this is a file of statements, not a record", "potlife resins fit my/club.statements.yaml -o my-resin.yaml"},
		{"a record as statements", asStatements, 1 + strings.Count(record[:strings.Index(record, "\ncure:")+1], "\n"), "this is a record already", "resin: slow.yaml"},
		{"a job as statements", job, 3, "this is a job, not a file of statements", "that potlife resins new writes"},
		{"half a record as statements", cut, 2, "this is a record already", "resin: slow.yaml"},
	} {
		var faults *document.Faults
		if !errors.As(c.err, &faults) || len(faults.List) != 1 {
			t.Errorf("%s: %v", c.name, c.err)
			continue
		}
		f := faults.List[0]
		if f.Line != c.line || !strings.HasPrefix(f.Problem, c.problem) || !strings.HasSuffix(f.Mend, c.mend) {
			t.Errorf("%s: %v", c.name, c.err)
		}
	}
	for name, read := range map[string]func() error{
		"record":     func() error { _, err := resins.Read("x.yaml", []byte(record+"statements: []\n")); return err },
		"statements": func() error { _, err := fit.Read("x.yaml", []byte(whole+"cure: {law: nth-order}\n")); return err },
	} {
		if err := read(); err == nil || !strings.Contains(err.Error(), "unknown key") {
			t.Errorf("a %s with a key of the other kind: %v", name, err)
		}
	}
}
