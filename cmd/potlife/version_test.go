package main

import (
	"bytes"
	"encoding/json"
	"runtime/debug"
	"strings"
	"testing"

	"potlife/cmd/potlife/internal/report"
)

// TestVersion: the line and the JSON tell what the Go command noted, and no more.
func TestVersion(t *testing.T) {
	setting := func(key, value string) debug.BuildSetting { return debug.BuildSetting{Key: key, Value: value} }
	const revision = "0123456789abcdef0123456789abcdef01234567"
	for want, info := range map[string]*debug.BuildInfo{
		"potlife without a version (": nil,
		"potlife v0.1.0 (":            {Main: debug.Module{Version: "v0.1.0"}},
		"potlife v0.1.0, revision 0123456789ab of 2026-11-27 (": {
			Main: debug.Module{Version: "v0.1.0"}, Settings: []debug.BuildSetting{setting("vcs.revision", revision), setting("vcs.time", "2026-11-27T10:00:00Z"), setting("vcs.modified", "false")},
		},
		"potlife without a version, revision 0123456789ab, changed since (": {
			Main: debug.Module{Version: "(devel)"}, Settings: []debug.BuildSetting{setting("vcs.revision", revision), setting("vcs.modified", "true")},
		},
		"potlife v0.1.0, revision 0123456789ab, changed since (": {
			Main: debug.Module{Version: "v0.1.0+dirty"}, Settings: []debug.BuildSetting{setting("vcs.revision", revision), setting("vcs.modified", "true")},
		},
	} {
		var out bytes.Buffer
		if err := versionOf(info).Text(&out); err != nil || !strings.HasPrefix(out.String(), want) || strings.Count(out.String(), "\n") != 1 {
			t.Errorf("told %q, want %q (%v)", out.String(), want, err)
		}
	}
	var out, errOut bytes.Buffer
	if code := run([]string{"--version", "--json"}, &out, &errOut); code != exitDone {
		t.Fatalf("exit %d: %s", code, errOut.String())
	}
	var v report.Version
	if err := json.Unmarshal(out.Bytes(), &v); err != nil || v.Go == "" || !strings.Contains(v.System, "/") {
		t.Errorf("%s: %v", out.String(), err)
	}
	if said := refused(t, "--json"); !strings.Contains(said, "--version") {
		t.Errorf("--json alone is told %q", said)
	}
}
