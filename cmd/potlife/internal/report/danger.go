package report

import (
	"fmt"
	"math"

	"potlife/kinetics/quantity"
	"potlife/resins"
	"potlife/schedule"
)

// Danger is the JSON of what resin can do that is left alone.
type Danger struct {
	RunsAway bool `json:"runs_away"` // the mass asked about, in a bath in a hundred at least
	// Safe is the greatest mass that cannot; null: none can there. The second figure
	// is without burn-off.
	Safe           *float64 `json:"safe_mass_kg"`
	SafeUndepleted *float64 `json:"safe_mass_no_burn_off_kg"`
	// The ways out, null where there is no danger: how deep in a tray how wide, and in
	// how many such vessels, null as well where they would be too many.
	Depth *float64 `json:"spread_depth_m"`
	Side  *float64 `json:"spread_side_m"`
	Split *int     `json:"split_into"`
}

func newDanger(d *schedule.Danger) Danger {
	j := Danger{RunsAway: d.Runs(), Safe: finite(float64(d.Safe)), SafeUndepleted: finite(float64(d.SafeUndepleted))}
	if d.Runs() {
		j.Depth, j.Side = finite(float64(d.Depth)), finite(float64(d.Side))
		if d.Vessels > 0 {
			j.Split = &d.Vessels
		}
	}
	return j
}

// dangerWords say what a vessel bears, and loudly that a mass is more than that.
func dangerWords(d *schedule.Danger, in resins.Container) (text, loud string) {
	one, many := "tray", "such trays"
	if in.Cup > 0 {
		one, many = "cup", "such cups"
	}
	text = fmt.Sprintf("Up to %s of it cannot run away in such a %s in this room.", massDown(d.Safe), one)
	switch {
	case math.IsInf(float64(d.Safe), 1):
		text = fmt.Sprintf("However full, such a %s of it cannot run away in this room.", one)
	case d.Safe == 0:
		text = fmt.Sprintf("No mass of it is safe in such a %s in this room.", one)
	}
	if d.Runs() {
		loud = fmt.Sprintf("DANGER: %s of it, forgotten in such a %s, can run away. What is not used at once: %s.", mass(d.Mass), one, d.WayOut(many))
	}
	return text, loud
}

// massDown prints a mass that must not be promised larger than it is, in two digits.
func massDown(m quantity.Mass) string {
	g := m.In("g")
	if !(g > 0) || math.IsInf(g, 1) {
		return mass(m)
	}
	step := math.Pow(10, math.Floor(math.Log10(g))-1)
	g = math.Floor(g/step*(1+1e-12)) * step
	if g < 10 {
		return fmt.Sprintf("%.1f g", g)
	}
	if g >= 1000 {
		return fmt.Sprintf("%g kg", g/1000)
	}
	return fmt.Sprintf("%.0f g", g)
}
