package advice

import "potlife/schedule/session/hazard"

// Advice is what a crew is told to do.
type Advice string

// The advices. A change of an empty bath is a fill.
const (
	CarryOn Advice = "carry-on"
	TopUp   Advice = "top-up"
	Change  Advice = "change"
	Stop    Advice = "stop" // at the end of this circuit; or stay as you are

	KeepAway Advice = "keep-away" // from resin that has set or is too hot to touch
	Spread   Advice = "spread"    // it lies too deep: in a tray, thin
	SetClock Advice = "set-clock" // of the machine that is wrong: without that all else is a guess
	Log      Advice = "log"       // what happened: without that all else is a guess
	EmptyOut Advice = "empty"     // the bath: nothing is wound from it any more
	Nothing  Advice = "nothing"   // is left to do
)

// Rule names the line of the table that gave an advice.
type Rule string

// The rules.
const (
	KeepAwayRule  Rule = "keep-away"         // a pot or the bath has set, or is too hot to touch
	SpreadRule    Rule = "spread-it"         // a pot or the bath is past its limit, or can run away unused
	ClocksDiffer  Rule = "clocks-differ"     // events lie ahead of the clock: how old resin is cannot be told
	NoEvents      Rule = "no-events"         // nothing was logged for longer than the layer should take
	DayOver       Rule = "day-over"          // nothing is left to wind, and nothing in the bath
	EmptyIt       Rule = "empty-it"          // nothing is left to wind: empty the bath
	BathFirst     Rule = "bath-first"        // the bath is a hazard: the machine stands
	EmptyBath     Rule = "empty-bath"        // there is no resin in the bath
	PastLimit     Rule = "past-limit"        // the bath may be past a limit, or was read to be
	AllButEmpty   Rule = "all-but-empty"     // by the resin that the layers take
	OffRatio      Rule = "off-ratio"         // what is in the bath is off its ratio
	StillTooThick Rule = "still-too-thick"   // it must warm before it can be wound from
	Fits          Rule = "fits"              // what comes next fits, with the reserve
	PotStands     Rule = "pot-stands"        // a pot that stands would end before its pour, and can go in now
	ByPlan        Rule = "by-plan"           // the plan in force pours now
	NewPlan       Rule = "by-new-plan"       // the plan in force no longer holds, and a new one pours now
	OnReserve     Rule = "finish-on-reserve" // the layer in hand can be finished on the reserve
	TopUpFits     Rule = "fits-after-top-up" // what comes next fits with more resin
	StopFirst     Rule = "stop-and-change"   // it does not fit; stop, then change
	ChangeFits    Rule = "fits-after-change" // it fits in a clean bath
	NothingFits   Rule = "nothing-fits"      // it does not fit even in a clean bath
)

// BathState is what is known of the bath.
type BathState int

// The states of a bath. Past means that a limit is passed in one of ten worlds or more, or
// by a reading.
const (
	Empty BathState = iota
	Thick           // too thick from mixing, and warming
	Sound
	Past
)

// Fit is how what comes next fits into what is left.
type Fit int

// The fits.
const (
	FitsNot       Fit = iota
	FitsForNow        // for as long as a pot takes to mix and pour, with the reserve
	FitsOnReserve     // all of the layer in hand, within the limits but not within the reserve
	FitsWhole         // all of the layer, with the reserve
)

// Step is what a plan has for now.
type Step int

// The steps.
const (
	NoStep    Step = iota // there is no plan that holds
	GoesOn                // wind on: what is poured next has its time
	PlanTopUp             // more resin goes in now
	PlanFresh             // a fill, or a change, is due now
)

// A Situation is all that an advice depends on.
type Situation struct {
	Hazard     hazard.Stage // the worst of all pots and the bath
	BathHazard hazard.Stage
	Ahead      bool // events lie ahead of the clock
	Silent     bool // nothing was logged for longer than what is in hand should take

	Wound   bool // every layer is done
	Emptied bool // there is no resin in the bath, or it was weighed as left over
	Running bool // the tow runs
	InHand  bool // a layer is begun and not done
	Bath    BathState
	Off     bool // the bath is off its ratio
	Dry     bool // the bath is down to its lowest by reckoning
	Pot     bool // one that stands would end before its pour, and can go into the bath now
	Step    Step // that is due by the plan that the day goes by
	InForce bool // it is the plan in force, which holds; else a new one
	Fit     Fit  // of the layer in hand or the next, with what is in the bath
	TopUp   bool // it fits after a top-up
	Change  bool // it fits in a clean bath
}

// table is read from the top; the last line always holds.
var table = []struct {
	rule   Rule
	holds  func(s Situation) bool
	advice Advice
}{
	{KeepAwayRule, func(s Situation) bool { return s.Hazard == hazard.Set }, KeepAway},
	{SpreadRule, func(s Situation) bool { return s.Hazard == hazard.Liquid }, Spread},
	{ClocksDiffer, func(s Situation) bool { return s.Ahead }, SetClock},
	{NoEvents, func(s Situation) bool { return s.Silent }, Log},
	{BathFirst, func(s Situation) bool { return s.BathHazard != hazard.None }, Stop},
	{DayOver, func(s Situation) bool { return s.Wound && s.Emptied }, Nothing},
	{EmptyIt, func(s Situation) bool { return s.Wound }, EmptyOut},
	{EmptyBath, func(s Situation) bool { return s.Bath == Empty }, Change},
	{PastLimit, func(s Situation) bool { return s.Bath == Past && s.Running }, Stop},
	{PastLimit, func(s Situation) bool { return s.Bath == Past }, Change},
	{OffRatio, func(s Situation) bool { return s.Off && s.Running }, Stop},
	{OffRatio, func(s Situation) bool { return s.Off }, Change},
	{StillTooThick, func(s Situation) bool { return s.Bath == Thick }, Stop},
	{AllButEmpty, func(s Situation) bool { return s.Dry && s.Running }, Stop},
	{PotStands, func(s Situation) bool { return s.Pot }, TopUp},
	{Fits, func(s Situation) bool { return s.InForce && s.Step == GoesOn }, CarryOn},
	{Fits, func(s Situation) bool { return s.Fit == FitsWhole && s.InHand && s.Running }, CarryOn},
	{OnReserve, func(s Situation) bool { return s.Fit == FitsOnReserve && s.InHand && s.Running }, CarryOn},
	{ByPlan, func(s Situation) bool { return s.InForce && s.Step == PlanTopUp }, TopUp},
	{ByPlan, func(s Situation) bool { return s.InForce && s.Step == PlanFresh && s.Running }, Stop},
	{ByPlan, func(s Situation) bool { return s.InForce && s.Step == PlanFresh }, Change},
	{Fits, func(s Situation) bool { return s.Fit == FitsWhole && s.InHand }, CarryOn},
	{OnReserve, func(s Situation) bool { return s.Fit == FitsOnReserve && s.InHand }, CarryOn},
	{NewPlan, func(s Situation) bool { return s.Step == PlanTopUp }, TopUp},
	{NewPlan, func(s Situation) bool { return s.Step == PlanFresh && s.Running }, Stop},
	{NewPlan, func(s Situation) bool { return s.Step == PlanFresh }, Change},
	{Fits, func(s Situation) bool { return s.Step == GoesOn || s.Fit == FitsForNow || s.Fit == FitsWhole }, CarryOn},
	{TopUpFits, func(s Situation) bool { return s.TopUp }, TopUp},
	{StopFirst, func(s Situation) bool { return s.Running }, Stop},
	{ChangeFits, func(s Situation) bool { return s.Change }, Change},
	{NothingFits, func(Situation) bool { return true }, Change},
}

// Advise reads the table.
func (s Situation) Advise() (Advice, Rule) {
	for _, line := range table {
		if line.holds(s) {
			return line.advice, line.rule
		}
	}
	return Stop, NothingFits // the last line holds
}

// Machine is what is to be done with the machine and the bath, whatever stands before it. Where
// events lie ahead of the clock that is to stop what was over by the last of them, and else nothing.
func (s Situation) Machine() (Advice, Rule) {
	s.Hazard, s.Silent = hazard.None, false
	if s.BathHazard != hazard.None || s.Running && s.Bath == Past {
		s.Ahead = false
	}
	return s.Advise()
}
