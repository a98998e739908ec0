package session

import (
	"bytes"
	"path/filepath"

	"potlife/kinetics/warning"
	"potlife/resins"
)

// jobEndings are those of a job's file, which lies beside its session.
var jobEndings = []string{".yaml", ".yml"}

// JobWarnings are a [JobChanged]; none where the file of the job is as it was, is gone, or
// cannot be read.
func (s *Session) JobWarnings() []warning.Warning {
	folder, err := filepath.Abs(s.Folder) // it may be called .
	if err != nil || !called.MatchString(folder) {
		return nil
	}
	then, err := resins.ReadFile(filepath.Join(s.Folder, JobCopy), "job file")
	if err != nil {
		return nil // told by whoever reads it to wind it
	}
	changed := ""
	for _, ending := range jobEndings {
		file := called.ReplaceAllString(folder, "") + ending
		now, err := resins.ReadFile(file, "job file")
		if err != nil {
			continue
		}
		if bytes.Equal(now, then) {
			return nil
		}
		if changed == "" {
			changed = filepath.Base(file)
		}
	}
	if changed == "" {
		return nil
	}
	return []warning.Warning{JobChanged{File: changed}}
}
