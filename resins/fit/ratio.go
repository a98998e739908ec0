package fit

import (
	"potlife/kinetics/warning"
	"potlife/resins"
)

// unlike is by what factor a mix ratio may differ from the nearest system's without a word.
// Common practice: a hardener of the same kind but modified takes up to half as much again.
const unlike = 1.5

// RatioWarnings tell of a mix that takes far more or less hardener than the system it is said
// to be like. The mix was given by mass or by volume.
func RatioWarnings(mix resins.Mix, byVolume bool, like *resins.Record) []warning.Warning {
	given, usual := mix.HardenerByMass(), like.Mix.HardenerByMass()
	if given <= unlike*usual && usual <= unlike*given {
		return nil
	}
	return []warning.Warning{UnlikeRatio{System: like.Name, Given: given, Usual: usual, ByVolume: byVolume}}
}
