package main

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"time"
)

// figures are what a report tells: numbers by the path of their JSON names, times of day as
// seconds from the first, and words.
type figures struct {
	numbers map[string]float64
	words   map[string]string
}

// figuresOf takes a report apart; seconds of a time of day count from since.
func figuresOf(report any, since time.Time) (figures, error) {
	f := figures{map[string]float64{}, map[string]string{}}
	text, err := json.Marshal(report)
	if err != nil {
		return f, err
	}
	var parts any
	if err := json.Unmarshal(text, &parts); err != nil {
		return f, err
	}
	f.add("", parts, since)
	return f, nil
}

// untold are parts of a report that are no figures of its own: what went into it, prose,
// which is made of the figures, and the parameters of a fit, which trade against each other
// while what they foretell stands; that is compared.
var untold = map[string]bool{
	"warnings": true, "cautions": true, "limits": true, "session": true, "text": true, "name": true, "job": true,
	"changes_from_plan": true, "members": true, "members_effective": true, "way_out": true, "what": true,
	"parameters": true, "record": true, "residual": true, "surprise": true,
}

func (f *figures) add(path string, value any, since time.Time) {
	switch v := value.(type) {
	case map[string]any:
		for key, inner := range v {
			if !untold[key] {
				f.add(path+"."+key, inner, since)
			}
		}
	case []any:
		f.words[path+" count"] = fmt.Sprint(len(v))
		for i, inner := range v {
			f.add(fmt.Sprintf("%s[%d]", path, i+1), inner, since)
		}
	case float64:
		f.numbers[path] = v
	case string:
		if at, err := time.Parse(time.RFC3339, v); err == nil {
			f.numbers[path+"_s"] = at.Sub(since).Seconds()
			return
		}
		f.words[path] = v
	case bool:
		f.words[path] = fmt.Sprint(v)
	case nil:
		f.words[path] = "never"
	}
}

// leaf is the last name of a path, without the numbers of lists.
func leaf(path string) string {
	name := path[strings.LastIndex(path, ".")+1:]
	name, _, _ = strings.Cut(name, "[")
	return name
}

// group is a path without the numbers of lists, so that the layers of a plan are one figure.
func group(path string) string {
	var parts []string
	for part := range strings.SplitSeq(strings.TrimPrefix(path, "."), ".") {
		part, _, _ = strings.Cut(part, "[")
		parts = append(parts, part)
	}
	return strings.Join(parts, ".")
}

// floor is the change that nobody can act on: half a minute, half a degree on a thermometer,
// what a scale reads to, a hundredth of a degree of cure.
func floor(path string) float64 {
	name := leaf(path)
	switch {
	case name == "mix_latest_s", name == "pour_latest_s":
		return 60 // whole minutes, rounded down
	case strings.HasPrefix(name, "left") && strings.HasSuffix(name, "_sure_s"):
		// Of baths that lie still some just reach the limit of their temperature and others just do
		// not, which live half as long again: where these are about one in ten, a seed moves what nine
		// in ten have left by 35 s of 51 min.
		return 40
	case name == "peak_at_s":
		return 35 // behind the front of a runaway over 200 °C, of which only the moment is printed, in minutes
	case strings.HasSuffix(name, "_s") && !strings.HasSuffix(name, "_Pa_s"):
		return 30
	case strings.HasSuffix(name, "_C"), strings.HasSuffix(name, "_K"):
		return 0.5
	case strings.HasSuffix(name, "_g"):
		return 0.1
	case strings.HasPrefix(name, "chance_"):
		return 0.03 // a share of 240 baths
	case strings.HasPrefix(name, "degree_of_cure"):
		return 0.01
	}
	return 0
}

// hundredth is the share of itself by which a figure may move.
const hundredth = 0.01

// beyond is how far a change is past what is allowed, 1 just being allowed: the larger of a
// hundredth of the figure and its floor.
func beyond(path string, shipped, other float64) float64 {
	change := math.Abs(other - shipped)
	if change == 0 {
		return 0
	}
	return change / math.Max(hundredth*math.Abs(shipped), floor(path))
}
