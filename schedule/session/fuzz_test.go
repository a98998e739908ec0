package session

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"testing"
)

// soundPrefix counts the lines from the start that fit the package comment, and their
// bytes. It is written apart from the code under test, from the comment alone.
func soundPrefix(data []byte) (lines, size int) {
	before, chain := "00000000", true
	for {
		line, _, ended := bytes.Cut(data[size:], []byte("\n"))
		length := len(line)
		line = bytes.TrimSuffix(line, []byte("\r"))
		if len(line) >= LongestLine || len(line) < 9 {
			return lines, size
		}
		object, tail := line[:len(line)-9], string(line[len(line)-9:])
		sum := fmt.Sprintf("%08x", crc32.Checksum(object, crc32.MakeTable(crc32.Castagnoli)))
		var fields map[string]any
		if tail != "\t"+sum || json.Unmarshal(object, &fields) != nil {
			return lines, size
		}
		if seq, _ := fields["seq"].(float64); seq != float64(lines+1) {
			return lines, size
		}
		for _, name := range []string{"key", "after"} {
			if value, found := fields[name]; found {
				if _, isText := value.(string); !isText && value != nil {
					return lines, size
				}
			}
		}
		after, _ := fields["after"].(string)
		if lines == 0 {
			chain = after != ""
		}
		if chain && after != before {
			return lines, size
		}
		before = sum
		lines++
		if size += length; !ended {
			return lines, size
		}
		size++
	}
}

// FuzzOpen: whatever the bytes, Open does not panic, accepts no line whose checksum is
// wrong, keeps every sound line from the start, and touches nothing; an append goes on behind
// the sound lines.
func FuzzOpen(f *testing.F) {
	text, _, ends := history(f, 6)
	for _, end := range ends {
		f.Add(text[:end])
	}
	f.Add(text[:len(text)-1])
	f.Add(text[:len(text)-20])
	f.Add(text[ends[1]:])
	f.Add(append(bytes.Clone(text), "\n\n"...))
	f.Add([]byte("{\"seq\":1}\t00000000\n"))
	f.Add(make([]byte, 100))
	f.Fuzz(func(t *testing.T, data []byte) {
		folder := t.TempDir()
		lines, size := soundPrefix(data)
		j, report, err := openText(t, folder, data)
		if err != nil {
			var damaged *Damaged
			if !errors.As(err, &damaged) || damaged.Line != lines+1 || size == len(data) {
				t.Errorf("%v; %d lines, %d of %d bytes, are sound", err, lines, size, len(data))
			}
			if !bytes.Equal(contents(t, folder), data) {
				t.Error("the refused file was changed")
			}
			return
		}
		defer j.Close()
		if bytes.IndexByte(data[size:], '\n') >= 0 {
			t.Errorf("accepted a bad line %d: %q", lines+1, data[size:])
		}
		if len(j.Entries()) != lines || report.Cut != len(data)-size || report.Tail != string(data[size:]) {
			t.Errorf("%d entries and %+v; %d lines, %d of %d bytes, are sound", len(j.Entries()), report, lines, size, len(data))
		}
		if !bytes.Equal(contents(t, folder), data) {
			t.Error("reading has changed the journal")
		}
		if entry := mustAppend(t, j, sample{N: 1}); entry.Seq != lines+1 {
			t.Errorf("the next entry is %d behind %d lines", entry.Seq, lines)
		}
		if after := contents(t, folder); !bytes.HasPrefix(after, data[:size]) || bytes.Count(after, []byte("\n")) != lines+1 {
			t.Errorf("what is left is not the sound lines and one more: %q", after)
		}
		if _, good, damage := scan(contents(t, folder), nil); damage != nil || good != len(contents(t, folder)) {
			t.Errorf("after an append: %v", damage)
		}
	})
}
