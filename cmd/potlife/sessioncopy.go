package main

import (
	"strings"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/report"
)

func newSessionCopy() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "copy FOLDER TO",
		Short: "Copy a session to another disk and check the copy",
		Long: `copy writes the journal of a session, its job, its resin record and its lessons
to the new folder TO; where TO is a folder already, into it, under the name of the
session. Every file is read back and compared byte by byte, and the checksums of
the journal are checked, before the copy has its name: a command that is killed
leaves no half of a copy. A second copy to the same place brings the first one up
to date. Whatever else stands there is left as it is, and refused.

A damaged journal is not copied, so that it takes no good copy's place: restore
puts it right first. Other files in the folder, photos say, are not copied.
Eject a stick before you pull it out: the system may still be writing.` +
			"\n\nExit: 0 copied and checked, 1 failed, 2 wrong input, 4 journal damaged or newer.",
		Example: `  potlife session copy strut.session strut-copy`,
		Args:    twoArguments("the folder of a session and where to copy it"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return runSessionCopy(cmd, args[0], args[1], asJSON)
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "answer as JSON")
	return cmd
}

func runSessionCopy(cmd *cobra.Command, folder, to string, asJSON bool) error {
	s, err := openSession(folder)
	if err != nil {
		return err
	}
	defer s.Close()
	copied, err := s.CopyTo(strings.TrimRight(to, `/\`))
	if err != nil {
		return sessionError(err)
	}
	answer := report.NewSessionCopy(s, copied)
	tellDoubts(cmd, answer.Warnings, false)
	if asJSON {
		return report.WriteJSON(cmd.OutOrStdout(), answer)
	}
	return answer.Text(page(cmd))
}
