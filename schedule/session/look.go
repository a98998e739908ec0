package session

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
)

// besides are the files that a session keeps beside its journal.
var besides = []string{JobCopy, ResinCopy, LearnedCopy}

// largestFile is more than any file of a session holds: memory is not to depend on the size
// that a broken file claims.
const largestFile = 16 << 20

// allFiles are all files of a session, the journal first.
func allFiles() []string { return append(append([]string{Name}, besides...), CountName) }

// readFiles reads the files of a session that are in a folder, as they are, and the count before
// the journal: who logs meanwhile counts after it.
func readFiles(folder string) (map[string][]byte, error) {
	found := map[string][]byte{}
	for _, name := range slices.Backward(allFiles()) {
		path := filepath.Join(folder, name)
		content, err := readWhole(path)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return nil, &Failed{Doing: "read", Path: path, Err: err}
		}
		if len(content) > largestFile {
			return nil, refuse("move it away, and run the command again", "%s is larger than any file of a session", path)
		}
		found[name] = content
	}
	return found, nil
}

// readWhole reads a file, and no more than one byte too many.
func readWhole(path string) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, largestFile+1))
}

// look reads and checks the session in a folder as it lies there: unlike [OpenFolder] it takes
// no lock, since a copy may be the last one. The session can be asked and
// not logged into.
func look(folder string) (*Session, map[string][]byte, error) {
	if info, err := os.Stat(folder); err == nil && !info.IsDir() {
		return nil, nil, refuse("name the folder of a session", "%s is a file", folder)
	}
	files, err := readFiles(folder)
	if err != nil {
		return nil, nil, err
	}
	text, there := files[Name]
	if !there {
		return nil, nil, noSession{fmt.Sprintf("%s is not the folder of a session: it has no %s", folder, Name)}
	}
	path := filepath.Join(folder, Name)
	entries, sound, damage := scan(text, nil)
	if damage == nil {
		damage = checked(files[CountName], entries)
	}
	if damage != nil {
		damage.Path = path
		return nil, nil, damage
	}
	s := &Session{Folder: folder, Journal: &Journal{path: path, entries: entries, length: int64(sound)}}
	if _, err := s.Setting(); err != nil {
		return nil, nil, err
	}
	if _, err := s.Day(); err != nil {
		return nil, nil, err
	}
	return s, files, nil
}

// checked finds what is wrong with sound lines as a whole: there are none, or fewer than were
// acknowledged by the file of the count.
func checked(counted []byte, entries []Entry) *Damaged {
	if acknowledged, known := parseCount(counted); known {
		if damage := acknowledged.check(entries); damage != nil {
			return damage
		}
	}
	return noStart(entries)
}

// noStart is the damage of a session whose journal says nothing: one that is started has a line
// before its folder has its name.
func noStart(entries []Entry) *Damaged {
	if len(entries) > 0 {
		return nil
	}
	return &Damaged{Line: 1, Problem: "the journal is empty, and that of a session begins with its start"}
}

// verify reads a folder and compares its files with what was to be written, byte for byte; the
// checksums of the journal and the copies of job and resin are checked as for any session.
func verify(folder string, want map[string][]byte) error {
	_, found, err := look(folder)
	if err != nil {
		return err
	}
	for name, content := range want {
		if is, there := found[name]; !there || !bytes.Equal(is, content) {
			return &Failed{Doing: "verify", Path: filepath.Join(folder, name), Err: errReadBack}
		}
	}
	return nil
}

// partName begins the name of a file that is being written.
const partName = ".copying-"

// replace puts a file in the place of another as a whole, once it reads back from the disk as
// it was written.
func replace(folder, name string, content []byte) error {
	path := filepath.Join(folder, name)
	err := replaceBy(folder, path, content)
	var failed *Failed
	if err != nil && !errors.As(err, &failed) {
		err = &Failed{Doing: "write", Path: path, Err: err}
	}
	return err
}

func replaceBy(folder, path string, content []byte) error {
	part := filepath.Join(folder, partName+strconv.FormatUint(rand.Uint64(), 10))
	f, err := os.OpenFile(part, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	defer os.Remove(f.Name()) // it has another name when all went well
	_, err = f.Write(content)
	if err == nil {
		err = f.Sync()
	}
	if err := errors.Join(err, f.Close()); err != nil {
		return err
	}
	is, err := readWhole(f.Name())
	if err != nil {
		return err
	}
	if !bytes.Equal(is, content) {
		return &Failed{Doing: "verify", Path: path, Err: errReadBack}
	}
	if err := os.Rename(f.Name(), path); err != nil {
		return err
	}
	return syncFolder(folder)
}
