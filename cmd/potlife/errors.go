package main

import (
	"errors"
	"io/fs"
	"slices"
	"strings"
	"syscall"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"potlife/cmd/potlife/internal/report"
	"potlife/kinetics/quantity"
	"potlife/resins"
	"potlife/resins/document"
	"potlife/resins/fit"
	"potlife/schedule/session"
	"potlife/schedule/weighing"
)

// The codes of errors in JSON. The README lists them; they never change.
const (
	codeUnknownCommand = "unknown-command"
	codeFlag           = "flag"
	codeFile           = "file"
	codeUnreadable     = "unreadable-file"
	codeUnknownResin   = "unknown-resin"
	codeQuantity       = "quantity"
	codeRefused        = "refused"
	codeNoSession      = "not-found"
	codeDamaged        = "journal-damaged"
	codeNewer          = "journal-newer"
	codeDiskFull       = "disk-full"
	codePermission     = "no-permission"
	codeJournal        = "journal-failed"
	codeInput          = "wrong-input"
	codeFailed         = "failed"
)

// wantsJSON tells whether a command was asked for JSON. Where it did not get as far as to read
// its flags, the words say so.
func wantsJSON(cmd *cobra.Command, args []string, begun bool) bool {
	if asked := cmd.Flags().Lookup("json"); asked != nil && asked.Changed {
		return asked.Value.String() == "true"
	}
	if end := slices.Index(args, "--"); end >= 0 {
		args = args[:end]
	}
	return !begun && (slices.Contains(args, "--json") || slices.Contains(args, "--json=true"))
}

// errorsOf is an error as JSON.
func errorsOf(cmd *cobra.Command, err error, exit int) report.Errors {
	here := report.Place{Command: cmd.CommandPath()}
	list := []report.Error{}
	var faults *document.Faults
	var log *fit.LogFaults
	switch {
	case errors.As(err, &faults):
		for _, f := range faults.List {
			at := here
			at.File, at.Line, at.Column = f.File, f.Line, f.Column
			list = append(list, report.Error{Code: codeFile, Message: f.Problem, Place: at, Fix: f.Mend})
		}
	case errors.As(err, &log):
		for _, f := range log.List {
			at := here
			at.File, at.Line = f.File, f.Line
			list = append(list, report.Error{Code: codeFile, Message: f.Problem, Place: at, Fix: f.Mend})
		}
	default:
		list = append(list, oneError(err, here, exit))
	}
	return report.Errors{Exit: exit, Errors: list}
}

// oneError is an error that stands alone. What to do about it is what its text has after three
// spaces, where its type does not say so.
func oneError(err error, at report.Place, exit int) report.Error {
	is := report.Error{Code: codeInput}
	if exit == exitFailed {
		is.Code = codeFailed
	}
	problem, fix, _ := strings.Cut(err.Error(), indented)
	var unread *quantity.Error
	var impossible *weighing.Impossible
	var unreadable *resins.Unreadable
	var damaged *session.Damaged
	var newer *session.Newer
	var failed *session.Failed
	switch {
	case errors.As(err, new(unknownCommand)):
		is.Code, problem = codeUnknownCommand, strings.Join(strings.Fields(problem), " ") // cobra's has lines of its own
		if fix == "" {
			fix = lookUp
		}
	case refusedFlag(err) != "":
		is.Code, at.Flag = codeFlag, refusedFlag(err)
	case errors.As(err, &damaged):
		is.Code, at.File, at.Line, problem = codeDamaged, damaged.Path, damaged.Line, damaged.Problem
	case errors.As(err, &newer):
		is.Code, at.File, at.Line, problem = codeNewer, newer.Path, newer.Line, newer.Problem
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		is.Code = codeDiskFull
	case errors.As(err, &failed):
		is.Code = codeJournal
		if mayNot(err) {
			is.Code = codePermission
		}
	case errors.As(err, &unreadable):
		is.Code, at.File, problem, fix = codeUnreadable, unreadable.Path, unreadable.Problem(), unreadable.Mend()
	case errors.As(err, new(*resins.UnknownSystem)):
		is.Code = codeUnknownResin
	case errors.As(err, new(*session.Refusal)):
		is.Code = codeRefused
	case errors.As(err, &unread):
		is.Code = codeQuantity
		if rest, found := strings.CutSuffix(problem, "; "+unread.Mend); found {
			problem, fix = rest, unread.Mend
		}
	case errors.As(err, &impossible):
		if rest, found := strings.CutSuffix(problem, "; "+impossible.Mend); found {
			problem, fix = rest, impossible.Mend
		}
	case errors.Is(err, fs.ErrNotExist):
		is.Code = codeNoSession
	case mayNot(err):
		is.Code = codePermission
	}
	if file := new(fs.PathError); at.File == "" && errors.As(err, &file) {
		at.File = file.Path
	}
	if failed != nil {
		at.File = failed.Path
	}
	switch {
	case fix != "":
	case is.Code == codeDiskFull:
		fix = "make room on the disk, and run the command again"
	case exit == exitFailed:
		fix = "run the command again; if it fails again, keep this message and the files that it names"
	default:
		fix = "see " + at.Command + " --help"
	}
	is.Message, is.Place, is.Fix = inOneLine(problem), at, inOneLine(fix)
	return is
}

// indented is where the text of an error goes over to what to do about it.
const indented = "\n   "

func inOneLine(text string) string {
	return strings.ReplaceAll(strings.ReplaceAll(strings.TrimSpace(text), indented, " "), "\n", " ")
}

// refusedFlag is the flag that an error of reading flags is about; empty: it is another error.
func refusedFlag(err error) string {
	var unknown *pflag.NotExistError
	var empty *pflag.ValueRequiredError
	var invalid *pflag.InvalidValueError
	var syntax *pflag.InvalidSyntaxError
	name := ""
	switch {
	case errors.As(err, &unknown):
		if name = unknown.GetSpecifiedName(); len(unknown.GetSpecifiedShortnames()) > 0 {
			return "-" + name
		}
	case errors.As(err, &empty):
		name = empty.GetFlag().Name
	case errors.As(err, &invalid):
		name = invalid.GetFlag().Name
	case errors.As(err, &syntax):
		return syntax.GetSpecifiedFlag()
	default:
		return ""
	}
	return "--" + name
}
