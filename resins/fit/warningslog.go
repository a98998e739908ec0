package fit

import "potlife/kinetics/quantity"

// The notes on a log tell how a file was understood where it did not say so itself: one that
// was misread makes a record of another resin.

// LinesPassedOver stand above the readings of a log.
type LinesPassedOver struct {
	File  string
	Lines int
}

// Code names the kind.
func (LinesPassedOver) Code() string { return "log-lines-passed-over" }

// WithoutTemperature are lines of a log that hold a time alone; they are left out.
type WithoutTemperature struct {
	File  string
	Lines int
}

// Code names the kind.
func (WithoutTemperature) Code() string { return "log-lines-without-temperature" }

// SameTime are readings of a log at the time of the one before; they are left out.
type SameTime struct {
	File     string
	Readings int
}

// Code names the kind.
func (SameTime) Code() string { return "log-readings-at-same-time" }

// A ZeroIsMixing is a log whose clock counts from a zero before its first reading: that is
// taken for the mixing.
type ZeroIsMixing struct {
	File  string
	First quantity.Time // of the readings, after the zero
}

// Code names the kind.
func (ZeroIsMixing) Code() string { return "log-zero-is-mixing" }

// A SecondTime is a log with two columns of time, of which one is used.
type SecondTime struct {
	File string
	Used string // its name
}

// Code names the kind.
func (SecondTime) Code() string { return "log-second-time-column" }

// A RoomColumn is a log with a column of the room, which is not used.
type RoomColumn struct {
	File   string
	Column string // its name
}

// Code names the kind.
func (RoomColumn) Code() string { return "log-room-column" }

// A CountColumn is a log whose first column counts the readings; it is left out.
type CountColumn struct{ File string }

// Code names the kind.
func (CountColumn) Code() string { return "log-count-column" }

// A NoHeader is a log whose columns were told by what stands in them.
type NoHeader struct {
	File              string
	Time, Temperature int // columns from 1
}

// Code names the kind.
func (NoHeader) Code() string { return "log-without-header" }

// MinutesAndSeconds is how the times a:b of a log are read, since a runs beyond the hours of
// a day.
type MinutesAndSeconds struct {
	File string
	To   string // such a time
}

// Code names the kind.
func (MinutesAndSeconds) Code() string { return "log-minutes-and-seconds" }

// A TimeOfDay is how the times a:b of a log are read, since they begin late enough.
type TimeOfDay struct {
	File  string
	First string // of the times
}

// Code names the kind.
func (TimeOfDay) Code() string { return "log-time-of-day" }

// A UnitOfTimes is what the plain numbers of a log count, told by how far they go.
type UnitOfTimes struct {
	File string
	Span float64       // from the least to the greatest number
	Unit quantity.Time // a second or a minute
}

// Code names the kind.
func (UnitOfTimes) Code() string { return "log-unit-of-times" }

// A UnitOfTemperatures is a log that names none and is read in °C, since it begins as warm as
// a room is in them.
type UnitOfTemperatures struct {
	File  string
	First string // of the temperatures
}

// Code names the kind.
func (UnitOfTemperatures) Code() string { return "log-unit-of-temperatures" }
