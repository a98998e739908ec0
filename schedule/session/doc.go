// Package session keeps the record of a day at the machine.
//
// The journal is a file of lines, journal.jsonl, that only ever grows. A line is one JSON
// object, a tab, eight hexadecimal digits and a newline:
//
//	{"seq":12,"after":"91c06b7e","at":"2026-11-28T09:14:00+01:00","kind":"bath-temp","is_C":23.4}	5a0f19c3
//
// The digits are the CRC-32C (Castagnoli) of the object's bytes. "seq" counts the lines
// from 1 without a gap; "after" is the checksum of the line before, 00000000 in the first;
// "key", where present, names an event that must not be logged twice. All other fields belong
// to whoever writes them and are kept byte for byte, known to this version or not. A journal
// whose first line has no "after" is of before format 3: its lines are no chain, and those that
// are added to it have none either.
//
// Beside it journal.count keeps how many lines were acknowledged, for journals that are chains:
// two records of number and checksum of the last line, each with a checksum of its own. refused.jsonl
// keeps the keys whose events were refused.
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
// synced, and then it was counted. It is never lost and never doubled, whether a process is
// killed at any byte of a later append, several processes log at once, or the disk is full.
// Whoever only reads changes nothing.
//
// # What a damaged file means
//
// A write that was cut short, by a kill or a power cut, leaves a last line without its
// newline. Where its checksum fits it is an entry all the same. Else it counts for nothing and
// is reported; the next Append cuts it off and keeps it beside the journal, as
// journal.cut-1.jsonl.
//
// Everything else that does not fit is damage to something that may have been
// acknowledged, and is refused as Damaged, never mended in silence: a wrong checksum, a
// number out of turn, a line behind another one than it was logged behind, fewer lines than were
// acknowledged, and also a bad last line that ends in a newline, or a sound last
// line whose newline became another byte. After a power cut this can refuse a line that
// was never acknowledged, if its end reached the disk and its beginning did not; a person
// then decides. [Restore] puts lines back from a copy that [Session.CopyTo] made.
//
// A count that is behind its journal is none: a process was killed between line and count, or a
// count could not be written. The next Append writes it anew, and so it does where the count is
// gone, which is only warned of: what was logged must not be out of reach for a side file.
//
// # Locking
//
// Readers and writers take an advisory lock on journal.lock, which is never renamed or
// removed. Such locks are weak on network shares: a session belongs on a local disk.
package session
