package fit

import (
	"sync"

	"potlife/kinetics"
)

// A place is the parameters that decide a prediction; 0 stands for all others.
type place [named + 1]float64

// A memo keeps what was predicted at the places asked so far. Differences by a
// parameter that does not decide a test, and fits of all statements but one, ask
// again where the fit of all has been, and a still cup costs more than all the
// algebra around it.
type memo struct {
	mu   sync.Mutex
	said map[place]prediction
}

type prediction struct {
	figure    float64
	residuals []float64
}

func (m *memo) recall(at place, into []float64) (figure float64, known bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	p, known := m.said[at]
	copy(into, p.residuals)
	return p.figure, known
}

func (m *memo) keep(at place, figure float64, residuals []float64) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.said == nil {
		m.said = map[place]prediction{}
	}
	m.said[at] = prediction{figure, append([]float64(nil), residuals...)}
}

// place is where a test is asked at x.
func (t *test) place(s *space, x []float64) place {
	var at place
	for _, k := range t.decisive {
		if i := s.index[k]; i >= 0 {
			at[min(k, named)] = x[i]
		}
	}
	return at
}

// decides returns the parameters that a test's prediction depends on, however
// little: more than [Statement.tells], which are those it bears on.
func (t *test) decides(s *space) []int {
	switch t.Kind {
	case Viscosity:
		return []int{viscosity, flowEnergy}
	case Heat:
		return []int{heat}
	}
	list := s.decideCure()
	switch t.Kind {
	case Glass:
		return append(list, cured)
	case PotLife:
		list = append(list, loss, heat)
		if t.End.Viscosity > 0 || t.End.Doubled {
			list = append(list, viscosity, flowEnergy)
		}
	case CupLog:
		list = append(list, loss, heat, t.first)
		if len(t.log.thickAt) > 0 {
			list = append(list, viscosity, flowEnergy)
		}
	}
	return list
}

// decideCure are the parameters that the rate of cure depends on.
func (s *space) decideCure() []int {
	if _, shifts := s.prior.Kinetics.Vitrification.(kinetics.GlassShift); shifts {
		return []int{rate, energy, shift, cured}
	}
	return []int{rate, energy}
}
