package main

import (
	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/report"
	"potlife/kinetics/ensemble"
	"potlife/kinetics/quantity"
	"potlife/schedule"
	"potlife/schedule/batches"
)

type planOptions struct {
	json   bool
	papers paperOptions
}

func newPlan() *cobra.Command {
	var o planOptions
	cmd := &cobra.Command{
		Use:   "plan JOB",
		Short: "Pots, refills and a timeline before winding",
		Long: `plan reads a job file and splits its winding into pots: what to weigh, when to
mix and at which layer end to pour, so that no limit is passed and the reserve
stands at every moment. The plan is made for a sure bath, judged by an ensemble
of baths and simulated again before it is printed.

--sheet writes one page to print and hang beside the machine: pots and layers to
tick off, room for what really happened, the latest time for each pot. --ics writes
a calendar whose alarm comes five minutes before a pot is to be mixed; read again
after a new plan of the same day, it moves the events of the old one. --csv writes
pots.csv and layers.csv for a spreadsheet, to a new folder or over earlier ones.` + "\n" + exitHelp,
		Example: `  potlife plan testdata/jobs/telescope-strut.yaml
  potlife plan testdata/jobs/softener-shell.yaml --json
  potlife plan testdata/jobs/telescope-strut.yaml --sheet strut.html --ics strut.ics
  potlife plan testdata/jobs/telescope-strut.yaml --csv strut-plan`,
		Args: oneArgument("job file"),
		RunE: func(cmd *cobra.Command, args []string) error { return runPlan(cmd, &o, args[0]) },
	}
	cmd.Flags().BoolVar(&o.json, "json", false, "answer as JSON")
	o.papers.flags(cmd)
	return cmd
}

func runPlan(cmd *cobra.Command, o *planOptions, path string) error {
	if err := o.papers.check(); err != nil {
		return err
	}
	job, err := schedule.LoadJob(path)
	if err != nil {
		return wrong(err)
	}
	b := working(cmd, "planning")
	defer b.done()
	winding, err := schedule.Prepare(job)
	if err != nil {
		return wrong(err)
	}
	answer, solution, err := plannedWinding(winding)
	if err != nil {
		return err
	}
	b.done()
	answer.Warn(winding.Assumed()...)
	failed := o.papers.write(answer, winding, solution)
	tellDoubts(cmd, answer.Warnings, !o.json)
	if o.json {
		err = report.WriteJSON(cmd.OutOrStdout(), answer)
	} else {
		err = answer.Text(page(cmd))
	}
	return afterAnswer(err, failed, !answer.Feasible)
}

// plannedWinding solves a winding and everything that its report tells.
func plannedWinding(w *schedule.Winding) (*report.Plan, *batches.Solution, error) {
	return plannedBy(w, w.Solve)
}

// plannedBy is plannedWinding with another way to a solution.
func plannedBy(w *schedule.Winding, solve func() (*batches.Solution, error)) (*report.Plan, *batches.Solution, error) {
	solution, err := solve()
	if err != nil {
		return nil, nil, err
	}
	var likely []quantity.Viscosity
	var helps []batches.Help
	var alarms *schedule.Alarms
	var late []quantity.Time
	err = ensemble.Together( // none needs what another finds
		func() (err error) {
			alarms, err = w.Alarms(solution)
			return err
		},
		func() (err error) {
			helps, err = batches.Helps(w.Task, solution, w.Variants())
			return err
		},
		func() (err error) {
			if solution.Plan != nil {
				likely, err = w.LikelyViscosities(solution.Plan)
			}
			return err
		},
		func() (err error) {
			if solution.Feasible() {
				late, err = batches.Late(w.Task, solution.Plan, solution.Tally)
			}
			return err
		})
	if err != nil {
		return nil, nil, err
	}
	answer := report.NewPlan(w, solution, likely, helps).Alarmed(alarms)
	if solution.Feasible() {
		answer.Late(w, solution.Plan, late)
	}
	return answer, solution, nil
}
