package session

import (
	"slices"
	"time"

	"potlife/kinetics/quantity"
)

// Why is why a plan was made.
type Why string

// The reasons.
const (
	AtStart     Why = "start"        // by start, for the whole job
	Taken       Why = "taken"        // by replan --take, because a person said so
	LimitBroken Why = "limit-broken" // by log, because the one before no longer kept its limits
)

// A Plan is how a day is to be wound, as its journal keeps it: what is poured where, and when
// as it was foreseen. Masses are as the scale shows them and times to the second, so that
// every screen reads the same figures from it.
type Plan struct {
	Why  Why       `json:"why"`
	From time.Time `json:"from"` // the moment from which it plans
	// Broke is the event by which the plan before broke a limit. Whoever takes that back
	// takes the plan back with it: after a reading that was misread, the one before rules
	// again.
	Broke    int          `json:"broke,omitempty"`
	Bath     *PlanBath    `json:"bath,omitempty"` // at From; none: it was empty
	MadeFor  PlanMember   `json:"made_for"`
	Chance   float64      `json:"chance"`           // share of the baths of that time that keep it, with the reserve
	Coarse   bool         `json:"coarse,omitempty"` // searched in coarse steps
	Pours    []PlanPour   `json:"pours"`
	Layers   []PlanLayer  `json:"layers"`
	End      time.Time    `json:"end"`
	Tightest PlanTightest `json:"tightest"`
}

// PlanBath is the likely bath that a plan began with.
type PlanBath struct {
	MassG        float64 `json:"mass_g"`
	TemperatureC float64 `json:"temperature_C"`
	Alpha        float64 `json:"degree_of_cure"`
}

// PlanMember is the bath on the bad side that a plan was made for, as factors on the record.
type PlanMember struct {
	Rate      float64 `json:"rate"`
	Viscosity float64 `json:"viscosity"`
	Loss      float64 `json:"heat_loss"`
}

// A PlanPour is what happens at one stop. It lies before a layer, or in it after as many
// circuits as are told.
type PlanPour struct {
	Into     string    `json:"into,omitempty"` // fill, top-up or change; none: winding goes on from what is in the bath
	Layer    int       `json:"before_layer"`   // from 1
	Circuits int       `json:"circuits,omitempty"`
	At       time.Time `json:"at"`
	Pots     []PlanPot `json:"pots,omitempty"`
}

// A PlanPot is one cup of a pour.
type PlanPot struct {
	MixAt     time.Time `json:"mix_at"`
	ResinG    float64   `json:"resin_g"`
	HardenerG float64   `json:"hardener_g"`
	Pot       int       `json:"pot,omitempty"` // seq of one that stood mixed when the plan was made; 0: to be mixed
}

// Mass is that of the whole cup.
func (p *PlanPot) Mass() quantity.Mass { return quantity.Mass((p.ResinG + p.HardenerG) / 1000) }

// A PlanLayer is when a layer, or what was left of it, is wound.
type PlanLayer struct {
	Layer int       `json:"layer"` // from 1
	Start time.Time `json:"start"`
	End   time.Time `json:"end"`
}

// PlanTightest is the moment at which a plan has least to spare.
type PlanTightest struct {
	At       time.Time `json:"at"`
	LeftS    float64   `json:"life_left_s"`
	ReserveS float64   `json:"reserve_s"`
	EndsBy   string    `json:"ends_by,omitempty"`
}

// ToMix are the pots that were to be mixed when the plan was made, in their order.
func (p *Plan) ToMix() []PlanPot {
	var list []PlanPot
	for _, pour := range p.Pours {
		for _, pot := range pour.Pots {
			if pot.Pot == 0 {
				list = append(list, pot)
			}
		}
	}
	return list
}

// Uses tells whether a pot that stood mixed is poured.
func (p *Plan) Uses(seq int) bool {
	for _, pour := range p.Pours {
		for _, pot := range pour.Pots {
			if pot.Pot == seq {
				return true
			}
		}
	}
	return false
}

// Changes are how often the bath is changed.
func (p *Plan) Changes() int {
	n := 0
	for _, pour := range p.Pours {
		if pour.Into == "change" {
			n++
		}
	}
	return n
}

// InForce is the event whose plan rules after those given, of which none is left that was
// taken back; false: none keeps a plan. Those are the start and, later, the last [Planned].
func InForce(active []Event) (Event, bool) {
	for _, e := range slices.Backward(active) {
		if e.Plan != nil {
			return e, true
		}
	}
	return Event{}, false
}

// Own tells whether a person logged an event, and can mean it by undo without a number: the
// start and a plan that log made by itself are not.
func (e Event) Own() bool {
	return e.Kind != Started && !(e.Kind == Planned && (e.Plan == nil || e.Plan.Why == LimitBroken))
}
