package replay

import (
	"cmp"
	"math"
	"slices"

	"potlife/kinetics/quantity"
)

// How many readings of a kind weigh the members. By (5) more than twelve make no answer surer; four times as
// many still tell how a bath went, and what a logger writes every second only costs time. So few are all
// weighed.
const mostWeighed = 4 * independent

// Of more, one of a window weighs, by (6) of the package comment. A window is as narrow as it can be, and
// at most what a bath hardly changes in: one has a time constant of a quarter of an hour and more.
const (
	narrowest quantity.Time = 60
	widest    quantity.Time = 10 * 60
)

// sticksOut is by how many standard deviations a reading must differ from that of its window to be weighed
// beside it, so that it is found to be wrong, or that of its window is.
const sticksOut = 4

// Weighs tells whether the reading weighs the members: it is not of a bath before, and does not tell what
// another of its window tells.
func (r *Reading) Weighs() bool { return !r.Old && !r.spare }

// thin leaves out readings that teach nothing that others do not, as few as will do. What becomes of the bath
// by a reading, past a limit or hotter than is reckoned, is decided by all of them, or by the last, which stays.
func (s *Script) thin() {
	for _, viscous := range []bool{false, true} {
		s.leaveOutOld(viscous)
		for width := s.spans(viscous) / mostWeighed; s.weighing(viscous) > mostWeighed; width *= 2 {
			s.leaveOut(viscous, min(max(width, narrowest), widest))
			if width >= widest {
				break
			}
		}
	}
}

// weighing is how many readings of a kind weigh the members.
func (s *Script) weighing(viscous bool) int {
	n := 0
	for i := range s.Readings {
		if r := &s.Readings[i]; r.Viscous == viscous && r.Weighs() {
			n++
		}
	}
	return n
}

// leaveOutOld makes old readings spare where they are many.
func (s *Script) leaveOutOld(viscous bool) {
	var old []*Reading
	for i := range s.Readings {
		if r := &s.Readings[i]; r.Viscous == viscous && r.Old {
			old = append(old, r)
		}
	}
	if len(old) <= mostWeighed {
		return
	}
	for _, r := range old {
		r.spare = true
	}
}

// spans is from when to when readings of a kind weigh the members.
func (s *Script) spans(viscous bool) quantity.Time {
	first, last := quantity.Time(math.Inf(1)), quantity.Time(math.Inf(-1))
	for i := range s.Readings {
		if r := &s.Readings[i]; r.Viscous == viscous && r.Weighs() {
			first, last = min(first, r.At), max(last, r.At)
		}
	}
	return max(narrowest, last-first)
}

// leaveOut marks the spare readings of a kind for a width of the windows. In a window nothing happens but
// readings.
func (s *Script) leaveOut(viscous bool, width quantity.Time) {
	last := -1
	for i := range s.Readings {
		if s.Readings[i].Viscous == viscous {
			last = i
		}
	}
	var window []*Reading
	began := quantity.Time(0)
	end := func() {
		s.choose(window)
		window = window[:0]
	}
	for i := s.weighFrom; i < len(s.steps); i++ {
		st := &s.steps[i]
		if st.do != read {
			end()
			continue
		}
		r := &s.Readings[st.index]
		if r.Viscous != viscous {
			continue
		}
		if r.spare, r.standsFor = false, 1; st.index == last {
			break // it stands for itself
		}
		if len(window) > 0 && r.At >= began+width {
			end()
		}
		if len(window) == 0 {
			began = r.At
		}
		window = append(window, r)
	}
	end()
}

// choose makes all readings of a window spare but the middle one by size, the one that sticks out most
// from it, and the one that is the farthest past a limit.
func (s *Script) choose(window []*Reading) {
	if len(window) < 2 {
		return
	}
	value := func(r *Reading) float64 { return r.deviation(0) }
	bySize := slices.Clone(window)
	slices.SortStableFunc(bySize, func(a, b *Reading) int { return cmp.Compare(value(a), value(b)) })
	middle := bySize[len(bySize)/2]
	most := middle
	for _, r := range []*Reading{bySize[0], bySize[len(bySize)-1]} {
		if math.Abs(value(r)-value(middle)) > math.Abs(value(most)-value(middle)) {
			most = r
		}
	}
	top, alone := bySize[len(bySize)-1], 1
	for _, r := range window {
		switch {
		case r == middle:
		case r == most && math.Abs(value(most)-value(middle)) > sticksOut, r == top && top.Past(s.Task.Limits):
			alone++
		default:
			r.spare = true
		}
	}
	middle.standsFor = len(window) - alone + 1
}

// withoutSpare takes the spare readings out of the steps: nobody stops at them.
func (s *Script) withoutSpare() {
	var kept []step
	watchFrom, weighFrom := s.watchFrom, s.weighFrom
	for i, st := range s.steps {
		if i == s.watchFrom {
			watchFrom = len(kept)
		}
		if i == s.weighFrom {
			weighFrom = len(kept)
		}
		if st.do == read {
			r := &s.Readings[st.index]
			if r.spare {
				s.spare = append(s.spare, st.index)
				continue
			}
			r.slot = s.slots
			s.slots++
		}
		kept = append(kept, st)
	}
	s.steps, s.watchFrom, s.weighFrom = kept, watchFrom, weighFrom
}
