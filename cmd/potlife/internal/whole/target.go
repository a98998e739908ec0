package whole

import (
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

// A Target is where a file is to be written.
type Target struct {
	Path  string
	Kind  Kind
	Force bool // replace also what is no earlier file of its kind
}

// A Refusal says why something that stands at a place is not replaced.
type Refusal struct {
	Problem, Mend string
	Changed       bool // a file of the kind, but for what somebody changed in it
}

// Error is both.
func (r *Refusal) Error() string { return r.Problem + "\n   " + r.Mend }

// What to do about it.
const (
	ofSession = "%s lies in a session, which keeps a record of its own under that name: nothing is written there"

	another = "name another file"
	orForce = another + ", or replace it with --force"
)

// Check refuses, with a [*Refusal], what Write would refuse: a place where something stands that
// is no earlier file of the kind. What only writing shows, such as a full disk, it leaves to
// Write; nothing is changed.
func (t Target) Check() error {
	_, err := t.resolve()
	return err
}

// resolve is the file that is replaced: where a link stands, the one that it leads to.
func (t Target) resolve() (string, error) {
	no := func(mend, format string, args ...any) (string, error) {
		return "", &Refusal{Problem: fmt.Sprintf(format, args...), Mend: mend}
	}
	if t.Path == "" || os.IsPathSeparator(t.Path[len(t.Path)-1]) {
		return no("add the name of a file", "%s names a folder", t.Path)
	}
	if t.Path == "-" {
		return no("name a file", "- is no file to write to")
	}
	path := t.Path
	info, err := os.Lstat(path)
	if err != nil {
		if record(path) {
			return no(another, ofSession, t.Path)
		}
		return path, nil // nothing stands there, or writing says what does
	}
	link := info.Mode()&fs.ModeSymlink != 0
	if link {
		info, err = os.Stat(t.Path)
	}
	if err == nil {
		if what := irregular(info.Mode()); what != "" {
			return no(another, "%s is %s and no file", t.Path, what)
		}
	}
	if err == nil && link {
		path, err = filepath.EvalSymlinks(t.Path)
	}
	if err != nil {
		return no(another, "%s is a link that leads to no file", t.Path)
	}
	if record(path) {
		return no(another, ofSession, t.Path)
	}
	if info.Size() == 0 && !beside(path) {
		return path, nil // nothing can be lost
	}
	is, err := t.compare(path, info.Size())
	switch {
	case err != nil:
		return no(another, "%s cannot be read, and may be no %s: %v", t.Path, bare(t.Kind.Name), cause(err))
	case is != same && beside(path):
		return no(another, "%s lies in a session and is not %s: nothing there is replaced", t.Path, t.Kind.Name)
	case t.Force:
		return path, nil
	case is == other:
		return no(orForce, "%s is there already and is not %s that potlife wrote", t.Path, t.Kind.Name)
	case is == changed:
		return "", &Refusal{Problem: t.Path + " was changed since potlife wrote it", Mend: orForce, Changed: true}
	case info.Mode().Perm()&0o222 == 0:
		return no(orForce, "%s is write-protected", t.Path)
	}
	return path, nil
}

// bare is a name without its article.
func bare(name string) string {
	_, rest, _ := strings.Cut(name, " ")
	return rest
}

// irregular names what is no file.
func irregular(mode fs.FileMode) string {
	switch {
	case mode.IsRegular():
		return ""
	case mode.IsDir():
		return "a folder"
	case mode&fs.ModeNamedPipe != 0:
		return "a named pipe"
	case mode&fs.ModeSocket != 0:
		return "a socket"
	case mode&fs.ModeDevice != 0:
		return "a device"
	}
	return "something special"
}

// largest is more than any file that the program writes.
const largest = 64 << 20

// compare reads what stands there.
func (t Target) compare(path string, size int64) (likeness, error) {
	if size > largest {
		return other, nil
	}
	f, err := os.Open(path)
	if err != nil {
		return other, err
	}
	defer f.Close()
	content, err := io.ReadAll(io.LimitReader(f, largest))
	return t.Kind.likeness(content), err
}

// journals are the names of files in which days are logged, damaged ones and parts included.
var journals = regexp.MustCompile(`(?i)^journal\b.*\.jsonl`)

// records are the names of files that a session keeps beside its journal and answers by.
var records = regexp.MustCompile(`(?i)^(job\.yaml|resin\.yaml|learned\.yaml|journal\.count|refused\.jsonl|board-token)$`)

// record tells whether a path is that of such a file, there or not: lessons that were written
// there, new ones or in the place of those it began with, would change what a day means.
func record(path string) bool {
	return records.MatchString(filepath.Base(path)) && beside(path)
}

// beside tells whether a file lies in the folder of a session, or is a journal itself: that is
// replaced for nobody, since what a crew logged is written nowhere else.
func beside(path string) bool {
	if journals.MatchString(filepath.Base(path)) {
		return true
	}
	entries, _ := os.ReadDir(filepath.Dir(path))
	for _, entry := range entries {
		if journals.MatchString(entry.Name()) {
			return true
		}
	}
	return false
}
