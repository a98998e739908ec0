package calendar

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"
)

// property is one content line, unfolded.
type property struct{ name, params, value string }

// strict reads a file by the letter of RFC 5545 as far as it has events with alarms, and
// returns its properties or the first rule broken.
func strict(file string) ([]property, error) {
	body, ended := strings.CutSuffix(file, "\r\n")
	if !ended {
		return nil, fmt.Errorf("3.1: the last line is not ended by CRLF")
	}
	var unfolded []string
	for n, line := range strings.Split(body, "\r\n") {
		switch {
		case strings.ContainsAny(line, "\r\n"):
			return nil, fmt.Errorf("3.1: line %d holds a bare CR or LF", n+1)
		case len(line) > 75:
			return nil, fmt.Errorf("3.1: line %d has %d octets", n+1, len(line))
		case !utf8.ValidString(line):
			return nil, fmt.Errorf("3.1.4: line %d is no UTF-8: a fold splits a rune", n+1)
		case strings.HasPrefix(line, " ") || strings.HasPrefix(line, "\t"):
			if len(unfolded) == 0 {
				return nil, fmt.Errorf("3.1: the first line is folded")
			}
			unfolded[len(unfolded)-1] += line[1:]
		default:
			unfolded = append(unfolded, line)
		}
	}
	var list []property
	for _, line := range unfolded {
		p, err := contentLine(line)
		if err != nil {
			return nil, err
		}
		list = append(list, p)
	}
	rest, err := component(list, "VCALENDAR")
	if err == nil && len(rest) > 0 {
		err = fmt.Errorf("3.4: %q after the end", rest[0].name)
	}
	return list, err
}

// The grammar of 3.1: contentline = name *(";" param) ":" value. None of the properties
// that are written here needs a parameter, so none is let pass.
var contentGrammar = regexp.MustCompile(`^([A-Z-]+):([^\x00-\x08\x0a-\x1f\x7f]*)$`)

func contentLine(line string) (property, error) {
	m := contentGrammar.FindStringSubmatch(line)
	if m == nil {
		return property{}, fmt.Errorf("3.1: %q is no content line without parameters", line)
	}
	return property{name: m[1], value: m[2]}, nil
}

// Value types, 3.3.
var types = map[string]*regexp.Regexp{
	// 3.3.11: TSAFE-CHAR, ":" or DQUOTE, or one of \\ \; \, \N \n
	"TEXT": regexp.MustCompile(`^([^\\;,]|\\[\\;,Nn])*$`),
	// 3.3.5, form 2: date, "T", time, "Z"; 3.3.4 and 3.3.12 for the digits
	"DATE-TIME": regexp.MustCompile(`^[0-9]{4}(0[1-9]|1[0-2])(0[1-9]|[12][0-9]|3[01])T([01][0-9]|2[0-3])[0-5][0-9]([0-5][0-9]|60)Z$`),
	// 3.3.6, dur-time only
	"DURATION": regexp.MustCompile(`^[+-]?PT([0-9]+H([0-9]+M([0-9]+S)?)?|[0-9]+M([0-9]+S)?|[0-9]+S)$`),
	"2.0":      regexp.MustCompile(`^2\.0$`),                                      // 3.7.4
	"ACTION":   regexp.MustCompile(`^DISPLAY$`),                                   // 3.8.6.1
	"UUID":     regexp.MustCompile(`^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$`), // RFC 7986, 5.3: SHOULD
}

// rules are which properties a component has, of which type, required ones first, and what
// may be in it, each property once at most.
var rules = map[string]struct {
	required, optional map[string]string
	inside             string
}{
	"VCALENDAR": {map[string]string{"PRODID": "TEXT", "VERSION": "2.0"}, nil, "VEVENT"}, // 3.6: and one component at least
	// 3.6.1: DTSTART is required without METHOD
	"VEVENT": {
		map[string]string{"UID": "UUID", "DTSTAMP": "DATE-TIME", "DTSTART": "DATE-TIME"},
		map[string]string{"DTEND": "DATE-TIME", "SUMMARY": "TEXT", "DESCRIPTION": "TEXT"},
		"VALARM",
	},
	// 3.6.6, dispprop
	"VALARM": {map[string]string{"ACTION": "ACTION", "DESCRIPTION": "TEXT", "TRIGGER": "DURATION"}, nil, ""},
}

// component reads one from the front of a list and returns the rest.
func component(list []property, name string) ([]property, error) {
	if len(list) == 0 || list[0] != (property{"BEGIN", "", name}) {
		return nil, fmt.Errorf("3.4: no BEGIN:%s", name)
	}
	rule := rules[name]
	seen := map[string]string{}
	inside := 0
	for list = list[1:]; len(list) > 0; {
		p := list[0]
		switch p.name {
		case "END":
			return list[1:], closed(name, p.value, seen, inside)
		case "BEGIN":
			rest, err := component(list, rule.inside)
			if err != nil {
				return nil, err
			}
			list, inside = rest, inside+1
			continue
		}
		kind, found := rule.required[p.name]
		if !found {
			kind, found = rule.optional[p.name]
		}
		if _, twice := seen[p.name]; twice || !found {
			return nil, fmt.Errorf("3.6: %s in %s, twice or not known there", p.name, name)
		}
		if !types[kind].MatchString(p.value) {
			return nil, fmt.Errorf("3.3: %s:%s is no %s", p.name, p.value, kind)
		}
		seen[p.name] = p.value
		list = list[1:]
	}
	return nil, fmt.Errorf("3.4: no END:%s", name)
}

func closed(name, end string, seen map[string]string, inside int) error {
	for required := range rules[name].required {
		if _, found := seen[required]; !found {
			return fmt.Errorf("3.6: %s without %s", name, required)
		}
	}
	if end != name {
		return fmt.Errorf("3.4: END:%s in %s", end, name)
	}
	if name == "VCALENDAR" && inside == 0 {
		return fmt.Errorf("3.6: a calendar without a component")
	}
	// 3.8.2.2: DTEND MUST be later than DTSTART; digits of UTC sort as time does.
	if end, found := seen["DTEND"]; found && end <= seen["DTSTART"] {
		return fmt.Errorf("3.8.2.2: DTEND %s is not after %s", end, seen["DTSTART"])
	}
	return nil
}

// values are those of a property in their order.
func values(list []property, name string) []string {
	var found []string
	for _, p := range list {
		if p.name == name {
			found = append(found, p.value)
		}
	}
	return slices.Clip(found)
}

// plain undoes the escapes of 3.3.11.
func plain(value string) string {
	var out strings.Builder
	for i := 0; i < len(value); i++ {
		if value[i] != '\\' {
			out.WriteByte(value[i])
			continue
		}
		i++
		if value[i] == 'n' || value[i] == 'N' {
			out.WriteByte('\n')
		} else {
			out.WriteByte(value[i])
		}
	}
	return out.String()
}
