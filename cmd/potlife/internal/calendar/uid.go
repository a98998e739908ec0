package calendar

import (
	"crypto/sha1"
	"fmt"
	"strconv"
	"strings"
)

// UID is the identity of an event: the same parts give the same one, other parts another.
// It is a UUID, as RFC 7986, 5.3 asks, of version 5, made from a name as RFC 9562, 5.5 has
// it. A calendar program that reads an event with a known identity again moves it, and does
// not add a second one.
func UID(parts ...string) string {
	quoted := make([]string, len(parts))
	for i, part := range parts {
		quoted[i] = strconv.Quote(part) // so that no two lists of parts read alike
	}
	return nameUUID(namespace, strings.Join(quoted, " "))
}

// namespace is a UUID drawn once for the events of this program.
var namespace = [16]byte{0x5b, 0x1e, 0x0c, 0x8d, 0x7a, 0x43, 0x4f, 0x26, 0x9d, 0x11, 0xe2, 0x60, 0x3c, 0x97, 0x58, 0xb4}

// nameUUID is a UUID of version 5. SHA-1 is no secret keeper here: it spreads names.
func nameUUID(space [16]byte, name string) string {
	sum := sha1.Sum(append(space[:], name...))
	u := sum[:16]
	u[6] = u[6]&0x0f | 5<<4 // version
	u[8] = u[8]&0x3f | 0x80 // variant
	return fmt.Sprintf("%x-%x-%x-%x-%x", u[:4], u[4:6], u[6:8], u[8:10], u[10:])
}
