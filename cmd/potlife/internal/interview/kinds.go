package interview

import (
	"errors"
	"fmt"
	"strconv"

	"potlife/kinetics/quantity"
	"potlife/resins"
)

// A kind of statement: the questions, of which Enter passes the first over, and the line of
// the file. Giving up halfway is dropping it.
type kind struct {
	questions []question
	line      func(answers []string) string
	once      bool
}

func timed(words, example, enter string) question {
	return question{words: words, example: example, enter: enter, check: quantityOf[quantity.Time]}
}

func warm(words, example string) question {
	return question{words: words, example: example, check: quantityOf[quantity.Temperature]}
}

func heavy(words, example string) question {
	return question{words: words, example: example, check: quantityOf[quantity.Mass]}
}

func wide(words, enter string) question {
	return question{words: words, example: "60 mm", enter: enter, check: quantityOf[quantity.Length]}
}

// kinds in the order asked: what a label has first.
var kinds = []kind{
	{
		questions: []question{
			timed("Pot life", "45 min", "none, or no more"), heavy("  of what mass", "100 g"), warm("  at what temperature", "23 °C"),
			wide("  in a cup of what inner diameter", "not known"),
			{words: "  until what (gel, doubled, a temperature, a viscosity)", example: "gel", check: func(text string) (string, error) {
				_, err := resins.ParseEndPoint(text)
				return text, err
			}},
		},
		line: func(a []string) string {
			in := ""
			if a[3] != "" {
				in = fmt.Sprintf(" in: {cup: %s},", a[3])
			}
			return fmt.Sprintf("pot_life: {time: %s, mass: %s, at: %s,%s end: %s}", a[0], a[1], a[2], in, a[4])
		},
	},
	{
		questions: []question{
			{words: "Viscosity of the fresh mix", example: "650 mPa·s", enter: "none, or no more", check: quantityOf[quantity.Viscosity]},
			warm("  at what temperature", "25 °C"),
		},
		line: func(a []string) string { return fmt.Sprintf("viscosity: {value: %s, at: %s}", a[0], a[1]) },
	},
	{
		questions: []question{timed("Time in which a thin film gels", "5 h", "none, or no more"), warm("  at what temperature", "23 °C")},
		line:      func(a []string) string { return fmt.Sprintf("film_gel: {time: %s, at: %s}", a[0], a[1]) },
	},
	{
		questions: []question{
			{words: "Degree of cure from a calorimeter", example: "0.5", enter: "none, or no more", check: func(text string) (string, error) {
				if _, err := strconv.ParseFloat(text, 64); err != nil {
					return "", errors.New(text + " is no number\nwrite a share such as 0.5, with a point")
				}
				return text, nil
			}},
			timed("  after what time", "5 h", ""), warm("  at what temperature", "25 °C"),
		},
		line: func(a []string) string {
			return fmt.Sprintf("conversion: {is: %s, after: {time: %s, at: %s}}", a[0], a[1], a[2])
		},
	},
	{
		questions: []question{
			{words: "Glass temperature after a cure", example: "52 °C", enter: "none, or no more", check: quantityOf[quantity.Temperature]},
			timed("  after what time", "7 d", ""), warm("  at what temperature", "23 °C"),
		},
		line: func(a []string) string {
			return fmt.Sprintf("glass: {is: %s, after: {time: %s, at: %s}}", a[0], a[1], a[2])
		},
	},
	{
		questions: []question{{words: "Heat of the whole reaction", example: "430 J/g", enter: "not known", check: quantityOf[quantity.SpecificEnergy]}},
		line:      func(a []string) string { return "heat: " + a[0] },
		once:      true,
	},
	{
		questions: []question{
			{words: "Log of a cup with a thermometer in it, a file beside this one", example: "./saturday.csv", enter: "none, or no more", check: func(text string) (string, error) {
				return strconv.Quote(text), nil
			}},
			heavy("  of what mass", "200 g"), wide("  in a cup of what inner diameter", ""), warm("  in a room of", "22 °C"),
			timed("  its first reading came how long after mixing", "4 min", "as its clock says"),
		},
		line: func(a []string) string {
			begins := ""
			if a[4] != "" {
				begins = ", begins: " + a[4]
			}
			return fmt.Sprintf("cup_log: {file: %s, mass: %s, in: {cup: %s}, room: %s%s}", a[0], a[1], a[2], a[3], begins)
		},
	},
}
