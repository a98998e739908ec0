package main

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"potlife/cmd/potlife/internal/report"
	"potlife/cmd/potlife/internal/whole"
	"potlife/schedule/session"
	"potlife/schedule/session/advice"
	"potlife/schedule/session/replay"
	"potlife/schedule/session/scales"
)

type reportOptions struct {
	session, out string
	json, force  bool
}

func newReport() *cobra.Command {
	var o reportOptions
	cmd := &cobra.Command{
		Use:   "report [SESSION]",
		Short: "The day on one page",
		Long: `report writes what a session logged, against its plan, to one page that needs nothing
outside itself and prints to A4: layers, pots, the bath's course with what was read,
pauses, notes. SESSION is its folder; if it is left out, the only open session here, or
else the only finished one. The page is written beside the folder, as
SESSION-report.html, or to the file that -o names: .html, or .md for Markdown.` +
			"\n\nExit: 0 written, 1 failed, 2 wrong input, 4 journal damaged or newer.",
		Example: `  potlife report
  potlife report strut.session
  potlife report strut.session -o strut-day.md
  potlife report --json`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 {
				return oneArgument("session")(cmd, args)
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error { return runReport(cmd, &o, args) },
	}
	f := cmd.Flags()
	f.StringVar(&o.session, "session", "", "`folder` of the session, as for other commands")
	f.StringVarP(&o.out, "out", "o", "", "write to this `file` (.html or .md); with - Markdown goes to the terminal")
	forceFlag(cmd, &o.force)
	f.BoolVar(&o.json, "json", false, "answer as JSON; a page is then written only where -o names one")
	return cmd
}

func runReport(cmd *cobra.Command, o *reportOptions, args []string) error {
	if err := o.check(args); err != nil {
		return wrong(err)
	}
	s, err := openReported(o.session)
	if err != nil {
		return err
	}
	defer s.Close()
	out := o.out
	if out == "" && !o.json {
		if out, err = besideSession(s.Folder); err != nil {
			return err
		}
	}
	to := o.target(out)
	if out != "" && out != "-" {
		if err := mayWrite(to); err != nil {
			return err
		}
	}
	b := working(cmd, "following the day")
	defer b.done()
	day, course, err := dayOf(s)
	if err != nil {
		return err
	}
	b.done()
	tellDoubts(cmd, day.Warnings, false)
	stdout := cmd.OutOrStdout()
	if out == "-" {
		return day.Markdown(stdout)
	}
	var failed error
	if out != "" {
		if failed = writeDay(to, day, course); failed != nil {
			if o.out == "" && mayNot(failed) {
				failed = fmt.Errorf("%w with -o", failed) // the place was not named
			}
			out = ""
		}
	}
	if o.json {
		err = report.WriteJSON(stdout, day)
	} else {
		err = day.Text(page(cmd), out)
	}
	return afterAnswer(err, failed, false)
}

// target is the file of the page.
func (o *reportOptions) target(path string) whole.Target {
	kind := whole.DayMarkdown
	if strings.EqualFold(filepath.Ext(path), ".html") {
		kind = whole.DayPage
	}
	return whole.Target{Path: path, Kind: kind, Force: o.force}
}

// check reads the argument and refuses what cannot be meant.
func (o *reportOptions) check(args []string) error {
	if len(args) == 1 {
		if o.session != "" && o.session != args[0] {
			return fmt.Errorf("two sessions are named: %s and --session %s\n   name one", args[0], o.session)
		}
		o.session = args[0]
	}
	switch ending := strings.ToLower(filepath.Ext(o.out)); {
	case o.out == "" || ending == ".html" || ending == ".md":
		return nil
	case o.out == "-" && !o.json:
		return nil
	case o.out == "-":
		return errors.New("-o - and --json both write to the terminal\n   leave one out")
	}
	return fmt.Errorf("-o %s: no report has that ending\n   take .html or .md", o.out)
}

// openReported opens the session named, or the only open one here, or the only finished one.
func openReported(named string) (*session.Session, error) {
	if named != "" {
		return openSession(named)
	}
	found, err := session.FindOpen(".")
	if err != nil {
		return nil, sessionError(err)
	}
	for _, f := range found {
		if f.Session != nil {
			_ = f.Session.Close() // only looked at
		}
	}
	if len(found) > 0 {
		return openSession("") // the one, or the refusal that lists them
	}
	past, err := session.FindFinished(".")
	if err != nil {
		return nil, sessionError(err)
	}
	switch len(past) {
	case 0:
		return nil, noneOpen()
	case 1:
		return openSession(past[0].Folder)
	}
	names := make([]string, len(past))
	for i, p := range past {
		names[i] = p.Folder
	}
	return nil, wrong(fmt.Errorf("%d sessions are finished here: %s\n   name one: potlife report %s", len(past), strings.Join(names, ", "), names[0]))
}

// dayOf replays a session to its last event and holds it against its plan.
func dayOf(s *session.Session) (*report.Day, *replay.Course, error) {
	journal, err := replay.Read(s)
	if err != nil {
		return nil, nil, sessionError(err)
	}
	return dayUntil(s, journal, journal.Until())
}

// dayUntil is dayOf to another moment.
func dayUntil(s *session.Session, journal *replay.Journal, until time.Time) (*report.Day, *replay.Course, error) {
	setting, err := s.Setting()
	if err != nil {
		return nil, nil, sessionError(err)
	}
	script, err := journal.Script(until, 0)
	if err != nil {
		return nil, nil, sessionError(err)
	}
	played, err := script.Play()
	if err != nil {
		return nil, nil, err
	}
	course, err := played.Course(script.Moments(courseMoments))
	if err != nil {
		return nil, nil, err
	}
	_ = (&morning{}).derive(journal) // without it the day is shown without a plan
	sheet, err := scales.Of(journal.Winding, journal.Events)
	if err != nil {
		return nil, nil, sessionError(err)
	}
	weighed, ofPart, err := sheet.WeighIfPossible()
	if err != nil {
		return nil, nil, err
	}
	return report.NewDay(report.DaySource{
		Folder: s.Folder, Journal: journal, Played: played, Course: course, Setting: setting, Weighed: weighed,
		Warnings: slices.Concat(s.BegunWith(version().Version), journal.Winding.Warnings, s.Report.Warnings(), ofPart,
			setting.DayWarnings(journal.Events), layersOffRatio(played), advice.Unexplained(played, true)),
	}), course, nil
}

// courseMoments are how finely a day's course is drawn: as a plan's is.
const courseMoments = 320

// besideSession is the page's file where none is named.
func besideSession(folder string) (string, error) {
	if base := filepath.Base(folder); base == "." || base == ".." {
		whole, err := filepath.Abs(folder)
		if err != nil {
			return "", err
		}
		folder = whole
	}
	return filepath.Clean(folder) + "-report.html", nil
}

// writeDay replaces the file by the day as its ending says.
func writeDay(to whole.Target, day *report.Day, course *replay.Course) error {
	var content bytes.Buffer
	if strings.EqualFold(filepath.Ext(to.Path), ".html") {
		pictures, err := dayPictures(day, course)
		if err != nil {
			return err
		}
		if err := day.Page(&content, pictures); err != nil {
			return err
		}
	} else if err := day.Markdown(&content); err != nil {
		return err
	}
	return unwritten(to.Write(content.Bytes()))
}
