package advice

// Advice is what a crew is told to do.
type Advice string

// The advices. A change of an empty bath is a fill.
const (
	CarryOn Advice = "carry-on"
	TopUp   Advice = "top-up"
	Change  Advice = "change"
	Stop    Advice = "stop" // at the end of this circuit; or stay as you are
)

// Rule names the line of the table that gave an advice.
type Rule string

// The rules.
const (
	AllWound      Rule = "all-wound"         // nothing is left to wind: empty the bath
	EmptyBath     Rule = "empty-bath"        // there is no resin in the bath
	PastLimit     Rule = "past-limit"        // the bath may be past a limit, or was read to be
	AllButEmpty   Rule = "all-but-empty"     // by the resin that the layers take, with no pot that can be poured at once
	StillTooThick Rule = "still-too-thick"   // it must warm before it can be wound from
	Fits          Rule = "fits"              // what comes next fits, with the reserve
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
	FitsOnReserve     // within the limits, but not within the reserve
	FitsWell
)

// A Situation is all that an advice depends on.
type Situation struct {
	Wound   bool // every layer is done
	Running bool // the tow runs
	InHand  bool // a layer is begun and not done
	Bath    BathState
	Dry     bool // the bath is all but empty by reckoning, and no pot can be poured at once
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
	{AllWound, func(s Situation) bool { return s.Wound }, Stop},
	{EmptyBath, func(s Situation) bool { return s.Bath == Empty }, Change},
	{PastLimit, func(s Situation) bool { return s.Bath == Past && s.Running }, Stop},
	{PastLimit, func(s Situation) bool { return s.Bath == Past }, Change},
	{StillTooThick, func(s Situation) bool { return s.Bath == Thick }, Stop},
	{AllButEmpty, func(s Situation) bool { return s.Dry && s.Running }, Stop},
	{Fits, func(s Situation) bool { return s.Fit == FitsWell }, CarryOn},
	{OnReserve, func(s Situation) bool { return s.Fit == FitsOnReserve && s.InHand }, CarryOn},
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
