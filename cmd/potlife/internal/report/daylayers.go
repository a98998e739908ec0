package report

import (
	"time"
)

// layers hold each layer of the job against its plan.
func (b *dayBuilder) layers() {
	w := b.src.Journal.Winding
	starts, ends := b.plannedLayers()
	for i := range w.Laid {
		l := DayLayer{Name: w.Laid[i].Name, PlannedRunS: float64(w.Laid[i].Time), PlannedStart: starts[i], PlannedEnd: ends[i]}
		if i < len(b.script.Layers) {
			b.layer(&l, i)
		}
		b.day.Layers = append(b.day.Layers, l)
	}
}

// layer fills in what was logged of one that was begun.
func (b *dayBuilder) layer(l *DayLayer, i int) {
	wound := &b.script.Layers[i]
	start := b.job.Clock(wound.Begun)
	l.Start, l.StartLateS = &start, late(&start, l.PlannedStart)
	until := b.script.Now
	l.Share = finite(wound.Wound())
	if wound.Ended() {
		end := b.job.Clock(wound.DoneAt)
		if wound.Done {
			l.End, l.EndLateS = &end, late(&end, l.PlannedEnd)
		} else {
			l.GivenUp = &end
		}
		until = wound.DoneAt
		if k := b.src.Course.Index(wound.DoneAt); k >= 0 {
			bath := b.moment(k)
			l.Bath = &bath
		}
	}
	l.RanS, l.PausedS = seconds(wound.Ran), seconds(until-wound.Begun-wound.Ran)
}

// late is how much later than planned something was, in s.
func late(is, planned *time.Time) *float64 {
	if planned == nil {
		return nil
	}
	s := is.Sub(*planned).Seconds()
	return &s
}

// plannedLayers are the planned times of all layers; nil without a plan.
func (b *dayBuilder) plannedLayers() (starts, ends []*time.Time) {
	n, plan := len(b.src.Journal.Winding.Laid), b.src.Journal.AtStart()
	starts, ends = make([]*time.Time, n), make([]*time.Time, n)
	if plan == nil {
		return starts, ends
	}
	for _, l := range plan.Layers {
		if l.Layer < 1 || l.Layer > n {
			continue // of another hand
		}
		start, end := b.on(l.Start), b.on(l.End)
		starts[l.Layer-1], ends[l.Layer-1] = &start, &end
	}
	return starts, ends
}
