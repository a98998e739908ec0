package session

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	"github.com/gofrs/flock"
)

// draftName begins the name of a folder that a start is filling.
const draftName = ".starting-"

// removal is added to its name by a start that is about to remove it.
const removal = "-removed"

// drafted is how such a folder is called.
var drafted = regexp.MustCompile(`^` + regexp.QuoteMeta(draftName) + `[0-9]+(` + removal + `)?$`)

// abandoned is how old the folder of a start must be before it is taken for that
// of one that was killed: a start takes well under a second.
const abandoned = 10 * time.Minute

// removeAbandoned removes what killed starts have left in a folder before the time
// given. What does not go is left to the next start: it stands in nobody's way.
func removeAbandoned(folder string, before time.Time) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return
	}
	for _, entry := range entries {
		info, err := entry.Info()
		if err != nil || !info.IsDir() || !drafted.MatchString(entry.Name()) || !info.ModTime().Before(before) {
			continue
		}
		draft := filepath.Join(folder, entry.Name())
		if !onlyDrafted(draft) || inUse(draft) {
			continue
		}
		// A start that was merely asleep finds its folder gone and fails; were the
		// files removed where they are, it could still make half a session of them.
		removed := strings.TrimSuffix(draft, removal) + removal
		if removed == draft || os.Rename(draft, removed) == nil {
			_ = os.RemoveAll(removed)
		}
	}
}

// onlyDrafted tells whether a folder holds nothing that a start does not write.
func onlyDrafted(draft string) bool {
	entries, err := os.ReadDir(draft)
	return err == nil && !slices.ContainsFunc(entries, func(e os.DirEntry) bool {
		return !slices.Contains([]string{JobCopy, ResinCopy, LearnedCopy, Name, CountName, lockName}, e.Name())
	})
}

// inUse tells whether a process holds the lock of the journal.
func inUse(draft string) bool {
	path := filepath.Join(draft, lockName)
	if _, err := os.Stat(path); err != nil {
		return false // killed before there was a journal
	}
	lock := flock.New(path, flock.SetPermissions(0o644))
	free, err := lock.TryLock()
	_ = lock.Unlock() // the system takes it off otherwise
	return err != nil || !free
}
