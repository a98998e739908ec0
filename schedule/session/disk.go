package session

import (
	"errors"
	"io"
	"os"
	"runtime"
	"syscall"
)

// file is what a journal asks of the disk; tests put a failing disk in its place.
type file interface {
	io.ReaderAt
	io.Writer
	io.Closer
	Sync() error
	Truncate(size int64) error
	Stat() (os.FileInfo, error)
}

// appendFile is a file opened for appending only.
type appendFile struct{ *os.File }

// Truncate goes through the name where a handle for appending may not shorten its file, as
// on Windows.
func (f appendFile) Truncate(size int64) error {
	if err := f.File.Truncate(size); err == nil {
		return nil
	}
	return os.Truncate(f.Name(), size)
}

// openJournal opens a file for reading and appending or, with the reason, for reading only.
func openJournal(path string) (f file, readOnly, err error) {
	handle, err := os.OpenFile(path, os.O_RDWR|os.O_APPEND, 0)
	if err == nil {
		return appendFile{handle}, nil, nil
	}
	if refusesWrites(err) {
		readOnly = &Failed{Doing: "write", Path: path, Err: err}
		handle, err = os.Open(path)
	}
	if err != nil {
		return nil, nil, &Failed{Doing: "read", Path: path, Err: err}
	}
	return appendFile{handle}, readOnly, nil
}

// syncFolder makes the names in a folder last through a power cut.
func syncFolder(path string) error {
	if runtime.GOOS == "windows" {
		return nil // a folder cannot be synced there
	}
	folder, err := os.Open(path)
	if err != nil {
		return err
	}
	defer folder.Close()
	err = folder.Sync()
	// Some file systems keep names safe by themselves and refuse the call.
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, syscall.ENOTSUP) {
		return nil
	}
	return err
}
