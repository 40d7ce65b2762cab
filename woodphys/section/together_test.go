package section_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
	"latewood/woodphys/section"
)

// How radial and tangential shrinkage go together where the same wood was sampled in more than
// one place, and how well their ratio is known: what the bands take is no more than that.
func TestRadialAndTangentialGoTogether(t *testing.T) {
	places := map[string][][2]float64{}
	for _, row := range expect.Named(t, "../../testdata/section/same_wood_other_place.csv") {
		places[row["wood"]] = append(places[row["wood"]], [2]float64{math.Log(expect.Number(t, row["radial_pct"])), math.Log(expect.Number(t, row["tangential_pct"]))})
	}
	var rr, tt, rt, ratio, free float64
	for _, list := range places {
		require.Greater(t, len(list), 1)
		n := float64(len(list))
		var r, g float64
		for _, p := range list {
			r, g = r+p[0]/n, g+p[1]/n
		}
		for _, p := range list {
			dr, dt := p[0]-r, p[1]-g
			rr, tt, rt, ratio = rr+dr*dr, tt+dt*dt, rt+dr*dt, ratio+(dt-dr)*(dt-dr)
		}
		free += n - 1
	}
	correlation, ofRatio := rt/math.Sqrt(rr*tt), math.Sqrt(ratio/free)
	t.Logf("%d woods: correlation %.2f; radial varies by %.3f, tangential by %.3f, their ratio by %.3f", len(places), correlation,
		math.Sqrt(rr/free), math.Sqrt(tt/free), ofRatio)
	assert.InDelta(t, 0.67, correlation, 0.01)
	assert.Less(t, section.Together, correlation)
	assert.Greater(t, 0.15*math.Sqrt(2*(1-section.Together)), ofRatio, "the bands take the ratio as no better known than it is")
}

// A flatsawn board that dries cups towards the bark: of a wood whose tangential shrinkage is one
// and a half times the radial and more the band says so.
func TestBandOfCupTellsItsSide(t *testing.T) {
	s := flatsawn(200*mm, 30*mm, 100*mm)
	for _, ratio := range []float64{1.5, 1.7, 2, 2.5} {
		r, err := section.Change(s, about(14, 1), about(8, 0.5), plain(0.045, 0.045*ratio))
		require.NoError(t, err)
		cup := r.Shape.Cup.Lower
		assert.Positive(t, float64(cup.Low)*float64(cup.High), "ratio %v: %v", ratio, cup)
	}
}
