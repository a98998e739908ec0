package vessel

// A Drum says when a bath is stirred: by the drum that the tow runs over.
type Drum int

const (
	// DrumAlways turns all the time: the bath has one temperature.
	DrumAlways Drum = iota
	// DrumWithTow turns while the tow runs. At a stand the resin stays as it lies.
	DrumWithTow
	// NoDrum reaches over the bath: some of the resin stays as it lies from pour to pour.
	NoDrum
)

// stands tells whether resin that is not stirred decides while this tow runs.
func (d Drum) stands(tow Tow) bool {
	return d == NoDrum || d == DrumWithTow && tow == Tow{}
}

// StandsStill tells whether resin lies still at a stand, so that its hottest place decides.
func (b *Bath) StandsStill() bool { return b.vessel.Drum != DrumAlways }

// NeverWhole tells whether some of the resin stays as it lies though the tow runs.
func (b *Bath) NeverWhole() bool { return b.vessel.Drum == NoDrum }
