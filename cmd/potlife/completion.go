package main

import (
	"github.com/spf13/cobra"
)

// completeOne completes the only argument of a command from a list.
func completeOne(list func(*cobra.Command) []string) cobra.CompletionFunc {
	return func(cmd *cobra.Command, args []string, _ string) ([]cobra.Completion, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return list(cmd), cobra.ShellCompDirectiveNoFileComp
	}
}
