// Package resins turns records on disk into kinetics: resin systems, fibres,
// mix ratios, and what resin and fibre make together.
//
// A [Record] is one resin with its hardener: the laws of package kinetics, the
// mix ratio, how uncertain the record is and, for each block, the evidence it
// rests on. [Load] reads the built-in ones by name and a crew's own by file;
// reading is strict and reports all faults at once. Package fit
// makes a record of what labels, data sheets and cup tests say.
package resins
