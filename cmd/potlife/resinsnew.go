package main

import (
	"bytes"
	"errors"
	"os"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/interview"
	"potlife/cmd/potlife/internal/report"
	"potlife/cmd/potlife/internal/whole"
	"potlife/resins"
)

type newOptions struct {
	out, answers string
	json         bool
}

func newResinsNew() *cobra.Command {
	var o newOptions
	cmd := &cobra.Command{
		Use:   "new",
		Short: "Ask for what is known of a resin, for resins fit",
		Long: `new asks for the figures of a label, a data sheet or a cup test one by one and
writes the file of statements that resins fit reads. Enter passes a question over,
- drops the statement in hand; an answer that cannot be is asked for again. A file
that is there already is replaced only after a yes. Answers may come from a pipe, or
with --answers from a file, a line each.` + "\n" + exitNoLimit,
		Example: `  potlife resins new --answers testdata/resins/answers.txt -o club.statements.yaml`,
		Args:    noArgument,
		RunE:    func(cmd *cobra.Command, _ []string) error { return runNew(cmd, &o) },
	}
	cmd.Flags().StringVarP(&o.out, "out", "o", "", "write to this `file`; NAME.statements.yaml if left out")
	cmd.Flags().StringVar(&o.answers, "answers", "", "take the answers from this `file`, a line each, instead of asking")
	cmd.Flags().BoolVar(&o.json, "json", false, "answer as JSON; the questions go to stderr as always")
	return cmd
}

func runNew(cmd *cobra.Command, o *newOptions) error {
	asker := interview.New(cmd.InOrStdin(), pageOn(cmd.ErrOrStderr()))
	if o.answers != "" {
		source, err := resins.ReadFile(o.answers, "file of answers")
		if err != nil {
			return wrong(err)
		}
		asker = interview.NewFrom(o.answers, bytes.NewReader(source))
	}
	out := o.out
	resin, err := asker.Ask(func(name string) error {
		if out == "" {
			out = name + ".statements.yaml"
		}
		return mayReplace(asker, out)
	})
	if err != nil {
		return wrong(err)
	}
	if err := whole.Write(out, resin.File()); err != nil {
		return unwritable(err)
	}
	answer := report.NewInterview(out, resin.Name, resin.Statements(), resin.Warnings)
	if o.answers != "" { // nobody was there to be told
		tellDoubts(cmd, answer.Warnings, false)
	}
	if o.json {
		return report.WriteJSON(cmd.OutOrStdout(), answer)
	}
	return answer.Text(page(cmd))
}

// mayReplace asks before a file is replaced.
func mayReplace(asker *interview.Asker, path string) error {
	if _, err := os.Lstat(path); err != nil {
		return nil // it is not there, or writing it will tell
	}
	yes, err := asker.Yes(path + " is there already; replace it")
	if err == nil && !yes {
		err = errors.New(path + " is left as it is\n   name another file with -o")
	}
	return err
}
