package batches

import (
	"cmp"
	"container/heap"
	"math"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
)

// A search looks for the best plan for one bath, best first: positions are
// taken up in the order of the score that they can still reach, so the first
// complete one taken up is the best.
type search struct {
	task  *Task
	crew  *crew
	total int // stops

	fewestPots []int     // from each stop to the end, by mass alone
	rest       []float64 // carried from each stop to the end, kg
	wasteStep  float64   // waste is compared in steps of this, kg
	leastWaste float64

	// steady: no temperature changes with time, so the clock does not matter.
	steady bool

	open    queue
	reached [][]*position // kept at each stop, for pruning
	fresh   map[freshKey]*freshLeg
	deepest *Breach
	serial  int
}

// run returns the best plan, or the breach that went furthest when there is none.
func (s *search) run() (*position, *Breach, error) {
	if err := s.expand(begin()); err != nil {
		return nil, nil, err
	}
	for s.open.Len() > 0 {
		n := heap.Pop(&s.open).(*node)
		if n.position.stop == s.total {
			return n.position, nil, nil
		}
		if n.position.covered {
			continue
		}
		if err := s.expand(n.position); err != nil {
			return nil, nil, err
		}
	}
	return nil, s.deepest, nil
}

func newSearch(t *Task, m ensemble.Member) *search {
	s := &search{
		task: t, crew: newCrew(t, m), total: len(t.Units),
		steady:  t.Room.IsConstant() && t.Wall.IsConstant() && t.Limits.Mandrel.IsConstant(),
		reached: make([][]*position, len(t.Units)+1),
		fresh:   map[freshKey]*freshLeg{},
	}
	s.bounds()
	return s
}

// bounds prepares what no plan can beat.
func (s *search) bounds() {
	t := s.task
	s.rest = make([]float64, s.total+1)
	s.fewestPots = make([]int, s.total+1)
	kept := 1 - t.Pots.LeftInCup
	for i := s.total - 1; i >= 0; i-- {
		s.rest[i] = s.rest[i+1] + float64(t.Units[i].Resin)
	}
	for i := range s.rest {
		// Rounding may leave a step of each part in the bath at every stop, so
		// the bound gives one pot's worth of steps away.
		need := s.rest[i] - 2*float64(t.Pots.Step)
		s.fewestPots[i] = max(0, int(math.Ceil(need/(float64(t.Pots.Largest)*(1+1e-9)*kept))))
	}
	first := (s.rest[0] + float64(t.Bath.Lowest)) / kept
	s.leastWaste = first - s.rest[0]
	s.wasteStep = 2 * float64(t.Pots.Step) * float64(max(1, s.fewestPots[0]))
}

// expand follows every leg that can follow p.
func (s *search) expand(p *position) error {
	if p.stop == 0 {
		return s.legs(p, Fill)
	}
	if err := s.legs(p, TopUp); err != nil {
		return err
	}
	return s.legs(p, Change)
}

// patience is how many stops in a row may fail, for another reason than a full
// bath, before longer legs are given up. A longer leg has more fresh resin, so
// after a top-up it can succeed where a shorter one fails, but not for long; in
// a clean bath only warmth, which thins, could help it. A bath that is too thick
// does not count: a larger one warms more.
func patience(into Into) int {
	if into == TopUp {
		return 4
	}
	return 2
}

func (s *search) legs(p *position, into Into) error {
	failures := 0
	for to := p.stop + 1; to <= s.total && failures < patience(into); to++ {
		next, breach, err := s.travel(p, into, to)
		if err != nil {
			return err
		}
		if breach != nil {
			s.note(breach)
			if breach.Why == ByHighest {
				return nil
			}
			if breach.Limit != vessel.TooThick {
				failures++
			}
			continue
		}
		failures = 0
		s.keep(next)
	}
	return nil
}

// travel is crew.travel, but a leg from a clean bath is followed once for all
// positions that reach it at the same clock.
func (s *search) travel(p *position, into Into, to int) (*position, *Breach, error) {
	if into != Change {
		return s.crew.travel(p, into, to)
	}
	key := s.freshKey(p, to)
	known, found := s.fresh[key]
	if !found {
		next, breach, err := s.crew.travel(p, into, to)
		if err != nil {
			return nil, nil, err
		}
		s.fresh[key] = &freshLeg{next, breach}
		return next, breach, nil
	}
	if known.breach != nil {
		return nil, known.breach, nil
	}
	return known.next.after(p), nil, nil
}

// after is the same leg, from a clean bath, after another position.
func (p *position) after(from *position) *position {
	next, before := *p, p.parent
	next.parent = from
	next.score.Changes += from.score.Changes - before.score.Changes
	next.score.Gelled += from.score.Gelled - before.score.Gelled
	next.score.Pots += from.score.Pots - before.score.Pots
	next.cups += from.cups - before.cups
	next.dumped += from.dumped - before.dumped + float64(from.heel.Mass-before.heel.Mass)
	next.score.Waste = quantity.Mass(next.cups + next.dumped + float64(next.heel.Mass))
	next.score.Spare = min(from.score.Spare, next.ownSpare)
	next.shift(from.clock - before.clock)
	return &next
}

// shift moves the leg on the clock.
func (p *position) shift(by float64) {
	if by == 0 {
		return
	}
	p.clock += by
	p.mixedBy += by
	p.laidGels += by
	p.baseGels += by
	later := quantity.Time(by)
	pots := make([]MixedPot, len(p.pour.Pots))
	for i, pot := range p.pour.Pots {
		pot.MixAt += later
		pots[i] = pot
	}
	p.pour.Pots, p.pour.At, p.pour.Winds = pots, p.pour.At+later, p.pour.Winds+later
	times := make([]segment, len(p.times))
	for i, unit := range p.times {
		times[i] = segment{unit.start + by, unit.end + by}
	}
	p.times = times
}

// freshKey is what a leg from a clean bath depends on: times count from the
// clock, which itself matters only where a temperature changes with it.
type freshKey struct {
	stop, to                   int
	clock, mixedBy, laid, base float64
}

func (s *search) freshKey(p *position, to int) freshKey {
	key := freshKey{stop: p.stop, to: to, mixedBy: p.mixedBy - p.clock, laid: p.laidGels - p.clock, base: p.baseGels - p.clock}
	if !s.steady {
		key.clock = p.clock
	}
	return key
}

type freshLeg struct {
	next   *position
	breach *Breach
}

// note keeps the breach that went furthest: the layer that breaks the job.
func (s *search) note(b *Breach) {
	d := s.deepest
	if d == nil || b.Unit > d.Unit || b.Unit == d.Unit && d.Why == ByHighest && b.Why != ByHighest {
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
			if q.score.Changes+1 < p.score.Changes || q.covers(p, s) {
				return
			}
		}
		left := same[:0]
		for _, q := range same {
			if p.covers(q, s) {
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

// potsLeft is the fewest pots that p can still need.
func (s *search) potsLeft(p *position) int {
	if p.stop == s.total {
		return 0
	}
	return max(1, s.fewestPots[p.stop])
}

// wasteSteps is the waste that p must come to at least, in steps above the
// least that any plan has.
func (s *search) wasteSteps(p *position) int {
	surplus := float64(p.heel.Mass) - float64(s.task.Bath.Lowest)
	left := s.task.Pots.LeftInCup
	cups := math.Max(0, s.rest[p.stop]-surplus) * left / (1 - left)
	bath := float64(s.task.Bath.Lowest) + math.Max(0, surplus-s.rest[p.stop])
	return int(math.Floor((p.cups + p.dumped + cups + bath - s.leastWaste) / s.wasteStep * (1 + 1e-9)))
}

// compare orders two positions by what they have cost so far, in the order of
// what a plan wants; negative: p is the better one. Spare counts in whole
// seconds.
func (p *position) compare(q *position) int {
	return cmp.Or(
		cmp.Compare(p.score.Changes, q.score.Changes),
		cmp.Compare(p.score.Gelled, q.score.Gelled),
		cmp.Compare(p.score.Pots, q.score.Pots),
		cmp.Compare(p.wasteSteps, q.wasteSteps),
		cmp.Compare(math.Floor(float64(q.score.Spare)), math.Floor(float64(p.score.Spare))),
	)
}

// Buckets within which two positions at one stop count as the same bath. Over
// a leg they move a working life by well under a minute.
const (
	sameAlpha       = 5e-4 // degree of cure
	sameTemperature = 0.1  // K
	sameMass        = 0.01 // relative
	sameExcess      = 0.01 // ln of viscosity
	sameClock       = 30.0 // s, where the room changes with time
)

// covers tells that whatever can follow q can follow p as well and costs no
// more: p is at the same temperature and mass within a bucket, not older, not
// thicker, its film gels no sooner, and its score so far is no worse. What
// follows adds the same to both scores, so they compare as they stand.
func (p *position) covers(q *position, s *search) bool {
	if p.compare(q) > 0 {
		return false
	}
	if p.heel.Alpha > q.heel.Alpha+sameAlpha || p.heel.LogExcess > q.heel.LogExcess+sameExcess ||
		p.heel.Phi > q.heel.Phi+sameExcess ||
		math.Abs(float64(p.heel.Temperature-q.heel.Temperature)) > sameTemperature ||
		math.Abs(float64(p.heel.Mass/q.heel.Mass-1)) > sameMass {
		return false
	}
	later := p.clock - q.clock
	if !s.steady && math.Abs(later) > sameClock {
		return false
	}
	return p.clock-p.mixedBy >= q.clock-q.mixedBy-sameClock &&
		p.laidGels-p.clock >= q.laidGels-q.clock-sameClock &&
		p.baseGels-p.clock >= q.baseGels-q.clock-sameClock &&
		p.life-p.reserve >= q.life-q.reserve-sameClock
}

// A node is a position in the queue.
type node struct {
	position *position
	pots     int // that it must come to at least
	serial   int // order of finding, so that ties are settled the same way every time
}

type queue []*node

func (q queue) Len() int { return len(q) }

func (q queue) Less(i, j int) bool {
	a, b := q[i], q[j]
	p, r := a.position, b.position
	// The pots still to come stand in for those mixed.
	order := cmp.Or(
		cmp.Compare(p.score.Changes, r.score.Changes),
		cmp.Compare(p.score.Gelled, r.score.Gelled),
		cmp.Compare(a.pots, b.pots),
		p.compare(r),
		cmp.Compare(r.stop, p.stop),
		cmp.Compare(a.serial, b.serial),
	)
	return order < 0
}

func (q queue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }

func (q *queue) Push(x any) { *q = append(*q, x.(*node)) }

func (q *queue) Pop() any {
	old := *q
	last := old[len(old)-1]
	old[len(old)-1] = nil
	*q = old[:len(old)-1]
	return last
}
