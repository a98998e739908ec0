package vessel_test

import (
	"math"
	"testing"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// TestLittleResinInALargeVessel: a gram in a tray has the room's temperature; a
// week of it takes a bounded number of steps, and it gels when a film does. The
// film is warmer by less than 0.1 K in the tray, which is 0.7 % of a gel time at
// 56 kJ/mol.
func TestLittleResinInALargeVessel(t *testing.T) {
	room := vessel.Constant(quantity.Celsius(23))
	for name, wall := range map[string]quantity.HeatTransfer{"tray": 6, "jacketed tray": 150} {
		bath := vessel.New(medium(), vessel.Tray(0.3, 0.18, 10, wall), room, room, vessel.Working)
		m, err := bath.Milestones(vessel.State{Mass: 1e-3, Temperature: quantity.Celsius(23)}, 0, 7*86400)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		film, err := vessel.NewFilm(medium(), room).GelAt(0, 0)
		if err != nil {
			t.Fatal(err)
		}
		if d := math.Abs(float64(m.Gel/film) - 1); !(d <= 7e-3) {
			t.Errorf("%s: gels after %v, a film after %v", name, m.Gel, film)
		}
	}
}
