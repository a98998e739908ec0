package fit

import (
	"fmt"

	"potlife/resins"
)

// unlike is by what factor a mix ratio may differ from the nearest system's without a word.
// Common practice: a hardener of the same kind but modified takes up to half as much again.
const unlike = 1.5

// RatioDoubt tells that a mix takes far more or less hardener than the system it is said to
// be like, which is the slip of a wrong column; empty where it does not. The mix was given by
// mass or by volume.
func RatioDoubt(mix resins.Mix, byVolume bool, like *resins.Record) string {
	given, usual := mix.HardenerByMass(), like.Mix.HardenerByMass()
	if given <= unlike*usual && usual <= unlike*given {
		return ""
	}
	head, taken := "", "is it parts by volume"
	if byVolume {
		head, taken = "by the volumes given ", "are they parts by mass"
	}
	return fmt.Sprintf("%s%s g hardener to 100 g resin, where %s takes %s: %s, or the figure of another column?",
		head, factorText(given), like.Name, factorText(usual), taken)
}
