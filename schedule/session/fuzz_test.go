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
	for {
		line, _, found := bytes.Cut(data[size:], []byte("\n"))
		if !found || len(line) >= LongestLine || len(line) < 9 {
			return lines, size
		}
		object, tail := line[:len(line)-9], string(line[len(line)-9:])
		sum := crc32.Checksum(object, crc32.MakeTable(crc32.Castagnoli))
		var fields map[string]any
		if tail != fmt.Sprintf("\t%08x", sum) || json.Unmarshal(object, &fields) != nil {
			return lines, size
		}
		if seq, _ := fields["seq"].(float64); seq != float64(lines+1) {
			return lines, size
		}
		if key, found := fields["key"]; found {
			if _, isText := key.(string); !isText && key != nil {
				return lines, size
			}
		}
		lines++
		size += len(line) + 1
	}
}

// FuzzOpen: whatever the bytes, Open does not panic, accepts no line whose checksum is
// wrong, keeps every sound line from the start, and touches nothing it refuses.
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
		if !bytes.Equal(contents(t, folder), data[:size]) {
			t.Error("what is left is not the sound lines")
		}
		if entry := mustAppend(t, j, sample{N: 1}); entry.Seq != lines+1 {
			t.Errorf("the next entry is %d behind %d lines", entry.Seq, lines)
		}
	})
}
