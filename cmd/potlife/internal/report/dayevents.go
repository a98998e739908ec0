package report

import (
	"math"
	"time"

	"potlife/kinetics/quantity"
	"potlife/schedule"
	"potlife/schedule/session"
	"potlife/schedule/session/replay"
)

// A dayBuilder reads a day from its events.
type dayBuilder struct {
	src    DaySource
	script *replay.Script
	job    *schedule.Job
	active []session.Event
	day    *Day
	runs   []stretch // of the machine in layers
}

// A stretch is from one moment of a day to another.
type stretch struct{ from, to time.Time }

// on is a moment on the clock of the job.
func (b *dayBuilder) on(t time.Time) time.Time { return t.In(b.job.Zone) }

func gelled(v quantity.Viscosity) bool { return math.IsInf(float64(v), 1) }

// events reads pauses, changes, left-overs, notes and when the machine ran.
func (b *dayBuilder) events() {
	d, day := b.day, session.Day{}
	session.EachDay(b.active, func(i int, after session.Day) { // the whole was read without an error
		e, at, before := b.active[i], b.on(b.active[i].At), day
		day = after
		if before.Paused && !day.Paused {
			p := &d.Pauses[len(d.Pauses)-1]
			p.To, p.DurationS = &at, at.Sub(p.From).Seconds()
		}
		if day.Paused && !before.Paused { // also where the bath was taken away
			d.Pauses = append(d.Pauses, DayPause{From: at, Layer: before.InHand, Reason: e.Text})
		}
		b.run(before, day, at)
		switch e.Kind {
		case session.Spread, session.ThrownOut, session.Cured:
			d.Removed = append(d.Removed, DayRemoved{Seq: e.Seq, At: at, How: string(e.Kind), Bath: e.Bath, Pot: e.Pot, number: e.PotNumber})
		case session.Changed:
			d.Changes = append(d.Changes, DayChange{At: at, Where: whereNow(before)})
		case session.LeftOver:
			d.LeftOver = append(d.LeftOver, DayMass{At: at, MassG: *e.Grams})
		case session.Note:
			d.Notes = append(d.Notes, DayNote{Seq: e.Seq, At: at, Text: e.Text})
		case session.Planned:
			if e.Plan != nil {
				d.Plans = append(d.Plans, DayPlan{Seq: e.Seq, At: at, Plan: *e.Plan})
			}
		case session.Room:
			d.Room = append(d.Room, DayRoom{Seq: e.Seq, At: at, ReadC: *e.IsC, JobC: b.roomOfJob(e)})
		}
	})
	if day.Paused {
		p := &d.Pauses[len(d.Pauses)-1]
		p.DurationS = d.Until.Sub(p.From).Seconds()
	}
	if n := len(b.runs); n > 0 && b.runs[n-1].to.IsZero() {
		b.runs[n-1].to = d.Until
	}
}

// run notes where the machine begins and stops to wind.
func (b *dayBuilder) run(before, after session.Day, at time.Time) {
	ran, runs := before.InHand > 0 && !before.Paused, after.InHand > 0 && !after.Paused
	switch {
	case runs && !ran:
		b.runs = append(b.runs, stretch{from: at})
	case ran && !runs:
		b.runs[len(b.runs)-1].to = at
	}
}

// wound tells whether the machine ran at a moment.
func (b *dayBuilder) wound(t time.Time) bool {
	for _, r := range b.runs {
		if !t.Before(r.from) && !t.After(r.to) {
			return true
		}
	}
	return false
}

func whereNow(d session.Day) string {
	switch {
	case d.InHand > 0:
		return "in layer " + number(d.InHand)
	case d.LastDone > 0:
		return "after layer " + number(d.LastDone)
	}
	return "before layer 1"
}
