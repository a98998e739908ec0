package winding

import (
	"math"

	"potlife/kinetics/quantity"
)

// A Layer is one layer as ordered, a hoop or a closed helical one.
type Layer struct {
	Name   string // its number and what it is called
	Called string
	Hoop   bool
	Angle  quantity.Angle  // from the axis, helical only
	Time   quantity.Time   // measured; 0: from the geometry
	Tow    quantity.Length // measured path of the band, ends included; 0: from the geometry
}

// Per tells how often the fibre of the ends is spent.
type Per string

// The ends are spent once a layer or once a circuit (or turn of a hoop).
const (
	PerLayer   Per = "layer"
	PerCircuit Per = "circuit"
)

// A Setup is what does not change from layer to layer.
type Setup struct {
	Diameter   quantity.Length // of the bare mandrel
	Length     quantity.Length // wound length
	Tows       int
	Band       quantity.Length
	TowSpeed   quantity.Speed
	Spindle    quantity.RotationalSpeed // greatest; 0: no bound
	Turnaround quantity.Angle           // at each end of a stroke
	Ends       quantity.Length          // lead-in, domes, tying off
	EndsPer    Per

	FibreDensity quantity.Density
	Tex          quantity.LinearDensity // of one tow
	FibreByMass  float64                // target w_f
	FibreVolume  float64                // target V_f
	PickUp       float64                // resin carried divided by the target
}

// A Laid layer is what ordering a layer comes to.
type Laid struct {
	Layer
	Diameter  quantity.Length // that it is wound on
	Circuits  int             // helical: out and back; hoop: turns begun
	Turns     float64         // hoop only
	Path      quantity.Length // of the band, ends included
	Time      quantity.Time   // turn-rounds included
	Spindle   quantity.RotationalSpeed
	TowSpeed  quantity.Speed // what the spindle allows
	Fibre     quantity.Mass
	Resin     quantity.Mass // carried off the bath
	Thickness quantity.Length
	Neighbour *Neighbour // nil: none worth telling
}

// A Neighbour is a closed pattern with one circuit less that a slightly wider
// band makes.
type Neighbour struct {
	Circuits int
	Band     quantity.Length
	Wider    float64       // relative
	Saves    quantity.Time // one circuit with its turn-rounds
}

// hairWider is how much wider a band may be made by hand to close a pattern
// with one circuit less; 2 % of a 4 mm band is less than 0.1 mm (our choice).
const hairWider = 0.02

// Lay computes every layer in turn, each on the diameter that those below it
// leave.
func Lay(setup Setup, layers []Layer) []Laid {
	laid := make([]Laid, len(layers))
	diameter := setup.Diameter
	for i, layer := range layers {
		laid[i] = setup.lay(layer, diameter)
		diameter += 2 * laid[i].Thickness
	}
	return laid
}

func (s Setup) lay(layer Layer, diameter quantity.Length) Laid {
	l := Laid{Layer: layer, Diameter: diameter, Thickness: s.Ply()}
	var path, rotation, angle float64
	if layer.Hoop {
		path, angle = s.hoop(&l)
	} else {
		path, rotation = s.helix(&l)
		angle = float64(layer.Angle)
		l.Thickness *= 2
	}
	l.TowSpeed, l.Spindle = s.speed(angle, diameter)
	path += s.ends(l.Circuits)
	l.Time = quantity.Time(path / float64(l.TowSpeed))
	if rotation > 0 {
		l.Time += quantity.Time(rotation / float64(l.Spindle))
	}
	if layer.Tow > 0 {
		if layer.Time == 0 {
			l.Time *= quantity.Time(float64(layer.Tow) / path) // turn-rounds in proportion
		}
		path = float64(layer.Tow)
	}
	if layer.Time > 0 {
		l.Time = layer.Time
	}
	if l.Neighbour != nil {
		l.Neighbour.Saves = l.Time / quantity.Time(l.Circuits)
	}
	l.Path = quantity.Length(path)
	l.Fibre = quantity.Mass(path * float64(s.Tows) * float64(s.Tex))
	l.Resin = quantity.Mass(float64(l.Fibre) * (1 - s.FibreByMass) / s.FibreByMass * s.PickUp)
	return l
}

// Ply is the thickness of one, (6).
func (s Setup) Ply() quantity.Length {
	area := float64(s.Tows) * float64(s.Tex) / float64(s.FibreDensity)
	return quantity.Length(area / (float64(s.Band) * s.FibreVolume))
}

// hoop fills in a hoop layer, (3) and (4), and returns its path in m and its
// angle in rad.
func (s Setup) hoop(l *Laid) (path, angle float64) {
	around, band := math.Pi*float64(l.Diameter), float64(s.Band)
	l.Turns = float64(s.Length) / band
	l.Circuits = ceil(l.Turns)
	return l.Turns * math.Hypot(around, band), math.Atan2(around, band)
}

// helix fills in a helical layer, (1) and (2), and returns its path in m and
// the rotation of its turn-rounds in rad.
func (s Setup) helix(l *Laid) (path, rotation float64) {
	cos := math.Cos(float64(l.Angle))
	exact := math.Pi * float64(l.Diameter) * cos / float64(s.Band)
	l.Circuits = max(ceil(exact), 1)
	if fewer := l.Circuits - 1; fewer > 0 {
		if wider := exact/float64(fewer) - 1; wider <= hairWider {
			l.Neighbour = &Neighbour{Circuits: fewer, Band: s.Band * quantity.Length(1+wider), Wider: wider}
		}
	}
	n := float64(l.Circuits)
	return n * 2 * float64(s.Length) / cos, n * 2 * float64(s.Turnaround)
}

// ceil rounds up, but a pattern that closes to within rounding errors is closed.
func ceil(x float64) int {
	return int(math.Ceil(x * (1 - 1e-12)))
}

// speed is (5): the tow slows where the spindle cannot keep up.
func (s Setup) speed(angle float64, diameter quantity.Length) (quantity.Speed, quantity.RotationalSpeed) {
	radius := float64(diameter) / 2
	tow := float64(s.TowSpeed)
	spindle := tow * math.Sin(angle) / radius // rad/s
	if greatest := float64(s.Spindle); greatest > 0 && spindle > greatest {
		tow *= greatest / spindle
		spindle = greatest
	}
	return quantity.Speed(tow), quantity.RotationalSpeed(spindle)
}

func (s Setup) ends(circuits int) float64 {
	if s.EndsPer == PerCircuit {
		return float64(s.Ends) * float64(circuits)
	}
	return float64(s.Ends)
}

// GreatestAngle is the angle of a hoop on the diameter given: a helix must stay
// below it.
func (s Setup) GreatestAngle(diameter quantity.Length) quantity.Angle {
	return quantity.Angle(math.Atan2(math.Pi*float64(diameter), float64(s.Band)))
}
