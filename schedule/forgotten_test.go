package schedule_test

import (
	"testing"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/resins"
	"potlife/schedule"
)

// A forgottenVessel is resin left alone in a vessel, with what is not known of it.
type forgottenVessel struct {
	name   string
	resin  string
	in     resins.Container
	room   float64 // °C
	jacket float64 // °C; 0: none
	spread ensemble.Spread
}

var (
	byRecord   = ensemble.Spread{Time: 1.6, Viscosity: 1.3, Loss: 1.3}  // nothing is measured
	byLabel    = ensemble.Spread{Time: 1.15, Viscosity: 1.3, Loss: 1.3} // a label's pot life sets the rate: losses are the greater part
	anyVessel  = ensemble.Spread{Time: 1.1, Viscosity: 1.3, Loss: 1.6}  // nothing but the losses
	losesKnown = ensemble.Spread{Time: 1.6, Viscosity: 1.3, Loss: 1.05} // measured with warm water
)

// Shallow and deep, loss through the surface and inside, cold and warm.
var forgottenVessels = []forgottenVessel{
	{"cup of 60 mm", "epoxy-teta", resins.Container{Cup: 0.06}, 23, 0, byRecord},
	{"cup of 90 mm", "epoxy-ipda", resins.Container{Cup: 0.09}, 22, 0, byLabel},
	{"deep cup of 120 mm", "epoxy-polyetheramine", resins.Container{Cup: 0.12}, 30, 0, anyVessel},
	{"cup of 90 mm in a jacket", "epoxy-ipda", resins.Container{Cup: 0.09}, 22, 40, byLabel},
	{"tray of 200 mm", "epoxy-teta", resins.Container{Length: 0.2, Width: 0.2}, 18, 0, byLabel},
	{"wide tray", "epoxy-ipda", resins.Container{Length: 0.6, Width: 0.6}, 28, 0, byLabel},
	{"bath of 300 mm", "epoxy-ipda", resins.Container{Length: 0.3, Width: 0.12, SurfaceLoss: 10, WallLoss: 6}, 23, 0, losesKnown},
	{"bath of 450 mm in a jacket", "epoxy-polyetheramine-ipda", resins.Container{Length: 0.45, Width: 0.22}, 17, 35, byRecord},
}

func (v *forgottenVessel) wall() quantity.Temperature {
	if v.jacket > 0 {
		return quantity.Celsius(v.jacket)
	}
	return quantity.Celsius(v.room)
}

// standing is the question that worktime asks of it.
func (v *forgottenVessel) standing(t *testing.T) *schedule.Standing {
	t.Helper()
	record, err := resins.Load(v.resin)
	if err != nil {
		t.Fatal(err)
	}
	record.Spread = v.spread
	s := &schedule.Standing{
		Record: record, Mass: 0.25, Room: quantity.Celsius(v.room),
		Bath:     schedule.Bath{Container: v.in, LossSpread: v.spread.Loss},
		Sampling: schedule.Sampling{Members: 2, Seed: 1}, // its life is not asked here
	}
	if v.jacket > 0 {
		s.Bath, _, err = schedule.ReadVessel("", "{cup: 90 mm, jacket: "+v.wall().String()+"}")
		if err != nil {
			t.Fatal(err)
		}
		s.Bath.Container, s.Bath.LossSpread = v.in, v.spread.Loss
	}
	return s
}

// danger asks whether a mass runs away in the vessel of a member.
func (v *forgottenVessel) danger(r *resins.Record, m ensemble.Member) *still.Danger {
	return &still.Danger{
		Resin: r.Kinetics.Adjusted(m.Rate, m.Viscosity), Room: quantity.Celsius(v.room), Wall: v.wall(),
		From: quantity.Celsius(v.room), Precision: still.Searching,
		Body: func(mass quantity.Mass) still.Body { return v.in.Body(mass, m.Loss, v.jacket > 0) },
	}
}
