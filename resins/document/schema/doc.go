// Package schema writes the JSON Schema (draft 2020-12) of a kind of files from the table of
// fields by which the files are read, so that an editor knows keys, choices, units and
// required keys while a file is being written.
//
// What the program reads the schema accepts. It refuses unknown keys, missing ones, wrong
// choices, bare numbers where a quantity is wanted, units of something else, and the sets of
// keys that the table's rules refuse. What it cannot say, or would need pages to say, only
// the program refuses:
//
//   - ranges of quantities, but for their sign: "250 mm" is a text there, and so is a number
//     in quotes
//   - rules between mappings or between values: highest above lowest, both parts by mass or
//     both by volume, evidence for a block that may be left out, a hoop that has an angle as
//     well, what a mandrel of a stated material needs
//   - what is outside the file: time zones, resin records and logs beside it, times over
//     which a clock leaps, whether a pot life is possible at all
//   - YAML that the program refuses and others read: anchors, tags, merges, keys written
//     twice, several documents, numbers as octal or hexadecimal
//   - texts that nobody writes: brackets in a unit that do not close, minutes before hours
//
// Beside the keywords of the draft it writes patternErrorMessage, which editors show instead
// of a pattern and validators pass over.
package schema
