package document_test

import (
	"errors"
	"strings"
	"testing"
	"unicode/utf8"

	"potlife/resins/document"
)

// FuzzRead checks that no source panics, and that every fault lies in the text, shows its
// line with one caret, and has a mend.
func FuzzRead(f *testing.F) {
	for _, source := range []string{
		whole, "", "a", "- a", "name: &a *a", "? x\n: y", "name: |\n  x\n y", "name: >-\n\n\nlayers: [{helical: 2,5 deg}]", "\ufeffname: x\r\n",
		"%YAML 1.2\n---\n", "name: x\n...\n---\n", "{name: \"x\\u0041\"}", "name: !!map {<<: *x}", "layers:\n- - - hoop\n", "\"name\": x\n'name': y", "name: 'x\n  y'\nnull: x",
		"layers:\n- 0\n -\n  0",
	} {
		f.Add([]byte(source))
	}
	f.Fuzz(func(t *testing.T, source []byte) {
		doc, err := document.Read("job.yaml", source, new(job).fields())
		if doc == nil {
			t.Fatal("no document")
		}
		if err == nil {
			doc.FaultAt("layers[0].helical", "problem", "mend")
			err = doc.Err()
		}
		var faults *document.Faults
		if !errors.As(err, &faults) || len(faults.List) == 0 {
			t.Fatalf("%v is no list of faults", err)
		}
		lines := strings.Split(strings.TrimPrefix(strings.ReplaceAll(string(source), "\r\n", "\n"), "\ufeff"), "\n")
		for _, fault := range faults.List {
			if fault.Line < 1 || fault.Line > len(lines) || fault.Column < 1 || fault.Column > utf8.RuneCountInString(lines[fault.Line-1])+1 {
				t.Fatalf("%d:%d is outside the text", fault.Line, fault.Column)
			}
			if fault.Problem == "" || fault.Mend == "" || strings.Count(fault.Excerpt, "\n") != 1 || !strings.HasSuffix(fault.Excerpt, "^") {
				t.Fatalf("incomplete fault %+v", fault)
			}
			if strings.ContainsAny(fault.Problem+fault.Mend, "\n\r\x1b") {
				t.Fatalf("fault of several lines: %q", fault.Problem+fault.Mend)
			}
		}
	})
}
