package replay

import (
	"fmt"
	"math"
	"sync"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule/batches"
)

// Played is a day as every member of an ensemble lives it, weighed by the readings.
type Played struct {
	Script *Script
	Cloud  *ensemble.Cloud
	Worlds []*World // of the members of the cloud, in order
	Doubts []Doubt  // readings that no member explains
}

// A Doubt is a reading that is most probably wrong, by the weights of all members.
type Doubt struct {
	Reading   Reading
	Low, High float64 // what 10 and 90 % of the members say at most: K, or Pa·s
}

// Sizes of the ensemble: with so many the sure figure stands to a hundredth of itself, also
// where one limit takes over from another (TestFiguresStand of the command); fewer where a
// long day makes each of them dear.
const (
	mostMembers   = 400
	fewestMembers = 60
	memberSteps   = 23_000 // members times steps
)

// Play lets an ensemble live the day and weighs it by the readings.
func (s *Script) Play() (*Played, error) { return s.PlayWith(s.Members(), batches.Seed) }

// Members is how many live the day when it is played.
func (s *Script) Members() int {
	return min(mostMembers, max(fewestMembers, memberSteps/max(1, len(s.steps)-s.weighFrom)))
}

// PlayWith is [Script.Play] with the size of the ensemble and its seed.
func (s *Script) PlayWith(n int, seed uint64) (*Played, error) {
	return s.playWith(&lives{script: s, known: map[ensemble.Member]*World{}}, n, seed)
}

// playWith plays the members that are not known already.
func (s *Script) playWith(lived *lives, n int, seed uint64) (*Played, error) {
	p := &Played{Script: s}
	var err error
	if len(s.Readings) == 0 {
		p.Cloud = ensemble.Prior(s.Task.Spread, n, seed)
	} else if p.Cloud, err = ensemble.Sharpen(s.Task.Spread, n, seed, lived.likelihood); err != nil {
		return nil, err
	}
	if p.Worlds, err = lived.of(p.Cloud.Members); err != nil {
		return nil, err
	}
	p.doubt()
	if hot := p.outranking(); hot > 0 && s.outranks == 0 {
		own := *s
		own.outranks = hot
		return own.playWith(&lives{script: &own, known: map[ensemble.Member]*World{}}, n, seed)
	}
	return p, nil
}

// Outranks is the number of the reading that is the bath's temperature, see [Played.outranking]; 0:
// none.
func (s *Script) Outranks() int { return s.outranks }

// outranking is the number of the last reading of the bath's temperature, where no member explains
// it and it is hotter than what is reckoned: then it is the bath's. A colder one is only reported:
// to believe it would be to promise more than is known. 0: none.
func (p *Played) outranking() int {
	for k := len(p.Script.Readings) - 1; k >= 0; k-- {
		r := &p.Script.Readings[k]
		if r.Viscous {
			continue
		}
		for _, d := range p.Doubts {
			if d.Reading.Seq == r.Seq && float64(r.Temperature) > d.High && !p.Script.BeforePour(r) {
				return r.Seq
			}
		}
		break
	}
	return 0
}

// lives keeps the worlds that were played: the days of members are dear.
type lives struct {
	script *Script
	mutex  sync.Mutex
	known  map[ensemble.Member]*World
}

// of plays each member once.
func (l *lives) of(members []ensemble.Member) ([]*World, error) {
	worlds := make([]*World, len(members))
	err := ensemble.Each(len(members), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		key := members[i]
		key.Weight = 1
		l.mutex.Lock()
		w, found := l.known[key]
		l.mutex.Unlock()
		if !found {
			var err error
			if w, err = l.script.recent(key); err != nil {
				return fmt.Errorf("replaying the session: %w", err)
			}
			l.mutex.Lock()
			l.known[key] = w
			l.mutex.Unlock()
		}
		worlds[i] = w
		return nil
	})
	return worlds, err
}

// likelihood is that of all readings, for each member.
func (l *lives) likelihood(members []ensemble.Member) ([]float64, error) {
	worlds, err := l.of(members)
	if err != nil {
		return nil, err
	}
	logs := make([]float64, len(worlds))
	ofTemperature, ofViscosity := l.script.counts(false), l.script.counts(true)
	for k := range l.script.Readings {
		r := &l.script.Readings[k]
		if !r.Weighs() {
			continue
		}
		counts := ofTemperature
		if r.Viscous {
			counts = ofViscosity
		}
		for i, w := range worlds {
			logL, _ := likelihood(r.deviation(w.says[r.slot]))
			logs[i] += counts * float64(r.standsFor) * logL
		}
	}
	return logs, nil
}

// doubt finds the readings that no member explains.
func (p *Played) doubt() {
	for k := range p.Script.Readings {
		r := &p.Script.Readings[k]
		if !r.Weighs() {
			continue
		}
		wrong, total := 0.0, 0.0
		says := make([]float64, len(p.Worlds))
		for i, w := range p.Worlds {
			_, share := likelihood(r.deviation(w.says[r.slot]))
			wrong += p.Cloud.Members[i].Weight * share
			total += p.Cloud.Members[i].Weight
			says[i] = w.says[r.slot]
			if r.Viscous {
				says[i] = math.Exp(says[i])
			}
		}
		if wrong > total/2 {
			p.Doubts = append(p.Doubts, Doubt{Reading: *r, Low: p.Cloud.Quantile(0.1, says), High: p.Cloud.Quantile(0.9, says)})
		}
	}
}

// Quantile of a value that each world has.
func (p *Played) Quantile(q float64, of func(*World) float64) float64 {
	values := make([]float64, len(p.Worlds))
	for i, w := range p.Worlds {
		values[i] = of(w)
	}
	return p.Cloud.Quantile(q, values)
}

// Likely is the median of a value that each world has.
func (p *Played) Likely(of func(*World) float64) float64 {
	return p.Quantile(ensemble.LikelyQuantile, of)
}

// QuantileOfMembers is the quantile of a value that a member has by itself, whatever its day.
func (p *Played) QuantileOfMembers(q float64, of func(ensemble.Member) float64) float64 {
	return p.Cloud.QuantileOfMembers(q, of)
}

// Unique are the worlds without repetition: members without any spread are all one. What
// follows worlds at the same time must follow these.
func (p *Played) Unique() []*World {
	seen := map[*World]bool{}
	var list []*World
	for _, w := range p.Worlds {
		if !seen[w] {
			seen[w] = true
			list = append(list, w)
		}
	}
	return list
}

// Ended are the shares of the worlds in which the bath has passed a limit, and in which it is
// still too thick from mixing.
func (p *Played) Ended() (over, thick float64) {
	total := 0.0
	for i, w := range p.Worlds {
		weight := p.Cloud.Members[i].Weight
		total += weight
		switch {
		case w.Over != vessel.NoLimit:
			over += weight
		case w.TooThick():
			thick += weight
		}
	}
	return over / total, thick / total
}

// Past tells whether the bath has passed a limit: in enough of the worlds, or by a reading.
func (p *Played) Past() bool {
	over, thick := p.Ended()
	past := p.Script.PastReading()
	return over >= 1-batches.EnoughMembers || past != nil && !(past.Viscous && thick >= 1-batches.EnoughMembers)
}

// PastHot tells whether it was past the limit of its temperature, in enough of the worlds or by a
// reading.
func (p *Played) PastHot() bool {
	hot, total := 0.0, 0.0
	for i, w := range p.Worlds {
		weight := p.Cloud.Members[i].Weight
		if total += weight; w.Over == vessel.BathTemperature {
			hot += weight
		}
	}
	past := p.Script.PastReading()
	return hot >= (1-batches.EnoughMembers)*total || past != nil && !past.Viscous
}

// Usable are the pots in their cups that surely last as long as pouring takes, without those
// that were mixed off their ratio.
func (p *Played) Usable() ([]Pot, error) {
	var list []Pot
	for _, pot := range p.Script.Standing() {
		cup, err := p.Cup(&pot, lifeHorizon)
		if err != nil {
			return nil, err
		}
		if cup.Sure() > p.Script.Task.Bath.Pour && p.Script.OffRatio(&pot) == 0 && !cup.TooOld() {
			list = append(list, pot)
		}
	}
	return list, nil
}

// Best is the day as the member in the middle of the cloud lives it.
func (p *Played) Best() (*World, error) { return p.Script.World(p.Cloud.Belief().Mean()) }

// A Weighed world stands for several.
type Weighed struct {
	*World
	Weight float64
}

// Few are at most n worlds that stand for all.
func (p *Played) Few(n int) []Weighed {
	index := map[ensemble.Member]int{}
	for i, m := range p.Cloud.Members {
		m.Weight = 1
		index[m] = i
	}
	var few []Weighed
	at := map[int]int{}
	for _, m := range p.Cloud.Even(n) {
		m.Weight = 1
		i := index[m]
		if k, found := at[i]; found {
			few[k].Weight++
			continue
		}
		at[i] = len(few)
		few = append(few, Weighed{p.Worlds[i], 1})
	}
	return few
}

// FewBy is [Played.Few] by a value that each world has, one that decides what the few are
// asked: shares of them are then shares of all. Where not every world has such a value they
// are those of [Played.Few].
func (p *Played) FewBy(n int, of func(*World) float64) []Weighed {
	values := make([]float64, len(p.Worlds))
	for i, w := range p.Worlds {
		values[i] = of(w)
	}
	taken := p.Cloud.EvenBy(n, values)
	if taken == nil {
		return p.Few(n)
	}
	var few []Weighed
	at := map[int]int{}
	for _, i := range taken {
		if k, found := at[i]; found {
			few[k].Weight++
			continue
		}
		at[i] = len(few)
		few = append(few, Weighed{p.Worlds[i], 1})
	}
	return few
}

// QuantileOf is [Played.Quantile] of values that only a few worlds have, one for each.
func (p *Played) QuantileOf(few []Weighed, q float64, values []float64) float64 {
	members := make([]ensemble.Member, len(few))
	for i, w := range few {
		members[i] = w.Member
		members[i].Weight = w.Weight
	}
	return p.Cloud.QuantileOf(members, q, values)
}

// Now is the moment played to.
func (p *Played) Now() quantity.Time { return p.Script.Now }
