package main

import (
	"fmt"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/report"
	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/schedule"
	"potlife/schedule/session"
	"potlife/schedule/session/advice"
	"potlife/schedule/session/replay"
)

type checkOptions struct {
	session, at, pause string
	json, watch        bool
	morning            morning
}

func newCheck() *cobra.Command {
	var o checkOptions
	cmd := &cobra.Command{
		Use:   "check",
		Short: "What is left now, and what to do",
		Long: `check replays the open session and says how much working life the bath has left,
likely and surely, how long its resin lasts, which limit ends it, which layers fit
into it, and what to do: carry on, top up, change, or stop at the end of this circuit.
A pot or a bath that is dangerous comes before all that, until what became of it is
logged; then clocks that differ, where events lie ahead of this machine's. Logged bath temperatures and viscosities sharpen the answer.` + "\n" + exitHelp[:len(exitHelp)-1] + ", 4 journal damaged or newer.",
		Example: `  potlife check
  potlife check --pause 15min
  potlife check --at last
  potlife check --json`,
		Args: noArgument,
		RunE: func(cmd *cobra.Command, _ []string) error { return runCheck(cmd, &o) },
	}
	f := cmd.Flags()
	f.StringVar(&o.session, "session", "", "`folder` of the session; the only open one here if left out")
	f.StringVar(&o.at, "at", "", "`time` to answer for, such as 14:05, passed or to come; last: of the last event; now if left out")
	f.StringVar(&o.pause, "pause", "", "answer for after a `pause` from then on, such as 15min")
	f.BoolVar(&o.watch, "watch", false, "keep a large display on the terminal, with a bell")
	f.BoolVar(&o.json, "json", false, "answer as JSON; with --watch one object a line")
	return cmd
}

func runCheck(cmd *cobra.Command, o *checkOptions) error {
	s, err := openWithResin(o.session)
	if err != nil {
		return err
	}
	defer s.Close()
	if o.watch {
		return watch(cmd, s.Folder, o)
	}
	b := working(cmd, "checking")
	defer b.done()
	answer, err := checked(s, o, clock())
	if err != nil {
		return err
	}
	b.done()
	if o.json {
		err = report.WriteJSON(cmd.OutOrStdout(), answer)
	} else {
		err = answer.Text(page(cmd))
	}
	tellDoubts(cmd, answer.Warnings, !o.json) // on a terminal the order comes first
	if err == nil && answer.Over() {
		return errLimit
	}
	return err
}

// checked replays a session and answers for the moment asked about.
func checked(s *session.Session, o *checkOptions, now time.Time) (*report.Check, error) {
	played, pause, warnings, err := playedAt(s, o.at, o.pause, now, &o.morning)
	if err != nil {
		return nil, err
	}
	answer, err := advice.Now(played)
	if err != nil {
		return nil, err
	}
	return report.NewCheck(s.Folder, played, answer, pause, now, warnings), nil
}

// playedAt replays a session to a moment, told as a flag, and a pause after it.
func playedAt(s *session.Session, at, pause string, now time.Time, m *morning) (*replay.Played, time.Duration, []warning.Warning, error) {
	script, stands, warnings, err := scriptAt(s, at, pause, now, m)
	if err != nil {
		return nil, 0, nil, err
	}
	played, err := script.Play()
	return played, stands, warnings, err
}

// scriptAt is what happened up to a moment, and after it in a pause.
func scriptAt(s *session.Session, at, pause string, now time.Time, m *morning) (*replay.Script, time.Duration, []warning.Warning, error) {
	journal, err := replay.Read(s)
	if err != nil {
		return nil, 0, nil, sessionError(err)
	}
	ofDay := journal.Now(now) // a time of day is one of that day
	when, err := session.ReadAt(at, journal.Events, ofDay, journal.Winding.Job.Zone)
	if err != nil {
		return nil, 0, nil, wrong(err)
	}
	if at != "" && when.Before(journal.Started) {
		return nil, 0, nil, wrong(fmt.Errorf("--at: %s lies before the start of the session, %s\n   give a later time, or --at last for the time of the last event",
			when.Format("2006-01-02 15:04"), journal.Started.Format("2006-01-02 15:04")))
	}
	if err := tooLate(journal, when); err != nil {
		return nil, 0, nil, wrong(err)
	}
	_ = m.derive(journal) // without it the search is asked, as where the job has no plan
	stands, err := readPause(pause)
	if err != nil {
		return nil, 0, nil, wrong(err)
	}
	script, err := journal.AsOf(when, at != "", now, stands)
	if err != nil {
		return nil, 0, nil, sessionError(err)
	}
	return script, stands, slices.Concat(sessionWarnings(s, journal), schedule.ShownTwice(at, when)), nil
}

// sessionWarnings are those of the winding and of the session's files. A job that was changed
// after the session was finished is of another day.
func sessionWarnings(s *session.Session, journal *replay.Journal) []warning.Warning {
	warnings := slices.Concat(s.BegunWith(version().Version), journal.Winding.Warnings, s.Report.Warnings())
	if journal.Ended.IsZero() {
		warnings = append(warnings, s.JobWarnings()...)
	}
	return warnings
}

// tooLate refuses a moment long after the last event: a slip of the date, or a session
// that was never finished.
func tooLate(journal *replay.Journal, when time.Time) error {
	last := journal.Started
	for i := range journal.Events {
		if at := journal.Events[i].At; at.After(last) && !at.After(when) {
			last = at
		}
	}
	silence := when.Sub(last)
	if silence <= session.LongestSilence {
		return nil
	}
	return fmt.Errorf("%s lies %.0f days after the last event of the session, of %s\n   give --at a time of that day, or finish the session: potlife log finish",
		when.Format("2006-01-02 15:04"), silence.Hours()/24, last.Format("2006-01-02 15:04"))
}

// shortestPause is one that a clock shows, longestPause more than any bath outlives.
const (
	shortestPause quantity.Time = 1
	longestPause  quantity.Time = 48 * 3600
)

func readPause(text string) (time.Duration, error) {
	if text == "" {
		return 0, nil
	}
	t, err := quantity.Parse[quantity.Time](text)
	if err != nil {
		return 0, fmt.Errorf("--pause: %w", err)
	}
	if !(t >= shortestPause && t <= longestPause) {
		return 0, fmt.Errorf("--pause: %s is no pause to wait for\n   write one like 15min, two days at most", text)
	}
	return time.Duration(float64(t) * float64(time.Second)), nil
}
