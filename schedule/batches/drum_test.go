package batches

import (
	"math/rand/v2"
	"testing"

	"potlife/kinetics/testrun"
	"potlife/kinetics/vessel"
)

// slabWithin is what lives of the slab err by, as a share, by the test of package still.
const slabWithin = 0.003

// TestSearchIsNotKinderThanTheSlab: where resin lies still a plan of the search is kept by the
// referee, who follows the slab itself, and the search has not promised more spare than he sees,
// to the second that his own moments are apart from those of the search, and what five cells of
// the slab err by.
func TestSearchIsNotKinderThanTheSlab(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 4))
	plans, less := map[vessel.Drum]int{}, 0
	for range testrun.Draws(40, 400) {
		task := randomTask(r)
		stirred, _, err := newSearcher(task).best(sureOf(t, task, firstRung), refereeMoments)
		if err != nil {
			t.Fatal(err)
		}
		for _, drum := range []vessel.Drum{vessel.DrumWithTow, vessel.NoDrum} {
			still := *task
			still.Bath.Vessel.Drum = drum
			sure := sureOf(t, &still, firstRung)
			found, _, err := newSearcher(&still).best(sure, refereeMoments)
			if err != nil {
				t.Fatal(err)
			}
			if found == nil {
				continue
			}
			plans[drum]++
			tally, err := Referee(&still, found.plan(&still, sure))
			if err != nil {
				t.Fatal(err)
			}
			if len(tally.Broken) > 0 {
				t.Errorf("drum %v: broken %+v", drum, tally.Broken)
			}
			longest := tally.Pours[0].Life
			for _, p := range tally.Pours {
				longest = max(longest, p.Life)
			}
			if d := found.score.Spare - tally.Score.Spare; !(d <= slackTime+slabWithin*longest) {
				t.Errorf("drum %v: the search has %v to spare, the slab %v less", drum, found.score.Spare, d)
			}
			if stirred != nil && found.score.Spare < stirred.score.Spare-60 {
				less++
			}
		}
	}
	t.Logf("%v plans, %d with less to spare than stirred", plans, less)
	if plans[vessel.DrumWithTow] < 5 || plans[vessel.NoDrum] < 5 || less < 5 {
		t.Error("the random jobs test nothing")
	}
}
