package session

import (
	"bufio"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"sync"
	"testing"
	"time"
)

// These variables make the test binary a logging process: the part it plays and the
// folder of its session.
const (
	partVariable   = "SESSION_TEST_PART"
	folderVariable = "SESSION_TEST_FOLDER"
	writerVariable = "SESSION_TEST_WRITER"
)

func TestMain(m *testing.M) {
	part := os.Getenv(partVariable)
	if part == "" {
		os.Exit(m.Run())
	}
	writer, err := strconv.Atoi(os.Getenv(writerVariable))
	if err == nil {
		err = parts[part](os.Getenv(folderVariable), writer)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

var parts = map[string]func(folder string, writer int) error{
	"together": logTogether,
	"forever":  func(folder string, writer int) error { return logForever(folder, writer, whole) },
	"dribble":  func(folder string, writer int) error { return logForever(folder, writer, dribble) },
}

// process makes the command of a logging process; the caller starts and ends it.
func process(t *testing.T, part, folder string, writer int) *exec.Cmd {
	t.Helper()
	program, err := os.Executable()
	if err != nil {
		t.Skip("the test's own program cannot be found:", err)
	}
	command := exec.Command(program)
	command.Env = append(os.Environ(),
		partVariable+"="+part, folderVariable+"="+folder, writerVariable+"="+strconv.Itoa(writer))
	command.Stderr = os.Stderr
	return command
}

// logged is a payload that tells who logged it as what, and what decide saw.
type numbered struct {
	Writer int `json:"writer"`
	N      int `json:"n"`
	Seen   int `json:"seen"` // entries
}

func (l *numbered) decide(entries []Entry) (any, error) {
	l.Seen = len(entries)
	return l, nil
}

const (
	goroutines = 4
	eachLogs   = 15
)

// logTogether logs from several goroutines, half of them through one journal.
func logTogether(folder string, writer int) error {
	shared, _, err := Open(folder)
	if err != nil {
		return err
	}
	defer shared.Close()
	var group sync.WaitGroup
	failures := make([]error, goroutines)
	for g := range goroutines {
		group.Go(func() {
			j := shared
			if g%2 == 1 {
				if j, _, failures[g] = Open(folder); failures[g] != nil {
					return
				}
				defer j.Close()
			}
			for n := range eachLogs {
				l := numbered{Writer: writer*goroutines + g, N: n}
				if _, failures[g] = j.Append(l.decide); failures[g] != nil {
					return
				}
			}
		})
	}
	group.Wait()
	for _, err := range failures {
		if err != nil {
			return err
		}
	}
	return nil
}

// TestTogether: three processes of several goroutines each log at once. Everything is
// there, numbered without a gap, in each one's order, and decide saw all that came before.
func TestTogether(t *testing.T) {
	folder, j := emptyJournal(t)
	const others = 2
	var commands []*exec.Cmd
	for writer := range others {
		command := process(t, "together", folder, writer+1)
		if err := command.Start(); err != nil {
			t.Fatal(err)
		}
		commands = append(commands, command)
	}
	if err := logTogether(folder, 0); err != nil {
		t.Error(err)
	}
	for _, command := range commands {
		if err := command.Wait(); err != nil {
			t.Error(err)
		}
	}
	again, report := reopen(t, folder)
	if report != (Report{}) {
		t.Errorf("report %+v", report)
	}
	next := map[int]int{} // by writer
	for i, entry := range again.Entries() {
		l := payloadOf(t, entry)
		if entry.Seq != i+1 || l.Seen != i {
			t.Errorf("line %d has number %d and was decided on %d entries", i+1, entry.Seq, l.Seen)
		}
		if l.N != next[l.Writer] {
			t.Errorf("line %d: writer %d logs %d, want %d", i+1, l.Writer, l.N, next[l.Writer])
		}
		next[l.Writer]++
	}
	const all = (others + 1) * goroutines * eachLogs
	if n := len(again.Entries()); n != all {
		t.Errorf("%d entries, want %d", n, all)
	}
	if entry := mustAppend(t, j, sample{}); entry.Seq != all+1 {
		t.Errorf("the journal that was open all the while goes on with %d", entry.Seq)
	}
}

func payloadOf(t testing.TB, entry Entry) (l numbered) {
	t.Helper()
	if err := json.Unmarshal(entry.Payload, &l); err != nil {
		t.Fatal(err)
	}
	return l
}

// whole leaves a journal's file as it is; dribble makes it write two bytes at a time and
// slowly, so that a kill finds it in the middle of a line.
func whole(f file) file { return f }

func dribble(f file) file { return dribbling{f} }

type dribbling struct{ file }

func (d dribbling) Write(line []byte) (int, error) {
	for i := 0; i < len(line); i += 2 {
		if _, err := d.file.Write(line[i:min(i+2, len(line))]); err != nil {
			return i, err
		}
		time.Sleep(100 * time.Microsecond)
	}
	return len(line), nil
}

// logForever logs until it is killed and says so after each entry.
func logForever(folder string, writer int, disk func(file) file) error {
	j, _, err := Open(folder)
	if err != nil {
		return err
	}
	j.file = disk(j.file)
	out := bufio.NewWriter(os.Stdout)
	for n := 0; ; n++ {
		l := numbered{Writer: writer, N: n}
		entry, err := j.Append(l.decide)
		if err != nil {
			return err
		}
		fmt.Fprintln(out, entry.Seq)
		if err := out.Flush(); err != nil {
			return err
		}
	}
}
