package still

import (
	"math"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// A Profile is the state of every cell: its resin's mass, 0 where there is none,
// and what that resin is like. Cells are numbered as in the body's network.
type Profile []vessel.State

// Hottest returns the hottest resin.
func (p Profile) Hottest() vessel.State {
	return p.first(func(a, b vessel.State) bool { return a.Temperature > b.Temperature })
}

// Laziest returns the resin with the least degree of cure.
func (p Profile) Laziest() vessel.State {
	return p.first(func(a, b vessel.State) bool { return a.Alpha < b.Alpha })
}

// Foremost returns the resin with the highest degree of cure.
func (p Profile) Foremost() vessel.State {
	return p.first(func(a, b vessel.State) bool { return a.Alpha > b.Alpha })
}

func (p Profile) first(before func(a, b vessel.State) bool) vessel.State {
	var best vessel.State
	for _, s := range p {
		if s.Mass > 0 && (!(best.Mass > 0) || before(s, best)) {
			best = s
		}
	}
	return best
}

// Mean returns all the resin with its means by mass.
func (p Profile) Mean() vessel.State {
	var m vessel.State
	for _, s := range p {
		w := float64(s.Mass)
		m.Mass += s.Mass
		m.Alpha += w * s.Alpha
		m.Phi += w * s.Phi
		m.Temperature += quantity.Temperature(w) * s.Temperature
		m.LogExcess += w * s.LogExcess
	}
	if w := float64(m.Mass); w > 0 {
		m.Alpha, m.Phi, m.LogExcess = m.Alpha/w, m.Phi/w, m.LogExcess/w
		m.Temperature /= quantity.Temperature(w)
	}
	return m
}

// Uniform returns the body with all its resin, and whatever else it is made of,
// in the state s. A mass in s that is not the body's is refused; 0 stands for it.
func (p *Pot) Uniform(s vessel.State) (Profile, error) {
	whole := p.body.holds()
	if s.Mass != 0 && !math.IsNaN(whole) && !(math.Abs(float64(s.Mass)-whole) <= 1e-9*whole) {
		return nil, &BodyError{"the mass of the state", float64(s.Mass), "make a body of that mass, or leave it 0"}
	}
	if !(s.Temperature > 0) || math.IsInf(float64(s.Temperature), 1) {
		return nil, &BodyError{"the temperature of the state in K", float64(s.Temperature), "give one above absolute zero"}
	}
	profile := make(Profile, p.system.n)
	for i := range profile {
		profile[i] = s
		profile[i].Mass = quantity.Mass(p.system.net.Resin[i])
	}
	return profile, nil
}

// ByLayer returns a wall with each of its layers in a state of its own, innermost
// first. Another number of states than layers, or another body, is refused.
func (p *Pot) ByLayer(states []vessel.State) (Profile, error) {
	w, ok := p.body.(Wall)
	if !ok || len(states) != len(w.Layers) {
		return nil, &BodyError{"the number of states", float64(len(states)), "give one for each layer of a wall"}
	}
	var profile Profile
	for i, l := range w.Layers {
		n := l.Cells
		if n <= 0 {
			n = p.cells
		}
		if !(states[i].Temperature > 0) {
			return nil, &BodyError{"the temperature of a layer in K", float64(states[i].Temperature), "give one above absolute zero"}
		}
		for range n {
			s := states[i]
			s.Mass = quantity.Mass(p.system.net.Resin[len(profile)])
			profile = append(profile, s)
		}
	}
	return profile, nil
}
