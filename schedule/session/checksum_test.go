package session

import (
	"bytes"
	"testing"

	"potlife/kinetics/outside"
)

// TestChecksum: the examples of RFC 3720, B.4, as public programs quote them. They say that
// a journal can be checked with any tool that knows CRC-32C.
func TestChecksum(t *testing.T) {
	rising := make([]byte, 32)
	for i := range rising {
		rising[i] = byte(i)
	}
	for _, c := range []struct {
		id, what, printed string
		object            []byte
	}{
		{"zeros", "checksum of 32 bytes of zeros", "8a9136aa", make([]byte, 32)},
		{"ones", "checksum of 32 bytes of ones", "62a8ab43", bytes.Repeat([]byte{0xff}, 32)},
		{"rising", "checksum of 32 bytes that rise from 0", "46dd794e", rising},
	} {
		outside.CheckText(t, outside.Row{
			ID: "files/crc/" + c.id, Subject: outside.Files, Source: "rfc3720", Where: "B.4", Mark: outside.Seen, What: c.what, Printed: c.printed,
		}, checksum(c.object))
	}
}
