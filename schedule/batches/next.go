package batches

// NextPour is the first pour with pots of the best plan for one bath on the bad side, and the
// stop to which it lasts; nil if there is no plan or nothing is to be poured any more. It is what [Solve] begins with, not
// judged by an ensemble nor refereed: a hint for the moment, at a fraction of the cost. A
// task of more units than the fine grain takes has none.
func NextPour(t *Task) (next *Pour, lasts int, err error) {
	if len(t.Units) == 0 || len(t.Units) > fineUnits {
		return nil, 0, nil
	}
	s := newSearcher(t)
	for _, z := range []float64{firstRung, lowestRung} {
		sure := t.Sure(z)
		found, _, err := s.best(sure, asking[0])
		if err != nil {
			return nil, 0, err
		}
		if found == nil {
			continue
		}
		pours := found.plan(t, sure).Pours
		for i := range pours {
			if len(pours[i].Pots) == 0 {
				continue
			}
			lasts = len(t.Units)
			if i+1 < len(pours) {
				lasts = pours[i+1].Stop
			}
			return &pours[i], lasts, nil
		}
		return nil, 0, nil
	}
	return nil, 0, nil
}
