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
	case errors.As(e.Err, new(*TooLarge)):
		return fmt.Sprintf("%s is too large: %v", e.Path, e.Err)
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
	case errors.As(e.Err, new(*TooLarge)):
		return "check that this is the right file: a " + e.What + " has some kilobytes"
	}
	return "copy the file to this machine and name the copy"
}

func (e *Unreadable) Error() string { return e.Problem() + "\n   " + e.Mend() }

func (e *Unreadable) Unwrap() error { return e.Err }

var errFolder = errors.New("is a folder")

// LargestFile is how many bytes of a file are read, whatever it holds; a larger one is refused
// as a whole, since half of a file answers another question. It has room for a cup log of
// 200,000 lines with a dozen columns. Package document refuses far smaller ones.
const LargestFile = 32 << 20

// A TooLarge is the cause of an [*Unreadable] of more than [LargestFile] bytes.
type TooLarge struct {
	Bytes int64 // of the file; 0: it has no end that is known
}

func (e *TooLarge) Error() string {
	const limit = LargestFile >> 20
	if e.Bytes == 0 {
		return fmt.Sprintf("it has more than %d MiB, the most that is read", limit)
	}
	return fmt.Sprintf("it has %.1f MiB, at most %d MiB are read", float64(e.Bytes)/(1<<20), limit)
}

// ReadFile returns the content of a file that a person named, all of it; what says what
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
	var size int64
	if info, err := file.Stat(); err == nil {
		if info.IsDir() {
			return nil, errFolder
		}
		if info.Mode().IsRegular() {
			size = info.Size()
		}
	}
	if size > LargestFile {
		return nil, &TooLarge{Bytes: size}
	}
	source, err := io.ReadAll(io.LimitReader(file, LargestFile+1))
	if err == nil && len(source) > LargestFile {
		return nil, &TooLarge{}
	}
	return source, err
}
