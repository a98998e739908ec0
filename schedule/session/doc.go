// Package session keeps the record of a day at the machine.
//
// The journal is a file of lines, journal.jsonl, that only ever grows. A line is one JSON
// object, a tab, eight hexadecimal digits and a newline:
//
//	{"seq":12,"at":"2026-11-28T09:14:00+01:00","kind":"bath-temp","is_C":23.4}	5a0f19c3
//
// The digits are the CRC-32C (Castagnoli) of the object's bytes. "seq" counts the lines
// from 1 without a gap; "key", where present, names an event that must not be logged
// twice. All other fields belong to whoever writes them and are kept byte for byte, known
// to this version or not.
//
// # Numbers
//
// Events are called e4 by their seq. Pots are called by numbers of their own, 1, 2, 3 in the
// order in which their mixing is logged, which are given as the journal is read and never
// written. A number once given stays, since a crew has written it on a cup: that of a pot which
// is taken back is given again only where no later pot stands logged, as when the last one is
// corrected.
//
// # What is promised
//
// An entry that Append returned is on the disk: the line went there in one write and was
// synced before. It is never lost and never doubled, whether a process is killed at any
// byte of a later append, several processes log at once, or the disk is full.
//
// # What a damaged file means
//
// A write that was cut short, by a kill or a power cut, leaves a last line without its
// newline. That line was never acknowledged: it is cut off and reported, with its text.
//
// Everything else that does not fit is damage to something that may have been
// acknowledged, and is refused as Damaged, never mended in silence: a wrong checksum, a
// number out of turn, and also a bad last line that ends in a newline, or a sound last
// line whose newline became another byte. After a power cut this can refuse a line that
// was never acknowledged, if its end reached the disk and its beginning did not; a person
// then decides. [Restore] puts lines back from a copy that [Session.CopyTo] made.
//
// # Locking
//
// Readers and writers take an advisory lock on journal.lock, which is never renamed or
// removed. Such locks are weak on network shares: a session belongs on a local disk.
package session
