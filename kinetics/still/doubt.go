package still

import (
	"math"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// A GridDoubt is by how much milestones may be wrong because the body is cut into
// cells, each at least 0; +Inf where a coarser grid does not reach it at all.
type GridDoubt struct {
	Doubled, Gel, PeakAt quantity.Time
	Peak                 quantity.TemperatureDifference
}

// Doubted returns [Pot.Milestones] and the error of the grid by Richardson's
// estimate: the difference from a grid of half the cells, over three, since the
// error falls with the square of their number. A burn that runs through the resin
// as a front thinner than a cell is not in that range: its peak, far above
// 200 °C, has a doubt of tens of kelvin.
func (p *Pot) Doubted(s vessel.State, from, horizon quantity.Time) (vessel.Milestones, GridDoubt, error) {
	fine, err := p.Milestones(s, from, horizon)
	if err != nil {
		return fine, GridDoubt{}, err
	}
	half := p.precision
	half.Cells = max(2, p.cells/2)
	body := p.body
	if w, ok := body.(Wall); ok {
		body = w.halved()
	}
	other, err := New(p.resin, body, p.room, p.wall, half)
	if err != nil {
		return fine, GridDoubt{}, err
	}
	coarse, err := other.Milestones(s, from, horizon)
	if err != nil {
		return fine, GridDoubt{}, err
	}
	ratio := float64(p.cells) / float64(half.Cells)
	d := func(a, b float64) float64 {
		if a == b { // both infinite as well
			return 0
		}
		return math.Abs(a-b) / (ratio*ratio - 1)
	}
	return fine, GridDoubt{
		Doubled: quantity.Time(d(float64(fine.Doubled), float64(coarse.Doubled))),
		Gel:     quantity.Time(d(float64(fine.Gel), float64(coarse.Gel))),
		PeakAt:  quantity.Time(d(float64(fine.PeakAt), float64(coarse.PeakAt))),
		Peak:    quantity.TemperatureDifference(d(float64(fine.Peak), float64(coarse.Peak))),
	}, nil
}

// halved is the wall with half the cells in every layer.
func (b Wall) halved() Wall {
	layers := append(b.Layers[:0:0], b.Layers...)
	for i := range layers {
		if layers[i].Cells > 0 {
			layers[i].Cells = max(1, layers[i].Cells/2)
		}
	}
	b.Layers = layers
	return b
}
