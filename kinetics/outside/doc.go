// Package outside holds what the tests compare with values from outside this
// project: each comparison is a [Row] that names its source, its mark, the value
// printed there, the tolerance and its reason. [Check] asserts it and keeps it, and the
// rows together are the page testdata/published/README.md, which nobody writes by hand.
//
// It is for tests only; a test of cmd/potlife keeps it out of the program.
//
// The rows stand in testdata/published/rows, a file a package. A test fails when its row
// differs from the one there by more than a unit of the last digit of ours. What no single
// test can see, a row that no test writes any more, shows when all of them write their
// rows anew:
//
//	POTLIFE_ROWS=/tmp/rows go test -count=1 ./...        # into an empty folder
//	go test ./kinetics/outside -rows /tmp/rows           # compares, as CI does
//	go test ./kinetics/outside -rows /tmp/rows -update   # takes them over, writes the page
//
// To take over those of some packages, give these to the first command instead.
package outside
