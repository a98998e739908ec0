package schedule

import (
	"errors"
	"path/filepath"
	"time"

	"potlife/kinetics/quantity"
	"potlife/kinetics/vessel"
	"potlife/kinetics/warning"
	"potlife/resins"
	"potlife/resins/document"
	"potlife/schedule/winding"
)

// A Job is one winding as its file orders it.
type Job struct {
	Name     string
	File     string
	Source   []byte // of the file, where it was loaded from one
	Resin    string // catalogue name or path, the latter from the job's folder
	Label    resins.Label
	HasLabel bool
	Learned  string // path of a file of lessons, from the job's folder; empty: none

	Fibre         resins.Fibre
	FibreFraction resins.FibreFraction
	PickUp        float64           // resin carried divided by the target
	Bleed         quantity.Fraction // of the resin carried, wiped off as it is wound

	ResinAt  quantity.Temperature // when mixed; 0: the room's
	Circuits bool                 // refill at circuits, not only at layer ends
	Zone     *time.Location
	Start    time.Time
	Room     Temperature
	Mandrel  Mandrel
	Ends     Ends
	Machine  Machine
	Bath     Bath
	Pots     Pots
	Limits   Limits
	Cure     Cure
	Layers   []winding.Layer

	Renamed    []warning.Warning // keys that the file has under names of before
	startTwice []warning.Warning // where the clock shows the start twice

	doc *document.Document // where each key stands in the file
}

// Ends is fibre beside the cylinder: lead-in, domes, tying off.
type Ends struct {
	Fibre quantity.Length
	Per   string
}

// Machine is what drives mandrel and tow.
type Machine struct {
	Tows          int
	Band          quantity.Length
	TowSpeed      quantity.Speed
	Spindle       quantity.RotationalSpeed // greatest; 0: no bound
	Turnaround    quantity.Angle
	BetweenLayers quantity.Time
}

// Bath is the resin bath.
type Bath struct {
	resins.Container
	Lowest, Highest quantity.Mass
	Change, Pour    quantity.Time
	Jacket          Temperature
	HasJacket       bool
	Draught         string  // none, some or strong; empty: not said
	LossSpread      float64 // factor of the loss coefficients, 9 times in 10
}

// Pots is how resin is mixed.
type Pots struct {
	Smallest, Largest quantity.Mass
	Scale             quantity.Mass
	RatioTolerance    quantity.Fraction
	Mixing            quantity.Time
	MixedBy           string // drill or hand
	Cup               quantity.Length
	StandsOn          vessel.Floor
	FloorLoss         quantity.HeatTransfer // of a cup; 0: that of what it stands on
	LeftInCup         quantity.Fraction
	Helper            bool
}

// Limits are the bounds of the bath; zero means the usual one.
type Limits struct {
	BathViscosity, LaidViscosity quantity.Viscosity
	BathTemperature              quantity.Temperature
	Clean                        vessel.Clean
	Reserve                      quantity.Time
}

// Usual figures where a job states none (common practice).
const (
	usualReserve        quantity.Time     = 600
	usualRatioTolerance quantity.Fraction = 0.02
)

// usualFloor is what a cup stands on, and a tray into which resin is spread: a bench of wood.
const usualFloor = vessel.Wood

// LoadJob reads a job file. The error is a [*document.Faults] with every fault
// of the file, or a [*resins.Unreadable].
func LoadJob(path string) (*Job, error) {
	source, err := resins.ReadFile(path, "job file")
	if err != nil {
		return nil, err
	}
	job, err := ReadJob(path, source)
	if err != nil {
		return nil, err
	}
	job.Source = source
	return job, nil
}

// ReadJob reads a job from source; path stands in messages and is where the
// job's own paths start from.
func ReadJob(path string, source []byte) (*Job, error) {
	return ReadJobIn(path, source, Place{})
}

// ReadJobIn is [ReadJob] as if in another place: a job that was begun elsewhere,
// or years ago, is the same one again.
func ReadJobIn(path string, source []byte, place Place) (*Job, error) {
	f := newJobFile(path, place)
	// Faults of single fields come back here and again, with those that tie
	// fields together, from doc.Err below.
	doc, _ := document.Read(path, source, f.fields())
	f.check(doc)
	if err := doc.Err(); err != nil {
		return nil, err
	}
	f.job.doc, f.job.Renamed = doc, doc.Renamed()
	return &f.job, nil
}

// fault places what only showed after reading at its key in the job's file.
func (j *Job) fault(path, problem, mend string) error {
	if j.doc == nil { // a job that was never in a file
		return errors.New(problem + "\n   " + mend)
	}
	doc := *j.doc
	doc.FaultAt(path, problem, mend)
	return doc.Err()
}

// faultOf is fault for an error that tells its own problem and mend; another
// one, such as the faults of a resin record, is returned as it is.
func (j *Job) faultOf(path string, err error) error {
	var told interface {
		Problem() string
		Mend() string
	}
	if !errors.As(err, &told) {
		return err
	}
	return j.fault(path, told.Problem(), told.Mend())
}

// ResinPath is the resin's name, or its path seen from here.
func (j *Job) ResinPath() string {
	if !resins.IsPath(j.Resin) || filepath.IsAbs(j.Resin) {
		return j.Resin
	}
	return filepath.Join(filepath.Dir(j.File), j.Resin)
}

// vesselLimits are the job's limits for the simulation, the usual ones filled in.
func (l Limits) vesselLimits(jacket quantity.Temperature, mandrel vessel.Series) vessel.Limits {
	limits := vessel.Limits{
		BathViscosity: l.BathViscosity, LaidViscosity: l.LaidViscosity,
		BathTemperature: l.BathTemperature, Mandrel: mandrel, Clean: l.Clean,
	}
	if limits.BathViscosity == 0 {
		limits.BathViscosity = vessel.UsualBathViscosity
	}
	if limits.LaidViscosity == 0 {
		limits.LaidViscosity = vessel.UsualLaidViscosity
	}
	if limits.BathTemperature == 0 {
		limits.BathTemperature = vessel.UsualBathTemperature
		if jacket > 0 {
			limits.BathTemperature = jacket + quantity.Temperature(vessel.UsualJacketMargin)
		}
	}
	return limits
}
