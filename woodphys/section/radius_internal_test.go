package section

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/woodphys/quantity"
)

// The closed form against a plain sum over the section, with the pith inside, on an edge,
// beside it and far away, and at the seam to the series of far ones.
func TestMeanRadius(t *testing.T) {
	const mm = float64(quantity.Millimetre)
	for _, c := range [][2]float64{{0, 0}, {1, 0}, {1, 2}, {50, 0}, {49.9, 24.9}, {0, -80}, {-120, 30}, {0, -3000}, {0, 5500}, {4000, 4000}} {
		s := Section{Width: 100 * quantity.Millimetre, Thickness: 50 * quantity.Millimetre,
			PithX: quantity.Length(c[0] * mm), PithY: quantity.Length(c[1] * mm)}
		first, second := 0.0, 0.0
		const n = 400
		for i := range n {
			for k := range n {
				x := ((float64(i)+0.5)/n-0.5)*100 - c[0]
				y := ((float64(k)+0.5)/n-0.5)*50 - c[1]
				r2 := x*x + y*y
				first, second = first+math.Sqrt(r2), second+r2
			}
		}
		assert.InEpsilon(t, second/first, s.meanRadius().Millimetres(), 2e-5, c)
	}
	boxed := Section{Width: 100 * quantity.Millimetre, Thickness: 100 * quantity.Millimetre, PithX: quantity.Millimetre}
	assert.InEpsilon(t, 43.6, boxed.meanRadius().Millimetres(), 0.01, "a square about its pith: 0.4355 of its side, by hand")
}
