package main

import "time"

// clock is the only one that the commands ask for the time of day. Tests set it in their
// process; no flag, file or variable of the environment does.
var clock = time.Now
