package batches

import (
	"container/heap"
	"errors"
	"math"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/vessel"
)

// A search looks for the best plan for one bath, best first: positions are
// taken up in the order of the score that they can still reach, so the first
// complete one taken up is the best.
type search struct {
	task  *Task
	crew  *crew
	total int // stops

	rest       []float64 // carried from each stop to the end, kg
	wasteStep  float64   // waste is compared in steps of this, kg
	leastWaste float64

	// steady: no temperature changes with time, so the clock does not matter.
	steady bool

	grain   grain
	open    queue
	reached [][]*position // kept at each stop, for pruning
	fresh   map[freshKey]trip
	deepest *Breach
	serial  int
	spent   int   // units followed
	taken   []int // positions taken up at each stop
	stops   []int // that are considered, ascending, the end included; nil: all
}

// A searcher searches a task for one bath after another, and remembers which
// grain that takes and how often it must ask for the life left.
type searcher struct {
	task   *Task
	grain  int // index of grains
	asking int // index of asking
}

func newSearcher(t *Task) *searcher { return &searcher{task: t, grain: firstGrain(len(t.Units))} }

// best searches grain by grain and returns the best plan, or the breach that
// went furthest when there is none. moments is as in [crew].
func (r *searcher) best(m ensemble.Member, moments int) (*position, *Breach, error) {
	for ; ; r.grain++ {
		s := newSearch(r.task, m, moments)
		s.grain = grains[r.grain]
		if err := s.chooseStops(); err != nil {
			return nil, nil, err
		}
		found, breach, err := s.run()
		if err != errEffort {
			if found != nil {
				found.coarse = r.grain > 0
			}
			return found, breach, err
		}
	}
}

// errEffort ends a search that has spent the effort of its grain.
var errEffort = errors.New("the search has spent its effort")

// run returns the best plan, or the breach that went furthest when there is
// none. The error is errEffort or of a simulation that failed.
func (s *search) run() (*position, *Breach, error) {
	start, err := s.crew.begin()
	if err != nil {
		return nil, nil, err
	}
	s.bounds(start)
	if err := s.expand(start); err != nil {
		return nil, nil, err
	}
	for s.open.Len() > 0 {
		n := heap.Pop(&s.open).(*node)
		if n.position.stop == s.total {
			return n.position, nil, nil
		}
		if n.position.covered || !s.take(n.position) {
			continue
		}
		if err := s.expand(n.position); err != nil {
			return nil, nil, err
		}
	}
	return nil, s.deepest, nil
}

// take tells whether a position is still to be taken up, and counts it.
func (s *search) take(p *position) bool {
	if s.grain.keep == 0 {
		return true
	}
	s.taken[p.stop]++
	return s.taken[p.stop] <= s.grain.keep
}

func newSearch(t *Task, m ensemble.Member, moments int) *search {
	s := &search{
		task: t, crew: newCrew(t, m), total: len(t.Units), grain: grains[0],
		steady:  t.Room.IsConstant() && t.Wall.IsConstant() && t.Limits.Mandrel.IsConstant(),
		reached: make([][]*position, len(t.Units)+1),
		fresh:   map[freshKey]trip{},
		taken:   make([]int, len(t.Units)+1),
	}
	s.open.search = s
	s.crew.moments = moments
	return s
}

// bounds prepares what no plan from start can beat: no less is mixed than what
// the heel and the cups do not give, and what is not carried off is waste.
func (s *search) bounds(start *position) {
	t := s.task
	s.rest = make([]float64, s.total+1)
	kept := 1 - t.Pots.LeftInCup
	for i := s.total - 1; i >= 0; i-- {
		s.rest[i] = s.rest[i+1] + float64(t.Units[i].Resin)
	}
	heel := float64(start.heel.Mass)
	missing := math.Max(0, s.rest[0]+float64(t.Bath.Lowest)-heel) / kept
	s.leastWaste = math.Max(t.standing(), missing) + heel - s.rest[0]
	// Whatever is there, a change makes a plan that mixes all of it.
	first := (s.rest[0] + float64(t.Bath.Lowest)) / kept
	s.wasteStep = 2 * float64(t.Pots.Step) * float64(s.fewestPots(first))
}

// expand follows every leg that can follow p. Standing cups are used by the next
// pour or thrown away: first the latter, whose breach tells more.
func (s *search) expand(p *position) error {
	for _, into := range s.task.ways(p.stop) {
		if p.standing && into != None {
			if err := s.legs(s.task.withoutCups(p), into); err != nil {
				return err
			}
		}
		if err := s.legs(p, into); err != nil {
			return err
		}
	}
	return nil
}

// ways are the ways of pouring at a stop. Where the plan begins with a filled
// bath a change comes first: of breaches alike, that of a clean bath tells more.
func (t *Task) ways(stop int) []Into {
	switch {
	case stop > 0:
		return []Into{TopUp, Change}
	case t.Begin.Filled:
		return []Into{Change, TopUp, None}
	}
	return []Into{Fill}
}

// patience is how many stops in a row may fail, for another reason than a full
// bath, before longer legs are given up. A longer leg has more fresh resin, so
// after a top-up it can succeed where a shorter one fails, but not for long; in
// a clean bath only warmth, which thins, could help it. A bath that is too thick
// does not count: a larger one warms more.
func patience(into Into) int {
	if into == TopUp || into == None {
		return 4
	}
	return 2
}

func (s *search) legs(p *position, into Into) error {
	failures := 0
	for to := s.nextStop(p.stop); failures < patience(into); to = s.nextStop(to) {
		if s.spent += to - p.stop; s.grain.effort > 0 && s.spent > s.grain.effort {
			return errEffort
		}
		t := s.follow(p, into, to)
		switch {
		case t.err != nil:
			return t.err
		case t.breach == nil:
			failures = 0
			s.keep(t.next)
		case t.breach.Why == ByLowest:
			return nil
		case t.breach.Why == ByHighest:
			// Only a leg of one unit from a clean bath tells that this unit is too
			// large.
			if to == p.stop+1 && into != TopUp {
				s.note(t.breach)
			}
			return nil
		default:
			s.note(t.breach)
			if t.breach.Limit != vessel.TooThick {
				failures++
			}
		}
		if to == s.total {
			return nil
		}
	}
	return nil
}

// A trip is what became of a leg.
type trip struct {
	next   *position
	breach *Breach
	err    error
}

// follow follows a leg. One from a clean bath is followed once for all positions
// that reach it at the same clock, or at any where the clock does not matter.
func (s *search) follow(p *position, into Into, to int) trip {
	if into != Change {
		next, breach, err := s.crew.travel(p, into, to)
		return trip{next, breach, err}
	}
	key := s.freshKey(p, to)
	known, found := s.fresh[key]
	switch {
	case !found:
		next, breach, err := s.crew.travel(p, into, to)
		s.fresh[key] = trip{next, breach, err}
		return s.fresh[key]
	case known.next == nil:
		return known
	}
	return trip{next: known.next.after(p)}
}

// note keeps the breach that went furthest: the layer that breaks the job.
func (s *search) note(b *Breach) {
	d := s.deepest
	if d == nil || b.Unit > d.Unit {
		s.deepest = b
	}
}

// keep puts a position on the list unless one that is there covers it.
func (s *search) keep(p *position) {
	p.wasteSteps = s.wasteSteps(p)
	if p.stop < s.total {
		same := s.reached[p.stop]
		for _, q := range same {
			// From q one more change gives a clean bath, which can do what p
			// can, at fewer changes.
			if q.score.Changes+1 < p.score.Changes || s.covers(q, p) {
				return
			}
		}
		left := same[:0]
		for _, q := range same {
			if s.covers(p, q) {
				q.covered = true
			} else {
				left = append(left, q)
			}
		}
		s.reached[p.stop] = append(left, p)
	}
	s.serial++
	heap.Push(&s.open, &node{position: p, pots: p.score.Pots + s.potsLeft(p), serial: s.serial})
}

// potsLeft is the fewest pots that p can still need, by mass alone: what is in
// the bath beyond its lowest counts, and going on takes at least one, mixed or
// standing.
func (s *search) potsLeft(p *position) int {
	if p.stop == s.total {
		return 0
	}
	surplus := float64(p.heel.Mass - s.task.Bath.Lowest)
	mass := (s.rest[p.stop] - surplus) / (1 - s.task.Pots.LeftInCup)
	if p.standing {
		if mass -= s.task.standing(); mass <= slackNeed {
			return 0
		}
	}
	return s.fewestPots(mass)
}

// fewestPots is how many of the largest pots a mass to be mixed takes, at least
// one.
func (s *search) fewestPots(mass float64) int {
	return max(1, int(math.Ceil(mass/(float64(s.task.Pots.Largest)*(1+1e-9)))))
}

// wasteSteps is the waste that p must come to at least, in steps above the
// least that any plan has.
func (s *search) wasteSteps(p *position) int {
	surplus := float64(p.heel.Mass) - float64(s.task.Bath.Lowest)
	left := s.task.Pots.LeftInCup
	cups := math.Max(0, s.rest[p.stop]-surplus) * left / (1 - left)
	bath := float64(s.task.Bath.Lowest) + math.Max(0, surplus-s.rest[p.stop])
	if p.standing { // what stands and is not needed
		need := math.Max(0, s.rest[p.stop]-surplus) / (1 - left)
		bath += math.Max(0, s.task.standing()-need)
	}
	return int(math.Floor((p.cups+p.dumped+cups+bath-s.leastWaste)/s.wasteStep + 1e-9))
}
