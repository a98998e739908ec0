package main

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/report"
	"potlife/schedule"
	"potlife/schedule/batches"
	"potlife/schedule/session"
	"potlife/schedule/session/advice"
	"potlife/schedule/session/hazard"
	"potlife/schedule/session/inforce"
	"potlife/schedule/session/replay"
)

type replanOptions struct {
	session, at, pause string
	json, take         bool
	papers             paperOptions
}

func newReplan() *cobra.Command {
	var o replanOptions
	cmd := &cobra.Command{
		Use:   "replan",
		Short: "The rest of the winding from here",
		Long: `replan plans what is left to wind from what is in the bath and in cups now, at the
pace of the day and with what the readings say of this resin: pots, refills and a
timeline as plan gives them, and what is different from the plan in force. While that
still keeps every limit and the reserve, it stands: another is shown only where it saves
a change of the bath, a layer on a gelled one or a pot. --take logs what is shown, so
that check, board and the next replan go by it.
--chart, --sheet, --ics and --csv write the files that plan writes, for the rest.` + "\n" + exitHelp[:len(exitHelp)-1] + ", 4 journal damaged or newer.",
		Example: `  potlife replan
  potlife replan --pause 20min
  potlife replan --sheet rest.html --ics rest.ics
  potlife replan --take
  potlife replan --json`,
		Args: noArgument,
		RunE: func(cmd *cobra.Command, _ []string) error { return runReplan(cmd, &o) },
	}
	f := cmd.Flags()
	f.StringVar(&o.session, "session", "", "`folder` of the session; the only open one here if left out")
	f.StringVar(&o.at, "at", "", "`time` to plan from, such as 14:05; last: of the last event; now if left out")
	f.StringVar(&o.pause, "pause", "", "plan from the end of a `pause` from then on, such as 15min")
	f.BoolVar(&o.take, "take", false, "log this plan as the one in force")
	o.papers.flags(cmd)
	f.BoolVar(&o.json, "json", false, "answer as JSON")
	return cmd
}

func runReplan(cmd *cobra.Command, o *replanOptions) error {
	if err := o.papers.check(); err != nil {
		return err
	}
	s, err := openSession(o.session)
	if err != nil {
		return err
	}
	defer s.Close()
	seen, err := s.Events()
	if err != nil {
		return sessionError(err)
	}
	b := working(cmd, "planning")
	defer b.done()
	played, stands, warnings, err := playedAt(s, o.at, o.pause, clock(), &morning{})
	if err != nil {
		return err
	}
	script := played.Script
	if script.Blind || hazard.Possible(played) {
		answer, err := advice.Now(played)
		if err != nil {
			return err
		}
		if script.Blind || len(answer.Hazards) > 0 {
			b.done()
			return o.dangerous(cmd, report.NewCheck(s.Folder, played, answer, stands, clock(), warnings))
		}
	}
	if script.Day.LastDone == len(script.Winding.Laid) {
		return wrong(errors.New("all layers are wound: there is nothing to plan\n   empty the bath, log left-over and finish"))
	}
	if finished, err := s.Finished(); o.take && (err != nil || finished) {
		return cmp.Or(err, wrong(errors.New("the session is finished: no plan is taken any more\n   leave out --take to look at one")))
	}
	asked := script.Winding.Job.Clock(script.Now).Add(-stands)
	if o.take {
		if err := o.unforeseen(seen, asked); err != nil {
			return err
		}
	}
	usable, err := played.Usable()
	if err != nil {
		return err
	}
	rest := played.Begun(usable)
	found, _ := advice.FindWarnings(played)
	rest.Warnings = slices.Concat(warnings, found)
	kept, err := inforce.Of(played, rest)
	if err != nil {
		return err
	}
	answer, solution, err := plannedBy(rest, func() (*batches.Solution, error) { return kept.Solve(played, rest) })
	if err != nil {
		return err
	}
	b.done()
	replan, err := o.compared(answer, s.Folder, rest, solution, script)
	if err != nil {
		return err
	}
	var take session.Event
	if o.take && answer.Feasible {
		if take, err = toTake(rest, asked, solution); err != nil {
			return err
		}
		// A sheet of a plan that is then refused would be hung up and followed.
		if err := takeError(s.TryAfter(len(seen), take)); err != nil {
			return err
		}
	}
	failed := o.papers.write(answer, rest, solution)
	switch {
	case take.Plan != nil && failed != nil: // the crew would go on by an older sheet
		failed = fmt.Errorf("%w\n   the plan is not taken: write the command again once the file can be written, or without it", failed)
	case take.Plan != nil:
		logged, err := s.LogAfter(len(seen), take)
		if err != nil {
			return takeError(err)
		}
		replan.Taken = &logged
	}
	tellDoubts(cmd, answer.Warnings, !o.json)
	if o.json {
		err = report.WriteJSON(cmd.OutOrStdout(), replan)
	} else {
		err = replan.Text(page(cmd))
	}
	return afterAnswer(err, failed, !answer.Feasible)
}

// dangerous says what comes before any plan.
func (o *replanOptions) dangerous(cmd *cobra.Command, check *report.Check) error {
	none := report.NoReplan(check)
	var err error
	if o.json {
		err = report.WriteJSON(cmd.OutOrStdout(), none)
	} else {
		err = none.Text(page(cmd))
	}
	if err == nil {
		err = errLimit
	}
	return err
}

// compared is the answer beside the plan in force.
func (o *replanOptions) compared(answer *report.Plan, folder string, rest *schedule.Winding, solution *batches.Solution, script *replay.Script) (*report.Replan, error) {
	var now *session.Plan
	if solution.Plan != nil {
		var err error
		if now, err = inforce.Keep(rest, solution, session.Taken); err != nil {
			return nil, err
		}
	}
	return report.NewReplan(answer, folder, script, now), nil
}

// unforeseen refuses to take a plan from a moment after which more happened: the plan does not
// know of it, and would still be the one in force after it.
func (o *replanOptions) unforeseen(all []session.Event, asked time.Time) error {
	for _, e := range session.Active(all) {
		if !e.At.After(asked) || e.Kind == session.Note || e.Kind == session.Weighed || e.Kind == session.Planned {
			continue
		}
		at := e.At.In(asked.Location())
		return wrong(fmt.Errorf("e%d, %s at %s, came after %s: a plan from then does not know of it and is not taken\n   leave out --at, or take back what came after",
			e.Seq, e.Kind, at.Format("15:04:05"), asked.Format("15:04:05")))
	}
	return nil
}

// toTake is the event that makes a plan the one in force from the moment that was asked about.
func toTake(rest *schedule.Winding, asked time.Time, solution *batches.Solution) (session.Event, error) {
	plan, err := inforce.Keep(rest, solution, session.Taken)
	return session.Event{Kind: session.Planned, At: asked, Logged: clock(), Plan: plan}, err
}

func takeError(err error) error {
	if errors.Is(err, session.ErrOvertaken) {
		return wrong(errors.New("others have logged meanwhile: the plan is not taken\n   write it again: potlife replan --take"))
	}
	return sessionError(err)
}
