package resins_test

import (
	"testing"

	"potlife/resins"
)

func load(t *testing.T, name string) *resins.Record {
	t.Helper()
	r, err := resins.Load(name)
	if err != nil {
		t.Fatal(err)
	}
	return r
}
