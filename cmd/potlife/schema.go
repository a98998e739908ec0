package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/report"
	"potlife/cmd/potlife/internal/whole"
	"potlife/resins"
	"potlife/resins/document"
	"potlife/resins/document/schema"
	"potlife/resins/fit"
	"potlife/schedule"
	"potlife/schedule/cure"
)

// A fileKind is one kind of files that a person writes.
type fileKind struct {
	name, title string
	table       func() document.Field
}

// fileKinds in the order in which a crew meets them.
var fileKinds = []fileKind{
	{"job", "job file of potlife", schedule.JobTable},
	{"statements", "statements about a resin, for potlife resins fit", fit.Table},
	{"resin", "resin record of potlife", resins.Table},
	{"cooling", "cooling tests of a bath, for potlife resins cooling", fit.CoolingTable},
	{"program", "oven program, for potlife cure --program", cure.ProgramTable},
	{"lessons", "lessons of finished sessions, from potlife learn", schedule.LearnedTable},
}

func fileKindNames() []string {
	names := make([]string, len(fileKinds))
	for i, k := range fileKinds {
		names[i] = k.name
	}
	return names
}

type schemaOptions struct {
	out         string
	json, force bool
}

func newSchema() *cobra.Command {
	var o schemaOptions
	cmd := &cobra.Command{
		Use:   "schema [KIND]",
		Short: "What an editor needs to check and complete a file as it is written",
		Long: `schema writes the JSON Schema of a kind of files: job, statements, resin, cooling,
program or lessons; without a kind it lists them. An editor that knows JSON Schema then
completes keys and choices, tells what they mean, and marks unknown keys, missing ones,
and quantities without a unit or with that of something else. Ranges, and whatever ties
several keys together, only the program checks.` + "\n" + exitNoLimit,
		Example: `  potlife schema
  potlife schema job
  potlife schema job -o job.schema.json`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 {
				return oneArgument("kind of files")(cmd, args)
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error { return runSchema(cmd, &o, args) },
	}
	cmd.Flags().StringVarP(&o.out, "out", "o", "", "write the schema to this `file`")
	forceFlag(cmd, &o.force)
	cmd.Flags().BoolVar(&o.json, "json", false, "answer as JSON, which a schema is")
	return cmd
}

func runSchema(cmd *cobra.Command, o *schemaOptions, args []string) error {
	if len(args) == 0 {
		return o.list(cmd)
	}
	for _, kind := range fileKinds {
		if kind.name != args[0] {
			continue
		}
		text, err := schema.Of(kind.title, kind.table())
		if err != nil {
			return err
		}
		if o.out == "" {
			_, err := cmd.OutOrStdout().Write(text)
			return err
		}
		to := whole.Target{Path: o.out, Kind: whole.Schema, Force: o.force}
		if err := mayWrite(to); err != nil {
			return err
		}
		if err := to.Write(text); err != nil {
			return unwritable(err)
		}
		answer := report.NewSchema(kind.name, kind.title, o.out)
		if o.json {
			return report.WriteJSON(cmd.OutOrStdout(), answer)
		}
		return answer.Text(page(cmd))
	}
	return wrong(fmt.Errorf("there is no kind of files called %s\n   write one of %s", args[0], strings.Join(fileKindNames(), ", ")))
}

// list tells which kinds there are.
func (o *schemaOptions) list(cmd *cobra.Command) error {
	if o.out != "" {
		return wrong(fmt.Errorf("-o %s: which kind of files is meant is missing\n   write potlife schema job -o %s, or one of %s", o.out, o.out, strings.Join(fileKindNames(), ", ")))
	}
	answer := &report.Schemas{Kinds: []report.Schema{}}
	for _, kind := range fileKinds {
		answer.Kinds = append(answer.Kinds, *report.NewSchema(kind.name, kind.title, ""))
	}
	if o.json {
		return report.WriteJSON(cmd.OutOrStdout(), answer)
	}
	return answer.Text(page(cmd))
}
