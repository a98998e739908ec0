package main

import (
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"potlife/cmd/potlife/internal/chart"
	"potlife/cmd/potlife/internal/report"
	"potlife/resins/fit"
)

// drawCups draws each cup log with what the record and the nearest system say, and returns
// the files written: path for the first log, path-2 and so on for others.
func drawCups(path string, f *fit.Result, force bool) ([]string, error) {
	var written []string
	for i := range f.Statements {
		course, err := f.Course(i)
		if err != nil {
			return written, err
		}
		if course == nil {
			continue
		}
		to := path
		if n := len(written); n > 0 {
			ending := filepath.Ext(path)
			to = fmt.Sprintf("%s-%d%s", strings.TrimSuffix(path, ending), n+1, ending)
		}
		target, err := chart.Target(to, force)
		if err == nil {
			err = chart.Save(target, cupCourse(f, i, course))
		}
		if err != nil {
			return written, unwritten(err)
		}
		written = append(written, to)
	}
	if len(written) == 0 {
		return nil, wrong(fmt.Errorf("--chart %s: there is no cup log among the statements to draw\n   leave it out, or add - cup_log: {file: ./saturday.csv, …}", path))
	}
	return written, nil
}

// readByThermometer is what a reading is taken to be good to, K.
const readByThermometer = 0.5

// mostMarks of readings are drawn; more would be a smear.
const mostMarks = 60

func cupCourse(f *fit.Result, i int, course *fit.Course) chart.Course {
	c := chart.Course{Measure: chart.Temperature, Elapsed: true}
	c.Title, c.LikelyWords, c.BeforeWords = report.CourseWords(f, i)
	var mixed time.Time // any day: only what passes is shown
	for k, p := range course.Fitted {
		c.At = append(c.At, mixed.Add(time.Duration(float64(p.At)*float64(time.Second))))
		c.Likely = append(c.Likely, report.Drawn(p.Is))
		c.Before = append(c.Before, report.Drawn(course.Prior[min(k, len(course.Prior)-1)].Is))
	}
	n := len(course.Read)
	every := max(1, (n+mostMarks-1)/mostMarks)
	for k := 0; k < n; k += every {
		at := mixed.Add(time.Duration(float64(course.Read[k].At) * float64(time.Second)))
		if last := c.At[len(c.At)-1]; at.After(last) {
			at = last
		}
		c.Readings = append(c.Readings, chart.Reading{At: at, Is: course.Read[k].Is.Celsius(), Doubt: readByThermometer})
	}
	return c
}
