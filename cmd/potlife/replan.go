package main

import (
	"errors"
	"slices"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/report"
	"potlife/schedule/session/advice"
)

type replanOptions struct {
	session, at, pause string
	json               bool
	papers             paperOptions
}

func newReplan() *cobra.Command {
	var o replanOptions
	cmd := &cobra.Command{
		Use:   "replan",
		Short: "The rest of the winding from here",
		Long: `replan plans what is left to wind from what is in the bath and in cups now, at the
pace of the day and with what the readings say of this resin: pots, refills and a
timeline as plan gives them, and what is different from the plan of the morning.
--chart, --sheet, --ics and --csv write the files that plan writes, for the rest.` + "\n" + exitHelp[:len(exitHelp)-1] + ", 4 journal damaged or newer.",
		Example: `  potlife replan
  potlife replan --pause 20min
  potlife replan --sheet rest.html --ics rest.ics
  potlife replan --json`,
		Args: noArgument,
		RunE: func(cmd *cobra.Command, _ []string) error { return runReplan(cmd, &o) },
	}
	f := cmd.Flags()
	f.StringVar(&o.session, "session", "", "`folder` of the session; the only open one here if left out")
	f.StringVar(&o.at, "at", "", "`time` to plan from, such as 14:05; now if left out")
	f.StringVar(&o.pause, "pause", "", "plan from the end of a `pause` from then on, such as 15min")
	o.papers.flags(cmd)
	f.BoolVar(&o.json, "json", false, "answer as JSON")
	return cmd
}

func runReplan(cmd *cobra.Command, o *replanOptions) error {
	s, err := openSession(o.session)
	if err != nil {
		return err
	}
	defer s.Close()
	played, _, warnings, err := playedAt(s, o.at, o.pause, clock())
	if err != nil {
		return err
	}
	script := played.Script
	if script.Day.LastDone == len(script.Winding.Laid) {
		return wrong(errors.New("all layers are wound: there is nothing to plan\n   empty the bath, log left-over and finish"))
	}
	// The plan of the morning is made again: the same job gives the same plan.
	morning := *script.Winding
	planned, err := morning.Solve()
	if err != nil {
		return err
	}
	usable, err := played.Usable()
	if err != nil {
		return err
	}
	rest := played.Begun(usable)
	found, _ := advice.FindWarnings(played)
	rest.Warnings = slices.Concat(warnings, found)
	answer, solution, err := plannedWinding(rest)
	if err != nil {
		return err
	}
	replan := report.NewReplan(answer, s.Folder, &morning, planned, script)
	if err := o.papers.write(answer, rest, solution); err != nil {
		return err
	}
	tellDoubts(cmd, answer.Warnings, !o.json)
	if o.json {
		err = report.WriteJSON(cmd.OutOrStdout(), replan)
	} else {
		err = replan.Text(page(cmd))
	}
	if err == nil && !answer.Feasible {
		return errLimit
	}
	return err
}
