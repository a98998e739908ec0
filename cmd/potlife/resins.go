package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/report"
	"potlife/resins"
	"potlife/resins/catalogue"
)

func newResins() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "resins",
		Short: "List, show, check and fit resin records",
		Long: `resins works with the built-in systems and with records of your own: new asks for
what is known of a resin, fit makes a record of it, cooling tells what heat a bath
loses.` + "\n" + exitNoLimit,
		Example: `  potlife resins list
  potlife resins show epoxy-ipda`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return nil
			}
			return unknownCommand{fmt.Errorf("unknown command %q for %q\n   write one of list, show, check, new, fit, cooling", args[0], cmd.CommandPath())}
		},
		RunE: func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	cmd.AddCommand(newResinsList(), newResinsShow(), newResinsCheck(), newResinsNew(), newResinsFit(), newResinsCooling())
	return cmd
}

func newResinsList() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use: "list", Short: "List the built-in systems and fibres",
		Long:    "list names the built-in systems and fibres and says what they rest on." + "\n" + exitNoLimit,
		Example: "  potlife resins list",
		Args:    noArgument,
		RunE: func(cmd *cobra.Command, _ []string) error {
			answer, err := listed()
			if err != nil {
				return err
			}
			if asJSON {
				return report.WriteJSON(cmd.OutOrStdout(), answer)
			}
			return answer.Text(page(cmd))
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "answer as JSON")
	return cmd
}

func listed() (*report.Catalogue, error) {
	var records []*resins.Record
	for _, name := range catalogue.Systems() {
		r, err := resins.Load(name)
		if err != nil {
			return nil, err
		}
		records = append(records, r)
	}
	var fibres []resins.Fibre
	for _, name := range catalogue.Fibres() {
		f, _, err := resins.LoadFibre(name)
		if err != nil {
			return nil, err
		}
		fibres = append(fibres, f)
	}
	return report.NewCatalogue(records, fibres), nil
}

func newResinsShow() *cobra.Command {
	var asJSON, why bool
	cmd := &cobra.Command{
		Use: "show NAME", Short: "Show a record and what it rests on",
		Long:    "show prints a built-in system, or the record in a file, with the evidence of each block;\nwith --why each value with its range, what it rests on and its source." + "\n" + exitNoLimit,
		Example: "  potlife resins show epoxy-ipda\n  potlife resins show epoxy-ipda --why\n  potlife resins show epoxy-teta --json",
		Args:    oneArgument("system or record"),
		RunE: func(cmd *cobra.Command, args []string) error {
			record, err := resins.Load(args[0])
			if err != nil {
				return wrong(err)
			}
			answer := report.NewRecord(record)
			tellDoubts(cmd, answer.Warnings, !asJSON)
			if asJSON {
				return report.WriteJSON(cmd.OutOrStdout(), answer)
			}
			if why {
				return answer.Why(page(cmd))
			}
			return answer.Text(page(cmd))
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "answer as JSON")
	cmd.Flags().BoolVar(&why, "why", false, "each value with its evidence, range and source")
	return cmd
}

func newResinsCheck() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use: "check FILE", Short: "Check a record of your own",
		Long: `check reads a record as every command does and reports all its faults at once,
each with its place and its mend.` + "\n" + exitNoLimit,
		Example: "  potlife resins check testdata/resins/club-epoxy-slow.yaml",
		Args:    oneArgument("file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			name := args[0]
			if !resins.IsPath(name) {
				name = "./" + name
			}
			record, err := resins.Load(name)
			if err != nil {
				return wrong(err)
			}
			answer := report.NewRecord(record)
			tellDoubts(cmd, answer.Warnings, false)
			if asJSON {
				return report.WriteJSON(cmd.OutOrStdout(), answer)
			}
			return answer.Sound(page(cmd), args[0])
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "answer as JSON")
	return cmd
}
