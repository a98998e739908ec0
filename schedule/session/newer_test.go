package session

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestNewer: a journal with a kind or a format that this program does not know is read by
// nothing and changed by nothing, though its last line is torn.
func TestNewer(t *testing.T) {
	for name, row := range map[string]struct {
		payload map[string]any
		want    string
	}{
		"a kind":                  {map[string]any{"kind": "spliced", "at": after(1), "logged": after(1)}, `:2: written by a newer potlife: this program knows no event "spliced"`},
		"a kind of other fields":  {map[string]any{"kind": "spliced", "at": "noon", "layers": []int{1, 2}}, `knows no event "spliced"`},
		"a format":                {map[string]any{"kind": "start", "at": after(1), "logged": after(1), "format": Format + 1}, "its format is 4, and this program reads up to 3"},
		"a format and a new kind": {map[string]any{"kind": "moved", "format": 17}, "its format is 17"},
	} {
		for _, tail := range []string{"", `{"seq":3,"at":"2026-`} {
			s := newSession(t)
			mustAppend(t, s.Journal, row.payload)
			if err := s.Close(); err != nil {
				t.Fatal(err)
			}
			before := append(contents(t, s.Folder), tail...)
			if err := os.WriteFile(filepath.Join(s.Folder, Name), before, 0o644); err != nil {
				t.Fatal(err)
			}
			refusals := map[string]error{}
			s, err := OpenFolder(s.Folder)
			if err != nil {
				refusals["OpenFolder"] = err
			} else {
				_, refusals["Events"] = s.Events()
				_, refusals["Day"] = s.Day()
				_, refusals["Log"] = s.Log(Event{Kind: Mixed, MassG: 200, At: after(2), Logged: after(2)})
				_, refusals["LogOnce"] = s.LogOnce("tap", Event{Kind: Mixed, MassG: 200, At: after(2), Logged: after(2)}, nil)
				_, refusals["Log undo"] = s.Log(Event{Kind: Undo, At: after(2), Logged: after(2)})
				_ = s.Close()
			}
			for what, err := range refusals {
				var newer *Newer
				if !errors.As(err, &newer) || !strings.Contains(err.Error(), row.want) || !strings.Contains(err.Error(), Name+":2: ") || !strings.Contains(err.Error(), "update this program") {
					t.Errorf("%s: %s says %v", name, what, err)
				}
			}
			if folder := filepath.Dir(newerPath(refusals)); !bytes.Equal(contents(t, folder), before) {
				t.Errorf("%s: the journal was changed", name)
			}
		}
	}
}

// newerPath is the journal that a refusal names.
func newerPath(refusals map[string]error) string {
	for _, err := range refusals {
		var newer *Newer
		if errors.As(err, &newer) {
			return newer.Path
		}
	}
	return ""
}

// TestKnownFormats: a journal of any format up to this program's opens, and so does one without
// a number; every kind is known.
func TestKnownFormats(t *testing.T) {
	for format := range Format + 1 {
		first := Event{Kind: Started, At: after(0), Logged: after(0), Layers: 1, Format: format}
		line, entry, err := encode(nil, "", first)
		if err != nil || newer(entry) != nil || (format == 0) == bytes.Contains(line, []byte("format")) {
			t.Errorf("format %d: %s, %v, %v", format, line, newer(entry), err)
		}
	}
	for _, kind := range append([]Kind{Started, Weighed, ""}, Kinds...) {
		if _, entry, err := encode(nil, "", Event{Kind: kind}); err != nil || newer(entry) != nil {
			t.Errorf("%q is not known: %v, %v", kind, newer(entry), err)
		}
	}
}
