package fit

import "strings"

// role says what a column's name means; empty if nothing that is used.
func role(name string) string {
	lower := strings.ToLower(name)
	has := func(parts ...string) bool {
		for _, part := range parts {
			if strings.Contains(lower, part) {
				return true
			}
		}
		return false
	}
	word := strings.Trim(firstWord(name), ".:")
	switch {
	case has("flow", "auslauf", "zahn", "iso"):
		return "flow"
	case has("visc", "visk", "mpa", "pa·s", "pa*s"):
		return "viscosity"
	case has("temp", "°", "º", "℃", "℉", "celsius", "fahrenheit", "kelvin", "degc", "degf") || word == "T" || word == "C" || word == "F":
		if has("room", "raum", "ambient", "umgebung", "air", "luft", "junction") {
			return "room"
		}
		return "temperature"
	case has("room", "raum", "ambient"):
		return "room"
	case has("date", "datum") && !has("time", "zeit"):
		return "date"
	case has("time", "zeit", "uhr", "clock", "elapsed", "stunde", "minute", "sekunde", "second", "hour"):
		return "time"
	}
	switch strings.ToLower(word) {
	case "t", "s", "sec", "min", "h", "hh", "mm", "date":
		return "time"
	case "resin", "harz", "cup":
		return "temperature"
	}
	return ""
}

// firstWord is the letters that a name begins with.
func firstWord(name string) string {
	words := words(name)
	if len(words) == 0 {
		return ""
	}
	return words[0]
}

// words cuts a name where it has no letters.
func words(name string) []string {
	return strings.FieldsFunc(name, func(c rune) bool {
		return !('a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || c > 127 && c != '°' && c != 'º')
	})
}

// unitOfTime returns the seconds of the unit that a name holds, 0 for none.
func unitOfTime(name string) float64 {
	for _, word := range words(name) {
		switch strings.ToLower(word) {
		case "s", "sec", "secs", "second", "seconds", "sek", "sekunden":
			return 1
		case "min", "mins", "minute", "minutes", "minuten":
			return 60
		case "h", "hr", "hrs", "hour", "hours", "std", "stunden":
			return 3600
		case "ms", "milliseconds":
			return 1e-3
		}
	}
	return 0
}

// formOfName returns the form of a:b that a name holds.
func formOfName(name string) timeForm {
	lower := strings.ToLower(strings.ReplaceAll(name, " ", ""))
	for _, form := range []string{"mm:ss", "m:ss", "min:s", "min:sec"} {
		if strings.Contains(lower, form) && !strings.Contains(lower, "h:") {
			return minutesSeconds
		}
	}
	for _, form := range []string{"h:m", "clock", "uhr", "timeofday", "localtime"} {
		if strings.Contains(lower, form) {
			return hoursMinutes
		}
	}
	return undecided
}

func unitOfTemperature(name string) temperatureUnit {
	lower := strings.ToLower(name)
	switch {
	case strings.ContainsRune(name, '℃') || strings.Contains(lower, "celsius") || strings.Contains(lower, "degc"):
		return degreesCelsius
	case strings.ContainsRune(name, '℉') || strings.Contains(lower, "fahrenheit") || strings.Contains(lower, "degf"):
		return degreesFahrenheit
	case strings.Contains(lower, "kelvin"):
		return kelvins
	}
	for _, word := range words(name) {
		switch word {
		case "C", "c":
			return degreesCelsius
		case "F", "f":
			return degreesFahrenheit
		case "K":
			return kelvins
		}
	}
	return unnamed
}

// unitOfViscosity returns the Pa·s of the unit that a name holds, 0 for none.
func unitOfViscosity(name string) float64 {
	lower := strings.ToLower(name)
	switch {
	case strings.Contains(lower, "mpa"), strings.Contains(lower, "cp"):
		return 1e-3
	case strings.Contains(lower, "pa"):
		return 1
	}
	return 0
}
