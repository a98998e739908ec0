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
	var o startOptions
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
			return runStart(cmd, args[0], &o)
		},
	}
	f := cmd.Flags()
	f.StringVar(&o.at, "at", "", "`time` at which it started, such as 08:55; now if left out")
	f.BoolVar(&o.longAgo, "long-ago", false, "with --at: it did start more than 31 days ago")
	f.BoolVar(&o.json, "json", false, "answer as JSON")
	return cmd
}

type startOptions struct {
	at            string
	longAgo, json bool
}

// firstYear is before this program was written: a clock that shows an earlier one has lost its time.
const firstYear = 2020

// moment is when the session started. Whatever is logged after it is reckoned from it, so a slip of
// the year is asked about.
func (o *startOptions) moment(now time.Time, zone *time.Location) (time.Time, error) {
	if now.Year() < firstYear {
		return now, fmt.Errorf("this machine's clock says %s, which is before this program was written\n   set the clock, then start", now.In(zone).Format("2006-01-02 15:04"))
	}
	when, err := schedule.ParseMoment("--at", o.at, now, zone)
	if err != nil {
		return when, err
	}
	if ago := now.Sub(when); ago > session.LongestSilence && !o.longAgo {
		return when, fmt.Errorf("--at: %s was %.0f days ago by this machine's clock, %s\n   check the year, the month and the clock; if the session did start then, add --long-ago",
			when.Format("2006-01-02 15:04"), ago.Hours()/24, now.In(zone).Format("2006-01-02 15:04"))
	}
	return when, nil
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

func runStart(cmd *cobra.Command, path string, o *startOptions) error {
	job, err := schedule.LoadJob(path)
	if err != nil {
		return wrong(err)
	}
	winding, err := schedule.Prepare(job)
	if err != nil {
		return wrong(err)
	}
	now := clock()
	when, err := o.moment(now, job.Zone)
	if err != nil {
		return wrong(err)
	}
	copies := session.CopiesOf(winding)
	copies.Program = version().Version
	var unplanned []warning.Warning
	b := working(cmd, "planning")
	if copies.Plan, err = plannedAtStart(job, copies, when); err != nil {
		unplanned = append(unplanned, inforce.CannotAsk(1, err)) // the day is logged all the same
	}
	b.done()
	copies.NoPlan = copies.Plan == nil && err == nil
	s, first, err := session.Start(job, copies, when, now)
	if err != nil {
		return sessionError(withWarnings(err))
	}
	defer s.Close()
	answer := report.NewLogged(s.Folder, first, nil, slices.Concat(winding.Warnings, schedule.ShownTwice(o.at, when), unplanned))
	tellDoubts(cmd, answer.Warnings, false)
	if o.json {
		return report.WriteJSON(cmd.OutOrStdout(), answer)
	}
	next := "potlife log mixed MASS"
	if filepath.Dir(s.Folder) != "." {
		next += " --session " + s.Folder
	}
	return answer.StartText(page(cmd), next)
}

// plannedAtStart is the plan of the job as its session will read it, nil where there is none.
func plannedAtStart(job *schedule.Job, copies session.Copies, when time.Time) (*session.Plan, error) {
	winding, err := replay.Fresh(job, copies, when)
	if err != nil {
		return nil, err
	}
	return inforce.Morning(winding)
}
