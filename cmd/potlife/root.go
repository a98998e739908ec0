package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"potlife/cmd/potlife/internal/report"
	"potlife/kinetics/ensemble"
	"potlife/resins"
	"potlife/resins/document"
	"potlife/resins/document/visible"
	"potlife/schedule/session"
)

// The exit codes of every command.
const (
	exitDone    = 0
	exitFailed  = 1 // something went wrong that is not the user's
	exitInput   = 2 // wrong input
	exitLimit   = 3 // answered, but a limit is broken
	exitDamaged = 4 // a journal is damaged, or a newer program wrote it
)

const exitHelp = `
Exit: 0 done, 1 failed, 2 wrong input, 3 answered but a limit is broken.`

// exitNoLimit is for commands that hold their answer to no limit.
const exitNoLimit = `
Exit: 0 done, 1 failed, 2 wrong input.`

// errLimit is an answer that was given in full and breaks a limit.
var errLimit = errors.New("a limit is broken")

// inputError is what the user can mend.
type inputError struct{ error }

func (e inputError) Unwrap() error { return e.error }

// unknownCommand is a name that no command has: cobra's complaint about it, or ours.
type unknownCommand struct{ error }

// lookUp is what to do about a command that is none.
const lookUp = "potlife --help lists the commands; a value with a space needs quotes: '250 g'"

// wrong marks an error as wrong input; nil stays nil.
func wrong(err error) error {
	if err == nil {
		return nil
	}
	return inputError{err}
}

// run executes one command line and returns its exit code.
func run(args []string, out, errOut io.Writer) int {
	return runUntil(context.Background(), args, out, errOut)
}

// runUntil is run for commands that last: they end with the context.
func runUntil(ctx context.Context, args []string, out, errOut io.Writer) (code int) {
	root := newRoot()
	defer func() {
		if value := recover(); value != nil {
			// The stack of a panic would end with the code of wrong input.
			code = exitFailed
			tellError(errOut, root, faultOf(value), code, wantsJSON(root, args, false))
		}
	}()
	root.SetArgs(args)
	root.SetOut(out)
	root.SetErr(errOut)
	begun := false
	root.PersistentPreRun = func(*cobra.Command, []string) { begun = true }
	cmd, err := root, visibleArguments(args)
	if err == nil {
		cmd, err = root.ExecuteContextC(ctx)
	}
	// Flags and arguments are refused by what this package gives cobra, which marks it as
	// wrong input; what else the root refuses before it begins is a command that is none.
	if err != nil && cmd == root && !begun && !errors.As(err, new(inputError)) {
		err = unknownCommand{err}
	}
	code = exitCode(err)
	if err != nil && code != exitLimit {
		tellError(errOut, cmd, err, code, wantsJSON(cmd, args, begun))
	}
	return code
}

// tellError prints why there is no answer.
func tellError(w io.Writer, cmd *cobra.Command, err error, code int, asJSON bool) {
	if asJSON {
		_ = report.WriteLine(w, errorsOf(cmd, err, code)) // the exit code says so, too
		return
	}
	fmt.Fprintln(w, "potlife: "+visible.Lines(err.Error()))
	if errors.As(err, new(unknownCommand)) {
		fmt.Fprintln(w, "   "+lookUp)
	}
}

// visibleArguments refuses what nobody sees in an argument: it would go into a journal or the
// name of a file. A mapping may have lines.
func visibleArguments(args []string) error {
	for _, arg := range args {
		if problem := visible.Refuse(arg, "\n\t"); problem != "" {
			return wrong(fmt.Errorf("%s\n   %s", problem, visible.Mend))
		}
	}
	return nil
}

// faultOf is the error of a panic, which the deferred function that calls it has recovered.
func faultOf(value any) error {
	return fmt.Errorf("fault of the program: %w; what was logged is on the disk: report this with the command and its files", ensemble.Caught(value))
}

func exitCode(err error) int {
	var faults *document.Faults
	var unknown *resins.UnknownSystem
	var input inputError
	var misspelt unknownCommand
	var damaged *session.Damaged
	var newer *session.Newer
	switch {
	case err == nil:
		return exitDone
	case errors.Is(err, errLimit):
		return exitLimit
	case errors.As(err, &damaged), errors.As(err, &newer):
		return exitDamaged
	case errors.As(err, &faults), errors.As(err, &unknown), errors.As(err, &input), errors.As(err, &misspelt):
		return exitInput
	}
	return exitFailed
}

func newRoot() *cobra.Command {
	var asVersion, asJSON bool
	root := &cobra.Command{
		Use:   "potlife",
		Short: "Resin batches for wet filament winding",
		Long: `potlife splits a wet winding into pots of freshly mixed resin: how much to mix,
when, and at which layer end to pour it, so that the bath never thickens, heats
or sets before its layer is done. Then it goes with the crew through the day.

Start with a copy of testdata/jobs/telescope-strut.yaml, or ask worktime how long
resin lasts. Whatever the tool says: a pot that is hot, smoking or rising gets
spread thin and outdoors at once.` + "\n" + exitHelp[:len(exitHelp)-1] + ", 4 journal damaged or newer.",
		Example: `  potlife worktime --resin epoxy-ipda --mass 250g --vessel '{cup: 90 mm}' --room 23C
  potlife plan testdata/jobs/telescope-strut.yaml
  potlife --version`,
		SilenceUsage: true, SilenceErrors: true,
		RunE: func(cmd *cobra.Command, _ []string) error {
			switch {
			case asVersion && asJSON:
				return report.WriteJSON(cmd.OutOrStdout(), version())
			case asVersion:
				return version().Text(cmd.OutOrStdout())
			case asJSON:
				return wrong(errors.New("--json goes with a command or with --version\n   potlife --help lists the commands"))
			}
			return cmd.Help()
		},
	}
	root.Flags().BoolVar(&asVersion, "version", false, "tell what this program was built from")
	root.Flags().BoolVar(&asJSON, "json", false, "with --version: as JSON")
	root.SetFlagErrorFunc(flagError)
	addCommands(root)
	root.SetHelpCommandGroupID("tool")
	completeBy(root)
	return root
}

// flagError says where the flags of a command are told.
func flagError(cmd *cobra.Command, err error) error {
	return wrong(fmt.Errorf("%w\n   see %s --help", err, cmd.CommandPath()))
}

// addCommands adds them in the order of the day.
func addCommands(root *cobra.Command) {
	for _, part := range []struct {
		id, title string
		commands  []*cobra.Command
	}{
		{"before", "Before the day:", []*cobra.Command{newWorktime(), newPlan(), newResins()}},
		{"during", "While it is wound:", []*cobra.Command{newStart(), newLog(), newCheck(), newReplan(), newBoard()}},
		{"after", "When it is wound:", []*cobra.Command{newCure(), newWeigh(), newReport(), newLearn(), newSession()}},
		{"tool", "About the tool:", []*cobra.Command{newSchema(), newCompletion()}},
	} {
		root.AddGroup(&cobra.Group{ID: part.id, Title: part.title})
		for _, c := range part.commands {
			c.GroupID = part.id
			root.AddCommand(c)
		}
	}
}

func init() {
	cobra.EnableCommandSorting = false // the help lists commands in the order of the day
}

// oneArgument asks for exactly one argument of the kind named.
func oneArgument(kind string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) == 1 {
			return nil
		}
		return wrong(fmt.Errorf("%s takes one %s, got %d\n   write it like this: %s", cmd.CommandPath(), kind, len(args), cmd.UseLine()))
	}
}

// noArgument refuses any; cobra would call it an unknown command.
func noArgument(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	mend := "leave it out"
	if cmd.Flags().Lookup("session") != nil {
		mend += "; a session is named with --session"
	}
	return wrong(fmt.Errorf("%s takes no argument, got %s\n   %s; see %s --help", cmd.CommandPath(), strings.Join(args, " "), mend, cmd.CommandPath()))
}

// tellDoubts writes warnings to stderr, except where the same terminal shows
// them in the answer's own text.
func tellDoubts(cmd *cobra.Command, warnings []string, inText bool) {
	if inText && terminal(cmd.OutOrStdout()) && terminal(cmd.ErrOrStderr()) {
		return
	}
	for _, w := range warnings {
		fmt.Fprintln(cmd.ErrOrStderr(), "potlife: doubt: "+visible.Lines(w))
	}
}

// page is stdout for text that people read: as narrow as its terminal.
func page(cmd *cobra.Command) io.Writer { return pageOn(cmd.OutOrStdout()) }

// pageOn is as narrow as the terminal that it is written to, if it is one. A name from an old
// file does nothing to the terminal.
func pageOn(out io.Writer) io.Writer {
	page := report.Page{Writer: visible.Writer(out)}
	if f, ok := out.(*os.File); ok && terminal(out) {
		if width, _, err := term.GetSize(int(f.Fd())); err == nil {
			page.Columns = width
		}
	}
	return page
}

func terminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// textOrFile is a flag's text, or the content of the file that it names with @.
func textOrFile(text string) (string, error) {
	name, found := strings.CutPrefix(text, "@")
	if !found {
		return text, nil
	}
	source, err := resins.ReadFile(name, "file")
	return string(source), wrong(err)
}
