package board

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"syscall"

	"potlife/resins"
	"potlife/schedule/session"
)

// inWords is an error for people at the machine. What the system says of a file means nothing
// to them and names paths: it is told as what has happened and what to do. Errors of our own
// are such words already.
func inWords(err error, folder string) string {
	if !ofSystem(err) {
		return err.Error()
	}
	problem, fix := "the disk does not give the session "+folder+" as it should", "copy the folder to another disk and start the board there; log on paper meanwhile"
	var lost *resins.Unreadable
	switch {
	case errors.As(err, &lost) && errors.Is(err, fs.ErrNotExist):
		problem, fix = "the session has lost its "+lost.What+" "+lost.Path, "put the file back, or take a copy of the session: potlife session restore COPY "+folder
	case errors.Is(err, fs.ErrNotExist), errors.Is(err, syscall.ENOTDIR):
		problem, fix = "the session "+folder+" is not there any more: it was moved, renamed or thrown away, or its disk is gone",
			"put it back, and this page goes on by itself; or take a copy: potlife session restore COPY "+folder
	case errors.Is(err, fs.ErrPermission):
		problem, fix = "the session "+folder+" may not be read or written by whoever runs the board", "give that person the right to its files, and this page goes on by itself"
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		problem, fix = "the disk of the session "+folder+" is full", "free some space on it"
	case errors.Is(err, syscall.EROFS):
		problem, fix = "the disk of the session "+folder+" takes no writing", "copy the folder to another disk and start the board there; log on paper meanwhile"
	}
	var failed *session.Failed
	if errors.As(err, &failed) && failed.Unsure {
		problem += "; what was tapped may be logged or not: look before tapping it again"
	}
	return fmt.Sprintf("%s\n   %s", problem, fix)
}

// ofSystem tells whether an error has words of the operating system in it, or is one of a file
// or folder that is not there.
func ofSystem(err error) bool {
	var path *fs.PathError
	var link *os.LinkError
	var call *os.SyscallError
	var number syscall.Errno
	return errors.Is(err, fs.ErrNotExist) || errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) ||
		errors.As(err, &path) || errors.As(err, &link) || errors.As(err, &call) || errors.As(err, &number)
}
