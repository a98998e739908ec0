package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/report"
	"potlife/kinetics/warning"
	"potlife/schedule"
	"potlife/schedule/session"
	"potlife/schedule/session/inforce"
	"potlife/schedule/session/replay"
)

func newStart() *cobra.Command {
	var asJSON bool
	var at string
	cmd := &cobra.Command{
		Use:   "start JOB",
		Short: "Open a session: from now on the day is logged",
		Long: `start makes a folder beside the job, JOB.session, with a journal of what happens
today, copies of the job and of its resin record, which is calibrated to the
job's label, the time zone and the fibre's data, so that the day can be replayed
years later and on another machine. The journal keeps the plan that the day goes
by, if the job has one. An open session of the same job refuses a second one.` +
			"\n\nExit: 0 open, 1 failed, 2 wrong input, 4 the journal of an earlier session\nis damaged or newer.",
		Example: `  potlife start testdata/jobs/telescope-strut.yaml`,
		Args:    oneArgument("job file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return runStart(cmd, args[0], at, asJSON)
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "answer as JSON")
	cmd.Flags().StringVar(&at, "at", "", "`time` at which it started, such as 08:55; now if left out")
	return cmd
}

// withWarnings adds to a refusal what is to be known of the session that refuses.
func withWarnings(err error) error {
	var refusal *session.Refusal
	if !errors.As(err, &refusal) || len(refusal.Warnings) == 0 {
		return err
	}
	problem := append([]string{refusal.Problem}, report.Sentences(refusal.Warnings)...)
	return &session.Refusal{Problem: strings.Join(problem, "; "), Mend: refusal.Mend}
}

func runStart(cmd *cobra.Command, path, at string, asJSON bool) error {
	job, err := schedule.LoadJob(path)
	if err != nil {
		return wrong(err)
	}
	winding, err := schedule.Prepare(job)
	if err != nil {
		return wrong(err)
	}
	now := clock()
	when, err := schedule.ParseMoment("--at", at, now, job.Zone)
	if err != nil {
		return wrong(err)
	}
	copies := session.CopiesOf(winding)
	copies.Program = version().Version
	var unplanned []warning.Warning
	b := working(cmd, "planning")
	if copies.Plan, err = plannedAtStart(job, copies, when); err != nil {
		unplanned = append(unplanned, inforce.NotAsked{Problem: err.Error()}) // the day is logged all the same
	}
	b.done()
	copies.NoPlan = copies.Plan == nil && err == nil
	s, first, err := session.Start(job, copies, when, now)
	if err != nil {
		return sessionError(withWarnings(err))
	}
	defer s.Close()
	answer := report.NewLogged(s.Folder, first, nil, slices.Concat(winding.Warnings, unplanned))
	tellDoubts(cmd, answer.Warnings, false)
	if asJSON {
		return report.WriteJSON(cmd.OutOrStdout(), answer)
	}
	next := "potlife log mixed MASS"
	if filepath.Dir(s.Folder) != "." {
		next += " --session " + s.Folder
	}
	_, err = fmt.Fprintf(cmd.OutOrStdout(), "logged: %s is open, %d layers; next: %s\n", s.Folder, len(job.Layers), next)
	return err
}

// plannedAtStart is the plan of the job as its session will read it, nil where there is none.
func plannedAtStart(job *schedule.Job, copies session.Copies, when time.Time) (*session.Plan, error) {
	winding, err := replay.Fresh(job, copies, when)
	if err != nil {
		return nil, err
	}
	return inforce.Morning(winding)
}
