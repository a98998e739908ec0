package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/report"
	"potlife/cmd/potlife/internal/whole"
	"potlife/schedule"
	"potlife/schedule/batches"
)

// paperOptions are the files of a plan beside its answer.
type paperOptions struct{ chart, sheet, ics, csv string }

func (o *paperOptions) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&o.chart, "chart", "", "draw the bath's viscosity to this `file` (.svg, .png or .pdf)")
	f.StringVar(&o.sheet, "sheet", "", "write a page to hang up and tick off to this `file` (.html)")
	f.StringVar(&o.ics, "ics", "", "write an event with an alarm for every pot to this `file` (.ics)")
	f.StringVar(&o.csv, "csv", "", "write the tables pots.csv and layers.csv to this `folder`, new or with earlier ones")
}

// write writes the files that were asked for. One that cannot be written is wrong input,
// which gets no answer; a job without a plan gets its answer and no file, which might be
// followed.
func (o *paperOptions) write(answer *report.Plan, w *schedule.Winding, s *batches.Solution) error {
	if err := o.check(); err != nil {
		return wrong(err)
	}
	if o.chart != "" {
		if err := chartPlan(o.chart, answer, w, s); err != nil {
			return err
		}
	}
	if o.sheet+o.ics+o.csv == "" {
		return nil
	}
	if !answer.Feasible {
		for _, path := range []string{o.sheet, o.ics, o.csv} {
			if path != "" {
				answer.Warn(report.FileNotWritten{Path: path})
			}
		}
		return nil
	}
	if o.csv != "" {
		if err := writeTables(o.csv, answer.Tables()); err != nil {
			return err
		}
	}
	if o.sheet+o.ics == "" {
		return nil
	}
	papers := report.NewPapers(answer, w, s)
	if o.ics != "" {
		if err := o.writeCalendar(answer, papers); err != nil {
			return err
		}
	}
	if o.sheet == "" {
		return nil
	}
	content, err := papers.Sheet().Encode()
	if err != nil {
		return err
	}
	return unwritable(whole.Write(o.sheet, content))
}

func (o *paperOptions) writeCalendar(answer *report.Plan, papers *report.Papers) error {
	events := papers.Calendar(clock())
	if events == nil {
		answer.Warn(report.FileNotWritten{Path: o.ics, NoPot: true})
		return nil
	}
	content, err := events.Encode()
	if err != nil {
		return err
	}
	return unwritable(whole.Write(o.ics, content))
}

// check refuses endings that would mislead whoever opens the file, or replace a file of
// another kind.
func (o *paperOptions) check() error {
	for _, paper := range []struct{ flag, path, ending string }{{"--sheet", o.sheet, ".html"}, {"--ics", o.ics, ".ics"}} {
		if paper.path != "" && !strings.EqualFold(filepath.Ext(paper.path), paper.ending) {
			return fmt.Errorf("%s %s does not end in %s\n   give a name such as strut%s", paper.flag, paper.path, paper.ending, paper.ending)
		}
	}
	return nil
}
