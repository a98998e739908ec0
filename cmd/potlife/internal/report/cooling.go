package report

import (
	"fmt"
	"io"
	"slices"

	"potlife/resins/fit"
)

// Cooling is the JSON of resins cooling.
type Cooling struct {
	Vessel    string  `json:"vessel"`
	Tests     int     `json:"tests"`
	Surface   float64 `json:"surface_loss_W_per_m2_K"`
	Wall      float64 `json:"wall_loss_W_per_m2_K"`
	Spread    float64 `json:"loss_spread"`
	Split     bool    `json:"surface_and_wall_told_apart"`
	ResidualK float64 `json:"residual_K"` // root mean square of the readings
	Warned
}

// NewCooling builds the report of cooling tests and what they tell.
func NewCooling(c *fit.Cooling, l *fit.Losses) *Cooling {
	return &Cooling{
		Vessel: c.In.String(), Tests: len(c.Tests), Surface: float64(l.Surface), Wall: float64(l.Wall),
		Spread: l.Spread, Split: l.Split, ResidualK: l.Residual, Warned: NewWarned(slices.Concat(c.Renamed, c.Notes, l.Warnings)...),
	}
}

// Text writes the losses as a job takes them.
func (c *Cooling) Text(w io.Writer) error {
	say(w, fmt.Sprintf("Water %s, %s: the readings lie %.1f K off the curve on average. Put into the bath of the job:",
		c.Vessel, plural(c.Tests, "test"), c.ResidualK), "", "  ")
	_, err := fmt.Fprintf(w, "\n    surface_loss: %.1f W/(m²·K)\n    wall_loss: %.1f W/(m²·K)\n    loss_spread: %s\n", c.Surface, c.Wall, factor(c.Spread))
	section(w, "Doubts", c.Warnings)
	return err
}
