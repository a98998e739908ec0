package session

import (
	"errors"
	"fmt"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/schedule"
	"potlife/schedule/winding"
)

var nine = time.Date(2026, 11, 28, 9, 0, 0, 0, time.FixedZone("", 3600))

func after(minutes int) time.Time { return nine.Add(time.Duration(minutes) * time.Minute) }

// fourLayers is a job as far as the start of a session looks at it.
func fourLayers(path string) *schedule.Job {
	return &schedule.Job{Name: "Strut", File: path, Source: []byte("name: strut\n"), Layers: make([]winding.Layer, 4)}
}

// newSession is a session of a job of four layers, started at nine.
func newSession(t testing.TB) *Session {
	t.Helper()
	job := filepath.Join(t.TempDir(), "strut.yaml")
	s, first, err := Start(fourLayers(job), Copies{Resin: []byte("name: resin\n")}, nine, nine)
	if err != nil {
		t.Fatal(err)
	}
	if first.Seq != 1 || first.Kind != Started {
		t.Fatalf("started with %+v", first)
	}
	t.Cleanup(func() { _ = s.Close() })
	return s
}

// say logs an event as told that many minutes after nine, by a clock that shows
// the same.
func say(s *Session, kind Kind, minutes int, change func(*Event)) (Event, error) {
	e := Event{Kind: kind, At: after(minutes), Logged: after(1000)}
	switch kind {
	case Mixed:
		e.MassG = 200
	case BathTemp, Room:
		e.IsC = new(float64)
	case Viscosity, FlowCup:
		e.IsPaS = 1
	case LeftOver:
		e.Grams = new(float64)
	}
	if change != nil {
		change(&e)
	}
	return s.Log(e)
}

// TestAMorning: pots, layers and a pause in order; what is left open is filled in.
func TestAMorning(t *testing.T) {
	s := newSession(t)
	for i, c := range []struct {
		kind   Kind
		minute int
		layer  int
		pot    int
	}{
		{Mixed, 1, 0, 0},
		{Mixed, 4, 0, 0},
		{Poured, 6, 0, 2},
		{Poured, 7, 0, 3},
		{Begin, 8, 1, 0},
		{BathTemp, 10, 0, 0},
		{Pause, 12, 0, 0},
		{Resume, 20, 0, 0},
		{Done, 30, 1, 0},
		{Begin, 33, 2, 0},
		{Done, 50, 2, 0},
		{Changed, 55, 0, 0},
		{Mixed, 56, 0, 0},
		{Poured, 61, 0, 14},
		{Begin, 63, 3, 0},
		{Done, 80, 3, 0},
		{Finish, 85, 0, 0},
		{Note, 90, 0, 0},
	} {
		e, err := say(s, c.kind, c.minute, nil)
		if err != nil {
			t.Fatalf("%s at %d min: %v", c.kind, c.minute, err)
		}
		if e.Seq != i+2 || e.Layer != c.layer || e.Pot != c.pot {
			t.Errorf("%s: logged as %+v, want seq %d, layer %d, pot %d", c.kind, e, i+2, c.layer, c.pot)
		}
	}
	if done, err := s.Finished(); err != nil || !done {
		t.Errorf("finished: %v, %v", done, err)
	}
}

// TestImpossibleOrders are refused with a mend, and nothing is logged.
func TestImpossibleOrders(t *testing.T) {
	layer := func(n int) func(*Event) { return func(e *Event) { e.Layer = n } }
	ofBath, ofPot := func(e *Event) { e.Bath = true }, func(e *Event) { e.Pot = 2 }
	for _, c := range []struct {
		name   string
		before []Kind // at 1, 2, 3, ... min
		kind   Kind
		minute int
		change func(*Event)
		says   string
	}{
		{"poured before mixed", nil, Poured, 5, nil, "no pot was mixed"},
		{"poured twice", []Kind{Mixed, Poured}, Poured, 5, nil, "no pot was mixed"},
		{"back-dated before its mixing", []Kind{Note, Note, Mixed}, Poured, 2, nil, "no pot was mixed"},
		{"a layer from an empty bath", []Kind{Mixed}, Begin, 5, nil, "no resin in the bath"},
		{"a layer from a bath that was dumped", []Kind{Mixed, Poured, Changed}, Begin, 5, nil, "no resin in the bath"},
		{"done before begin", []Kind{Mixed, Poured}, Done, 5, nil, "no layer is in hand"},
		{"two layers at once", []Kind{Mixed, Poured, Begin}, Begin, 5, nil, "while layer 1 is in hand"},
		{"another layer done", []Kind{Mixed, Poured, Begin}, Done, 5, layer(2), "layer 1 is in hand"},
		{"a layer again", []Kind{Mixed, Poured, Begin, Done}, Begin, 5, layer(1), "is done already"},
		{"more layers than the job has", []Kind{Mixed, Poured}, Begin, 5, layer(5), "the job has 4 layers"},
		{"a layer left out", []Kind{Mixed, Poured}, Begin, 5, layer(3), "layer 1 is not done"},
		{"wound from an empty bath", []Kind{Mixed, Poured, Begin, Pause, Changed, Resume}, Done, 8, nil, "no resin in the bath"},
		{"changed while it winds", []Kind{Mixed, Poured, Begin}, Changed, 5, nil, "while layer 1 is being wound"},
		{"an undo undone", []Kind{Note, Undo}, Undo, 5, func(e *Event) { e.Of = 3 }, "an undo is not taken back"},
		{"paused twice", []Kind{Pause}, Pause, 5, nil, "stands already"},
		{"resumed while it runs", nil, Resume, 5, nil, "nothing to resume"},
		{"a thermometer in no bath", nil, BathTemp, 5, nil, "no resin in the bath"},
		{"after the finish", []Kind{Finish}, Mixed, 5, nil, "after the session was finished"},
		{"a plan after the finish", []Kind{Finish}, Planned, 5, func(e *Event) { e.Plan = &Plan{} }, "after the session was finished"},
		{"in the future", nil, Note, 1002, nil, "has not come yet"},
		{"before the start", nil, Note, -5, nil, "before the start of the session"},
		{"nothing to undo", nil, Undo, 5, nil, "no event to take back"},
		{"an event that is not there undone", []Kind{Note, Note, Note}, Undo, 5, func(e *Event) { e.Of = 99 }, "there is no e99; the last is e4"},
		{"the start undone", nil, Undo, 5, func(e *Event) { e.Of = 1 }, "cannot be taken back"},
		{"a pour without its pot", []Kind{Mixed, Poured}, Undo, 5, func(e *Event) { e.Of = 2 }, "another cannot have happened"},
		{"undone twice", []Kind{Note, Undo}, Undo, 5, func(e *Event) { e.Of = 2 }, "taken back already"},
		{"dumped before a layer that was wound", []Kind{Mixed, Poured, Note, Begin}, Changed, 3, nil, "no resin in the bath"},
		{"spread, and no resin anywhere", nil, Spread, 5, nil, "no resin stands mixed or is in the bath"},
		{"thrown out, and it may be two pots", []Kind{Mixed, Mixed}, ThrownOut, 5, nil, "thrown-out does not say which"},
		{"cured, and it may be a pot or the bath", []Kind{Mixed, Poured, Mixed}, Cured, 5, nil, "cured does not say which"},
		{"a bath spread that is empty", []Kind{Mixed}, Spread, 5, ofBath, "no resin in the bath"},
		{"a bath thrown out twice", []Kind{Mixed, Poured, ThrownOut}, ThrownOut, 5, ofBath, "no resin in the bath"},
		{"a pot spread that is poured", []Kind{Mixed, Poured}, Spread, 5, ofPot, "no pot was mixed"},
		{"a pot poured that was spread", []Kind{Mixed, Spread}, Poured, 5, nil, "no pot was mixed"},
		{"wound from a bath that was thrown out", []Kind{Mixed, Poured, Begin, ThrownOut}, Done, 8, nil, "no resin in the bath"},
		{"resin mixed after the finish", []Kind{Mixed, Finish, Spread}, Mixed, 5, nil, "after the session was finished"},
		{"a pot whose spreading stays", []Kind{Mixed, Spread}, Undo, 5, func(e *Event) { e.Of = 2 }, "another cannot have happened"},
	} {
		s := newSession(t)
		for i, kind := range c.before {
			if _, err := say(s, kind, i+1, nil); err != nil {
				t.Fatalf("%s: %s: %v", c.name, kind, err)
			}
		}
		lines := len(s.Journal.Entries())
		_, err := say(s, c.kind, c.minute, c.change)
		var refusal *Refusal
		if !errors.As(err, &refusal) || !strings.Contains(refusal.Problem, c.says) || refusal.Mend == "" {
			t.Errorf("%s: got %v, want a refusal with %q", c.name, err, c.says)
		}
		if now := len(s.Journal.Entries()); now != lines {
			t.Errorf("%s: refused, and %d lines more", c.name, now-lines)
		}
	}
}

// TestFinishGivesUpALayer: a session that is finished with a layer in hand has given it up,
// unless the done that was forgotten is told later; undo takes it in hand again.
func TestFinishGivesUpALayer(t *testing.T) {
	s := newSession(t)
	for i, kind := range []Kind{Mixed, Poured, Begin, Done, Begin, Finish} {
		if _, err := say(s, kind, i+1, nil); err != nil {
			t.Fatal(err)
		}
	}
	for _, c := range []struct {
		name   string
		kind   Kind
		change func(*Event)
		want   Day
	}{
		{"finished", Note, nil, Day{LastDone: 1, GivenUp: 2, Finished: true}},
		{"done after all", Done, func(e *Event) { e.At = after(5).Add(30 * time.Second) }, Day{LastDone: 2, Finished: true}},
		{"the finish taken back", Undo, func(e *Event) { e.Of = 7 }, Day{LastDone: 2}},
		{"the done taken back", Undo, func(e *Event) { e.Of = 9 }, Day{LastDone: 1, InHand: 2}},
	} {
		if _, err := say(s, c.kind, 20, c.change); err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		d, err := s.Day()
		if err != nil {
			t.Fatal(err)
		}
		if got := (Day{LastDone: d.LastDone, InHand: d.InHand, GivenUp: d.GivenUp, Finished: d.Finished}); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

// TestRemoved: what became of a pot or a bath is told of the one that is named, or of the only one
// that there is; after the finish too; and undo brings it back.
func TestRemoved(t *testing.T) {
	type left struct {
		Pots   []int // seqs of those that stand
		Filled bool
		Paused bool
	}
	for _, c := range []struct {
		name   string
		before []Kind // at 1, 2, 3, ... min
		change func(*Event)
		pot    int // that is filled in
		number int
		bath   bool
		left   left
	}{
		{"the only pot", []Kind{Mixed}, nil, 2, 1, false, left{}},
		{"the pot left beside one poured away", []Kind{Mixed, Mixed, Poured, Changed}, nil, 3, 2, false, left{}},
		{"a bath alone", []Kind{Mixed, Poured}, nil, 0, 0, true, left{}},
		{"a pot of two, named", []Kind{Mixed, Mixed}, func(e *Event) { e.Pot = 3 }, 3, 2, false, left{Pots: []int{2}}},
		{"a pot beside a bath, named", []Kind{Mixed, Poured, Mixed}, func(e *Event) { e.Pot = 4 }, 4, 2, false, left{Filled: true}},
		{"the bath beside a pot, named", []Kind{Mixed, Poured, Mixed}, func(e *Event) { e.Bath = true }, 0, 0, true, left{Pots: []int{4}}},
		{"a pot while the tow runs", []Kind{Mixed, Poured, Mixed, Begin}, func(e *Event) { e.Pot = 4 }, 4, 2, false, left{Filled: true}},
		{"the bath while the tow runs: the machine stands", []Kind{Mixed, Poured, Begin}, nil, 0, 0, true, left{Paused: true}},
		{"a pot after the finish", []Kind{Mixed, Poured, Mixed, Finish}, func(e *Event) { e.Pot = 4 }, 4, 2, false, left{Filled: true}},
		{"the bath after the finish", []Kind{Mixed, Poured, Begin, Finish}, nil, 0, 0, true, left{}},
	} {
		for _, kind := range []Kind{Spread, ThrownOut, Cured} {
			t.Run(string(kind)+" "+c.name, func(t *testing.T) {
				s := newSession(t)
				for i, before := range c.before {
					if _, err := say(s, before, i+1, nil); err != nil {
						t.Fatalf("%s: %v", before, err)
					}
				}
				day := func() Day {
					d, err := s.Day()
					if err != nil {
						t.Fatal(err)
					}
					return d
				}
				before := day()
				e, err := say(s, kind, 10, c.change)
				if err != nil || e.Pot != c.pot || e.PotNumber != c.number || e.Bath != c.bath {
					t.Fatalf("logged as %+v, %v; want seq %d, pot %d, bath %v", e, err, c.pot, c.number, c.bath)
				}
				d := day()
				got := left{Filled: d.Filled, Paused: d.Paused}
				for _, p := range d.Pots {
					got.Pots = append(got.Pots, p.Seq)
				}
				if !reflect.DeepEqual(got, c.left) {
					t.Errorf("left are %+v, want %+v", got, c.left)
				}
				if _, err := say(s, Undo, 11, func(u *Event) { u.Of = e.Seq }); err != nil {
					t.Fatal(err)
				}
				if d := day(); !reflect.DeepEqual(d, before) {
					t.Errorf("taken back: %+v, before %+v", d, before)
				}
			})
		}
	}
}

// TestFinishBeforeALaterLine: a finish may be told late, before what is no part of the winding.
func TestFinishBeforeALaterLine(t *testing.T) {
	for _, c := range []struct {
		later Kind
		fits  bool
	}{
		{Note, true},
		{Weighed, true},
		{Planned, true},
		{Room, false},
	} {
		s := newSession(t)
		if _, err := say(s, c.later, 10, func(e *Event) { e.Plan = planOf(10) }); err != nil {
			t.Fatal(err)
		}
		if _, err := say(s, Finish, 5, nil); (err == nil) != c.fits {
			t.Errorf("a finish before %s: %v", c.later, err)
		}
	}
}

// TestMendsNameNumbers: whoever is refused hears the numbers of the events that mend it.
func TestMendsNameNumbers(t *testing.T) {
	s := newSession(t)
	for i, kind := range []Kind{Mixed, Mixed, Poured, Mixed, Begin, Done} { // events 2 to 7
		if _, err := say(s, kind, i+1, nil); err != nil {
			t.Fatal(err)
		}
	}
	day, err := s.Day()
	if err != nil {
		t.Fatal(err)
	}
	_, undone := say(s, Undo, 9, func(e *Event) { e.Of = 2 })
	_, poured := say(s, Poured, 9, func(e *Event) { e.Pot = 99 })
	told := func(words ...string) error {
		_, err := Read(Setting{Zone: time.UTC}, Told{Words: words, Now: nine, Day: day})
		return err
	}
	for _, c := range []struct {
		err  error
		says string
	}{
		{undone, "e4, poured at 09:03: "},
		{undone, "potlife log undo e4"},
		{poured, "e99 is no pot"},
		{poured, "pot 2, mixed at 09:02; pot 3, mixed at 09:04"},
		{told("begin", "hoop"), "or begin 2"},
		{told("done", "hoop"), "potlife log done for the one"}, // none is in hand
		{told("poured", "cup"), "pot 2, mixed at 09:02; pot 3"},
		{told("undo", "that"), "potlife log lists them"},
		{told("flow-cup", "iso-4", "60"), "60 s"},
		{told("mixed", "-5g"), "cannot be negative"},
	} {
		if c.err == nil || !strings.Contains(c.err.Error(), c.says) {
			t.Errorf("%v, want %q in it", c.err, c.says)
		}
	}
}

// TestBackDating: an event told late takes its place in the day, and the layer
// that was in hand then is the one it means.
func TestBackDating(t *testing.T) {
	s := newSession(t)
	for i, kind := range []Kind{Mixed, Poured, Begin} {
		if _, err := say(s, kind, 10*(i+1), nil); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := say(s, Begin, 60, nil); err == nil {
		t.Fatal("layer 2 begins while layer 1 is in hand")
	}
	if e, err := say(s, Done, 50, nil); err != nil || e.Layer != 1 {
		t.Fatalf("%+v, %v", e, err)
	}
	if e, err := say(s, Begin, 60, nil); err != nil || e.Layer != 2 {
		t.Fatalf("%+v, %v", e, err)
	}
	// Told now, it happened while layer 1 was wound.
	if _, err := say(s, Pause, 35, nil); err != nil {
		t.Fatal(err)
	}
	if _, err := say(s, Resume, 40, nil); err != nil {
		t.Fatal(err)
	}
	all, err := s.Events()
	if err != nil {
		t.Fatal(err)
	}
	day, err := Through(all)
	if err != nil || day.Paused || day.InHand != 2 || day.ResumedBy != 0 {
		t.Errorf("%+v, %v", day, err)
	}
}

// TestForgottenResume: a layer that is done was wound; the warning is given with it.
func TestForgottenResume(t *testing.T) {
	s := newSession(t)
	for i, kind := range []Kind{Mixed, Poured, Begin, Pause} {
		if _, err := say(s, kind, i+1, nil); err != nil {
			t.Fatal(err)
		}
	}
	e, err := say(s, Done, 20, nil)
	if err != nil {
		t.Fatal(err)
	}
	day, err := s.Day()
	if err != nil || day.Paused || day.ResumedBy != e.Seq {
		t.Errorf("%+v, %v", day, err)
	}
	if got := (Setting{Largest: 1}).Warnings(e, day); !slices.Equal(got, []warning.Warning{ResumeMissing{}}) {
		t.Errorf("warnings: %+v", got)
	}
}

// TestWarnings: a pot off its ratio, one too large, and a day that ends early.
func TestWarnings(t *testing.T) {
	mix := resins.Mix{Resin: resins.Part{ByMass: 100, Density: 1130}, Hardener: resins.Part{ByMass: 24, Density: 920}}
	setting := Setting{Mix: mix, Tolerance: 0.02, Smallest: 0.08, Largest: 0.25}
	off := func(resin, hardener float64) float64 {
		return mix.RatioError(resins.Pot{Resin: quantity.Mass(resin / 1000), Hardener: quantity.Mass(hardener / 1000)})
	}
	for _, c := range []struct {
		e    Event
		day  Day
		want []warning.Warning
	}{
		{Event{Kind: Mixed, ResinG: 193, HardenerG: 46.3}, Day{}, nil},
		{Event{Kind: Mixed, ResinG: 46.3, HardenerG: 193}, Day{}, []warning.Warning{PotOffRatio{off(46.3, 193), mix, true}}},
		{Event{Kind: Mixed, ResinG: 193, HardenerG: 60}, Day{}, []warning.Warning{
			PotOffRatio{off(193, 60), mix, false},
		}},
		{Event{Kind: Mixed, MassG: 900}, Day{}, []warning.Warning{PotTooLarge{0.9, 0.25}}},
		{Event{Kind: Mixed, MassG: 40}, Day{}, nil},
		{Event{Kind: Mixed, MassG: 5.7}, Day{}, []warning.Warning{PotTooSmall{5.7 / 1e3, 0.08}}},
		{Event{Kind: BathTemp}, Day{}, nil},
		{Event{Kind: Finish}, Day{LastDone: 2, Layers: 4}, []warning.Warning{LayersMissing{2, 4}}},
		{Event{Kind: Finish}, Day{LastDone: 4, Layers: 4, Pots: make([]StandingPot, 1)}, []warning.Warning{PotsLeft{1}}},
		{Event{Kind: Finish}, Day{LastDone: 2, Layers: 4, Pots: make([]StandingPot, 1)}, []warning.Warning{LayersMissing{2, 4}, PotsLeft{1}}},
	} {
		if got := setting.Warnings(c.e, c.day); !slices.Equal(got, c.want) {
			t.Errorf("%+v: %+v, want %+v", c.e, got, c.want)
		}
	}
	if got := off(193, 60); !(got > 0.295 && got < 0.296) { // 60/193 against 24/100
		t.Errorf("off by %g", got)
	}
}

// TestStartInTheFuture is refused, and leaves no folder.
func TestStartInTheFuture(t *testing.T) {
	job := filepath.Join(t.TempDir(), "strut.yaml")
	if _, _, err := Start(fourLayers(job), Copies{}, after(60), nine); err == nil {
		t.Error("a session that starts in an hour")
	}
	if left, err := filepath.Glob(filepath.Join(filepath.Dir(job), "*")); err != nil || len(left) > 0 {
		t.Errorf("left behind: %v, %v", left, err)
	}
}

// TestUndoRestoresTheDay: whatever is logged and taken back leaves the day as it
// was; and no sequence of events, sensible or not, breaks the journal.
func TestUndoRestoresTheDay(t *testing.T) {
	number := 0
	rapid.Check(t, func(r *rapid.T) {
		number++
		dir := t.TempDir()
		s, _, err := Start(fourLayers(filepath.Join(dir, fmt.Sprintf("job%d.yaml", number))), Copies{}, nine, nine)
		if err != nil {
			r.Fatal(err)
		}
		defer s.Close()
		for range rapid.IntRange(1, 25).Draw(r, "events") {
			before := today(r, s)
			kind := rapid.SampledFrom(Kinds).Draw(r, "kind")
			e, err := say(s, kind, rapid.IntRange(0, 300).Draw(r, "minute"), nil)
			if err != nil {
				if now := today(r, s); fmt.Sprint(now) != fmt.Sprint(before) {
					r.Fatalf("%s was refused and changed the day", kind)
				}
				continue
			}
			if kind == Undo || rapid.Bool().Draw(r, "keep") {
				continue
			}
			if _, err := say(s, Undo, 301, func(u *Event) { u.Of = e.Seq }); err != nil {
				r.Fatalf("%s cannot be taken back: %v", kind, err)
			}
			if now := today(r, s); fmt.Sprint(now) != fmt.Sprint(before) {
				r.Fatalf("%s and its undo: %+v, before %+v", kind, now, before)
			}
		}
	})
}

func today(r *rapid.T, s *Session) Day {
	all, err := s.Events()
	if err != nil {
		r.Fatal(err)
	}
	d, err := Through(all)
	if err != nil {
		r.Fatal(err)
	}
	return d
}

// TestSecondStart: an open session refuses a second one; after its finish the
// next is numbered.
func TestSecondStart(t *testing.T) {
	job := filepath.Join(t.TempDir(), "strut.yaml")
	start := func() (*Session, error) {
		s, _, err := Start(fourLayers(job), Copies{Resin: []byte("b")}, nine, nine)
		return s, err
	}
	s, err := start()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := start(); err == nil {
		t.Fatal("a second session of the same job while the first is open")
	}
	if open := openIn(t, filepath.Dir(job)); len(open) != 1 || open[0] != s.Folder {
		t.Errorf("open: %v", open)
	}
	if _, err := say(s, Finish, 5, nil); err != nil {
		t.Fatal(err)
	}
	if open := openIn(t, filepath.Dir(job)); len(open) != 0 {
		t.Errorf("open after the finish: %v", open)
	}
	second, err := start()
	if err != nil || !strings.HasSuffix(second.Folder, "strut.session-2") {
		t.Errorf("%+v, %v", second, err)
	}
	_ = s.Close()
	_ = second.Close()
}

func openIn(t *testing.T, folder string) []string {
	t.Helper()
	found, err := FindOpen(folder)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range found {
		if f.Err != nil {
			t.Fatal(f.Err)
		}
		_ = f.Session.Close()
		names = append(names, f.Folder)
	}
	return names
}

// TestEachDay: the day after each event is that of the events up to it, also where one cannot have happened.
func TestEachDay(t *testing.T) {
	at := func(minute int) time.Time { return time.Date(2026, 11, 21, 9, minute, 0, 0, time.UTC) }
	var all []Event
	add := func(e Event) {
		e.Seq, e.At = len(all)+1, at(len(all))
		all = append(all, e)
	}
	add(Event{Kind: Started, Layers: 2})
	add(Event{Kind: Mixed, MassG: 200})
	add(Event{Kind: Mixed, MassG: 100})
	add(Event{Kind: Poured, Pot: 2})
	add(Event{Kind: Begin, Layer: 1})
	add(Event{Kind: Pause})
	add(Event{Kind: Resume})
	add(Event{Kind: ThrownOut, Pot: 3})
	add(Event{Kind: Done, Layer: 1})
	add(Event{Kind: Done, Layer: 1}) // which cannot be
	add(Event{Kind: Changed})
	var days []Day
	EachDay(all, func(_ int, day Day) { days = append(days, day) })
	if len(days) != len(all) {
		t.Fatalf("%d days", len(days))
	}
	for i := range all {
		got, pots := days[i], days[i].Pots
		want, _ := Through(all[:i+1])
		if !slices.Equal(pots, want.Pots) {
			t.Errorf("after e%d %+v stand, want %+v", i+1, pots, want.Pots)
		}
		if got.Pots = want.Pots; !reflect.DeepEqual(got, want) {
			t.Errorf("after e%d %+v, want %+v", i+1, got, want)
		}
	}
}
