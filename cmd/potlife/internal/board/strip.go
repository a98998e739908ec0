package board

import (
	"math"
	"strconv"
	"time"

	"potlife/cmd/potlife/internal/report"
)

// A strip is the time ahead, drawn to scale: the layers as they come, the reserve, and the
// end of the bath as a wall across them. Places are percents of its width.
type strip struct {
	Layers  []stretch
	Ticks   []mark
	Reserve stretch // hatched
	Wall    mark    // the end that is sure
	Likely  *mark   // nil: beyond what is drawn
	Words   string  // all of it, for those who do not see it
}

// A percent prints to a tenth: finer than a screen shows.
type percent float64

func (p percent) String() string { return strconv.FormatFloat(float64(p), 'f', 1, 64) + "%" }

// A stretch of the strip.
type stretch struct {
	From, Width percent
	Label       string
	Fits        bool
	Shown       bool // its label has room
}

// A mark on it.
type mark struct {
	At    percent
	Label string
	End   bool // its label stands to the left of it
}

// What is drawn at least and at most, in seconds.
const (
	shortest = 15 * 60.0
	longest  = 8 * 3600.0
)

// labelled is the least width with a label, in percent: of the narrowest screens 25 dots.
const labelled = 8

// newStrip draws the time ahead of an answer.
func newStrip(c *report.Check, clock func(time.Time) string) *strip {
	sure, likely := ahead(c.StoppedSureS), ahead(c.StoppedS)
	span := math.Min(longest, math.Max(shortest, 1.12*math.Min(likely, 2*sure)))
	place := func(s float64) percent { return percent(1e2 * math.Min(1, math.Max(0, s/span))) }
	at := func(s float64) time.Time { return c.Now.Add(time.Duration(s * float64(time.Second))) }
	s := &strip{Wall: mark{At: place(sure), Label: clock(at(sure))}}
	s.Wall.End = s.Wall.At > 60
	reserve := math.Max(0, sure-c.ReserveS)
	s.Reserve = stretch{From: place(reserve), Width: place(sure) - place(reserve)}
	var shown *float64
	if likely < span {
		s.Likely = &mark{At: place(likely), Label: clock(at(likely))}
		shown = &likely
	}
	for i := range c.Layers {
		l := &c.Layers[i]
		done := l.DoneBy.Sub(c.Now).Seconds()
		from := place(done - l.NeedsS)
		if from >= 100 {
			break
		}
		s.Layers = append(s.Layers, stretch{From: from, Width: place(done) - from, Label: strconv.Itoa(l.Number()), Fits: l.Fits, Shown: place(done)-from >= labelled})
	}
	s.ticks(c.Now, span, place)
	s.Words = c.TimeAhead(sure, shown, len(s.Layers), clock)
	return s
}

// ahead is a time left that is drawn; none is beyond everything.
func ahead(s *float64) float64 {
	if s == nil {
		return longest
	}
	return math.Max(0, *s)
}

// steps between ticks that a clock has.
var steps = []time.Duration{5 * time.Minute, 10 * time.Minute, 15 * time.Minute, 30 * time.Minute, time.Hour, 2 * time.Hour}

const (
	mostTicks = 4
	edge      = 5 // percent in which a label would be cut off
)

func (s *strip) ticks(now time.Time, span float64, place func(float64) percent) {
	step := steps[len(steps)-1]
	for _, try := range steps {
		if span/try.Seconds() <= mostTicks {
			step = try
			break
		}
	}
	_, offset := now.Zone()
	shift := time.Duration(offset) * time.Second // ticks are round on the clock on the wall
	first := now.Add(shift).Truncate(step).Add(step - shift)
	for t := first; place(t.Sub(now).Seconds()) < 100-edge; t = t.Add(step) {
		if at := place(t.Sub(now).Seconds()); at > edge {
			s.Ticks = append(s.Ticks, mark{At: at, Label: t.Format("15:04")})
		}
	}
}
