package documenttest

import (
	"testing"

	"potlife/resins/document/internal/former"
)

// Rename gives keys a name of before until the test ends, by the name of today: files of that
// time are then read as files with a renamed key are.
func Rename(t testing.TB, was map[string]string) {
	t.Helper()
	before := former.Names
	t.Cleanup(func() { former.Names = before })
	former.Names = was
}
