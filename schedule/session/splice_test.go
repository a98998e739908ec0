package session

import (
	"bytes"
	"slices"
	"testing"
)

// TestSpliceEveryFlip turns a bit of each byte of a journal: with a copy of all but its last
// lines nothing is lost where the copy holds the line, and only that line where it does not.
func TestSpliceEveryFlip(t *testing.T) {
	const copied = 7
	text, entries, ends := history(t, 10)
	line := 1
	for at := range text {
		if at >= ends[line] {
			line++
		}
		flipped := bytes.Clone(text)
		flipped[at] ^= 1 << (at % 8)
		s, err := splice(entries[:copied], flipped, false)
		if err != nil {
			t.Fatalf("byte %d in line %d: %v", at, line, err)
		}
		whole, left, lost := entries, 0, 0
		// The end of a line is no part of what was logged.
		if line > copied && at != ends[line]-1 {
			whole, left, lost = entries[:line-1], len(entries)-line, 1
		}
		if !bytes.Equal(textOf(s.entries), textOf(whole)) || len(s.leftOut) != left || len(s.lost) != lost {
			t.Fatalf("byte %d in line %d: %d lines, %d left out, %+v", at, line, len(s.entries), len(s.leftOut), s.lost)
		}
	}
}

// FuzzSplice: whatever became of a journal, what is restored from a copy reads as a journal,
// begins with the copy, and holds all that could be read before.
func FuzzSplice(f *testing.F) {
	text, entries, ends := history(f, 8)
	copied := entries[:5]
	f.Add([]byte{})
	f.Add(text)
	f.Add(text[:ends[7]-9])
	f.Add(append(text[ends[2]:ends[8]:ends[8]], "\n\n\x00{\"seq\":9,\t"...))
	f.Add(slices.Concat(text[:ends[5]], []byte("{\"seq\":6}\t00000000\n{\"seq\":"), text[ends[6]:]))
	f.Fuzz(func(t *testing.T, text []byte) {
		s, err := splice(copied, text, false)
		if err != nil {
			mended(t, string(text), err)
			return
		}
		made := textOf(s.entries)
		read, good, damage := scan(made, nil)
		if damage != nil || good != len(made) || len(read) != len(s.entries) || !bytes.HasPrefix(made, textOf(copied)) {
			t.Fatalf("%q makes %q, %v", text, made, damage)
		}
		before, good, damage := scan(text, nil)
		if !bytes.HasPrefix(made, textOf(before[:min(len(before), len(read))])) || len(before) > len(read) {
			t.Fatalf("%q makes %q", text, made)
		}
		if damage == nil && good == len(text) && len(s.leftOut) > 0 {
			t.Fatalf("%q is sound, and lines are left out: %+v", text, s.leftOut)
		}
	})
}
