package report

import (
	"testing"
	"time"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/schedule"
	"potlife/schedule/batches"
)

// spoken is a warning with its sentence.
type spoken struct {
	of   warning.Warning
	says string
}

func (c spoken) check(t *testing.T) {
	t.Helper()
	if got := sentence(c.of); got != c.says {
		t.Errorf("%#v\n   says %q\n   want %q", c.of, got, c.says)
	}
}

// TestSentencesOfAJob: each says its figures, rounded to the side on which they may be
// believed, and what to look at.
func TestSentencesOfAJob(t *testing.T) {
	c := quantity.Celsius
	trusted := resins.Range{From: c(15), To: c(80)}
	tow := schedule.TowBand{Width: 0.007, Tows: 1, Tex: 800e-6}
	tows := schedule.TowBand{Width: 0.004, Tows: 16, Tex: 800e-6}
	for _, one := range []spoken{
		{schedule.OutsideData{Site: schedule.SiteMandrel, At: c(110), Trusted: trusted, Resin: "epoxy-ipda"}, "the mandrel at 110 °C lies outside 15 °C to 80 °C, where the data of epoxy-ipda may be trusted"},
		{schedule.OutsideData{At: c(10), Trusted: trusted, Resin: "epoxy-ipda"}, "10 °C lies outside 15 °C to 80 °C, where the data of epoxy-ipda may be trusted"},
		{schedule.VesselTooDeep{Mass: 0.25, Depth: 11.4706, In: resins.Container{Cup: 0.005}}, "250 g would stand 11471 mm deep in a cup of 5 mm: are the sizes right?"},
		{schedule.VesselTooShallow{Mass: 0.12, Depth: 1.081e-6, In: resins.Container{Length: 10, Width: 10}}, "120 g would stand 0.001 mm deep in a tray of 10 m by 10 m: are the sizes right?"},
		{schedule.RoomBeginsLate{Begins: "10:30", Taken: c(19)}, "the room's course begins at 10:30, after the start: until then it is taken as 19 °C"},
		{schedule.TowDoubtful{Layer: "4 helical 45°", Measured: 0.24, Computed: 239.325}, "layer 4 helical 45° has 0.24 m of tow as measured, its geometry takes 239 m: is it the path of the band, in the right unit?"},
		{schedule.TimeDoubtful{Layer: "4 helical 45°", Measured: 24, Tow: 240, Machine: 0.25}, "layer 4 helical 45° is wound in 24 s as measured, 240 m of tow at 40 times the machine's 15 m/min: is the time right?"},
		{schedule.LayerGelsUnderWay{Layer: "2", Takes: 1439, Gels: 119.2, Mandrel: c(75)}, "layer 2 takes 24 min, and resin laid at the mandrel's 75 °C gels within 120 s: its end is wound onto what has set"},
		{schedule.LayerGelsUnderWay{Layer: "2", Takes: 7200, Gels: 120, Mandrel: c(75)}, "layer 2 takes 2 h, and resin laid at the mandrel's 75 °C gels within 2 min: its end is wound onto what has set"},
		{schedule.TowTooFast{Speed: 18, Fastest: 2}, "machine.tow_speed is 1080 m/min, and wet winding hardly runs faster than 120 m/min: is it the right unit?"},
		{schedule.BandTooWide{Band: tow, Each: 0.007, Widest: 0.006}, "a band of 7 mm from 1 tow of 800 tex is 7 mm for each tow, and such a tow hardly lies wider than 6 mm: check band and tows"},
		{schedule.PlyDoubtful{Band: tows, Thickness: 3.5447e-3, Fraction: resins.FibreFraction{Value: 0.62, Basis: resins.ByMass}}, "a band of 4 mm from 16 tows of 800 tex lies 3.54 mm thick at 62 % by mass: check band, tows, tex and fibre_fraction"},
		{schedule.FibreFractionUnusual{ByMass: 0.4, Lowest: 0.55, Highest: 0.72, Fibre: "carbon"}, "40 % fibre by mass is unusual for wet winding with carbon (55 to 72 %)"},
		{schedule.LessonsOfOtherResin{File: "a.yaml", Resin: "epoxy-teta", Record: "epoxy-ipda"}, "a.yaml learned the reactivity of epoxy-teta, not of epoxy-ipda: it is left out"},
		{schedule.TooThickWhenMixed{ThinsAfter: 754, ThinAt: c(18.26)}, "too thick when mixed: it thins to its limit after 13 min, at 18.3 °C"},
		{schedule.PotEndsInCup{
			Pot: 0.1769, Begun: time.Date(2026, 11, 28, 8, 33, 46, 0, time.UTC), Lasts: 3599, Stands: 3961, Reserve: 600,
		}, "the pot of 176 g begun at 08:34 lasts 59 min in its cup for sure, and is poured after 67: with the reserve of 10 min that is too long; mix less at a time, or cooler"},
		{schedule.MorePotsEndInCups{Pots: 3}, "nor do 3 more pots last in their cups until they are poured"},
	} {
		one.check(t)
	}
}

// TestSentencesOfLessons: what was learned is told with what the job says and with how many
// sessions it stands on; what was not, is not.
func TestSentencesOfLessons(t *testing.T) {
	some := schedule.LessonsUsed{PickUp: schedule.Lesson{Value: 1.1, Sessions: 3}, LeftInCup: schedule.Lesson{Value: 0.03, Sessions: 1}}
	some.OfJob.PickUp, some.OfJob.LeftInCup = 1, 0.02
	spoken{some, "learned from finished sessions (so many): pick-up 1.10 instead of 1.00 (3), 3.0 % left in cups instead of 2.0 % (1)"}.check(t)
	spoken{
		schedule.LessonsUsed{Minutes: schedule.Lesson{Value: 1.25, Sessions: 4}, Reactivity: schedule.Lesson{Value: 0.8, Sessions: 2}},
		"learned from finished sessions (so many): layers take 1.25 times the time (4), the resin cures 0.80 times as fast (2)",
	}.check(t)
}

// TestSentenceOfWhatAJobLeavesOut: a block that is missing is one key, a key of a block that
// is there is named with it, and all that is taken is told.
func TestSentenceOfWhatAJobLeavesOut(t *testing.T) {
	spoken{schedule.LeftOut{Ends: true}, "the job leaves out ends; taken: no fibre beside the cylinder"}.check(t)
	spoken{
		schedule.LeftOut{Limits: true, BathViscosity: 1.5, LaidViscosity: 3, BathTemperature: quantity.Celsius(40), Reserve: 600},
		"the job leaves out limits; taken: 1500 mPa·s in the bath, 3000 mPa·s as laid, 40 °C, a reserve of 10 min",
	}.check(t)
	spoken{
		schedule.LeftOut{Ends: true, LaidViscosity: 3, Reserve: 600},
		"the job leaves out ends, limits.laid_viscosity, limits.reserve; taken: no fibre beside the cylinder, 3000 mPa·s as laid, a reserve of 10 min",
	}.check(t)
}

// TestSentencesOfContradictions: each says both figures and the key that can be changed.
func TestSentencesOfContradictions(t *testing.T) {
	c := quantity.Celsius
	for _, one := range []spoken{
		{schedule.WarmerThanLimit{Site: schedule.SiteResin, At: c(20), Limit: c(15), From: schedule.FromJob}, "resin is mixed at 20 °C, and the bath may not be as warm as limits.bath_temperature, 15 °C: give a higher limits.bath_temperature, or mix cooler resin"},
		{schedule.WarmerThanLimit{Site: schedule.SiteResin, At: c(20), Limit: c(17), From: schedule.FromJacket}, "resin is mixed at 20 °C, and the bath may not be as warm as 17 °C, 12 K above the jacket where no limit is given: give a higher limits.bath_temperature, or mix cooler resin"},
		{schedule.WarmerThanLimit{Site: schedule.SiteRoom, At: c(60), Limit: c(40), From: schedule.FromUse}, "the room is at 60 °C, and the bath may not be as warm as 40 °C, the usual limit: give a higher limits.bath_temperature, or a cooler one"},
		{schedule.WarmerThanLimit{Site: schedule.SiteJacket, At: c(60), Limit: c(40), From: schedule.FromJob}, "the jacket is at 60 °C, and the bath may not be as warm as limits.bath_temperature, 40 °C: give a higher limits.bath_temperature, or a cooler one"},
		{schedule.NeverThins{Viscosity: 0.8312, At: c(21.4), Mixing: 300, Limit: 0.2}, "resin has 831 mPa·s at 21 °C when mixing ends, after 5 min, and never thins to limits.bath_viscosity, 200 mPa·s: warm it, give a higher limit, or take a thinner system"},
		{schedule.TooThickOnMandrel{Viscosity: 90.21, Mandrel: c(-20), Mixing: 300, Limit: 3}, "resin has 90210 mPa·s at the mandrel's -20 °C when mixing ends, after 5 min, and limits.laid_viscosity is 3000 mPa·s: warm the mandrel, give a higher limit, or take a thinner system"},
		{schedule.TooHotWhenMixed{At: c(41.6), Limit: c(40), Mixing: 7200}, "resin has 42 °C when mixing ends, after 120 min, more than the 40 °C that a bath may have: check pots.mixing, mix cooler or smaller pots, or give a higher limits.bath_temperature"},
		{schedule.FreshBathTooShort{Lasts: 5999, Reserve: 86400}, "a fresh bath likely lasts 99 min at most, less than limits.reserve, 24 h: give a lower reserve, another hardener or other temperatures"},
		{schedule.PotGelsInMixing{Pot: 0.08, Mixing: 7200}, "a pot of 80 g gels in its cup within the 120 min that mixing takes: check pots.mixing, or mix cooler"},
	} {
		one.check(t)
	}
}

// TestRemediesInWords: what programs read as helps[].what.
func TestRemediesInWords(t *testing.T) {
	for of, want := range map[batches.Remedy]string{
		{Kind: batches.ResinTemperature, By: -5}: "resin 5 K cooler when mixed",
		{Kind: batches.ResinTemperature, By: 5}:  "resin 5 K warmer when mixed",
		{Kind: batches.RoomTemperature, By: -4}:  "room 4 K cooler",
		{Kind: batches.RoomTemperature, By: 4}:   "room 4 K warmer",
		{Kind: batches.PotSize, Times: 2.0 / 3}:  "pots and bath a third smaller",
		{Kind: batches.HardenerRate, Times: 0.5}: "a hardener half as fast",
		{Kind: batches.TowSpeed, Times: 1.25}:    "tow a quarter faster",
		{Kind: batches.TowSpeed, Times: 1.1}:     "tow 10 % faster",
		{Kind: batches.StopsInside}:              "refill: circuits, inside the layers",
	} {
		if got := remedyWords(of); got != want {
			t.Errorf("%+v is %q, want %q", of, got, want)
		}
	}
}
