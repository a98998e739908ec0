package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/report"
	"potlife/schedule/session"
)

type exportOptions struct {
	session, out, table string
	csv, json, force    bool
}

func newSessionExport() *cobra.Command {
	var o exportOptions
	cmd := &cobra.Command{
		Use:   "export [FOLDER]",
		Short: "Write a session as tables for a spreadsheet",
		Long: `export writes four tables to the folder that -o names: events.csv, pots.csv,
layers.csv and readings.csv. FOLDER is that of the session; if it is left out, the
only open session here, or else the only finished one. Headings end in their unit,
times are those of the job's zone with their offset. Events that were taken back
are in events.csv alone, with the event that took them back.

The tables are UTF-8 with commas; say so where the spreadsheet asks. A text that
begins like a formula gets an apostrophe before it, so that nothing is run.
The folder of -o is a new one, or holds nothing but earlier tables of a session,
which are replaced.` +
			"\n\nExit: 0 written, 1 failed, 2 wrong input, 4 journal damaged or newer.",
		Example: `  potlife session export testdata/sessions/strut.session --csv -o strut-tables
  potlife session export testdata/sessions/strut.session --csv --table pots`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 {
				return oneArgument("session")(cmd, args)
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error { return runSessionExport(cmd, &o, args) },
	}
	f := cmd.Flags()
	f.StringVar(&o.session, "session", "", "`folder` of the session, as for other commands")
	f.BoolVar(&o.csv, "csv", false, "as comma-separated values; the only form there is, so it may be left out")
	f.StringVarP(&o.out, "out", "o", "", "write the tables to this `folder`")
	f.StringVar(&o.table, "table", "", "print one `table` instead: "+strings.Join(report.SessionTables, ", "))
	forceFlag(cmd, &o.force)
	f.BoolVar(&o.json, "json", false, "answer as JSON: what was written")
	return cmd
}

func runSessionExport(cmd *cobra.Command, o *exportOptions, args []string) error {
	if err := o.check(args); err != nil {
		return wrong(err)
	}
	if o.out != "" {
		if err := onlyTables(o.out, (&report.Day{}).Tables(nil, time.UTC), o.force); err != nil {
			return wrong(err)
		}
	}
	s, err := openReported(o.session)
	if err != nil {
		return err
	}
	defer s.Close()
	tables, err := sessionTables(s)
	if err != nil {
		return err
	}
	if o.out != "" {
		if err := writeTables(o.out, tables, o.force); err != nil {
			return unwritable(err)
		}
	}
	answer := report.NewExport(s.Folder, o.out, tables, s.Report.Warnings())
	tellDoubts(cmd, answer.Warnings, false)
	switch {
	case o.table != "":
		content, err := tables[slices.Index(report.SessionTables, o.table)].CSV()
		if err == nil {
			_, err = cmd.OutOrStdout().Write(content)
		}
		return err
	case o.json:
		return report.WriteJSON(cmd.OutOrStdout(), answer)
	}
	return answer.Text(page(cmd))
}

// check reads the argument and refuses what cannot be meant.
func (o *exportOptions) check(args []string) error {
	if len(args) == 1 {
		if o.session != "" && o.session != args[0] {
			return fmt.Errorf("two sessions are named: %s and --session %s\n   name one", args[0], o.session)
		}
		o.session = args[0]
	}
	switch {
	case (o.out == "") == (o.table == ""):
		return fmt.Errorf("export takes a folder to write to, or one table to print\n   write -o FOLDER, or --table and one of %s", strings.Join(report.SessionTables, ", "))
	case o.table != "" && !slices.Contains(report.SessionTables, o.table):
		return fmt.Errorf("there is no table %q\n   write one of %s", o.table, strings.Join(report.SessionTables, ", "))
	case o.table != "" && o.json:
		return errors.New("--table prints a table, and --json what was written to -o\n   leave one out")
	}
	return nil
}

// sessionTables are the tables of the day so far.
func sessionTables(s *session.Session) ([]*report.CSVTable, error) {
	day, _, err := dayOf(s)
	if err != nil {
		return nil, err
	}
	setting, err := s.Setting()
	if err != nil {
		return nil, sessionError(err)
	}
	all, err := s.Events()
	if err != nil {
		return nil, sessionError(err)
	}
	return day.Tables(all, setting.Zone), nil
}
