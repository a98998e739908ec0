package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/interview"
	"potlife/cmd/potlife/internal/report"
	"potlife/cmd/potlife/internal/whole"
	"potlife/resins"
)

type newOptions struct {
	out, answers string
	json, force  bool
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
	forceFlag(cmd, &o.force)
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
	to := whole.Target{Path: o.out, Kind: whole.Statements, Force: o.force}
	resin, err := asker.Ask(func(name string) error {
		if to.Path == "" {
			to.Path = name + ".statements.yaml"
		}
		return mayReplace(asker, &to)
	})
	if err != nil {
		return wrong(err)
	}
	if err := to.Write(resin.File()); err != nil {
		// Whoever answered all questions is not to answer them again.
		fmt.Fprintf(pageOn(cmd.ErrOrStderr()), "\n%s\n", resin.File())
		return unwritable(err)
	}
	answer := report.NewInterview(to.Path, resin.Name, resin.Statements(), resin.Warnings)
	if o.answers != "" { // nobody was there to be told
		tellDoubts(cmd, answer.Warnings, false)
	}
	if o.json {
		return report.WriteJSON(cmd.OutOrStdout(), answer)
	}
	return answer.Text(page(cmd))
}

// mayReplace asks before a file of statements is replaced; whoever says yes replaces also one that
// was changed by hand.
func mayReplace(asker *interview.Asker, to *whole.Target) error {
	if _, err := os.Stat(to.Path); err != nil || to.Force {
		return to.Check()
	}
	changed := ""
	if err := to.Check(); err != nil {
		var refusal *whole.Refusal
		if !errors.As(err, &refusal) || !refusal.Changed {
			return err
		}
		changed = " and was changed since it was written"
	}
	yes, err := asker.Yes(to.Path + " is there already" + changed + "; replace it")
	if err == nil && !yes {
		err = errors.New(to.Path + " is left as it is\n   name another file with -o")
	}
	to.Force = true
	return err
}
