package document_test

import (
	"strings"
	"testing"

	"potlife/resins/document"
	"potlife/resins/document/documenttest"
)

// FuzzRead checks that no source panics, and that every fault lies in the text, shows its
// line with one caret, and has a mend.
func FuzzRead(f *testing.F) {
	for _, source := range []string{
		whole, "", "a", "- a", "name: &a *a", "? x\n: y", "name: |\n  x\n y", "name: >-\n\n\nlayers: [{helical: 2,5 deg}]", "\ufeffname: x\r\n",
		"%YAML 1.2\n---\n", "name: x\n...\n---\n", "{name: \"x\\u0041\"}", "name: !!map {<<: *x}", "layers:\n- - - hoop\n", "\"name\": x\n'name': y", "name: 'x\n  y'\nnull: x",
		"layers:\n- 0\n -\n  0",
		"title: x\n\"tray\": {least: 5 g, 'most': 6 g}\nheight: 5 mm", "title: x\nname: y\nbath: {alarm: [}", "? title\n: x", "{title: 2,5 mm}",
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
		documenttest.Faults(t, string(source), err)

		doc, err = document.Read("tank.yaml", source, new(tank).fields())
		if err != nil {
			documenttest.Faults(t, string(source), err)
		}
		for _, w := range doc.Renamed() {
			r := w.(document.Renamed)
			if r.Line < 1 || r.Line > strings.Count(string(source), "\n")+1 || strings.ContainsAny(r.Corrected, "\n\r\x1b") || len([]rune(r.Corrected)) > 80 {
				t.Fatalf("%+v", r)
			}
		}
	})
}
