package daytest

import (
	"time"

	"potlife/kinetics/quantity"
	"potlife/schedule"
	"potlife/schedule/session"
)

// A Day makes the events of a journal. Its methods take minutes after the job's start, and
// those that later events refer to return their sequence number.
type Day struct {
	W      *schedule.Winding
	Events []session.Event
	Exact  bool // times are whole nanoseconds, not whole seconds as a crew logs them
}

// New is a day whose session starts when the job does.
func New(w *schedule.Winding) *Day { return NewAt(w, 0) }

// NewAt is a day whose session starts at another time than the job was planned for.
func NewAt(w *schedule.Winding, minutes float64) *Day {
	d := &Day{W: w}
	d.Add(minutes, session.Event{Kind: session.Started, Layers: len(w.Laid)})
	return d
}

// Keeps lets the day's start keep a plan.
func (d *Day) Keeps(p *session.Plan) { d.Events[0].Plan = p }

// Planned logs a plan that was made anew.
func (d *Day) Planned(minutes float64, p *session.Plan) int {
	return d.Add(minutes, session.Event{Kind: session.Planned, Plan: p})
}

// Clock is the time of day at a minute.
func (d *Day) Clock(minutes float64) time.Time {
	if d.Exact {
		return d.W.Job.Start.Add(time.Duration(minutes * float64(time.Minute)))
	}
	return d.W.Job.Clock(quantity.Time(60 * minutes))
}

// Last is the minute of the event that was logged last.
func (d *Day) Last() float64 { return d.Events[len(d.Events)-1].At.Sub(d.Clock(0)).Minutes() }

// Add logs any event.
func (d *Day) Add(minutes float64, e session.Event) int {
	e.Seq, e.At, e.Logged = len(d.Events)+1, d.Clock(minutes), d.Clock(minutes)
	d.Events = append(d.Events, e)
	session.NumberPots(d.Events, len(d.Events)-1)
	return e.Seq
}

// Mixed logs a pot by its mass.
func (d *Day) Mixed(minutes, grams float64) int {
	return d.Add(minutes, session.Event{Kind: session.Mixed, MassG: grams})
}

// MixedParts logs a pot by its two parts.
func (d *Day) MixedParts(minutes, resinG, hardenerG float64) int {
	return d.Add(minutes, session.Event{Kind: session.Mixed, ResinG: resinG, HardenerG: hardenerG})
}

// Poured logs that the pot of an event is poured.
func (d *Day) Poured(minutes float64, pot int) {
	d.Add(minutes, session.Event{Kind: session.Poured, Pot: pot})
}

// Removed logs what became of the pot of an event, or of the bath for none.
func (d *Day) Removed(minutes float64, how session.Kind, pot int) {
	d.Add(minutes, session.Event{Kind: how, Pot: pot, Bath: pot == 0})
}

// Fill mixes a pot and pours it five minutes later.
func (d *Day) Fill(minutes, grams float64) { d.Poured(minutes+5, d.Mixed(minutes, grams)) }

// Changed logs a change of the bath.
func (d *Day) Changed(minutes float64) { d.Add(minutes, session.Event{Kind: session.Changed}) }

// Begin logs the begin of a layer, counted from 1.
func (d *Day) Begin(minutes float64, layer int) {
	d.Add(minutes, session.Event{Kind: session.Begin, Layer: layer})
}

// Done logs the end of a layer.
func (d *Day) Done(minutes float64, layer int) {
	d.Add(minutes, session.Event{Kind: session.Done, Layer: layer})
}

// Layer logs the begin and the end of a layer.
func (d *Day) Layer(layer int, begin, done float64) {
	d.Begin(begin, layer)
	d.Done(done, layer)
}

// Pause logs that the machine stops.
func (d *Day) Pause(minutes float64) {
	d.Add(minutes, session.Event{Kind: session.Pause, Text: "tow broke"})
}

// Resume logs that the machine runs again.
func (d *Day) Resume(minutes float64) { d.Add(minutes, session.Event{Kind: session.Resume}) }

// Temperature logs a thermometer in the bath.
func (d *Day) Temperature(minutes, celsius float64) {
	d.Add(minutes, session.Event{Kind: session.BathTemp, IsC: &celsius})
}

// Room logs a thermometer in the room.
func (d *Day) Room(minutes, celsius float64) {
	d.Add(minutes, session.Event{Kind: session.Room, IsC: &celsius})
}

// Viscosity logs a viscosity of the bath.
func (d *Day) Viscosity(minutes, paS float64) {
	d.Add(minutes, session.Event{Kind: session.Viscosity, IsPaS: paS})
}

// LeftOver logs what the bath weighs.
func (d *Day) LeftOver(minutes, grams float64) {
	d.Add(minutes, session.Event{Kind: session.LeftOver, Grams: &grams})
}

// Weighed logs weights of the part.
func (d *Day) Weighed(minutes float64, weights session.Weights) int {
	return d.Add(minutes, session.Event{Kind: session.Weighed, Weights: &weights})
}

// Note logs a text.
func (d *Day) Note(minutes float64, text string) int {
	return d.Add(minutes, session.Event{Kind: session.Note, Text: text})
}

// Undo takes the event of a number back.
func (d *Day) Undo(minutes float64, seq int) {
	d.Add(minutes, session.Event{Kind: session.Undo, Of: seq})
}

// Finish ends the session.
func (d *Day) Finish(minutes float64) { d.Add(minutes, session.Event{Kind: session.Finish}) }
