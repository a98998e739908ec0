package main

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/chart"
	"potlife/cmd/potlife/internal/report"
	"potlife/cmd/potlife/internal/whole"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/schedule"
	"potlife/schedule/cure"
	"potlife/schedule/session"
	"potlife/schedule/session/advice"
	"potlife/schedule/session/replay"
)

type cureOptions struct {
	session, program, chart string
	json, force             bool
}

func newCure() *cobra.Command {
	var o cureOptions
	cmd := &cobra.Command{
		Use:   "cure [JOB]",
		Short: "How long to keep it turning, when to leave it, which oven steps",
		Long: `cure follows a wound part from its last layer on, every layer with the age that it has:
until when to keep it turning, when it may be left, when the mandrel may be drawn, what
the room alone gives, and the fastest oven program that reaches the job's target while
oven, mandrel, exotherm and, of a part that stands free, its glass temperature allow it.
Times are for a slow hardener, the exotherm for a fast one. The program is simulated
again, strictly, before it is printed.

The part is wound as plan plans the job, or, with --session, as it was logged. --program
names a file whose program is simulated and judged instead of one being searched for:

    steps:
      - {ramp: 60 °C, rate: 30 K/h}
      - {hold: 4 h}
      - {cool: 40 °C, rate: 60 K/h}` + "\n" + exitHelp[:len(exitHelp)-1] + ", 4 journal damaged or newer.",
		Example: `  potlife cure testdata/jobs/telescope-strut.yaml
  potlife cure testdata/jobs/softener-shell.yaml --chart shell-cure.svg
  potlife cure testdata/jobs/telescope-strut.yaml --program testdata/jobs/strut-oven.yaml
  potlife cure --session testdata/sessions/strut.session --json`,
		Args: func(cmd *cobra.Command, args []string) error {
			if o.session != "" && len(args) == 0 {
				return nil
			}
			if o.session != "" {
				return wrong(errors.New("both a job and a session are named\n   name one: a session has its own copy of the job"))
			}
			return oneArgument("job file")(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error { return runCure(cmd, &o, args) },
	}
	f := cmd.Flags()
	f.StringVar(&o.session, "session", "", "`folder` of a session whose layers are all wound")
	f.StringVar(&o.program, "program", "", "`file` of a program to be judged")
	f.StringVar(&o.chart, "chart", "", "draw the cure to this `file` (.svg, .png or .pdf)")
	forceFlag(cmd, &o.force)
	f.BoolVar(&o.json, "json", false, "answer as JSON")
	return cmd
}

func runCure(cmd *cobra.Command, o *cureOptions, args []string) error {
	var picture whole.Target
	if o.chart != "" {
		var err error
		if picture, err = chartTarget(o.chart, o.force); err != nil {
			return err
		}
	}
	program, err := o.read()
	if err != nil {
		return wrong(err)
	}
	b := working(cmd, "searching an oven program")
	defer b.done()
	winding, task, warnings, err := o.task(args)
	if err != nil {
		return err
	}
	var answer *cure.Answer
	if program != nil {
		warnings = slices.Concat(program.Renamed, warnings)
		answer, err = task.Judge(program)
	} else {
		answer, err = task.Solve()
	}
	if err != nil {
		return err
	}
	b.done()
	told := report.NewCure(winding, o.session, task, answer, warnings)
	var failed error
	if o.chart != "" {
		failed = chartCure(picture, told, answer, winding, task)
	}
	tellDoubts(cmd, told.Warnings, !o.json)
	if o.json {
		err = report.WriteJSON(cmd.OutOrStdout(), told)
	} else {
		err = told.Text(page(cmd))
	}
	return afterAnswer(err, failed, !told.Feasible)
}

// read reads the program, if one is given.
func (o *cureOptions) read() (*cure.Program, error) {
	if o.program == "" {
		return nil, nil
	}
	source, err := resins.ReadFile(o.program, "program for the oven")
	if err != nil {
		return nil, err
	}
	return cure.ReadProgram(o.program, source)
}

// task is the part to be cured, planned or wound.
func (o *cureOptions) task(args []string) (*schedule.Winding, *cure.Task, []warning.Warning, error) {
	if o.session != "" {
		return woundPart(o.session)
	}
	job, err := schedule.LoadJob(args[0])
	if err != nil {
		return nil, nil, nil, wrong(err)
	}
	w, err := schedule.Prepare(job)
	if err != nil {
		return nil, nil, nil, wrong(err)
	}
	solution, err := w.Solve()
	if err != nil {
		return nil, nil, nil, err
	}
	if solution.Plan == nil {
		return nil, nil, nil, wrong(fmt.Errorf("%s cannot be wound as it is: there is nothing to cure\n   potlife plan %s says what would help", args[0], args[0]))
	}
	warnings := slices.Clone(w.Renamed)
	if !solution.Feasible() {
		warnings = append(warnings, cure.PlanNotFeasible{})
	}
	task, err := cure.ForPlan(w, solution.Plan)
	return w, task, warnings, err
}

// woundPart is the part of a session.
func woundPart(folder string) (*schedule.Winding, *cure.Task, []warning.Warning, error) {
	s, err := openSession(folder)
	if err != nil {
		return nil, nil, nil, err
	}
	defer s.Close()
	played, err := playedToEnd(s)
	if err != nil {
		return nil, nil, nil, err
	}
	task, err := cure.ForSession(played)
	if unwound := (*cure.Unwound)(nil); errors.As(err, &unwound) {
		err = wrong(err)
	}
	warnings, _ := advice.FindWarnings(played)
	return played.Script.Winding, task, slices.Concat(s.BegunWith(version().Version), warnings), err
}

func playedToEnd(s *session.Session) (*replay.Played, error) {
	journal, err := replay.Read(s)
	if err != nil {
		return nil, sessionError(err)
	}
	script, err := journal.Script(journal.Until(), 0)
	if err != nil {
		return nil, sessionError(err)
	}
	return script.Play()
}

// chartCure draws the way of the likely hardener; without a program there is none to draw.
func chartCure(to whole.Target, told *report.Cure, a *cure.Answer, w *schedule.Winding, t *cure.Task) error {
	if a.Program == nil {
		told.Warn(report.CureNotDrawn{Path: to.Path})
		return nil
	}
	c := chart.Cure{Title: told.ChartTitle(), Limit: t.Cure.Exotherm.Celsius(), Target: math.NaN()}
	if aim := t.Aim(); aim <= 1 {
		c.Target = aim
	}
	for _, m := range a.Tally.Course {
		c.At = append(c.At, w.Job.Clock(t.Wound()+m.At))
		c.Air, c.Hottest = append(c.Air, m.Air.Celsius()), append(c.Hottest, m.Hottest.Celsius())
		c.Coldest, c.Glass = append(c.Coldest, m.Coldest.Celsius()), append(c.Glass, m.Glass.Celsius())
		c.Degree = append(c.Degree, m.Degree)
	}
	return unwritten(chart.SaveCure(to, c))
}
