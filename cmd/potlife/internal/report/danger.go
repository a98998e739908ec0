package report

import (
	"fmt"
	"math"
	"strings"

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
	// LeftAlone is how long the mass can be left as it stands, in 9 of 10 baths: until the
	// limit of temperature in its hottest place, or gel. Null where there is no danger.
	LeftAlone *float64 `json:"left_alone_s"`
	// The ways out, null where there is no danger: how deep in a tray how wide, and in
	// how many such vessels, null as well where they would be too many.
	Depth *float64 `json:"spread_depth_m"`
	Side  *float64 `json:"spread_side_m"`
	Split *int     `json:"split_into"`
}

func newDanger(d *schedule.Danger) Danger {
	j := Danger{RunsAway: d.Runs(), Safe: finite(float64(d.Safe)), SafeUndepleted: finite(float64(d.SafeUndepleted))}
	if d.Runs() {
		j.LeftAlone = seconds(d.In)
		j.Depth, j.Side = finite(float64(d.Depth)), finite(float64(d.Side))
		if d.Vessels > 0 {
			j.Split = &d.Vessels
		}
	}
	return j
}

// dangerWords say what a vessel bears, and loudly that a mass is more than that.
func dangerWords(d *schedule.Danger, in resins.Container) (text, loud string) {
	defer shown("danger", &loud)
	one, many := "tray", "such trays"
	if in.Cup > 0 {
		one, many = "cup", "such cups"
	}
	text = fmt.Sprintf("%s or less of it cannot run away in this %s in this room.", massDown(d.Safe), one)
	switch {
	case math.IsInf(float64(d.Safe), 1):
		text = fmt.Sprintf("However full, this %s cannot run away in this room.", one)
	case d.Safe == 0:
		text = fmt.Sprintf("No mass of it is safe in this %s in this room.", one)
	}
	if d.Runs() {
		loud = fmt.Sprintf("DANGER: %s can run away in this %s if left. %s (9 in 10 last longer). What is not used at once: %s.", mass(d.Mass), one, leftFor(d, "in this "+one, mass(d.Mass)), wayOut(d, many))
	}
	return text, loud
}

// alarmWords are one loud caution for pot and bath of a plan, so that it fits a page; empty
// where neither is a danger.
func alarmWords(a *schedule.Alarms) (text string) {
	defer shown("danger", &text)
	var what, last, out []string
	if pot := a.Pot; pot != nil && pot.Runs() {
		what = append(what, "pots over "+wholeGrams(pot.Safe))
		last = append(last, leftFor(pot, "in its cup", wholeGrams(pot.Mass)))
		way := "pour it or "
		if flat(pot.Depth) == 0 {
			way = "pour it at once; "
		}
		out = append(out, way+wayOut(pot, ""))
	}
	if bath := a.Bath; bath != nil && bath.Runs() {
		what = append(what, "a bath over "+wholeGrams(bath.Safe))
		last = append(last, leftFor(bath, "in the bath", wholeGrams(bath.Mass)))
		out = append(out, "empty the bath if the day ends early")
	}
	if len(what) == 0 {
		return ""
	}
	return "DANGER: " + strings.Join(what, " or ") + " can run away if left. " + strings.Join(last, ", ") + " (9 in 10 last longer). What is not used at once: " + strings.Join(out, "; ") + "."
}

// leftFor is how long a mass can be left where it is, in 9 of 10 baths.
func leftFor(d *schedule.Danger, where, grams string) string {
	if !(d.In >= 60) {
		return grams + ": less than a minute " + where
	}
	return fmt.Sprintf("%s: %s %s", grams, roundDown(d.In), where)
}

// leftAlone are the seconds of a danger, null where there is none.
func leftAlone(d *schedule.Danger) *float64 {
	if d == nil || !d.Runs() {
		return nil
	}
	return seconds(d.In)
}

// wayOut of a danger in words; vessels are those like the one asked about, empty: there is
// no other. The depth is rounded down to a figure that can be measured, the tray up to
// whole centimetres for that depth.
func wayOut(d *schedule.Danger, vessels string) (text string) {
	defer shown("way-out", &text)
	var ways []string
	if depth := flat(d.Depth); depth > 0 {
		side := math.Ceil(d.Side.In("cm")*math.Sqrt(d.Depth.In("mm")/depth)) * 10
		ways = append(ways, fmt.Sprintf("spread it no deeper than %.3g mm, in a tray of %[2]g mm by %[2]g mm or wider", depth, side))
	}
	if d.Vessels > 0 && vessels != "" {
		ways = append(ways, fmt.Sprintf("split it into %d %s", d.Vessels, vessels))
	}
	if len(ways) == 0 {
		return "nothing makes it safe there, mix it cooler or where it is cooler"
	}
	return strings.Join(ways, ", or ")
}

// flat is a depth in mm rounded down to what a rule shows, 0 for less than half a
// millimetre, which no mass of resin keeps to.
func flat(depth quantity.Length) float64 {
	switch mm := depth.In("mm"); {
	case mm >= 2:
		return math.Floor(mm)
	case mm >= 0.5:
		return math.Floor(mm*5) / 5
	}
	return 0
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
