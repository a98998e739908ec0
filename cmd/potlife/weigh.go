package main

import (
	"errors"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/report"
	"potlife/kinetics/warning"
	"potlife/schedule"
	"potlife/schedule/session"
	"potlife/schedule/session/advice"
	"potlife/schedule/session/replay"
	"potlife/schedule/session/scales"
	"potlife/schedule/weighing"
)

type weighOptions struct {
	session, at, target, band string
	log, json                 bool
}

func newWeigh() *cobra.Command {
	var o weighOptions
	cmd := &cobra.Command{
		Use:   "weigh",
		Short: "Fibre, resin and voids of the finished part",
		Long: `weigh tells from scales how much fibre and resin a finished part has, how sure
that is, where the resin went, and whether the part is dry, on target or rich.
Wherever two ways lead to the same figure, give both: they check each other.

With flags alone it needs the part and its fibre (--fibre, or --tow with --tex
and --tows, or --spool-before and --spool-after), or a coupon, or a wall, and
looks for no session. With --session, with --log, or without any weight, a session
gives the tow by the layers done, what was mixed, left in bath and cups, the
target, the densities, plies, and what was weighed and logged before; flags
replace and add. --log keeps the flags' weights in the session, not the target,
once they are found possible; the latest of each counts, log undo takes them back.
What is dry, rich or cannot be told is an answer, and ends with 0.` + "\n\nExit: 0 done, 1 failed, 2 wrong, missing or impossible input, 4 journal damaged or newer.",
		Example: `  potlife weigh --part 4520g --mandrel 3200g --tow 250m --tex 800tex --tows 4 --mixed 640g --left-over 55g --target '62 % by mass'
  potlife weigh --coupon 2.034g --residue 1.261g --balance 1mg --air 5.012g --water 1.660g --fibre-density 1.80g/cm³ --resin-density 1.20g/cm³
  potlife weigh --part 1534g --fibre 951g --json`,
		Args: noArgument,
		RunE: func(cmd *cobra.Command, _ []string) error { return runWeigh(cmd, &o) },
	}
	f := cmd.Flags()
	f.StringVar(&o.session, "session", "", "`folder` of the session, open or finished")
	f.BoolVar(&o.log, "log", false, "keep the weights given in the session")
	f.StringVar(&o.at, "at", "", "with --log: `time` at which it was weighed, such as 14:05; last: of the last event; now if left out")
	addWeights(cmd)
	f.StringVar(&o.target, "target", "", "`fibre fraction` aimed at, such as '62 % by mass'")
	f.StringVar(&o.band, "band", "", "`percentage points` that it may be off; 2 % if left out")
	f.BoolVar(&o.json, "json", false, "answer as JSON")
	return cmd
}

func runWeigh(cmd *cobra.Command, o *weighOptions) error {
	given, err := readWeights(cmd)
	if err != nil {
		return wrong(err)
	}
	if err := o.refuse(given); err != nil {
		return wrong(err)
	}
	sheet := &scales.Sheet{}
	var day *weighedDay
	if o.session != "" || o.log || given.Empty() {
		if day, err = openWeighed(o.session); err != nil {
			if given.Empty() && o.session == "" {
				err = fmt.Errorf("%w\n   or give what was weighed, such as --part 1534g --fibre 951g", err)
			}
			return err
		}
		defer day.session.Close()
		sheet = day.sheet
	}
	sheet.Add(given)
	if sheet.Target, sheet.Band, err = readTarget(o.target, o.band); err != nil {
		return wrong(err)
	}
	answer, err := sheet.Weigh()
	if err != nil {
		return impossibleWeight(cmd, day != nil, err)
	}
	var kept session.Event
	if o.log {
		if kept, err = day.log(o.at, given); err != nil {
			return err
		}
	}
	told := report.NewWeigh(answer, day.folder(), kept, slices.Concat(day.warnings(), day.at(o.at, kept)), day.caution())
	tellDoubts(cmd, told.Warnings, !o.json)
	if o.json {
		return report.WriteJSON(cmd.OutOrStdout(), told)
	}
	return told.Text(page(cmd))
}

// refuse refuses flags that say nothing together.
func (o *weighOptions) refuse(given session.Weights) error {
	switch {
	case o.log && given.Empty():
		return errors.New("--log: there is nothing to keep\n   give what was weighed, such as --part 1534g")
	case o.at != "" && !o.log:
		return errors.New("--at is when something was weighed that is logged\n   add --log, or leave it out")
	}
	return nil
}

// A weighedDay is the session of a part; nil where there is none.
type weighedDay struct {
	session *session.Session
	journal *replay.Journal
	sheet   *scales.Sheet
}

func openWeighed(folder string) (*weighedDay, error) {
	s, err := openSession(folder)
	if err != nil {
		return nil, err
	}
	d := &weighedDay{session: s}
	if d.journal, err = replay.Read(s); err == nil {
		d.sheet, err = scales.Of(d.journal.Winding, d.journal.Events)
	}
	if err != nil {
		_ = s.Close() // only read
		return nil, sessionError(err)
	}
	return d, nil
}

// log keeps weights; when it returns them, they are on the disk.
func (d *weighedDay) log(at string, given session.Weights) (session.Event, error) {
	now := clock()
	when, err := session.ReadAt(at, d.journal.Events, now, d.journal.Winding.Job.Zone)
	if err != nil {
		return session.Event{}, wrong(err)
	}
	kept, err := d.session.Log(session.Event{Kind: session.Weighed, At: when, Logged: now, Weights: &given})
	return kept, sessionError(err)
}

// at warns of the time that weights were logged with.
func (d *weighedDay) at(text string, kept session.Event) []warning.Warning {
	if kept.Seq == 0 {
		return nil
	}
	return schedule.ShownTwice(text, kept.At.In(d.journal.Winding.Job.Zone))
}

func (d *weighedDay) folder() string {
	if d == nil {
		return ""
	}
	return d.session.Folder
}

func (d *weighedDay) caution() string {
	if d == nil {
		return ""
	}
	return d.journal.Winding.Record.Caution
}

// warnings are those of the journal, and of what layers were wound with: a label that does not fit
// its record says nothing of weights.
func (d *weighedDay) warnings() []warning.Warning {
	if d == nil {
		return nil
	}
	return slices.Concat(d.session.BegunWith(version().Version), d.session.Report.Warnings(), d.offRatio())
}

// offRatio warns of layers wound off their ratio. Only a day with such a pot is played: scales ask
// nothing else of the resin, and what keeps it from being played does not keep them from weighing.
func (d *weighedDay) offRatio() []warning.Warning {
	script, err := d.journal.Script(d.journal.Until(), 0)
	if err != nil || !slices.ContainsFunc(script.Pots, func(p replay.Pot) bool { return script.OffRatio(&p) != 0 }) {
		return nil
	}
	played, err := script.Play()
	if err != nil {
		return nil
	}
	return layersOffRatio(played)
}

// layersOffRatio warns of them in a day that was played.
func layersOffRatio(p *replay.Played) []warning.Warning {
	if w := advice.OffRatioLayers(p); w != nil {
		return []warning.Warning{w}
	}
	return nil
}

// impossibleWeight names the flag of what cannot be true or is missing.
func impossibleWeight(cmd *cobra.Command, inSession bool, err error) error {
	var impossible *weighing.Impossible
	var missing *weighing.Missing
	switch {
	case errors.As(err, &impossible):
		name := flagOf(impossible.Input)
		if inSession && !cmd.Flags().Changed(name[2:]) {
			name = impossible.Input + ", as the session has it (" + name + " replaces it)"
		}
		return wrong(fmt.Errorf("%s: %s\n   %s", name, impossible.Problem, impossible.Mend))
	case errors.As(err, &missing):
		return wrong(fmt.Errorf("%s is missing\n   give %s", missing.What, missing.Mend(flagOf)))
	}
	return err
}
