package rosenbrock

// The method GRK4T of [2] in the form (2) to (4) of the package comment: order 4
// with an error estimate of order 3, four stages, the last two of which share
// their right-hand side; stable in a wedge of 89.3° about the negative axis.
const (
	stages = 4
	gamma  = 0.231
	order  = 4 // of the error estimate, plus one
)

var (
	// a and c, below the diagonal.
	toState = [stages][]float64{
		{},
		{2},
		{4.524708207373116, 4.163528788597648},
		{4.524708207373116, 4.163528788597648},
	}
	toStage = [stages][]float64{
		{},
		{-5.071675338776316},
		{6.020152728650786, 0.1597506846727117},
		{-1.856343618686113, -8.505380858179826, -2.084075136023187},
	}
	nodes     = [stages]float64{0, 0.462, 0.8802083333333334, 0.8802083333333334}
	timeSlope = [stages]float64{0.231, -0.03962966775244303, 0.5507789395789127, -0.05535098457052764}

	stepWeights  = []float64{3.957503746640777, 4.624892388363313, 0.6174772638750108, 1.282612945269037}
	errorWeights = []float64{2.302155402932996, 3.073634485392623, -0.8732808018045032, -1.282612945269037}
)
