package main

import (
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/report"
	"potlife/kinetics/quantity"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/resins/fit"
	"potlife/schedule"
)

type worktimeOptions struct {
	resin, mass, vessel, room, from, limits, datasheet string
	json                                               bool
}

func newWorktime() *cobra.Command {
	var o worktimeOptions
	cmd := &cobra.Command{
		Use:   "worktime",
		Short: "How long this much resin lasts in this vessel",
		Long: `worktime follows resin that stands in a vessel from the minute it is mixed: when
its viscosity has doubled, when it can no longer be used and why, when it gels,
and how hot it gets; how much of it cannot run away there, and how long a mass
that can may be left, in 9 of 10 baths, until the limit of temperature or gel.
No tow runs, so that only a drum that turns always, drum: {turns: always}, stirs it:
what stands still ends by its hottest place. A cup stands on wood unless stands_on
or floor_loss says otherwise, or wall_loss was measured.` + "\n" + exitHelp,
		Example: `  potlife worktime --resin epoxy-ipda --mass 250g --vessel '{cup: 90 mm}' --room 22C
  potlife worktime --resin epoxy-ipda --mass 500g --room 24C --from 20C --vessel '{length: 300 mm, width: 180 mm, drum: {turns: always}, surface_loss: 10 W/(m²·K), wall_loss: 6 W/(m²·K)}' --json`,
		Args: noArgument,
		RunE: func(cmd *cobra.Command, _ []string) error { return runWorktime(cmd, &o) },
	}
	f := cmd.Flags()
	f.StringVar(&o.resin, "resin", "", "built-in `system`, or the path of a record")
	f.StringVar(&o.mass, "mass", "", "`mass` mixed, such as 250g")
	f.StringVar(&o.vessel, "vessel", "", "`mapping` like bath in a job, as text or @file")
	f.StringVar(&o.room, "room", "", "room `temperature`, such as 22C")
	f.StringVar(&o.from, "from", "", "resin `temperature` once mixed; the room's if left out, and a drill adds 3 K or more")
	f.StringVar(&o.limits, "limits", "", "`mapping` like limits in a job, as text or @file")
	f.StringVar(&o.datasheet, "datasheet", "", "`mapping` like datasheet in a job, as text or @file")
	f.BoolVar(&o.json, "json", false, "answer as JSON")
	return cmd
}

func runWorktime(cmd *cobra.Command, o *worktimeOptions) error {
	b := working(cmd, "following the resin")
	defer b.done()
	standing, warnings, err := o.parse()
	if err != nil {
		return wrong(err)
	}
	lasting, err := standing.Last()
	if err != nil {
		return err
	}
	b.done()
	lasting.Warnings = append(warnings, lasting.Warnings...)
	answer := report.NewWorktime(standing, lasting)
	tellDoubts(cmd, answer.Warnings, !o.json)
	if o.json {
		err = report.WriteJSON(cmd.OutOrStdout(), answer)
	} else {
		err = answer.Text(page(cmd))
	}
	if err == nil && answer.Over() {
		return errLimit
	}
	return err
}

func (o *worktimeOptions) parse() (*schedule.Standing, []warning.Warning, error) {
	for _, needed := range []struct{ flag, value, example string }{
		{"resin", o.resin, "epoxy-ipda"}, {"mass", o.mass, "250g"}, {"vessel", o.vessel, "'{cup: 90 mm}'"}, {"room", o.room, "22C"},
	} {
		if needed.value == "" {
			return nil, nil, fmt.Errorf("worktime needs --%s\n   write it like this: --%s %s", needed.flag, needed.flag, needed.example)
		}
	}
	s := &schedule.Standing{}
	var err error
	var warnings []warning.Warning
	if s.Record, err = resins.Load(o.resin); err != nil {
		return nil, nil, err
	}
	s.Renamed = s.Record.Renamed
	if s.Mass, err = flagQuantity("--mass", o.mass, schedule.LeastMass, schedule.GreatestMass); err != nil {
		return nil, nil, err
	}
	if s.Room, err = flagQuantity("--room", o.room, schedule.Coldest, schedule.Hottest); err != nil {
		return nil, nil, err
	}
	if o.from != "" {
		if s.From, err = flagQuantity("--from", o.from, schedule.Coldest, schedule.Hottest); err != nil {
			return nil, nil, err
		}
	}
	if s.Bath, err = flagMapping("--vessel", o.vessel, &s.Renamed, schedule.ReadVessel); err != nil {
		return nil, nil, err
	}
	if o.limits != "" {
		if s.Limits, err = flagMapping("--limits", o.limits, &s.Renamed, schedule.ReadLimits); err != nil {
			return nil, nil, err
		}
	}
	if o.datasheet != "" {
		label, err := flagMapping("--datasheet", o.datasheet, &s.Renamed, schedule.ReadLabel)
		if err != nil {
			return nil, nil, err
		}
		c, err := fit.Calibrate(s.Record, label)
		if err != nil {
			return nil, nil, err
		}
		s.Record, s.Misfit, warnings = c.Record, c.Misfit, slices.Concat(c.Warnings, c.LeftOut)
	}
	return s, warnings, nil
}

// flagQuantity parses a flag and holds it to bounds that only a slip exceeds.
func flagQuantity[Q interface {
	quantity.Quantity
	fmt.Stringer
}](flag, text string, low, high Q) (Q, error) {
	q, err := quantity.Parse[Q](text)
	if err != nil {
		return 0, fmt.Errorf("%s: %w", flag, err)
	}
	if !(q >= low && q <= high) {
		return 0, fmt.Errorf("%s: %v is out of reach\n   give a value from %v to %v", flag, q, low, high)
	}
	return q, nil
}

// flagMapping reads a flag that holds a mapping, or names a file of one, and adds the
// keys that have names of before.
func flagMapping[T any](flag, text string, renamed *[]warning.Warning, read func(flag, text string) (T, []warning.Warning, error)) (T, error) {
	source, err := textOrFile(text)
	if err != nil {
		var none T
		return none, fmt.Errorf("%s: %w", flag, err)
	}
	name := flag
	if source != text {
		name = text[1:]
	}
	value, found, err := read(name, source)
	*renamed = slices.Concat(*renamed, found)
	return value, err
}
