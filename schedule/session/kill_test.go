package session

import (
	"bufio"
	"math/rand/v2"
	"strconv"
	"testing"
	"time"

	"potlife/kinetics/testrun"
)

// TestKilled ends logging processes with kill -9 at random moments: what they had
// acknowledged is in the journal, once and in order, and the next process goes on.
// Every other process writes its lines a few bytes at a time, so that torn lines occur.
func TestKilled(t *testing.T) {
	kills := testrun.Count(20, 220)
	folder, _ := emptyJournal(t)
	random := rand.New(rand.NewPCG(3, 9)) // the moment is random anyway
	acknowledged := map[int][]int{}       // numbers of lines, by writer
	torn := 0
	for writer := range kills {
		part := []string{"forever", "dribble"}[writer%2]
		acknowledged[writer] = logAndKill(t, part, folder, writer, time.Duration(random.IntN(15_000))*time.Microsecond)
		j, report, err := Open(folder)
		if err != nil {
			t.Fatalf("after kill %d: %v", writer+1, err)
		}
		if report.Cut > 0 {
			torn++
		}
		ownLines(t, j.Entries(), writer, acknowledged[writer])
		if err := j.Close(); err != nil {
			t.Fatal(err)
		}
	}
	j, _ := reopen(t, folder)
	lines := 0
	for writer, numbers := range acknowledged {
		ownLines(t, j.Entries(), writer, numbers)
		lines += len(numbers)
	}
	t.Logf("%d processes killed, %d torn lines, %d lines acknowledged, %d in the journal", kills, torn, lines, len(j.Entries()))
	// Most of the processes that write slowly are in the middle of a line at any moment.
	if lines == 0 || torn == 0 && testrun.IsLong() {
		t.Errorf("%d torn lines and %d acknowledged ones: the kills come at the wrong moments", torn, lines)
	}
}

// logAndKill starts a logging process, kills it some time after its first word, or every
// fifth after its start, and returns the numbers of the lines that it acknowledged.
func logAndKill(t *testing.T, part, folder string, writer int, while time.Duration) []int {
	t.Helper()
	command := process(t, part, folder, writer)
	pipe, err := command.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := command.Start(); err != nil {
		t.Fatal(err)
	}
	words := bufio.NewScanner(pipe)
	var numbers []int
	next := func() bool {
		if !words.Scan() {
			return false
		}
		number, err := strconv.Atoi(words.Text())
		if err != nil {
			t.Error(err)
		}
		numbers = append(numbers, number)
		return true
	}
	if writer%5 != 4 {
		next()
	}
	time.Sleep(while)
	if err := command.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	for next() {
	}
	// The error of Wait is the kill.
	if err := command.Wait(); command.ProcessState.Exited() {
		t.Fatalf("the process ended by itself: %v", err)
	}
	return numbers
}

// ownLines checks the lines of one writer: its events from the first on, none left out or
// doubled, the acknowledged ones under their numbers, and at most one more, which was on
// the disk when the kill came before the word.
func ownLines(t *testing.T, entries []Entry, writer int, acknowledged []int) {
	t.Helper()
	n := 0
	for _, entry := range entries {
		l := payloadOf(t, entry)
		if l.Writer != writer {
			continue
		}
		if l.N != n {
			t.Fatalf("writer %d: line %d is its event %d, want %d", writer, entry.Seq, l.N, n)
		}
		if n < len(acknowledged) && entry.Seq != acknowledged[n] {
			t.Fatalf("writer %d: event %d is line %d, acknowledged as %d", writer, n, entry.Seq, acknowledged[n])
		}
		n++
	}
	if n < len(acknowledged) || n > len(acknowledged)+1 {
		t.Fatalf("writer %d: %d events in the journal, %d acknowledged", writer, n, len(acknowledged))
	}
}
