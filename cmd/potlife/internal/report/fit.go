package report

import (
	"slices"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/resins"
	"potlife/resins/fit"
)

// Fit is the JSON of resins fit.
type Fit struct {
	Name           string             `json:"name"`
	Like           string             `json:"like"`
	Statements     []FitStatement     `json:"statements"`
	Parameters     []FitParameter     `json:"parameters"`
	Contradictions []FitContradiction `json:"contradictions"`
	Untold         []string           `json:"untold"` // stays at the nearest system
	SpreadBefore   Spread             `json:"spread_before"`
	Spread         Spread             `json:"spread"`
	Lives          []FitLife          `json:"lives"`
	Record         *Record            `json:"record"`
	File           string             `json:"file"` // that was written; empty: none
	Charts         []string           `json:"charts"`
	Warned
	density quantity.Density
}

// FitStatement is a statement and what is said instead of it: by the nearest system, by a
// record made of the other statements alone, and by the new record. A null time never comes.
type FitStatement struct {
	Statement string   `json:"statement"`
	Kind      string   `json:"kind"`
	Unit      string   `json:"unit"` // of the four figures: s, Pa·s, 1, K or J/kg
	Said      *float64 `json:"said"`
	Before    *float64 `json:"before"`
	Without   *float64 `json:"without"`
	Says      *float64 `json:"says"`
	Residual  *float64 `json:"residual"` // says against said, in σ of the statement
	Surprise  *float64 `json:"surprise"` // without against said, in σ of both
	measures  string
	rises     bool
}

// FitParameter is what the fit may move, as a change against the nearest system.
type FitParameter struct {
	Name       string  `json:"name"`
	Unit       string  `json:"unit"` // ln, J/mol or K
	Value      float64 `json:"value"`
	PriorSigma float64 `json:"prior_sigma"`
	Sigma      float64 `json:"sigma"`
	Told       bool    `json:"told"`
}

// FitContradiction is a pair of statements, counted from 1, that cannot both be right.
type FitContradiction struct {
	A      int     `json:"a"`
	B      int     `json:"b"`
	Sigmas float64 `json:"sigmas"`
}

// FitLife is a time to gel in the usual cup by the new record; null: not in seven days.
type FitLife struct {
	MassKg float64  `json:"mass_kg"`
	CupM   float64  `json:"cup_m"`
	RoomC  float64  `json:"room_C"`
	LifeS  *float64 `json:"life_s"`
	Spread float64  `json:"spread"`
}

// The lives told: what people mix, in rooms in which they wind.
var (
	toldMasses = []quantity.Mass{0.1, 0.5}
	toldRooms  = []quantity.Temperature{quantity.Celsius(18), quantity.Celsius(22), quantity.Celsius(26)}
)

// siUnits are those of the figures of a statement by what it measures.
var siUnits = map[string]string{"time": "s", "viscosity": "Pa·s", "conversion": "1", "temperature": "K", "heat": "J/kg"}

// NewFit builds the report of a fit. The error is that of a simulation.
func NewFit(f *fit.Result) (*Fit, error) {
	r := &Fit{
		Name: f.Record.Name, Like: f.Prior.Name, Statements: []FitStatement{}, Parameters: []FitParameter{},
		Contradictions: []FitContradiction{}, Untold: []string{}, Charts: []string{},
		SpreadBefore: Spread{f.Prior.Spread.Time, f.Prior.Spread.Viscosity},
		Spread:       Spread{f.Record.Spread.Time, f.Record.Spread.Viscosity},
		Record:       NewRecord(f.Record), density: f.Record.Kinetics.Density,
	}
	for i := range f.Statements {
		j := &f.Statements[i]
		r.Statements = append(r.Statements, FitStatement{
			Statement: j.Statement.String(), Kind: string(j.Statement.Kind), Unit: siUnits[j.Measures],
			Said: finite(j.Said), Before: finite(j.Before), Without: finite(j.Without), Says: finite(j.Says),
			Residual: finite(j.Residual), Surprise: finite(j.Surprise), measures: j.Measures,
			rises: j.Statement.Kind == fit.CupLog && j.Measures == "time",
		})
	}
	for _, p := range f.Parameters {
		r.Parameters = append(r.Parameters, FitParameter{parameterWords(p), p.Unit, p.Value, p.PriorSigma, p.Sigma, p.Told})
	}
	for _, c := range f.Contradictions {
		r.Contradictions = append(r.Contradictions, FitContradiction{c.A + 1, c.B + 1, c.Sigmas})
	}
	for _, m := range f.Untold {
		r.Untold = append(r.Untold, movesWords[m])
	}
	r.Warned = NewWarned(slices.Concat(f.Renamed, f.Warnings, r.Record.given)...)
	return r, r.lives(f)
}

// CourseWords are the title of a cup log's chart and what its two curves are called.
func CourseWords(f *fit.Result, i int) (title, fitted, before string) {
	return f.Record.Name + ": " + f.Statements[i].Statement.String(), "the record, fitted", f.Prior.Name + ", before"
}

func (r *Fit) lives(f *fit.Result) error {
	for _, room := range toldRooms {
		for _, m := range toldMasses {
			cup := resins.AssumedCup(m, r.density)
			life, err := f.Life(cup, false, m, room, vessel.EndPoint{Gel: true})
			if err != nil {
				return err
			}
			r.Lives = append(r.Lives, FitLife{
				MassKg: float64(m), CupM: float64(cup.Cup), RoomC: room.Celsius(),
				LifeS: seconds(life.Likely), Spread: life.Spread,
			})
		}
	}
	return nil
}
