package batches

// For the tests of whole jobs, which import package schedule.
var (
	RestOf    = restOf
	CheckRest = checkRest
)
