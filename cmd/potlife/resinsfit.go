package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/report"
	"potlife/cmd/potlife/internal/whole"
	"potlife/resins"
	"potlife/resins/fit"
)

type fitOptions struct {
	out, chart  string
	json, force bool
}

func newResinsFit() *cobra.Command {
	var o fitOptions
	cmd := &cobra.Command{
		Use:   "fit FILE",
		Short: "A record from labels, data sheets and cup tests",
		Long: `fit reads a file of statements (pot lives, viscosities, gel times of films, degrees
of cure, glass temperatures, logs of cups with a thermometer) and moves the
nearest built-in system to where they want it. It says what each statement said,
what the record now says and what the other statements alone would have said,
which ones contradict each other, what they cannot tell, and how sure the record
is before and after. With -o it writes the record, which a job takes with the line

    resin: ./my-resin.yaml

resins new asks for the figures and writes such a file.` + "\n" + exitNoLimit,
		Example: `  potlife resins fit testdata/resins/club-epoxy-medium.yaml
  potlife resins fit testdata/resins/club-epoxy-medium.yaml -o my-resin.yaml
  potlife resins fit testdata/resins/club-epoxy-medium.yaml --chart cup.svg --json`,
		Args: oneArgument("file"),
		RunE: func(cmd *cobra.Command, args []string) error { return runFit(cmd, args[0], &o) },
	}
	cmd.Flags().StringVarP(&o.out, "out", "o", "", "write the record to this `file`")
	cmd.Flags().StringVar(&o.chart, "chart", "", "draw the cup logs and what the record says to this `file` (.svg, .png or .pdf)")
	forceFlag(cmd, &o.force)
	cmd.Flags().BoolVar(&o.json, "json", false, "answer as JSON")
	return cmd
}

func runFit(cmd *cobra.Command, path string, o *fitOptions) error {
	statements, prior, err := loadStatements(path)
	if err != nil {
		return err
	}
	if o.out != "" && sameFile(o.out, path) {
		return wrong(fmt.Errorf("-o %s is the file of the statements\n   give the record a file of its own: -o my-resin.yaml", o.out))
	}
	record := whole.Target{Path: o.out, Kind: whole.Record, Force: o.force}
	if o.out != "" {
		if err := mayWrite(record); err != nil {
			return err
		}
	}
	if o.chart != "" {
		if _, err := chartTarget(o.chart, o.force); err != nil {
			return err
		}
	}
	b := working(cmd, fmt.Sprintf("fitting %d statements", len(statements.List)))
	defer b.done()
	fitted, err := fit.FitSeen(statements, prior, func(p fit.Progress) {
		if p.Step > 0 {
			b.say(fmt.Sprintf("fitting %d statements, step %d", p.Statements, p.Step))
		} else {
			b.count(p.Judged, p.Statements, "statements")
		}
	})
	if err != nil {
		return fitError(err)
	}
	answer, err := report.NewFit(fitted)
	if err != nil {
		return err
	}
	b.done()
	var failed []error
	if o.chart != "" {
		answer.Charts, err = drawCups(o.chart, fitted, o.force)
		if errors.As(err, new(inputError)) {
			return err
		}
		failed = append(failed, err)
	}
	if o.out != "" {
		if err := unwritten(record.Write(fitted.Record.File())); err != nil {
			failed = append(failed, err)
		} else {
			answer.File = o.out
		}
	}
	tellDoubts(cmd, answer.Warnings, !o.json)
	if o.json {
		err = report.WriteJSON(cmd.OutOrStdout(), answer)
	} else {
		err = answer.Text(page(cmd))
	}
	return afterAnswer(err, errors.Join(failed...), false)
}

func loadStatements(path string) (*fit.Statements, *resins.Record, error) {
	statements, err := fit.Load(path)
	if err != nil {
		return nil, nil, wrong(err)
	}
	prior, err := resins.Load(statements.Like)
	var unknown *resins.UnknownSystem
	if errors.As(err, &unknown) {
		err = fmt.Errorf("%s: like: %w", path, err)
	}
	return statements, prior, wrong(err)
}

// fitError sorts why there is no fit: statements that no resin can have are for the user to mend.
func fitError(err error) error {
	var out *fit.OutOfRange
	var none *fit.NoRecord
	if errors.As(err, &out) || errors.As(err, &none) || errors.Is(err, fit.ErrNothing) {
		return wrong(err)
	}
	return err
}

// sameFile tells whether two paths are one file, which may not be there yet.
func sameFile(a, b string) bool {
	if filepath.Clean(a) == filepath.Clean(b) {
		return true
	}
	first, err := os.Stat(a)
	if err != nil {
		return false
	}
	second, err := os.Stat(b)
	return err == nil && os.SameFile(first, second)
}
