// Package report turns results into what people and programs read: JSON
// structs, unrounded and in SI or with the unit in the name, and text, which is
// the only place where anything is rounded.
package report
