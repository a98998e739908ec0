package batches

// NextPour is the first pour that has pots, and the stop to which it lasts, of so many units;
// nil: nothing is poured any more.
func (p *Plan) NextPour(units int) (next *Pour, lasts int) {
	for i := range p.Pours {
		if len(p.Pours[i].Pots) == 0 {
			continue
		}
		lasts = units
		if i+1 < len(p.Pours) {
			lasts = p.Pours[i+1].Stop
		}
		return &p.Pours[i], lasts
	}
	return nil, 0
}
