package report

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"

	"potlife/kinetics/quantity"
	"potlife/schedule/session/hazard"
)

// Hazard is the JSON of a pot, or the bath, that is dangerous now.
type Hazard struct {
	What      string   `json:"what"`       // pot or bath
	Pot       int      `json:"pot"`        // seq of its event; 0: the bath
	PotNumber int      `json:"pot_number"` // 0: the bath
	Stage     string   `json:"stage"`      // liquid: spread it; set: keep away
	Why       string   `json:"why"`        // gelled, hot, over-limit or runs-away
	MassG     float64  `json:"mass_g"`
	HottestC  float64  `json:"hottest_C"` // now, in the worst of ten baths or as read
	PeakC     float64  `json:"peak_C"`    // to come, in the worst of ten baths
	Reading   int      `json:"reading"`   // that says so; 0: reckoning does
	DepthM    *float64 `json:"spread_depth_m"`
	SideM     *float64 `json:"spread_side_m"`
	MinutesS  *float64 `json:"minutes_left_s"` // until it sets or is too hot to touch; null: not within two days
	Text      string   `json:"text"`
}

// The stages and kinds of a hazard in JSON.
const (
	StageLiquid = "liquid"
	StageSet    = "set"
	OfPot       = "pot"
	OfBath      = "bath"
)

func newHazards(list []hazard.Hazard, limits Limits) []Hazard {
	said := []Hazard{}
	for i := range list {
		h := &list[i]
		j := Hazard{
			What: OfBath, Pot: h.Pot.Seq, PotNumber: h.Pot.Number, Stage: StageLiquid, Why: string(h.Why), MassG: grams(h.Mass),
			HottestC: h.Hottest.Celsius(), PeakC: h.Peak.Celsius(), Reading: h.Reading, MinutesS: seconds(h.Sets),
		}
		if !h.InBath() {
			j.What = OfPot
		}
		if h.Stage == hazard.Set {
			j.Stage, j.MinutesS = StageSet, nil
		} else if h.Depth > 0 {
			j.DepthM, j.SideM = finite(float64(h.Depth)), finite(float64(h.Side))
		}
		j.Text = j.words(h, limits)
		said = append(said, j)
	}
	return said
}

// words say what is to be done with a hazard, then why.
func (j *Hazard) words(h *hazard.Hazard, limits Limits) (text string) {
	defer shown("hazard-"+string(h.Why), &text)
	if h.Stage == hazard.Set {
		return j.keepAway(h)
	}
	return j.spreadIt(h, limits)
}

// name is that in a sentence, and in a command.
func (j *Hazard) name() (said, logged string) {
	if j.What == OfBath {
		return "the bath", "bath"
	}
	return fmt.Sprintf("pot %d", j.PotNumber), number(j.PotNumber)
}

// keepAway is what there is to do about what has set, or is too hot to touch.
func (j *Hazard) keepAway(h *hazard.Hazard) string {
	said, logged := j.name()
	why := "it has set"
	switch {
	case h.Reading > 0:
		why = fmt.Sprintf("reading e%d said %s", h.Reading, tenths(h.Read.Celsius()))
	case h.Why == hazard.Hot:
		why = "it may be at " + temperature(h.Hottest)
	}
	return fmt.Sprintf("KEEP AWAY FROM %s (%.0f g): %s. Do not touch it; move it only if that was prepared. "+
		"Air the room. If it smokes, leave and call the fire brigade. When it is cold: log cured %s.", strings.ToUpper(said), j.MassG, why, logged)
}

// spreadIt is what there is to do about what is still liquid.
func (j *Hazard) spreadIt(h *hazard.Hazard, limits Limits) string {
	said, logged := j.name()
	head := fmt.Sprintf("SPREAD %s NOW", strings.ToUpper(said))
	if j.What == OfBath {
		head = "GET THE BATH OUT NOW"
	}
	var why string
	switch {
	case h.Reading > 0:
		why = fmt.Sprintf("reading e%d said %s, the limit is %s", h.Reading, tenths(h.Read.Celsius()), tenths(limits.BathTemperature))
	case h.Why == hazard.OverLimit && j.HottestC < limits.BathTemperature:
		why = fmt.Sprintf("it was over its limit, %s, and may warm again", tenths(limits.BathTemperature))
	case h.Why == hazard.OverLimit:
		why = fmt.Sprintf("it may be at %s, the limit is %s", tenths(j.HottestC), tenths(limits.BathTemperature))
	default:
		why = fmt.Sprintf("%.0f g can run away, up to %s", j.MassG, temperature(h.Peak))
	}
	if h.Off != 0 {
		why = hardenerWords(h.Off) + ", and " + why
	}
	where := "Spread it thin in a wide tray, outdoors"
	if depth := flat(h.Depth); depth > 0 {
		side := math.Ceil(h.Side.In("cm")*math.Sqrt(h.Depth.In("mm")/depth)) * 10
		where = fmt.Sprintf("Spread it no deeper than %.3g mm, in a tray of %[2]g × %[2]g mm or wider, outdoors", depth, side)
	}
	within := ""
	if j.MinutesS != nil {
		within = fmt.Sprintf(", within %s", roundDown(quantity.Time(*j.MinutesS)))
	}
	return fmt.Sprintf("%s: %s. %s%s. Then: log spread %s.", head, why, where, within, logged)
}

// MarshalJSON tells temperatures above 200 °C as null.
func (j Hazard) MarshalJSON() ([]byte, error) {
	type plain Hazard
	hottest, over := below(j.HottestC)
	peak, overPeak := below(j.PeakC)
	return json.Marshal(struct {
		plain
		Hottest *float64 `json:"hottest_C"`
		Over    bool     `json:"over_200_C"`
		Peak    *float64 `json:"peak_C"`
		OverTop bool     `json:"peak_over_200_C"`
	}{plain(j), hottest, over, peak, overPeak})
}
