package report

// Tables are the pots and the layers of a plan for a spreadsheet.
func (p *Plan) Tables() []*CSVTable {
	pots := &CSVTable{Name: "pots", Head: []string{
		"pot", "event", "mix_at", "pour_at", "into", "where", "resin_g", "hardener_g", "mass_g", "bath_after_g", "life_left_min", "reserve_min", "ends_by", "mix_latest", "pour_latest",
	}}
	for i := range p.Pots {
		pot := &p.Pots[i]
		pots.Rows = append(pots.Rows, []string{
			number(pot.Number), csvCount(pot.Seq), csvTime(&pot.MixAt), csvTime(&pot.PourAt), pot.into(), pot.stop.words(), csvNumber(pot.ResinG), csvNumber(pot.HardenerG),
			csvNumber(pot.MassG), csvNumber(pot.BathG), csvMinutes(pot.LifeLeftS), csvMinutes(&pot.ReserveS), pot.EndsBy, csvTime(pot.MixLatest), csvTime(pot.PourLatest),
		})
	}
	layers := &CSVTable{Name: "layers", Head: []string{
		"layer", "name", "start", "end", "wound_min", "circuits", "tow_m", "fibre_g", "resin_g", "diameter_mm", "bath_viscosity_Pa_s", "laid_on",
	}}
	for i := range p.Layers {
		l := &p.Layers[i]
		layers.Rows = append(layers.Rows, []string{
			number(l.index + 1), l.Name, csvTime(l.Start), csvTime(l.End), csvMinutes(&l.WoundS), number(l.Circuits), csvNumber(l.TowM),
			csvNumber(l.FibreG), csvNumber(l.ResinG), csvNumber(l.DiameterMM), csvFigure(l.Viscosity), l.laidOn(),
		})
	}
	return []*CSVTable{pots, layers}
}
