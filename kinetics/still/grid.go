package still

import (
	"potlife/kinetics"
)

func (b Tray) cells(r *kinetics.Resin) int { return 32 }
func (b Cup) cells(r *kinetics.Resin) int  { return 16 }
func (b Wall) cells(r *kinetics.Resin) int { return 12 }
