package cure

import (
	"math"

	"potlife/kinetics"
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
	"potlife/resins"
	"potlife/schedule"
	"potlife/schedule/batches"
)

// A Hardener is that of one of the three baths.
type Hardener int

const (
	likely Hardener = iota
	slow
	fast
	baths
)

// String names the bath.
func (h Hardener) String() string { return [baths]string{"likely", "slow", "fast"}[h] }

// A Task is a wound part to be cured.
type Task struct {
	Mandrel schedule.Mandrel
	Cure    schedule.Cure
	Fibre   resins.Fibre
	Resin   kinetics.Resin // of the likely bath
	Valid   resins.Range
	Room    vessel.Series // elapsed seconds of the job

	History [baths]*History // likely, slow, fast
	Rate    [baths]float64  // factors on the rate of Resin

	parts map[grid]*[baths]*part
}

// quantileZ is the 90 % quantile of the standard normal distribution.
const quantileZ = 1.2815515655446004

// ForPlan is the task of a part wound as planned.
func ForPlan(w *schedule.Winding, plan *batches.Plan) (*Task, error) {
	factor := math.Exp(quantileZ * ensemble.Sigma(w.Task.Spread.Time))
	t := newTask(w, w.Task.Room, [baths]float64{1, 1 / factor, factor})
	err := ensemble.Each(int(baths), func() struct{} { return struct{}{} }, func(_ struct{}, i int) error {
		m := ensemble.Nominal()
		m.Rate = t.Rate[i]
		var err error
		t.History[i], err = planned(w, plan, m)
		return err
	})
	return t, err
}

func newTask(w *schedule.Winding, room vessel.Series, rate [baths]float64) *Task {
	return &Task{
		Mandrel: w.Job.Mandrel, Cure: w.Job.Cure, Fibre: w.Job.Fibre,
		Resin: w.Task.Resin, Valid: w.Record.Valid, Room: room, Rate: rate,
	}
}

// Wound is when the last layer is down.
func (t *Task) Wound() quantity.Time { return t.History[likely].Wound }

// resin is that of a bath.
func (t *Task) resin(b Hardener) kinetics.Resin { return t.Resin.Adjusted(t.Rate[b], 1) }

// energyDoubt is ΔE of (1) of the package comment.
const energyDoubt = 5e3

// Widened is by how much the spread widens at a temperature outside the range in which
// the record may be trusted, (1) of the package comment; 1 inside.
func (t *Task) Widened(at quantity.Temperature) float64 {
	edge := min(max(at, t.Valid.From), t.Valid.To)
	return math.Exp(energyDoubt / kinetics.GasConstant * math.Abs(1/float64(edge)-1/float64(at)))
}

// inOven is the resin of a bath in a program as hot as given.
func (t *Task) inOven(b Hardener, hottest quantity.Temperature) kinetics.Resin {
	rate := t.Rate[b]
	switch wider := t.Widened(hottest); b {
	case slow:
		rate /= wider
	case fast:
		rate *= wider
	}
	return t.Resin.Adjusted(rate, 1)
}

// Aim is the degree of cure that the laziest place is to reach; above 1 for a glass
// temperature that the resin never has.
func (t *Task) Aim() float64 {
	if t.Cure.Glass > 0 {
		return t.Resin.Glass.Conversion(t.Cure.Glass)
	}
	return t.Cure.Degree
}

// Thickness is that of the laminate.
func (t *Task) Thickness() quantity.Length { return quantity.Length(t.History[likely].thickness()) }

// roomLoss is that of a part in a room: a cup's.
const roomLoss = vessel.UsualCupLoss

// A part is the wall of one bath from its last layer on, in the room.
type part struct {
	wall  wall
	pot   *still.Pot
	start still.Profile
}

// newPart cuts the wall of a bath and puts it into the room.
func (t *Task) newPart(b Hardener, g grid, p still.Precision) (*part, error) {
	h, r := t.History[b], t.resin(b)
	if g == lumps {
		h = h.lumped(fewLumps)
	}
	made := &part{wall: newWall(h, &t.Mandrel, &t.Fibre, &r, g.times(p.Finer))}
	var err error
	if made.pot, err = made.wall.pot(r, t.Room, roomLoss, p); err != nil {
		return nil, err
	}
	made.start, err = made.pot.ByLayer(made.wall.states)
	return made, err
}

// drawn is the laminate of a profile without its mandrel, its bore open to the air.
func (w *wall) drawn(profile still.Profile, bore quantity.HeatTransfer) (wall, still.Profile) {
	if w.first == 0 {
		return *w, profile
	}
	body := w.body
	body.Inner += body.Layers[0].Thickness
	body.Layers, body.Inside = body.Layers[1:], bore
	return wall{body: body, states: w.states[1:]}, profile[w.first:]
}

// FibreVolume is the share of fibre in the laminate.
func (t *Task) FibreVolume() float64 {
	fibre := 0.0
	for _, l := range t.History[likely].Layers {
		fibre += float64(l.Thickness) * float64(l.FibreVolume)
	}
	return fibre / t.History[likely].thickness()
}

// Spread is the factor within which times lie 9 times in 10.
func (t *Task) Spread() float64 { return t.spread(1) }

// SpreadAt is [Task.Spread] in an oven whose hottest air is given.
func (t *Task) SpreadAt(hottest quantity.Temperature) float64 { return t.spread(t.Widened(hottest)) }

// spread turns the quantiles of 10 and 90 % into those of 5 and 95 %.
func (t *Task) spread(wider float64) float64 {
	const ninety = 1.6448536269514722 / quantileZ
	half := 0.5*math.Log(t.Rate[fast]/t.Rate[slow]) + math.Log(wider)
	return math.Exp(half * ninety)
}
