package session

import (
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"potlife/kinetics/warning"
	"potlife/schedule"
)

// ending is what the folder of a session is called after; the second of a job has
// a number.
const ending = ".session"

// Copies are what a session keeps beside its job.
type Copies struct {
	Resin   []byte
	Learned []byte // nil: the job learned nothing
	Program string // version of the program that makes them; empty: it has none
	// Resolved tells that the resin's copy is calibrated to the job's label already, so
	// that the day replays the same whatever a later version makes of labels. Label are
	// the warnings that calibrating gave.
	Resolved bool
	Label    []warning.Warning
	// Plan is that of the morning; nil: the job has none, or nobody asked. NoPlan tells the former.
	Plan   *Plan
	NoPlan bool
}

// CopiesOf are those of a winding. A record that no label changed is kept as it was
// written.
func CopiesOf(w *schedule.Winding) Copies {
	c := Copies{Resin: w.Resolved.Source}
	if w.Job.HasLabel {
		c.Resin, c.Resolved, c.Label = w.Resolved.File(), true, w.Label
	}
	if w.Learned != nil {
		c.Learned = w.Learned.Source
	}
	return c
}

// Start makes the folder of a session beside the job's file, with copies of this and of
// the resin record, and logs its start. A folder of the same job that is
// not finished refuses a second one; after finished ones the next number is taken.
func Start(job *schedule.Job, copies Copies, at, now time.Time) (*Session, Event, error) {
	first, err := placed(nil, startOf(job, copies, at, now))
	if err != nil {
		return nil, Event{}, err
	}
	folder, err := freeFolder(strings.TrimSuffix(job.File, filepath.Ext(job.File)) + ending)
	if err != nil {
		return nil, Event{}, err
	}
	return establish(folder, copies.files(job.Source), first)
}

func (c Copies) files(job []byte) map[string][]byte {
	files := map[string][]byte{JobCopy: job, ResinCopy: c.Resin}
	if c.Learned != nil {
		files[LearnedCopy] = c.Learned
	}
	return files
}

// startOf is the first event of a session: it keeps what the copies leave to the
// place where they are read.
func startOf(job *schedule.Job, copies Copies, at, now time.Time) Event {
	e := Event{
		At: at, Logged: now, Kind: Started, Program: copies.Program, Format: Format, Job: job.Name, Layers: len(job.Layers),
		Zone: schedule.ZoneName(job.Zone, at), Resolved: copies.Resolved, LabelWarnings: keepLabel(copies.Label), Plan: copies.Plan, NoPlan: copies.NoPlan,
	}
	if f := job.Fibre; f.Density > 0 {
		e.Fibre = &Fibre{
			Name: f.Name, DensityKgM3: float64(f.Density), Tex: f.Tex.In("tex"), HeatCapacityJPerKgK: float64(f.HeatCapacity),
			AcrossWPerMK: float64(f.Conductivity),
		}
	}
	return e
}

// freeFolder is the first name that no session has, if all that have one are
// finished.
func freeFolder(stem string) (string, error) {
	for n := 1; ; n++ {
		folder := stem
		if n > 1 {
			folder += "-" + strconv.Itoa(n)
		}
		info, err := os.Stat(folder)
		if errors.Is(err, fs.ErrNotExist) {
			return folder, nil
		}
		if err == nil && !info.IsDir() {
			return "", refuse("move it away: the session's folder is to be called so", "%s is a file", folder)
		}
		if err := finishedIn(folder); err != nil {
			return "", err
		}
	}
}

// finishedIn refuses the session in a folder if it is open.
func finishedIn(folder string) error {
	earlier, err := OpenFolder(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return refuse("move it away: the session's folder is to be called so", "%s is a folder without %s", folder, Name)
	}
	if err != nil {
		return err
	}
	defer earlier.Close() // only read
	finished, err := earlier.Finished()
	if err != nil || finished {
		return err
	}
	r := refuse("log finish in it first, or use it with --session "+folder, "%s is open already", folder)
	r.Warnings = append(earlier.Report.Warnings(), earlier.JobWarnings()...)
	return r
}

// establish makes the folder of a session and opens it.
func establish(folder string, files map[string][]byte, first Event) (*Session, Event, error) {
	err := raise(folder, func(draft string) error { return fill(draft, files, first) })
	var refusal *Refusal
	if errors.As(err, &refusal) {
		return nil, Event{}, err
	}
	if err != nil {
		return nil, Event{}, noFolder(folder, err)
	}
	s, err := OpenFolder(folder)
	if err != nil {
		return nil, Event{}, err
	}
	first.Seq = 1
	return s, first, nil
}

// raise fills a temporary folder and renames it, so that a command that is killed leaves no
// half of a session.
func raise(folder string, fill func(draft string) error) error {
	draft := filepath.Join(filepath.Dir(folder), draftName+strconv.FormatUint(rand.Uint64(), 10))
	if err := os.Mkdir(draft, 0o777); err != nil { // less what the user's mask takes, as of all files here
		return err
	}
	defer os.RemoveAll(draft)
	// A file system's times are compared with one of its own: on a network share they may
	// come from another clock.
	if info, err := os.Stat(draft); err == nil {
		removeAbandoned(filepath.Dir(folder), info.ModTime().Add(-abandoned))
	}
	if err := fill(draft); err != nil {
		return err
	}
	if err := os.Rename(draft, folder); err != nil {
		if _, there := os.Stat(folder); there == nil {
			return refuse("use it with --session "+folder, "another command has just made %s", folder)
		}
		return err
	}
	return syncFolder(filepath.Dir(folder))
}

// noFolder says why there can be no folder beside the job; the name of the draft means
// nothing to whoever starts.
func noFolder(folder string, err error) error {
	var failed *Failed
	if errors.As(err, &failed) {
		err = failed.Err
	}
	var inner *fs.PathError
	if errors.As(err, &inner) {
		err = inner.Err
	}
	beside := filepath.Dir(folder)
	if whole, unknown := filepath.Abs(beside); unknown == nil {
		beside = whole
	}
	if refusesWrites(err) {
		return refuse("copy the job to a folder of your own", "no folder can be made beside the job, in %s: %v", beside, err)
	}
	then := "copy the job to another disk and start there"
	if fullDisk(err) {
		then = mend(err)
	}
	return fmt.Errorf("no folder can be made beside the job, in %s: %w\n   %s", beside, err, then)
}

// fill writes the copies and the journal.
func fill(draft string, files map[string][]byte, first Event) error {
	for name, content := range files {
		if err := writeSynced(filepath.Join(draft, name), content); err != nil {
			return err
		}
	}
	j, err := Create(draft)
	if err != nil {
		return err
	}
	if _, err := j.Append(func([]Entry) (any, error) { return first, nil }); err != nil {
		_ = j.Close()
		return err
	}
	return j.Close()
}

func writeSynced(path string, content []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	_, err = f.Write(content)
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}
