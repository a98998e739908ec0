package fit

import (
	"sync"

	"potlife/kinetics"
)

// A place is the parameters that decide a prediction; 0 stands for all others.
type place [named + 1]float64

// A memo keeps what was predicted at the last places asked. Differences by a parameter
// that does not decide a run, and fits of all statements but one, ask again where the fit
// of all has been, and a still cup costs more than all the algebra around it.
type memo struct {
	mu    sync.Mutex
	said  map[place]prediction
	order []place // oldest first, those kept for good before them
	kept  int
}

// remembered is how many places a memo has room for: both ends of the differences by each
// of the parameters that can decide a run, their middle, and some steps of a search.
const remembered = 2*(named+1) + 14

func (m *memo) recall(at place) (p prediction, known bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	p, known = m.said[at]
	return p, known
}

func (m *memo) keep(at place, p prediction) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.said == nil {
		m.said = map[place]prediction{}
	}
	if _, known := m.said[at]; known {
		return
	}
	if len(m.order)-m.kept >= remembered {
		delete(m.said, m.order[m.kept])
		m.order = append(m.order[:m.kept], m.order[m.kept+1:]...)
	}
	m.said[at] = p
	m.order = append(m.order, at)
}

// pin keeps what is remembered now for good.
func (m *memo) pin() {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.kept = len(m.order)
}

// place is where a run is asked at x.
func (u *run) place(s *space, x []float64) place {
	var at place
	for _, k := range u.decisive {
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
