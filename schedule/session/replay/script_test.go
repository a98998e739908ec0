package replay

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/schedule/session"
	"potlife/schedule/session/daytest"
)

func nominal() ensemble.Member { return ensemble.Nominal() }

func world(t *testing.T, s *Script) *World {
	t.Helper()
	w, err := s.World(nominal())
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// TestALayerTakesItsResin: however long it took, and however it was paused, a layer that is
// done has taken the resin that the job gives it, and one in hand its share.
func TestALayerTakesItsResin(t *testing.T) {
	w := daytest.Prepared(t)
	poured := 0.6 * (1 - w.Task.Pots.LeftInCup)
	for _, c := range []struct {
		name   string
		events func(d day)
		at     float64
		taken  float64 // of layer 1
	}{
		{"faster than planned", func(d day) { d.Done(20, 1) }, 30, 1},
		{"slower", func(d day) { d.Done(80, 1) }, 90, 1},
		{"with a pause", func(d day) {
			d.Pause(10)
			d.Resume(40)
			d.Done(80, 1)
		}, 80, 1},
		{"a resume forgotten", func(d day) {
			d.Pause(20)
			d.Done(80, 1)
		}, 80, 1},
		{"done in the same minute", func(d day) { d.Done(6, 1) }, 7, 1},
		{"half way", func(day) {}, 6 + float64(w.Laid[0].Time)/120, 0.5},
		{"overdue", func(day) {}, 6 + float64(w.Laid[0].Time)/60*1.5, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := newDay(w)
			d.Fill(0, 600)
			d.Begin(6, 1)
			c.events(d)
			got := world(t, d.script(t, c.at)).Bath.Mass
			want := poured - c.taken*float64(w.Laid[0].Resin)
			// Clock times are rounded to the nanosecond: parts in 1e9 of the resin.
			if d := math.Abs(float64(got) - want); !(d <= 1e-7) {
				t.Errorf("the bath holds %.3f g, not %.3f g", got.In("g"), want*1e3)
			}
		})
	}
}

// TestALayerGivenUp: a finish within a layer stops the tow; the layer keeps its share and its
// resin is what was in the bath then.
func TestALayerGivenUp(t *testing.T) {
	w := daytest.Prepared(t)
	half := 6 + float64(w.Laid[0].Time)/120
	d := newDay(w)
	d.Fill(0, 600)
	d.Begin(6, 1)
	before := world(t, d.script(t, half))
	d.Finish(half)
	for _, at := range []float64{half, half + 60} {
		s := d.script(t, at)
		l, got := s.GivenUp(), world(t, s)
		// Clock times are whole nanoseconds: parts in 1e9 of the layer and its resin.
		if l == nil || l.Index != 0 || l.Done || !(math.Abs(l.Wound()-0.5) <= 1e-7) || s.InHand() != nil || s.Running() {
			t.Fatalf("%g min: given up %+v, in hand %+v", at, l, s.InHand())
		}
		if want := before.Bath.Mass; !(math.Abs(float64(got.Bath.Mass-want)) <= 1e-7) {
			t.Errorf("%g min: the bath holds %v, not %v", at, got.Bath.Mass, want)
		}
		if got.Laid[0] != (Laid{before.Laid[0].First, before.Bath.Alpha, 0}) {
			t.Errorf("%g min: the layer is laid with %+v, want %g to %g", at, got.Laid[0], before.Laid[0].First, before.Bath.Alpha)
		}
	}
}

// TestTheBathIsNeverReckonedEmpty: a pot that was not logged must not stop the answer.
func TestTheBathIsNeverReckonedEmpty(t *testing.T) {
	w := daytest.Prepared(t)
	d := newDay(w)
	d.Fill(0, 150)
	d.Layer(1, 6, 40)
	got := world(t, d.script(t, 41))
	if want := floorShare * w.Task.Bath.Lowest; math.Abs(float64(got.Bath.Mass-want)) > 1e-9 {
		t.Errorf("the bath is reckoned down to %v, not to %v", got.Bath.Mass, want)
	}
	if !(got.Dry > 6*60 && got.Dry < 40*60) {
		t.Errorf("it is dry at %v", got.Dry)
	}
	d.LeftOver(41, 200)
	if got := world(t, d.script(t, 42)); got.Bath.Mass.In("g") != 200 || !math.IsInf(float64(got.Dry), 1) {
		t.Errorf("weighed at 200 g the bath holds %v, dry at %v", got.Bath.Mass, got.Dry)
	}
	d.Layer(2, 43, 70)
	d.Layer(3, 71, 71) // takes its resin at once
	if got := world(t, d.script(t, 72)); got.Bath.Mass.In("g") != 60 || !(got.Dry == 71*60) {
		t.Errorf("the bath is reckoned down to %v, dry at %v", got.Bath.Mass, got.Dry)
	}
	d.Changed(73)
	d.Fill(73, 200)
	if got := world(t, d.script(t, 79)); !math.IsInf(float64(got.Dry), 1) {
		t.Errorf("a clean bath was dry at %v", got.Dry)
	}
}

// TestOrderOfTellingDoesNotMatter: what is told late replays as what was told in time.
func TestOrderOfTellingDoesNotMatter(t *testing.T) {
	w := daytest.Prepared(t)
	d := newDay(w)
	d.Fill(0, 600)
	d.Begin(6, 1)
	d.Temperature(12, 22.9)
	d.Pause(15)
	d.Resume(22)
	d.Room(25, 24)
	d.Done(50, 1)
	want := world(t, d.script(t, 60))
	r := rand.New(rand.NewPCG(1, 2))
	for range 20 {
		// All times differ, so that the order of telling says nothing. The pour keeps the
		// number of its pot.
		told := newDay(w)
		told.Events = append([]session.Event(nil), d.Events...)
		r.Shuffle(len(told.Events)-1, func(i, j int) { told.Events[i+1], told.Events[j+1] = told.Events[j+1], told.Events[i+1] })
		renumber := map[int]int{}
		for i := range told.Events {
			renumber[told.Events[i].Seq] = i + 1
			told.Events[i].Seq = i + 1
		}
		for i := range told.Events {
			told.Events[i].Pot = renumber[told.Events[i].Pot]
		}
		if got := world(t, told.script(t, 60)); got.Bath != want.Bath {
			t.Fatalf("told in another order the bath is %+v, not %+v", got.Bath, want.Bath)
		}
	}
}

// TestUndone: what was taken back never happened.
func TestUndone(t *testing.T) {
	d := newDay(daytest.Prepared(t))
	d.Fill(0, 600)
	want := world(t, d.script(t, 30)).Bath
	d.Poured(15, d.Mixed(10, 200))
	d.Undo(16, len(d.Events))
	s := d.script(t, 30)
	if got := world(t, s).Bath; got != want {
		t.Errorf("after an undo the bath is %+v, not %+v", got, want)
	}
	if standing := s.Standing(); len(standing) != 1 || standing[0].Mass() != 0.2 {
		t.Errorf("the pot stands in its cup again: %+v", standing)
	}
}

// TestRoomAsRead: the course of the job plus the difference to the readings, linear between
// them and from none at the start, and constant after the last.
func TestRoomAsRead(t *testing.T) {
	w := daytest.Prepared(t)
	course, err := vessel.NewSeries([]quantity.Time{0, 3600}, []quantity.Temperature{quantity.Celsius(20), quantity.Celsius(26)})
	if err != nil {
		t.Fatal(err)
	}
	w.Task.Room = course
	d := newDay(w)
	d.Room(10, 22) // the course says 21 and 26: one more, one less
	d.Room(60, 25)
	room := d.script(t, 90).Task.Room
	for _, c := range []struct{ minutes, want float64 }{{0, 20}, {5, 21}, {10, 22}, {35, 20 + 3.5}, {60, 25}, {120, 25}} {
		if got := room.At(quantity.Time(60 * c.minutes)).Celsius(); !(math.Abs(got-c.want) <= 1e-9) {
			t.Errorf("after %g min the room has %g °C, not %g", c.minutes, got, c.want)
		}
	}
}

// TestHourChange: a life is counted in elapsed seconds, whatever the clock shows. On 25
// October 2026 clocks in Berlin go from 3:00 back to 2:00.
func TestHourChange(t *testing.T) {
	zone, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	w := daytest.Prepared(t)
	plain := newDay(w)
	plain.Fill(0, 600)
	want := world(t, plain.script(t, 90)).Bath

	job := *w.Job
	job.Start = time.Date(2026, 10, 25, 1, 30, 0, 0, zone)
	night := *w
	night.Job = &job
	d := newDay(&night)
	d.Fill(0, 600)
	got := world(t, d.script(t, 90)) // 90 minutes later the clock shows 2:00
	if clock := d.Clock(90).In(zone).Format("15:04"); clock != "02:00" {
		t.Fatalf("the clock shows %s", clock)
	}
	if got.Bath != want {
		t.Errorf("over the hour change the bath is %+v, on another day %+v", got.Bath, want)
	}
}

// TestDayOfTheSession: a job planned for one day and wound on another keeps its time of day,
// and its room's course.
func TestDayOfTheSession(t *testing.T) {
	w := daytest.Prepared(t)
	for _, days := range []int{-400, -1, 0, 1, 30} {
		start := w.Job.Start.AddDate(0, 0, days).Add(3 * time.Hour)
		moved := w.Job.OnDayOf(start)
		if want := w.Job.Start.AddDate(0, 0, days); !moved.Start.Equal(want) {
			t.Errorf("a session at %v has its job start at %v, not %v", start, moved.Start, want)
		}
	}
}
