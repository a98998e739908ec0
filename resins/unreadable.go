package resins

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// An Unreadable is a file that a person named and that cannot be read.
type Unreadable struct {
	What string // what was looked for: "job file"
	Path string
	Err  error
}

// Problem is what is wrong, in a line.
func (e *Unreadable) Problem() string {
	switch {
	case errors.Is(e.Err, fs.ErrNotExist):
		return fmt.Sprintf("there is no %s %s", e.What, e.Path)
	case errors.Is(e.Err, errFolder):
		return fmt.Sprintf("%s is a folder, not a %s", e.Path, e.What)
	case errors.Is(e.Err, fs.ErrPermission):
		return e.Path + " may not be read"
	}
	return fmt.Sprintf("%s cannot be read: %v", e.Path, e.Err)
}

// Mend is what to do about it.
func (e *Unreadable) Mend() string {
	switch {
	case errors.Is(e.Err, fs.ErrNotExist):
		if folder, err := filepath.Abs(filepath.Dir(e.Path)); err == nil {
			return "check the spelling; it was looked for in " + folder
		}
		return "check the spelling and the folder"
	case errors.Is(e.Err, errFolder):
		return "name the file in it: " + filepath.Join(e.Path, "….yaml")
	case errors.Is(e.Err, fs.ErrPermission):
		return "give yourself the right to read it, or take a copy"
	}
	return "copy the file to this machine and name the copy"
}

func (e *Unreadable) Error() string { return e.Problem() + "\n   " + e.Mend() }

func (e *Unreadable) Unwrap() error { return e.Err }

var errFolder = errors.New("is a folder")

// readAtMost ends the reading of a file that never ends; package document
// refuses far smaller ones.
const readAtMost = 4 << 20

// ReadFile returns the content of a file that a person named; what says what
// it should be. The error is an [*Unreadable].
func ReadFile(path, what string) ([]byte, error) {
	source, err := readFile(path)
	if err != nil {
		return nil, &Unreadable{What: what, Path: path, Err: err}
	}
	return source, nil
}

func readFile(path string) ([]byte, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	if info, err := file.Stat(); err == nil && info.IsDir() {
		return nil, errFolder
	}
	return io.ReadAll(io.LimitReader(file, readAtMost))
}
