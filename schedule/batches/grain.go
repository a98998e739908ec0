package batches

// A grain is how finely a search tells positions at one stop apart: the buckets
// within which two baths count as the same, and how many are kept.
type grain struct {
	alpha       float64 // degree of cure
	temperature float64 // K
	mass        float64 // relative
	growth      float64 // ln of viscosity
	clock       float64 // s
	spare       float64 // s
	keep        int     // positions taken up at one stop; 0: all
	perBath     int     // stops considered in the time and for the resin of a full bath; 0: all
	effort      int     // units followed before the next coarser grain takes over; 0: no bound
}

// The grains, tried in turn. Fine moves a working life by well under a minute
// over a leg, and small windings never need another. Where spare and freshness
// can be traded at many stops the number of positions worth keeping explodes;
// medium then tells them apart by what a crew could notice, and coarse keeps
// only the few best at each stop, and only as many stops as a bathful has use
// for, so that the work grows with the length of the winding and no faster; a
// plan found so may have a change too many, and says so. Every plan is judged and refereed all the same.
var grains = []grain{
	{alpha: 5e-4, temperature: 0.1, mass: 0.01, growth: 0.01, clock: 30, spare: 1, effort: 12_000},
	{alpha: 4e-3, temperature: 0.4, mass: 0.03, growth: 0.03, clock: 90, spare: 60, keep: 16, perBath: 16, effort: 24_000},
	{alpha: 4e-3, temperature: 1, mass: 0.1, growth: 0.06, clock: 240, spare: 240, keep: 4, perBath: 6},
}

// Windings of more units than these start with a coarser grain: the finer ones
// would only spend their effort.
const (
	fineUnits   = 60
	mediumUnits = 150
)

func firstGrain(units int) int {
	switch {
	case units <= fineUnits:
		return 0
	case units <= mediumUnits:
		return 1
	}
	return 2
}
