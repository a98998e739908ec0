// Package testrun says how much a test run counts and where its chance comes from. It is
// for tests only.
//
// The default suite is what everybody waits for: it takes a sample of what is random or
// repeated. POTLIFE_LONG=1 takes all that the statistics need, as a step of CI does, and
// POTLIFE_LONG=N takes N times as many of what has no statistic with a size of its own.
//
// Importing it also fixes the seed of rapid's property tests, which is otherwise the time
// of day; go test -rapid.seed=N tries another.
package testrun

import (
	"flag"
	"os"
	"strconv"

	_ "pgregory.net/rapid" // its flags, which init sets
)

// Long is the environment variable that asks for more than the sample.
const Long = "POTLIFE_LONG"

// Times is the number that [Long] holds, 0 in the default suite.
func Times() int {
	text := os.Getenv(Long)
	if text == "" {
		return 0
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 {
		panic(Long + " is " + strconv.Quote(text) + ", want a whole number of at least 1")
	}
	return n
}

// IsLong reports whether this run takes everything.
func IsLong() bool { return Times() > 0 }

// Count is sample in the default suite and all in a long run: for a statistic, whose
// tolerance belongs to its size.
func Count(sample, all int) int {
	if IsLong() {
		return all
	}
	return sample
}

// Draws is sample in the default suite and N·all with POTLIFE_LONG=N: for random cases of
// which each is judged alone.
func Draws(sample, all int) int {
	if n := Times(); n > 0 {
		return n * all
	}
	return sample
}

func init() {
	if err := flag.Set("rapid.seed", "20261129"); err != nil {
		panic(err)
	}
}
