package main

import (
	"fmt"

	"github.com/spf13/cobra"
)

func newSession() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "session",
		Short: "Copy a session, put a copy back, tables for a spreadsheet",
		Long: `session looks after the folders of sessions: copy makes a copy and checks it, restore
puts a copy back where a journal is damaged or lost, export writes tables for a
spreadsheet.` + "\n" + exitNoLimit,
		Example: `  potlife session copy --help`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return nil
			}
			return wrong(fmt.Errorf("unknown command %q for %q\n   write one of copy, restore, export", args[0], cmd.CommandPath()))
		},
		RunE: func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	cmd.AddCommand(newSessionCopy(), newSessionRestore(), newSessionExport())
	return cmd
}

// twoArguments asks for exactly two arguments of the kinds named.
func twoArguments(kinds string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) == 2 {
			return nil
		}
		return wrong(fmt.Errorf("%s takes %s, got %d arguments\n   write it like this: %s", cmd.CommandPath(), kinds, len(args), cmd.UseLine()))
	}
}
