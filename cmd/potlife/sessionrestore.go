package main

import (
	"strings"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/report"
	"potlife/schedule/session"
)

func newSessionRestore() *cobra.Command {
	var leaveOut, asJSON bool
	cmd := &cobra.Command{
		Use:   "restore [COPY] FOLDER",
		Short: "Put a copy back where a session is damaged or lost",
		Long: `restore puts what a copy holds back into the folder of its session, or makes the folder
where it is lost. The copy is checked first, and is not changed.

A damaged journal gets its lines back from the copy and keeps all its own that are
sound: also those logged after the copy, if they follow on without a gap. What
stood there is kept beside it, as journal.damaged-1.jsonl. The new journal takes
its place in one step, once it reads back as it was written.

Where events are lost that the copy does not hold, restore refuses and lists what
would be left out. Take a later copy, or add --leave-out and log again what is
listed. The same goes for a copy that was logged into: with --leave-out its lines
are taken, and those of the session are listed to be logged again. Without a COPY
the session goes on from what is left of it before the first line that is lost.
A sound journal that holds all that the copy does is left as it is.` +
			"\n\nExit: 0 restored, 1 failed, 2 wrong input or nothing to restore, 4 the copy is damaged.",
		Example: `  potlife session restore strut-copy testdata/strut.session`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 1 {
				return nil
			}
			return twoArguments("a copy and the folder of the session, or the folder alone")(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 1 {
				args = []string{"", args[0]}
			}
			return runSessionRestore(cmd, args[0], args[1], leaveOut, asJSON)
		},
	}
	cmd.Flags().BoolVar(&leaveOut, "leave-out", false, "restore without the events that are lost or went another way than the copy")
	cmd.Flags().BoolVar(&asJSON, "json", false, "answer as JSON")
	return cmd
}

func runSessionRestore(cmd *cobra.Command, copied, folder string, leaveOut, asJSON bool) error {
	copied, folder = strings.TrimRight(copied, `/\`), strings.TrimRight(folder, `/\`)
	restored, err := session.Restore(copied, folder, leaveOut)
	if err != nil {
		return sessionError(err)
	}
	answer := report.NewSessionRestore(copied, restored)
	tellDoubts(cmd, answer.Warnings, false)
	if asJSON {
		return report.WriteJSON(cmd.OutOrStdout(), answer)
	}
	return answer.Text(page(cmd))
}
