package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"potlife/cmd/potlife/internal/report"
	"potlife/resins"
	"potlife/resins/catalogue"
	"potlife/schedule/session"
)

// shells are those that completion writes scripts for.
var shells = []string{"bash", "zsh", "fish", "powershell"}

func newCompletion() *cobra.Command {
	return &cobra.Command{
		Use:   "completion SHELL",
		Short: "What a shell needs to complete commands, files, resins and events",
		Long: `completion writes the script with which a shell completes commands and flags, job files,
session folders, systems of the catalogue and events: bash, zsh, fish or powershell.
For this terminal alone:

    source <(potlife completion bash)
    source <(potlife completion zsh)
    potlife completion fish | source
    potlife completion powershell | Out-String | Invoke-Expression

In the file that the shell reads as it starts, such as ~/.bashrc, the line is for good. The script for
bash uses the package bash-completion where it is loaded, and does without it.` + "\n" + exitNoLimit,
		Example: `  potlife completion bash
  potlife completion powershell`,
		Args: oneArgument("shell"),
		RunE: func(cmd *cobra.Command, args []string) error {
			root, out := cmd.Root(), cmd.OutOrStdout()
			switch args[0] {
			case "bash":
				return bashScript(root, out)
			case "zsh":
				return root.GenZshCompletion(out)
			case "fish":
				return root.GenFishCompletion(out, true)
			case "powershell":
				return root.GenPowerShellCompletionWithDesc(out)
			}
			return wrong(fmt.Errorf("there is no script for %s\n   write one of %s", args[0], strings.Join(shells, ", ")))
		},
	}
}

// A completer lists what a word that begins so can become.
type completer func(cmd *cobra.Command, begun string) []string

// completeOne completes the only argument of a command from a list.
func completeOne(list completer) cobra.CompletionFunc {
	return func(cmd *cobra.Command, args []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return list(cmd, begun), cobra.ShellCompDirectiveNoFileComp
	}
}

// ending completes files by their endings, and the folders on the way to them.
func ending(endings ...string) cobra.CompletionFunc {
	return func(*cobra.Command, []string, string) ([]cobra.Completion, cobra.ShellCompDirective) {
		return endings, cobra.ShellCompDirectiveFilterFileExt
	}
}

// oneFile is ending for a command of one argument.
func oneFile(endings ...string) cobra.CompletionFunc {
	return func(cmd *cobra.Command, args []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return ending(endings...)(cmd, args, begun)
	}
}

// systems completes the name of a built-in system, or files once a path is begun.
func systems(cmd *cobra.Command, args []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
	if resins.IsPath(begun) {
		return ending("yaml", "yml")(cmd, args, begun)
	}
	return append(catalogue.Systems(), yamlFiles()...), cobra.ShellCompDirectiveNoFileComp
}

// yamlFiles are the files of this folder that may be records, written as paths.
func yamlFiles() []string {
	found, _ := filepath.Glob("*.yaml") // the pattern is a sound one
	for i, name := range found {
		found[i] = "./" + name
	}
	return found
}

// sessionFolders are the folders of sessions beside the word begun. No journal is read: a
// shell waits for the answer.
func sessionFolders(_ *cobra.Command, begun string) []string {
	folder := begun[:strings.LastIndexAny(begun, `/\`)+1]
	journals, _ := filepath.Glob(filepath.Join(literal(folder), "*", session.Name))
	var found []string
	for _, journal := range journals {
		found = append(found, folder+filepath.Base(filepath.Dir(journal)))
	}
	return found
}

// literal takes the meaning from the signs of a pattern where a folder's name has them.
func literal(folder string) string {
	if os.PathSeparator == '\\' {
		return folder // no escapes there
	}
	return strings.NewReplacer(`*`, `\*`, `?`, `\?`, `[`, `\[`, `\`, `\\`).Replace(folder)
}

func folders(cmd *cobra.Command, _ []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
	return sessionFolders(cmd, begun), cobra.ShellCompDirectiveNoFileComp
}

// foldersAnd completes sessions, then any folder.
func foldersAnd(cmd *cobra.Command, args []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
	if len(args) == 1 {
		return nil, cobra.ShellCompDirectiveFilterDirs
	}
	return completeOne(sessionFolders)(cmd, args, begun)
}

// sessionsOrFiles completes any number of sessions, or a job.
func sessionsOrFiles(cmd *cobra.Command, args []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
	if found := sessionFolders(cmd, begun); len(found) > 0 || len(args) > 0 {
		return found, cobra.ShellCompDirectiveNoFileComp
	}
	return ending("yaml", "yml")(cmd, args, begun)
}

// events completes what log takes: the event, then a flow cup's name.
func events(_ *cobra.Command, args []string, _ string) ([]cobra.Completion, cobra.ShellCompDirective) {
	var words []string
	switch {
	case len(args) == 0:
		for _, kind := range session.Kinds {
			words = append(words, string(kind))
		}
	case len(args) == 1 && args[0] == string(session.FlowCup):
		words = resins.FlowCups()
	}
	return words, cobra.ShellCompDirectiveNoFileComp
}

// flagWords complete the values of flags, by their names, in every command that has them.
// A flag that is not here takes what a person knows: nothing is completed.
var flagWords = map[string]cobra.CompletionFunc{
	"session": folders,
	"chart":   ending("svg", "png", "pdf"),
	"sheet":   ending("html"),
	"ics":     ending("ics"),
	"program": ending("yaml", "yml"),
	"answers": ending("txt"),
	"csv": func(*cobra.Command, []string, string) ([]cobra.Completion, cobra.ShellCompDirective) {
		return nil, cobra.ShellCompDirectiveFilterDirs
	},
	"table": func(*cobra.Command, []string, string) ([]cobra.Completion, cobra.ShellCompDirective) {
		return report.SessionTables, cobra.ShellCompDirectiveNoFileComp
	},
	"out": nil, // any file
	"lot": func(*cobra.Command, []string, string) ([]cobra.Completion, cobra.ShellCompDirective) {
		return []string{session.ResinPart + "=", session.HardenerPart + "="}, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveNoSpace
	},
	"listen": func(*cobra.Command, []string, string) ([]cobra.Completion, cobra.ShellCompDirective) {
		return []string{"127.0.0.1:0", ":8080"}, cobra.ShellCompDirectiveNoFileComp
	},
}

// argumentWords complete the arguments of commands, by their paths.
var argumentWords = map[string]cobra.CompletionFunc{
	"potlife plan":            oneFile("yaml", "yml"),
	"potlife start":           oneFile("yaml", "yml"),
	"potlife cure":            oneFile("yaml", "yml"),
	"potlife log":             events,
	"potlife report":          completeOne(sessionFolders),
	"potlife learn":           sessionsOrFiles,
	"potlife session copy":    foldersAnd,
	"potlife session restore": foldersAnd,
	"potlife session export":  completeOne(sessionFolders),
	"potlife resins show":     systems,
	"potlife resins check":    oneFile("yaml", "yml"),
	"potlife resins fit":      oneFile("yaml", "yml"),
	"potlife resins cooling":  oneFile("yaml", "yml"),
	"potlife schema":          completeOne(func(*cobra.Command, string) []string { return fileKindNames() }),
	"potlife completion":      completeOne(func(*cobra.Command, string) []string { return shells }),
}

// completeBy sets what every command and flag below the root is completed by.
func completeBy(cmd *cobra.Command) {
	if words, found := argumentWords[cmd.CommandPath()]; found {
		cmd.ValidArgsFunction = words
	} else if !cmd.HasSubCommands() {
		cmd.ValidArgsFunction = cobra.NoFileCompletions
	}
	cmd.Flags().VisitAll(func(f *pflag.Flag) {
		words, found := flagWords[f.Name]
		switch {
		case f.Value.Type() == "bool" || found && words == nil:
			return
		case f.Name == "resin" && cmd.Name() == "worktime":
			words = systems
		case !found:
			words = cobra.NoFileCompletions
		}
		// It fails for a flag that is not there, or a second time: neither can be.
		_ = cmd.RegisterFlagCompletionFunc(f.Name, words)
	})
	for _, below := range cmd.Commands() {
		completeBy(below)
	}
}
