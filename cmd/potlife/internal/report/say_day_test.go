package report

import (
	"testing"
	"time"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/schedule/session"
	"potlife/schedule/session/advice"
	"potlife/schedule/session/replay"
)

// TestSayDay: what a warning of a session's day says, with its figures.
func TestSayDay(t *testing.T) {
	mix := resins.Mix{Resin: resins.Part{ByMass: 100, Density: 1130}, Hardener: resins.Part{ByMass: 24, Density: 920}}
	nine := time.Date(2026, 11, 28, 9, 0, 0, 0, time.UTC)
	read := func(celsius float64) replay.Reading {
		return replay.Reading{Seq: 7, Temperature: quantity.Celsius(celsius)}
	}
	kelvin := func(celsius float64) float64 { return float64(quantity.Celsius(celsius)) }
	for _, c := range []struct {
		w    warning.Warning
		want string
	}{
		{session.PotOffRatio{Off: 0.2953, Mix: mix}, "the hardener is 30 % off the ratio of 100 : 24 by mass, 100 : 29.5 by volume: if it was weighed so, such a pot cures badly"},
		{session.PotOffRatio{Off: -0.5, Mix: mix, Swapped: true}, "the hardener is -50 % off the ratio of 100 : 24 by mass, 100 : 29.5 by volume: if it was weighed so, such a pot cures badly; are resin and hardener swapped?"},
		{session.PotTooLarge{Mass: 0.9, Largest: 0.25}, "900 g are more than the largest pot of the job, 250 g"},
		{session.PotTooSmall{Mass: 5.7 / 1e3, Smallest: 0.08}, "5.7 g are less than half of the smallest pot of the job, 80 g"},
		{session.LayersMissing{Done: 2, Of: 4}, "2 of 4 layers are done"},
		{session.AtEvent{Event: 9, At: nine.Add(25 * time.Hour), Day: nine, Warning: session.LayersMissing{Done: 2, Of: 4}}, "e9 at 10:00+1: 2 of 4 layers are done"},
		{session.AtEvent{Event: 5, At: nine, Day: nine, Warning: session.LotExpired{Lot: session.Lot{Part: "resin", Name: "R1", Expires: "2026-10"}}}, "e5 at 09:00: the resin lot R1 expired at the end of 2026-10, before this pot was mixed: ask its supplier, or mix from another lot"},
		{replay.LeftOverFar{Weighed: 0.0104, Reckoned: 0.294}, "left-over says 10 g, and by what was poured and wound there should be some 294 g: weigh it again, or log what was left out"},
		{advice.BathOffRatio{Pot: 3, Off: 0.25}, "pot 3 in the bath had 25 % too much hardener: it cures badly; change it"},
		{advice.BathOffRatio{Pot: 3, Off: -0.031, Wound: true}, "pot 3 in the bath had 3.1 % too little hardener: what was wound with it cures badly"},
		{advice.CupOffRatio{Pot: 3, Event: 8, Off: 0.25}, "do not pour pot 3: it has 25 % too much hardener. Spread it thin, outdoors, and log thrown-out 3; if it was weighed otherwise, undo e8"},
		{session.PouredTwice{Event: 4, Pot: 1}, "e4 says that pot 1 was poured then too: logged twice? undo takes it back"},
		{advice.LayerOverdue{Layer: 2, Ended: nine.Add(time.Second), Now: nine.Add(time.Hour)}, "layer 2 should have ended at about 09:01: if it has, log done --at 09:01"},
		{advice.LayerOverdue{Layer: 2, Ended: nine, Now: nine.Add(24 * time.Hour)}, "layer 2 should have ended at about 2026-11-28 09:00: if it has, log done --at '2026-11-28 09:00'"},
		{
			advice.ReadingUnexplained{Reading: read(40.25), Low: kelvin(24), High: kelvin(26.04), At: nine, Day: nine, Over: true, ColdPots: true},
			"reading e7 at 09:00 says 40.2 °C, where the bath should have 24.0 °C to 26.0 °C: no bath that the record allows explains it, and it is left out",
		},
		{
			advice.ReadingUnexplained{Reading: read(40), Low: kelvin(24), High: kelvin(26), At: nine, Day: nine, ColdPots: true},
			"reading e7 at 09:00 says 40.0 °C, where the bath should have 24.0 °C to 26.0 °C: no bath that the record allows explains it, and it is left out; read again, or undo e7; or was the resin warmer or colder when mixed than the job says? log mixed with --temp",
		},
		{
			advice.ReadingUnexplained{Reading: replay.Reading{Seq: 7, Viscous: true, Viscosity: 2}, Low: 0.5, High: 0.61, At: nine, Day: nine},
			"reading e7 at 09:00 says 2000 mPa·s, where the bath should have 500 to 610: no bath that the record allows explains it, and it is left out; read again, or undo e7",
		},
	} {
		if got := sentence(c.w); got != c.want {
			t.Errorf("%s\n got %q\nwant %q", c.w.Code(), got, c.want)
		}
	}
}
