package still

// OnNetwork is a pot on cells that a test has made itself.
var OnNetwork = onNetwork
