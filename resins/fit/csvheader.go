package fit

import (
	"fmt"
	"math"
	"strings"

	"potlife/kinetics/quantity"
)

// columns say what stands where; -1 for nowhere.
type columns struct {
	date, time, temperature, viscosity, flow int

	form           timeForm
	timeUnit       float64 // s, of plain numbers; 0 until known
	unit           temperatureUnit
	viscosityScale float64 // to Pa·s; 0 until known
}

// A temperatureUnit is how a log writes temperatures.
type temperatureUnit int

const (
	unnamed temperatureUnit = iota
	degreesCelsius
	degreesFahrenheit
	kelvins
)

func (u temperatureUnit) kelvin(value float64) quantity.Temperature {
	switch u {
	case degreesFahrenheit:
		return quantity.Celsius((value - 32) / 1.8) // by definition
	case kelvins:
		return quantity.Temperature(value)
	}
	return quantity.Celsius(value)
}

// headerWithin is how far down a header is looked for, and fewReadings how many
// lines above it may look like readings: loggers tell of themselves in numbers.
const headerWithin, fewReadings = 40, 2

// header finds the row of names, -1 for none, and the first row of readings, -1
// for none. The readings begin after the last line without any number.
func (r *logReader) header() (header, first int) {
	first, above := -1, 0
	for i, w := range r.rows {
		n := digits(w.cells)
		switch {
		case n == 0 && i < headerWithin && above <= fewReadings:
			first = -1
		case n >= 2:
			above++
			if first < 0 {
				first = i
			}
		}
	}
	if first <= 0 {
		return -1, first
	}
	header = first - 1
	if r.delimiter == ' ' {
		r.rows[header].cells = joinUnits(r.rows[header].cells)
	}
	if len(r.rows[header].cells) < 2 && len(r.rows[first].cells) > 1 {
		header = -1
	}
	passed := first
	if header >= 0 {
		passed--
	}
	if passed > 0 {
		r.note(LinesPassedOver{File: r.file, Lines: passed})
	}
	return header, first
}

// joinUnits puts "(min)" back to the "time" it was cut from.
func joinUnits(cells []string) []string {
	var joined []string
	for _, cell := range cells {
		if n := len(joined); n > 0 && strings.ContainsAny(cell[:1], "([/") {
			joined[n-1] += " " + cell
			continue
		}
		joined = append(joined, cell)
	}
	return joined
}

// assign finds the columns. False after a fault.
func (r *logReader) assign(header int, data []row) bool {
	r.columns = columns{date: -1, time: -1, temperature: -1, viscosity: -1, flow: -1}
	ok := false
	if header >= 0 {
		ok = r.byName(r.rows[header], data)
	} else {
		ok = r.byContent(data)
	}
	return ok && r.settleTime(data) && r.settleTemperature(header, data)
}

// byName reads the header.
func (r *logReader) byName(head row, data []row) bool {
	c := &r.columns
	if n := len(data[0].cells); len(head.cells) < n && r.delimiter == ' ' {
		r.fault(head, fmt.Sprintf("%d names stand above %d columns", len(head.cells), n), "write one word for each column, or part the columns with semicolons")
		return false
	}
	var rooms []int
	for i, name := range head.cells {
		switch role(name) {
		case "date":
			c.date = i
		case "time":
			if c.time >= 0 {
				r.note(SecondTime{File: r.file, Used: head.cells[c.time]})
				continue
			}
			c.time = i
			c.timeUnit = unitOfTime(name)
			c.form = formOfName(name)
		case "room":
			rooms = append(rooms, i)
		case "temperature":
			if c.temperature >= 0 {
				r.fault(head, fmt.Sprintf("«%s» and «%s» may both be the resin's temperature", shown(head.cells[c.temperature]), shown(name)), "rename the one that is not the resin's to room")
				return false
			}
			c.temperature = i
			c.unit = unitOfTemperature(name)
		case "viscosity":
			c.viscosity = i
			c.viscosityScale = unitOfViscosity(name)
			if c.viscosityScale == 0 {
				r.fault(head, "«"+shown(name)+"» names no unit", "write it as viscosity_mPas or viscosity_Pas")
				return false
			}
		case "flow":
			c.flow = i
		}
	}
	if len(rooms) > 0 {
		r.note(RoomColumn{File: r.file, Column: shown(head.cells[rooms[0]])})
	}
	return r.complete(head, data)
}

// complete finds what the names left open by the content of the columns.
func (r *logReader) complete(head row, data []row) bool {
	c := &r.columns
	if c.time < 0 && c.date >= 0 && clocklike(data[0].cell(c.date)) {
		c.time, c.date = c.date, -1 // "date" above date and time
	}
	if c.time >= 0 && c.temperature < 0 && len(data[0].cells) == 2 {
		c.temperature = 1 - c.time
	}
	if c.temperature >= 0 && c.time < 0 && len(data[0].cells) == 2 {
		c.time = 1 - c.temperature
	}
	if c.time < 0 || c.temperature < 0 {
		what, name := "time", "time_s"
		if c.time >= 0 {
			what, name = "temperature", "temperature_C"
		}
		r.fault(head, "no column is named as the "+what, "rename it to "+name)
		return false
	}
	return true
}

// byContent finds the columns of a file without a header.
func (r *logReader) byContent(data []row) bool {
	c := &r.columns
	var numbers []int
	for i, cell := range data[0].cells {
		switch {
		case clocklike(cell):
			c.time = i
		case datelike(cell):
			c.date = i
		case numeric(strings.TrimRight(cell, " °ºCFK")):
			numbers = append(numbers, i)
		}
	}
	if c.time >= 0 && len(numbers) == 2 && numbers[0] < c.time && r.counts(numbers[0], data) {
		r.note(CountColumn{File: r.file})
		numbers = numbers[1:]
	}
	if c.time < 0 && len(numbers) == 2 && c.date < 0 {
		c.time, numbers = numbers[0], numbers[1:]
	}
	if c.time < 0 || len(numbers) != 1 {
		r.fault(data[0], "the file has no header, and its columns may mean several things", "write a first line of names: time_s;temperature_C, further columns viscosity_mPas, flow_s, room_C")
		return false
	}
	c.temperature = numbers[0]
	r.note(NoHeader{File: r.file, Time: c.time + 1, Temperature: c.temperature + 1})
	return true
}

// counts tells whether a column is 1, 2, 3, ...
func (r *logReader) counts(column int, data []row) bool {
	before := math.NaN()
	for _, w := range data[:min(len(data), 20)] {
		value, ok := r.number(w.cell(column))
		if !ok || before == before && value != before+1 {
			return false
		}
		before = value
	}
	return true
}

// settleTemperature decides on a unit that nothing names: a room between 5 and
// 45 °C; 41 to 113 would be the same in °F.
func (r *logReader) settleTemperature(header int, data []row) bool {
	c := &r.columns
	if c.unit != unnamed {
		return true
	}
	for _, w := range data {
		cell := w.cell(c.temperature)
		if absent(cell) {
			continue
		}
		if c.unit = unitOfTemperature(strings.TrimLeft(cell, "0123456789.,+-")); c.unit != unnamed {
			return true
		}
		value, ok := r.number(cell)
		if !ok {
			continue
		}
		if value >= 5 && value < 41 {
			c.unit = degreesCelsius
			r.note(UnitOfTemperatures{File: r.file, First: cell})
			return true
		}
		mend := "write a first line that names it: time_s;temperature_C or temperature_F"
		if header >= 0 {
			mend = "name it in the header: temperature_C or temperature_F"
		}
		r.fault(w, "the temperatures name no unit, and "+shown(cell)+" may be °C or °F", mend)
		return false
	}
	r.fault(data[0], "there is no temperature in the column", "check which column holds the resin's temperature")
	return false
}
