package whole

import (
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"testing"
)

// TestInterruptedTogether: an interrupt in the middle of a write waits for its end and is then
// obeyed; the file is whole and nothing lies beside it.
func TestInterruptedTogether(t *testing.T) {
	came := make(chan os.Signal, 1)
	signal.Notify(came, os.Interrupt) // the test itself is not to end
	defer signal.Stop(came)
	var obeyed []os.Signal
	usual := obey
	defer func() { obey = usual }()
	obey = func(s os.Signal) { obeyed = append(obeyed, s) }

	path := filepath.Join(t.TempDir(), "club.yaml")
	self, err := os.FindProcess(os.Getpid())
	if err != nil {
		t.Fatal(err)
	}
	err = Uninterrupted(func() error {
		if err := self.Signal(os.Interrupt); err != nil {
			t.Fatal(err)
		}
		<-came
		return Target{Path: path, Kind: Record}.Write([]byte("all of it\n"))
	})
	if err != nil || len(obeyed) != 1 || obeyed[0] != os.Interrupt {
		t.Errorf("%v, obeyed %v", err, obeyed)
	}
	if got, err := os.ReadFile(path); err != nil || !strings.HasSuffix(string(got), "\nall of it\n") {
		t.Errorf("%q, %v", got, err)
	}
	if list, err := os.ReadDir(filepath.Dir(path)); err != nil || len(list) != 1 {
		t.Errorf("the folder holds %v, %v", list, err)
	}
	if err := Uninterrupted(func() error { return nil }); err != nil || len(obeyed) != 1 {
		t.Errorf("%v, obeyed %v without an interrupt", err, obeyed)
	}
}
