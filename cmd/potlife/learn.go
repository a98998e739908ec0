package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/report"
	"potlife/cmd/potlife/internal/whole"
	"potlife/kinetics/warning"
	"potlife/schedule/learning"
	"potlife/schedule/session"
	"potlife/schedule/session/replay"
)

type learnOptions struct {
	out         string
	json, force bool
}

func newLearn() *cobra.Command {
	var o learnOptions
	cmd := &cobra.Command{
		Use:   "learn JOB or SESSION...",
		Short: "What past sessions teach the next plan",
		Long: `learn reads finished sessions, those of a job or those named, and tells the pick-up,
the reactivity of this hardener, the minutes that layers really take and what
stays in cups, each with its spread. Later sessions count more, and an odd one
cannot swing the lesson. With -o it writes a small file that a job may name:

    learned: ./strut.learned.yaml

plan, start and check then use it and say so.` +
			"\n\nExit: 0 done, 1 failed, 2 wrong input, 4 a journal is damaged or newer.",
		Example: `  potlife learn testdata/sessions/strut.session
  potlife learn testdata/sessions/strut.session -o strut.learned.yaml
  potlife learn testdata/sessions/strut.yaml --json`,
		RunE: func(cmd *cobra.Command, args []string) error { return runLearn(cmd, &o, args) },
	}
	cmd.Flags().StringVarP(&o.out, "out", "o", "", "write the lessons to this `file`")
	forceFlag(cmd, &o.force)
	cmd.Flags().BoolVar(&o.json, "json", false, "answer as JSON")
	return cmd
}

func runLearn(cmd *cobra.Command, o *learnOptions, args []string) error {
	lessons := whole.Target{Path: o.out, Kind: whole.Lessons, Force: o.force}
	if o.out != "" {
		if err := mayWrite(lessons); err != nil {
			return err
		}
	}
	folders, err := finishedFolders(args)
	if err != nil {
		return err
	}
	var sessions []*learning.Session
	var others []warning.Warning
	b := working(cmd, "")
	defer b.done()
	for i, folder := range folders {
		b.count(i, len(folders), "sessions")
		one, other, err := observed(folder)
		if err != nil {
			return err
		}
		if len(sessions) > 0 && one.Resin != sessions[0].Resin {
			return wrong(fmt.Errorf("%s is a session with %s, %s one with %s\n   learn each resin from its own sessions",
				sessions[0].Folder, sessions[0].Resin, folder, one.Resin))
		}
		sessions, others = append(sessions, one), append(others, other...)
	}
	learned := learning.Learn(sessions)
	b.done()
	answer := report.NewLearn(learned, sessions)
	answer.Warn(others...)
	var failed error
	if o.out != "" {
		learned.File = o.out
		if failed = unwritten(lessons.Write(learned.YAML())); failed == nil {
			answer.File = o.out
		}
	}
	tellDoubts(cmd, answer.Warnings, !o.json)
	if o.json {
		err = report.WriteJSON(cmd.OutOrStdout(), answer)
	} else {
		err = answer.Text(page(cmd))
	}
	return afterAnswer(err, failed, false)
}

// finishedFolders are the sessions named, or the finished ones of a job.
func finishedFolders(args []string) ([]string, error) {
	if len(args) == 0 {
		return nil, wrong(errors.New("learn needs a job file or the folders of sessions\n   write potlife learn strut.yaml, or potlife learn strut.session"))
	}
	if info, err := os.Stat(args[0]); len(args) > 1 || err != nil || info.IsDir() {
		folders := make([]string, len(args))
		for i, arg := range args {
			folders[i] = strings.TrimRight(arg, `/\`)
		}
		return folders, nil
	}
	stem := strings.TrimSuffix(args[0], filepath.Ext(args[0]))
	found, err := session.FindFinished(filepath.Dir(args[0]))
	if err != nil {
		return nil, sessionError(err)
	}
	var folders []string
	for _, past := range found {
		if strings.HasPrefix(filepath.Base(past.Folder), filepath.Base(stem)+".session") {
			folders = append(folders, past.Folder)
		}
	}
	if len(folders) == 0 {
		return nil, wrong(fmt.Errorf("%s has no finished session yet\n   finish one with potlife log finish, or name its folder", args[0]))
	}
	return folders, nil
}

// observed reads one finished session, and warns where another program began it.
func observed(folder string) (*learning.Session, []warning.Warning, error) {
	s, err := session.OpenFolder(folder)
	if err != nil {
		return nil, nil, sessionError(err)
	}
	defer s.Close() // only read
	journal, err := replay.Read(s)
	if err != nil {
		return nil, nil, sessionError(err)
	}
	if journal.Ended.IsZero() {
		return nil, nil, wrong(fmt.Errorf("%s is not finished\n   log finish in it first", folder))
	}
	one, err := learning.Observe(folder, journal)
	return one, s.BegunWith(version().Version), sessionError(err)
}
