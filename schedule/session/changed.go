package session

import (
	"bytes"
	"path/filepath"

	"potlife/resins"
)

// jobEndings are those of a job's file, which lies beside its session.
var jobEndings = []string{".yaml", ".yml"}

// JobChanged is what a crew must hear where the file of the job is no longer what the
// session copied: the day goes by the copy, so that it can be replayed. It is empty where
// the file is as it was, is gone, or cannot be read.
func (s *Session) JobChanged() string {
	folder, err := filepath.Abs(s.Folder) // it may be called .
	if err != nil || !called.MatchString(folder) {
		return ""
	}
	then, err := resins.ReadFile(filepath.Join(s.Folder, JobCopy), "job file")
	if err != nil {
		return "" // told by whoever reads it to wind it
	}
	changed := ""
	for _, ending := range jobEndings {
		file := called.ReplaceAllString(folder, "") + ending
		now, err := resins.ReadFile(file, "job file")
		if err != nil {
			continue
		}
		if bytes.Equal(now, then) {
			return ""
		}
		if changed == "" {
			changed = filepath.Base(file)
		}
	}
	if changed == "" {
		return ""
	}
	return changed + " has changed since the start; this session winds its copy of then: log finish and start again to wind the new one"
}
