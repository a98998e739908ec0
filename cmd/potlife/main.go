// Command potlife plans the resin of wet filament winding: how much to mix, when
// and at which layer end to pour it, and how long it lasts.
package main

import "os"

func main() {
	collectLate()
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}
