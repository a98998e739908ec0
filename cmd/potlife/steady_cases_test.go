package main

import (
	"fmt"
	"path/filepath"
	"time"

	"potlife/cmd/potlife/internal/report"
	"potlife/kinetics/ensemble"
	"potlife/kinetics/still"
	"potlife/kinetics/vessel"
	"potlife/resins/fit"
	"potlife/schedule"
	"potlife/schedule/batches"
	"potlife/schedule/cure"
	"potlife/schedule/session/advice"
	"potlife/schedule/session/replay"
)

// A variation is what is done to all that a figure rests on beside data: nothing where it is
// zero.
type variation struct {
	tighter float64 // steps of the integrators, times
	finer   int     // cells of what stands still, times
	members int     // of every ensemble, times
	seed    uint64  // of every ensemble
	size    int     // of every ensemble, whatever is usual; 0: the usual
}

// apply changes the precision of the whole program until undo is called.
func (v variation) apply() (undo func()) {
	bath, pot, searching, strict := vessel.Working, still.Working, still.Searching, cure.Strict
	undo = func() { vessel.Working, still.Working, still.Searching, cure.Strict = bath, pot, searching, strict }
	if v.tighter > 0 {
		vessel.Working = bath.Tighter(v.tighter)
		still.Working = pot.Tighter(v.tighter)
		still.Searching = searching.Tighter(v.tighter)
		cure.Strict = strict.Tighter(v.tighter)
	}
	for _, p := range []*still.Precision{&still.Working, &still.Searching, &cure.Strict} {
		p.Finer = v.finer
	}
	return undo
}

// drawn is the size and the seed of an ensemble of usually n.
func (v variation) drawn(n int) (int, uint64) {
	seed := uint64(batches.Seed)
	if v.seed > 0 {
		seed = v.seed
	}
	if v.size > 0 {
		n = v.size
	}
	return n * max(1, v.members), seed
}

// A question is a command with its arguments, asked past its flags, so that its ensemble can
// be another one.
type question struct {
	name   string
	sizes  bool // it has an ensemble
	grids  bool // it follows something that stands still
	answer func(v variation) (told any, since time.Time, err error)
}

func (q *question) figures(v variation) (figures, error) {
	defer v.apply()()
	told, since, err := q.answer(v)
	if err != nil {
		return figures{}, fmt.Errorf("%s: %w", q.name, err)
	}
	return figuresOf(told, since)
}

var everything = filepath.Join("..", "..", "testdata")

// worktimeOf asks worktime.
func worktimeOf(o worktimeOptions) *question {
	name := fmt.Sprintf("worktime %s of %s in %s at %s", o.mass, o.resin, o.vessel, o.room)
	if o.datasheet != "" {
		name += ", by its label"
	}
	return &question{name: name, sizes: true, grids: true, answer: func(v variation) (any, time.Time, error) {
		standing, _, err := o.parse()
		if err != nil {
			return nil, time.Time{}, err
		}
		n, seed := v.drawn(schedule.UsualSampling.Members)
		standing.Sampling = schedule.Sampling{Members: n, Seed: seed}
		lasting, err := standing.Last()
		if err != nil {
			return nil, time.Time{}, err
		}
		return report.NewWorktime(standing, lasting), time.Time{}, nil
	}}
}

// prepared is a job's winding with its ensemble.
func prepared(path string, v variation) (*schedule.Winding, error) {
	job, err := schedule.LoadJob(path)
	if err != nil {
		return nil, err
	}
	w, err := schedule.Prepare(job)
	if err != nil {
		return nil, err
	}
	n, seed := v.drawn(len(w.Task.Members()))
	w.Task.Drawn = ensemble.Draw(w.Task.Spread, n, seed)
	return w, nil
}

func planOf(job string) *question {
	return &question{name: "plan " + job, sizes: true, answer: func(v variation) (any, time.Time, error) {
		w, err := prepared(filepath.Join(everything, "jobs", job), v)
		if err != nil {
			return nil, time.Time{}, err
		}
		told, _, err := plannedWinding(w)
		if err != nil {
			return nil, time.Time{}, err
		}
		return told, told.Start, nil
	}}
}

// cureOf plans and cures a job.
func cureOf(job string) *question {
	return &question{name: "cure " + job, grids: true, answer: func(v variation) (any, time.Time, error) {
		w, err := prepared(filepath.Join(everything, "jobs", job), v)
		if err != nil {
			return nil, time.Time{}, err
		}
		solution, err := w.Solve()
		if err != nil {
			return nil, time.Time{}, err
		}
		task, err := cure.ForPlan(w, solution.Plan)
		if err != nil {
			return nil, time.Time{}, err
		}
		answer, err := task.Solve()
		if err != nil {
			return nil, time.Time{}, err
		}
		return report.NewCure(w, "", task, answer, nil), w.Job.Clock(0), nil
	}}
}

// playedFor is a session played to a moment of its day.
func playedFor(name, at, pause string, v variation) (*replay.Played, time.Duration, error) {
	s, err := openSession(filepath.Join(everything, "sessions", name))
	if err != nil {
		return nil, 0, err
	}
	defer s.Close()
	script, stands, _, err := scriptAt(s, at, pause, clock(), &morning{})
	if err != nil {
		return nil, 0, err
	}
	played, err := script.PlayWith(v.drawn(script.Members()))
	return played, stands, err
}

func checkOf(session, at, pause string) *question {
	name := "check " + session + " at " + at
	if pause != "" {
		name += " after " + pause
	}
	return &question{name: name, sizes: true, answer: func(v variation) (any, time.Time, error) {
		played, stands, err := playedFor(session, at, pause, v)
		if err != nil {
			return nil, time.Time{}, err
		}
		answer, err := advice.Now(played)
		if err != nil {
			return nil, time.Time{}, err
		}
		told := report.NewCheck(session, played, answer, stands, time.Time{}, nil)
		return told, told.Now, nil
	}}
}

func replanOf(session, at string) *question {
	return &question{name: "replan " + session + " at " + at, sizes: true, answer: func(v variation) (any, time.Time, error) {
		played, _, err := playedFor(session, at, "", v)
		if err != nil {
			return nil, time.Time{}, err
		}
		usable, err := played.Usable()
		if err != nil {
			return nil, time.Time{}, err
		}
		told, _, err := plannedWinding(played.Begun(usable))
		if err != nil {
			return nil, time.Time{}, err
		}
		return told, told.Start, nil
	}}
}

func fitOf(file string) *question {
	return &question{name: "resins fit " + file, grids: true, answer: func(variation) (any, time.Time, error) {
		statements, prior, err := loadStatements(filepath.Join(everything, "resins", file))
		if err != nil {
			return nil, time.Time{}, err
		}
		fitted, err := fit.Fit(statements, prior)
		if err != nil {
			return nil, time.Time{}, err
		}
		told, err := report.NewFit(fitted)
		return told, time.Time{}, err
	}}
}
