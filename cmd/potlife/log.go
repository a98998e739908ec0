package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"potlife/cmd/potlife/internal/report"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/schedule"
	"potlife/schedule/session"
	"potlife/schedule/session/advice"
	"potlife/schedule/session/inforce"
	"potlife/schedule/session/replay"
)

type logOptions struct {
	session, at, resin, hardener, temp string
	lots                               []string
	json                               bool
}

func newLog() *cobra.Command {
	var o logOptions
	cmd := &cobra.Command{
		Use:   "log [EVENT [VALUE]]",
		Short: "Log what happens: mixed, poured, begun, done, a pause, a reading",
		Long: `log writes one event into the journal of the open session; when it says "logged",
the event is on the disk. Mistakes are taken back by undo, never by editing. Without an
event it writes nothing and lists what was logged. Events are called e2, e3 in the order
logged, and pots 1, 2, 3 in the order mixed: a number once given stays. Where an event makes
the plan in force break a limit, log plans the rest anew, logs that plan as well, and says
what comes next; undo of the event takes the plan back with it.

  mixed MASS, or mixed --resin MASS --hardener MASS; --temp TEMPERATURE of the mix,
                     which then counts for today's other mixes, too;
                     --lot resin=NAME,expires=2027-03, once for each lot
  poured [POT]       a pot by its number, or by its event such as e4; the oldest that
                     stands mixed if none is named
  begin [LAYER]      the next layer if none is named
  done [LAYER]
  pause REASON, resume [WORDS]
  bath-temp TEMPERATURE, room TEMPERATURE
  flow-cup CUP TIME  cups: ` + strings.Join(resins.FlowCups(), ", ") + `
  viscosity VALUE
  changed            the bath is dumped and wiped
  spread [POT|bath]  it lies thin in a tray; thrown-out [POT|bath], it was taken away;
                     cured [POT|bath], it has set and is cold
  left-over MASS     what was left in the bath
  finish             a layer in hand is given up: only its share counts as wound
  note TEXT, undo [EVENT], such as undo e4` + "\n\nExit: 0 logged, 1 failed, 2 wrong input or an impossible order, 4 journal damaged or newer.",
		Example: `  potlife log mixed --resin 193g --hardener 46.3g --lot resin=R2217,expires=2027-03
  potlife log poured
  potlife log
  potlife log bath-temp 24.5C
  potlife log pause tow broke`,
		RunE: func(cmd *cobra.Command, args []string) error { return runLog(cmd, &o, args) },
	}
	cmd.SetFlagErrorFunc(signed)
	f := cmd.Flags()
	f.StringVar(&o.session, "session", "", "`folder` of the session; the only open one here if left out")
	f.StringVar(&o.at, "at", "", "`time` at which it happened, such as 14:05, or '02:30 +0100' where the clock shows it twice; last: of the last event; now if left out")
	f.StringVar(&o.resin, "resin", "", "mixed: `mass` of resin as weighed")
	f.StringVar(&o.hardener, "hardener", "", "mixed: `mass` of hardener as weighed")
	f.StringVar(&o.temp, "temp", "", "mixed: `temperature` of the mix in its cup")
	f.StringArrayVar(&o.lots, "lot", nil, "mixed: `lot` of a part, with its last day or month: resin=R2217,expires=2027-03")
	f.BoolVar(&o.json, "json", false, "answer as JSON")
	return cmd
}

// negative is a figure with a sign, which flags take for one of theirs.
var negative = regexp.MustCompile(`^-[.,]?[0-9]`)

// signed tells a figure below nought, after the event that it was said of, from a flag that
// does not exist.
func signed(cmd *cobra.Command, err error) error {
	var unknown *pflag.NotExistError
	said := cmd.Flags().Args()
	if !errors.As(err, &unknown) || len(said) == 0 {
		return flagError(cmd, err)
	}
	figure := "-" + unknown.GetSpecifiedShortnames()
	if !negative.MatchString(figure) {
		return flagError(cmd, err)
	}
	switch session.Kind(said[0]) {
	case session.Mixed, session.LeftOver:
		return wrong(fmt.Errorf("%s is no mass: a mass cannot be negative\n   weigh it again, and write it without a sign", figure))
	case session.BathTemp, session.Room:
		return wrong(fmt.Errorf("%s is taken for a flag, for its sign\n   write it after two dashes: potlife log %s -- %s", figure, said[0], figure))
	}
	return wrong(fmt.Errorf("%s: %s takes nothing negative\n   see potlife log --help", figure, said[0]))
}

func runLog(cmd *cobra.Command, o *logOptions, args []string) error {
	open := openSession
	if aboutResin(args) {
		open = openWithResin
	}
	s, err := open(o.session)
	if err != nil {
		return err
	}
	defer s.Close()
	setting, err := s.Setting()
	if err != nil {
		return sessionError(err)
	}
	standing, err := s.Day()
	if err != nil {
		return sessionError(err)
	}
	all, err := s.Events()
	if err != nil {
		return sessionError(err)
	}
	if len(args) == 0 && o.at+o.resin+o.hardener+o.temp == "" && o.lots == nil {
		return o.list(cmd, s, setting.Zone)
	}
	event, err := session.Read(setting, session.Told{
		Words: args, At: o.at, Resin: o.resin, Hardener: o.hardener, Temperature: o.temp, Lots: o.lots, Now: clock(), Day: standing, Events: all,
	})
	if err != nil {
		return wrong(err)
	}
	if event, err = s.LogSeen(len(all), event); err != nil {
		return sessionError(err)
	}
	return o.confirm(cmd, s, setting, event)
}

// list shows what was logged so far.
func (o *logOptions) list(cmd *cobra.Command, s *session.Session, zone *time.Location) error {
	all, err := s.Events()
	if err != nil {
		return sessionError(err)
	}
	warnings := slices.Concat(s.BegunWith(version().Version), s.Report.Warnings())
	if clocks, differ := session.Differ(all, clock()); differ {
		warnings = append(warnings, clocks)
	}
	answer := report.NewJournal(s.Folder, zone, all, warnings)
	tellDoubts(cmd, answer.Warnings, false)
	if o.json {
		return report.WriteJSON(cmd.OutOrStdout(), answer)
	}
	return answer.Text(page(cmd))
}

// confirm says that an event is on the disk, and then what becomes of the plan: a crew must not
// wait for a search to know what is logged.
func (o *logOptions) confirm(cmd *cobra.Command, s *session.Session, setting session.Setting, event session.Event) error {
	day, err := s.Day()
	if err != nil {
		return sessionError(err)
	}
	all, err := s.Events()
	if err != nil {
		return sessionError(err)
	}
	warnings := slices.Concat(schedule.ShownTwice(o.at, event.At.In(setting.Zone)), setting.Warnings(session.WithLastDay(event, all), day), setting.Twice(event, all), replayWarnings(s, event), s.Report.Warnings())
	if clocks, differ := session.Differ(all, clock()); differ {
		warnings = append(warnings, clocks) // and no plan is made
	}
	answer := report.NewLogged(s.Folder, event, all, warnings)
	tellDoubts(cmd, answer.Warnings, false)
	if !o.json {
		if err := answer.Text(page(cmd)); err != nil {
			return err
		}
	}
	renewal := inforce.Renew(s, event, clock(), (&morning{}).derive, advice.Dangers)
	if renewal.Logged() { // by figures of this version
		renewal.Warnings = slices.Concat(s.BegunWith(version().Version), renewal.Warnings)
	}
	answer.Renewed(&renewal).Warn(renewal.Warnings...)
	tellDoubts(cmd, report.Sentences(renewal.Warnings), false)
	if o.json {
		return report.WriteJSON(cmd.OutOrStdout(), answer)
	}
	return answer.PlanText(page(cmd))
}

// replayWarnings hold a left-over or a finish against the day. What cannot be read for them is
// told by check: the event is logged.
func replayWarnings(s *session.Session, event session.Event) []warning.Warning {
	check := map[session.Kind]func(*replay.Journal, session.Event) ([]warning.Warning, error){
		session.LeftOver: (*replay.Journal).CheckLeftOver, session.Finish: (*replay.Journal).CheckFinish,
	}[event.Kind]
	if check == nil {
		return nil
	}
	journal, err := replay.Read(s)
	if err != nil {
		return nil
	}
	warnings, err := check(journal, event)
	if err != nil {
		return nil
	}
	return warnings
}

// openSession opens the session named, or the only open one here.
func openSession(named string) (*session.Session, error) {
	if named != "" {
		s, err := session.OpenFolder(strings.TrimRight(named, `/\`))
		return s, sessionError(err)
	}
	found, err := session.FindOpen(".")
	if err != nil {
		return nil, sessionError(err)
	}
	if len(found) == 1 {
		return found[0].Session, sessionError(found[0].Err)
	}
	names := make([]string, len(found))
	for i, f := range found {
		names[i] = f.Folder
		if f.Err != nil {
			names[i] += " (cannot be read)"
		}
		if f.Session != nil {
			_ = f.Session.Close() // only looked at
		}
	}
	if len(found) == 0 {
		return nil, &nothingOpen{noneOpen()}
	}
	return nil, wrong(fmt.Errorf("%d sessions are open here: %s\n   name one with --session", len(found), strings.Join(names, ", ")))
}

// openWithResin is [openSession], or where none is open the one session finished of late that left
// resin: that is not over yet.
func openWithResin(named string) (*session.Session, error) {
	s, err := openSession(named)
	var none *nothingOpen
	if !errors.As(err, &none) {
		return s, err
	}
	switch left, _ := session.FindLeft(".", clock()); len(left) {
	case 0:
		return nil, err
	case 1:
		return openSession(left[0])
	default:
		return nil, wrong(fmt.Errorf("%d finished sessions here have resin left: %s\n   name one with --session", len(left), strings.Join(left, ", ")))
	}
}

// nothingOpen is the error where no session is open.
type nothingOpen struct{ error }

// Unwrap is the error in full.
func (n *nothingOpen) Unwrap() error { return n.error }

// aboutResin tells whether an event can be about what a finished session left.
func aboutResin(args []string) bool {
	if len(args) == 0 {
		return false
	}
	kind := session.Kind(args[0])
	return kind.Removes() || kind == session.LeftOver || kind == session.Changed
}

// mostPast is how many finished sessions are named to someone who finds none open.
const mostPast = 3

// noneOpen is the error where no session is open here; it names those that were.
func noneOpen() error {
	here, _ := os.Getwd() // only for the message
	past, err := session.FindFinished(".")
	if err != nil {
		return sessionError(err)
	}
	if len(past) == 0 {
		return wrong(fmt.Errorf("no session is open in %s\n   write potlife start JOB, or name its folder with --session", here))
	}
	var names []string
	for _, p := range past[:min(len(past), mostPast)] {
		names = append(names, p.Folder)
	}
	list := strings.Join(names, ", ")
	if more := len(past) - len(names); more > 0 {
		list += fmt.Sprintf(" and %d more", more)
	}
	last := past[0]
	return wrong(fmt.Errorf("no session is open in %s; finished: %s\n"+
		"   write potlife start JOB for a new one; to look at a finished one add --session %s;\n"+
		"   if it was finished too early, potlife log undo e%d --session %s opens it again",
		here, list, last.Folder, last.Finish.Seq, last.Folder))
}

// sessionError sorts what a journal or a session refuses by who can mend it.
func sessionError(err error) error {
	var refusal *session.Refusal
	if errors.As(err, &refusal) || errors.Is(err, fs.ErrNotExist) || mayNot(err) {
		return wrong(err)
	}
	return err
}
