package main

import (
	"bytes"
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/spf13/cobra"

	"potlife/kinetics/testrun"
)

// dearScripts take half of the time of all: the default suite leaves them out.
var dearScripts = []string{"changed", "chart", "export", "fit", "forgotten", "given-up", "learn", "lots", "off-ratio", "report", "twice", "weigh", "worktime"}

// TestScripts runs testdata/script. Beside testscript's own commands there are
//
//	exits CODE PROGRAM ARGS...   run a program that ends with the exit code
//	columns N                    no line of stdout is wider than N characters
//	json PATH...                 stdout is JSON that has the paths, see [hasPath]
//	holds FOLDER NAME...         the folder holds these files and no other
//	append FILE TEXT             TEXT at the end of FILE, without a newline
//	damage FILE [LINE]           one letter in the middle of the line is another; of the first
//	clock MOMENT                 from here on it is that local time, such as 2026-11-30 12:00
//
// and $DATA, the folder testdata.
func TestScripts(t *testing.T) {
	t.Parallel()
	data, err := filepath.Abs(filepath.Join("..", "..", "testdata"))
	if err != nil {
		t.Fatal(err)
	}
	files, err := filepath.Glob(filepath.Join(data, "script", "*.txtar"))
	if err != nil || len(files) < 20 {
		t.Fatalf("%d scripts: %v", len(files), err)
	}
	if !testrun.IsLong() && os.Getenv(startsAt) == "" { // on other days all of them run
		files = slices.DeleteFunc(files, func(file string) bool {
			return slices.Contains(dearScripts, strings.TrimSuffix(filepath.Base(file), ".txtar"))
		})
	}
	testscript.Run(t, testscript.Params{
		Files: files,
		Setup: func(env *testscript.Env) error {
			env.Setenv("DATA", data)
			env.Setenv("GOGC", "off") // a command allocates 60 MB at most, see DEVELOPERS.md
			for _, name := range []string{"TZ", ahead} {
				if value, set := os.LookupEnv(name); set {
					env.Setenv(name, value)
				}
			}
			return nil
		},
		Condition: func(name string) (bool, error) {
			if name == "root" { // who may write anywhere
				return os.Geteuid() == 0, nil
			}
			return false, fmt.Errorf("unknown condition %s", name)
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits": exits, "columns": columns, "json": jsonHas, "holds": holds,
			"append": appendText, "damage": damage, "clock": setClockOfScript,
		},
	})
}

func setClockOfScript(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: clock MOMENT")
	}
	if _, err := time.Parse(localTime, args[0]); err != nil {
		ts.Fatalf("%v", err)
	}
	ts.Setenv(frozen, args[0])
}

func appendText(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: append FILE TEXT")
	}
	f, err := os.OpenFile(ts.MkAbs(args[0]), os.O_WRONLY|os.O_APPEND, 0)
	ts.Check(err)
	_, err = f.WriteString(args[1])
	ts.Check(err)
	ts.Check(f.Close())
}

func damage(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 1 || len(args) > 2 {
		ts.Fatalf("usage: damage FILE [LINE]")
	}
	path, line := ts.MkAbs(args[0]), 1
	text, err := os.ReadFile(path)
	ts.Check(err)
	if len(args) == 2 {
		line, err = strconv.Atoi(args[1])
		ts.Check(err)
	}
	lines := bytes.SplitAfter(text, []byte("\n")) // of the same bytes
	lines[line-1][len(lines[line-1])/2] ^= 1
	ts.Check(os.WriteFile(path, text, 0o644))
}

func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE PROGRAM ARGS...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	err = ts.Exec(args[1], args[2:]...)
	if exit := (*exec.ExitError)(nil); errors.As(err, &exit) {
		got = exit.ExitCode()
	} else {
		ts.Check(err)
	}
	if got != want {
		ts.Fatalf("exit %d, want %d", got, want)
	}
}

func columns(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: columns N")
	}
	widest, err := strconv.Atoi(args[0])
	ts.Check(err)
	out := ts.ReadFile("stdout")
	if strings.TrimSpace(out) == "" {
		ts.Fatalf("stdout is empty")
	}
	for line := range strings.SplitSeq(out, "\n") {
		if n := utf8.RuneCountInString(line); n > widest {
			ts.Fatalf("%d columns: %s", n, line)
		}
	}
}

func jsonHas(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) == 0 {
		ts.Fatalf("usage: json PATH...")
	}
	var answer any
	ts.Check(json.Unmarshal([]byte(ts.ReadFile("stdout")), &answer))
	for _, path := range args {
		if err := hasPath(answer, path); err != nil {
			ts.Fatalf("%s: %v", path, err)
		}
	}
}

var asked = regexp.MustCompile(`^([^=<>!]*)(=|!=|<|>)(.*)$`)

// hasPath tells what is missing: a.b is there, maybe null; a.0 is the first of a list; a[] is a
// list, maybe empty, never null; a[].b is in each of one item or more; a=5 has the value, a!=5
// another, and a<5 and a>5 are numbers, or strings in their order.
func hasPath(value any, path string) error {
	how, wanted := "", ""
	if m := asked.FindStringSubmatch(path); m != nil {
		path, how, wanted = m[1], m[2], m[3]
	}
	before, rest, each := strings.Cut(path, "[]")
	value, err := inside(value, before)
	if err != nil || !each {
		return cmp.Or(err, compares(value, how, wanted))
	}
	list, ok := value.([]any)
	if !ok {
		return fmt.Errorf("%s is no list", before)
	}
	if rest == "" {
		return compares(value, how, wanted)
	}
	if len(list) == 0 {
		return errors.New("the list is empty")
	}
	for _, item := range list {
		if err := hasPath(item, strings.TrimPrefix(rest, ".")+how+wanted); err != nil {
			return err
		}
	}
	return nil
}

// inside is the value at a path without [].
func inside(value any, path string) (any, error) {
	for part := range strings.SplitSeq(path, ".") {
		switch in := value.(type) {
		case map[string]any:
			var ok bool
			if value, ok = in[part]; !ok {
				return nil, fmt.Errorf("no %s", part)
			}
		case []any:
			n, err := strconv.Atoi(part)
			if err != nil || n < 0 || n >= len(in) {
				return nil, fmt.Errorf("no item %s of %d", part, len(in))
			}
			value = in[n]
		default:
			return nil, fmt.Errorf("no mapping around %s", part)
		}
	}
	return value, nil
}

// compares tells where a value is not as wanted.
func compares(value any, how, wanted string) error {
	got, err := json.Marshal(value)
	if err != nil || how == "" {
		return err
	}
	holds := false
	switch how {
	case "=":
		holds = string(got) == wanted
	case "!=":
		holds = string(got) != wanted
	default:
		var other any
		if err := json.Unmarshal([]byte(wanted), &other); err != nil {
			return err
		}
		less, more, err := order(value, other)
		if err != nil {
			return err
		}
		holds = how == "<" && less || how == ">" && more
	}
	if !holds {
		return fmt.Errorf("is %s", got)
	}
	return nil
}

func order(a, b any) (less, more bool, err error) {
	switch x := a.(type) {
	case float64:
		if y, ok := b.(float64); ok {
			return x < y, x > y, nil
		}
	case string:
		if y, ok := b.(string); ok {
			return x < y, x > y, nil
		}
	}
	return false, false, fmt.Errorf("%v and %v have no order", a, b)
}

func holds(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) == 0 {
		ts.Fatalf("usage: holds FOLDER NAME...")
	}
	entries, err := os.ReadDir(ts.MkAbs(args[0]))
	ts.Check(err)
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	want := slices.Sorted(slices.Values(args[1:]))
	if !slices.Equal(names, want) {
		ts.Fatalf("%s holds %q, want %q", args[0], names, want)
	}
}

// TestHelpExamples runs every example of every command's help as it is printed,
// in a copy of the repository's root in which a session is open; each must end
// with exit 0 and an answer.
func TestHelpExamples(t *testing.T) {
	if !testrun.IsLong() {
		t.Skip("POTLIFE_LONG runs the examples of every help")
	}
	desk := t.TempDir()
	if err := os.CopyFS(filepath.Join(desk, "testdata"), os.DirFS(filepath.Join("..", "..", "testdata"))); err != nil {
		t.Fatal(err)
	}
	t.Chdir(desk)
	job, err := os.ReadFile(filepath.Join("testdata", "jobs", "telescope-strut.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile("strut.yaml", job, 0o644); err != nil {
		t.Fatal(err)
	}
	runExample(t, "potlife start strut.yaml")
	var commands func(*cobra.Command)
	commands = func(cmd *cobra.Command) {
		if cmd.Runnable() && cmd.Example == "" {
			t.Errorf("%s has no example", cmd.CommandPath())
		}
		if cmd.Runnable() && !strings.Contains(cmd.Long, "Exit: 0") {
			t.Errorf("the help of %s does not end with its exit codes", cmd.CommandPath())
		}
		for line := range strings.SplitSeq(cmd.Example, "\n") {
			if line = strings.TrimSpace(line); line != "" {
				runExample(t, line)
			}
		}
		for _, below := range cmd.Commands() {
			commands(below)
		}
	}
	commands(newRoot())
}

func runExample(t *testing.T, line string) {
	words := shellWords(line)
	if len(words) < 2 || words[0] != "potlife" {
		t.Errorf("no command of this program: %s", line)
		return
	}
	ctx, end := context.WithCancel(context.Background())
	defer end()
	if words[1] == "board" {
		end() // it lasts until somebody ends it
	}
	var out, errOut bytes.Buffer
	if code := runUntil(ctx, words[1:], &out, &errOut); code != exitDone || out.Len() == 0 {
		t.Errorf("%s\nexit %d, %d bytes of answer, and:\n%s", line, code, out.Len(), errOut.String())
	}
}

// shellWords splits a line as a shell does that knows blanks and single quotes.
func shellWords(line string) []string {
	var words []string
	word, begun, quoted := "", false, false
	for _, r := range line {
		switch {
		case r == '\'':
			quoted, begun = !quoted, true
		case r == ' ' && !quoted:
			if begun {
				words = append(words, word)
			}
			word, begun = "", false
		default:
			word, begun = word+string(r), true
		}
	}
	if begun {
		words = append(words, word)
	}
	return words
}
