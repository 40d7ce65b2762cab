package species

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/woodphys/quantity"
	physics "latewood/woodphys/wood"
)

// strays are the errors of a foretold share of water with the genus and without it: the root
// mean square of ln, and the mean log score (of the density of a normal error; more is better).
type strays struct {
	n                        int
	kin, all, kinLog, allLog float64
}

// straysOf leaves out one wood of a group after another, of those that have relatives.
func straysOf(t *testing.T, group Group) (s strays) {
	t.Helper()
	e := &estimator{woods: tables(t).Woods()}
	green := (*Wood).GreenMoisture
	score := func(err, sd float64) float64 { return -math.Log(sd*math.Sqrt(2*math.Pi)) - err*err/(2*sd*sd) }
	for _, w := range e.woods {
		figure, is := green(w).Get()
		if !is || w.Botany() != group {
			continue
		}
		shares, truth := e.sharesWithout(w, green, mostWater), math.Log(figure/mostWater(w))
		kin := physics.RelativesOf(shares)
		if !kin.Has(genusOf(w)) {
			continue
		}
		middle, sd := kin.Of(genusOf(w))
		s.kin, s.kinLog = s.kin+(middle-truth)*(middle-truth), s.kinLog+score(middle-truth, sd)
		mean, apart := plain(shares)
		s.all, s.allLog = s.all+(mean-truth)*(mean-truth), s.allLog+score(mean-truth, apart)
		s.n++
	}
	n := float64(s.n)
	s.kin, s.all, s.kinLog, s.allLog = math.Sqrt(s.kin/n), math.Sqrt(s.all/n), s.kinLog/n, s.allLog/n
	return s
}

// plain is the mean of all figures whatever their genus, and the error of a new one.
func plain(shares map[string][]float64) (mean, sd float64) {
	sum, squares, n := 0.0, 0.0, 0.0
	for _, of := range shares {
		for _, v := range of {
			sum, squares, n = sum+v, squares+v*v, n+1
		}
	}
	mean = sum / n
	return mean, math.Sqrt((squares-n*mean*mean)/(n-1)) * math.Sqrt(1+1/n)
}

// That relatives are asked for the water of green broadleaved woods and not for that of
// conifers is what comes of leaving out: by the error and by the log score.
func TestKinTellOfBroadleavedWoods(t *testing.T) {
	for _, group := range []Group{Hardwood, Softwood} {
		s := straysOf(t, group)
		t.Logf("%s: %d woods with relatives; error %.3f with the genus, %.3f without; log score %.3f, %.3f", group, s.n, s.kin, s.all, s.kinLog, s.allLog)
		assert.Greater(t, s.n, 15)
		assert.Equal(t, kinTell[group], s.kin < s.all, group)
		assert.Equal(t, kinTell[group], s.kinLog > s.allLog, group)
	}
}

// A European ash is as wet as other ashes and not as the mean of broadleaved woods; a pine
// is taken by the mean of conifers, and so is a broadleaved wood without relatives by its own.
func TestGreenMoistureOfRelatives(t *testing.T) {
	ash := wood(t, "ash-european")
	assert.Contains(t, ash.BestGreen().Note, "genus Fraxinus")
	assert.Less(t, figure(t, ash.BestGreen()), 62.0, "the ashes of the table are filled to 0.54, 0.46 and 0.39, others to 0.6")
	share := figure(t, ash.BestGreen()) / mostWater(ash)
	assert.InDelta(t, 0.46, share, 0.05)
	for _, id := range []string{"pine-scots", "koa"} {
		assert.Contains(t, wood(t, id).BestGreen().Note, "green wood of its group", id)
	}
	spread, _ := ash.BestGreen().Spread.Get()
	assert.Less(t, spread/figure(t, ash.BestGreen()), 0.2*quantity.Z90)
}
