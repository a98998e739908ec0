package schedule

import (
	"os"
	"path/filepath"
	"testing"
	"time"
)

func load(t *testing.T, name string) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return zone
}

// TestZoneNames: a name is told only if it can be loaded and shows the same time.
// Go calls the machine's zone after the variable TZ, a name or the path of a
// table, or Local where that is not set (its documentation of time.Local).
func TestZoneNames(t *testing.T) {
	noon := time.Date(2026, 7, 1, 12, 0, 0, 0, time.UTC)
	summer := func(name string) *time.Location { return time.FixedZone(name, 2*3600) } // Berlin's
	for _, c := range []struct {
		zone       *time.Location
		link, want string
	}{
		{load(t, "Asia/Kolkata"), "", "Asia/Kolkata"},
		{time.UTC, "", "UTC"},
		{summer("Local"), "/usr/share/zoneinfo/Europe/Berlin", "Europe/Berlin"},
		{summer("Local"), "../usr/share/zoneinfo/posix/Europe/Berlin", "Europe/Berlin"},
		{summer("Local"), "/var/db/timezone/zoneinfo/Europe/Berlin", "Europe/Berlin"},
		{summer("Local"), "", ""},
		{summer("Local"), "/etc/zones/home", ""},
		{summer("Local"), "/usr/share/zoneinfo/Asia/Kolkata", ""}, // changed meanwhile
		{summer("/usr/share/zoneinfo/Europe/Berlin"), "", "Europe/Berlin"},
		{summer("/home/crew/zone"), "", ""},
		{summer("+02:00"), "", ""},
		{summer(""), "", ""},
		{summer("Nowhere/City"), "", ""},
		{nil, "", ""},
	} {
		link := filepath.Join(t.TempDir(), "localtime")
		if c.link != "" {
			if err := os.Symlink(c.link, link); err != nil {
				t.Skip("no links here:", err)
			}
		}
		if got := zoneName(c.zone, noon, link); got != c.want {
			t.Errorf("%v by %s is called %q, want %q", c.zone, c.link, got, c.want)
		}
	}
}

// TestZoneInAFile: a machine whose zone is a copy of a table has no name for it.
func TestZoneInAFile(t *testing.T) {
	file := filepath.Join(t.TempDir(), "localtime")
	if err := os.WriteFile(file, []byte("TZif2"), 0o644); err != nil {
		t.Fatal(err)
	}
	if got := zoneName(time.FixedZone("Local", 3600), time.Now(), file); got != "" {
		t.Errorf("called %q", got)
	}
}
