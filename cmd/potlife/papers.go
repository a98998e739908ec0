package main

import (
	"errors"
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
type paperOptions struct {
	chart, sheet, ics, csv string
	force                  bool
}

func (o *paperOptions) flags(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVar(&o.chart, "chart", "", "draw the bath's viscosity to this `file` (.svg, .png or .pdf)")
	f.StringVar(&o.sheet, "sheet", "", "write a page to hang up and tick off to this `file` (.html)")
	f.StringVar(&o.ics, "ics", "", "write an event with an alarm for every pot to this `file` (.ics)")
	f.StringVar(&o.csv, "csv", "", "write the tables pots.csv and layers.csv to this `folder`, new or with earlier ones")
	forceFlag(cmd, &o.force)
}

func (o *paperOptions) target(path string, kind whole.Kind) whole.Target {
	return whole.Target{Path: path, Kind: kind, Force: o.force}
}

// check refuses endings that would mislead whoever opens the file, and what may not be replaced.
func (o *paperOptions) check() error {
	for _, paper := range []struct {
		flag, path, ending string
		kind               whole.Kind
	}{{"--sheet", o.sheet, ".html", whole.Sheet}, {"--ics", o.ics, ".ics", whole.Calendar}} {
		if paper.path == "" {
			continue
		}
		if !strings.EqualFold(filepath.Ext(paper.path), paper.ending) {
			return wrong(fmt.Errorf("%s %s does not end in %s\n   give a name such as strut%s", paper.flag, paper.path, paper.ending, paper.ending))
		}
		if err := mayWrite(o.target(paper.path, paper.kind)); err != nil {
			return err
		}
	}
	if o.chart != "" {
		if _, err := chartTarget(o.chart, o.force); err != nil {
			return err
		}
	}
	if o.csv != "" {
		return wrong(onlyTables(o.csv, (&report.Plan{}).Tables(), o.force))
	}
	return nil
}

// write writes the files that were asked for, each whatever becomes of the others; a job without
// a plan gets none, which might be followed.
func (o *paperOptions) write(answer *report.Plan, w *schedule.Winding, s *batches.Solution) error {
	if !answer.Feasible {
		if o.chart != "" {
			answer.Warn(report.ChartNotDrawn{Path: o.chart})
		}
		for _, path := range []string{o.sheet, o.ics, o.csv} {
			if path != "" {
				answer.Warn(report.FileNotWritten{Path: path})
			}
		}
		return nil
	}
	var failed []error
	if o.chart != "" {
		failed = append(failed, drawPlan(o.target(o.chart, whole.Chart(filepath.Ext(o.chart))), answer.ChartTitle(), w, s))
	}
	if o.csv != "" {
		failed = append(failed, writeTables(o.csv, answer.Tables(), o.force))
	}
	if o.sheet+o.ics == "" {
		return errors.Join(failed...)
	}
	papers := report.NewPapers(answer, w, s)
	if o.ics != "" {
		failed = append(failed, o.writeCalendar(answer, papers))
	}
	if o.sheet != "" {
		content, err := papers.Sheet().Encode()
		if err == nil {
			err = unwritten(o.target(o.sheet, whole.Sheet).Write(content))
		}
		failed = append(failed, err)
	}
	return errors.Join(failed...)
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
	return unwritten(o.target(o.ics, whole.Calendar).Write(content))
}
