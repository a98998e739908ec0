package whole

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"syscall"
	"time"
)

// partName begins the name of a file that is being written. The machine and the process that
// write it follow.
const partName = ".writing-"

// part is how such a file is called; without machine and process it is one of an earlier version.
var part = regexp.MustCompile(`^` + regexp.QuoteMeta(partName) + `(?:([0-9a-f]{8})-([0-9]+)-)?[0-9a-f]+$`)

// Part tells whether a file is what another command is writing, or was when it was killed.
func Part(name string) bool { return part.MatchString(name) }

// abandoned is how old a part must be before it is taken for that of a command that was killed
// on another machine: to write one takes well under a second.
const abandoned = 10 * time.Minute

// host names this machine among those that share a folder.
func host() string {
	name, _ := os.Hostname() // all that have none are one
	sum := sha256.Sum256([]byte(name))
	return hex.EncodeToString(sum[:4])
}

// sweep removes what killed commands left in a folder. What does not go stands in nobody's way.
// Times are compared with that of the file that is being written, since a share has a clock of
// its own.
func sweep(folder string, now *os.File) {
	mine, err := now.Stat()
	if err != nil {
		return
	}
	entries, _ := os.ReadDir(folder)
	for _, entry := range entries {
		parts := part.FindStringSubmatch(entry.Name())
		if parts == nil || entry.Name() == mine.Name() {
			continue
		}
		info, err := entry.Info()
		if err != nil || !info.Mode().IsRegular() {
			continue
		}
		left := mine.ModTime().Sub(info.ModTime()) > abandoned
		if parts[1] == host() {
			left = !runs(parts[2])
		}
		if left {
			_ = os.Remove(filepath.Join(folder, entry.Name()))
		}
	}
}

// runs tells whether there is a process of that number; where nobody can tell, it runs.
func runs(number string) bool {
	pid, err := strconv.Atoi(number)
	if err != nil {
		return true
	}
	p, err := os.FindProcess(pid)
	if err != nil {
		return false // a system where only those are found that run
	}
	defer func() { _ = p.Release() }()
	return !errors.Is(p.Signal(syscall.Signal(0)), os.ErrProcessDone)
}
