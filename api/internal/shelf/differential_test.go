package shelf_test

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/shelf"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Forty printed figures of differential shrinkage, 20 European and imported woods, against
// the movement of a point from 12 to 8 %MC. With the form in use the check tests the
// reading only; without it, it tests the bands that rest on total shrinkage, coefficients
// and the volumetric swelling of trees.
func TestDifferentialShrinkageIsInTheBand(t *testing.T) {
	tables, err := shelf.LoadTables()
	require.NoError(t, err)
	file, err := os.Open("../../../testdata/published/differential_shrinkage.csv")
	require.NoError(t, err)
	defer func() { require.NoError(t, file.Close()) }()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 41)
	outside := map[bool]int{}
	for _, row := range rows[1:] {
		of := tables.Woods[row[0]]
		require.NotNil(t, of, row[0])
		printed, err := strconv.ParseFloat(row[2], 64)
		require.NoError(t, err)
		direction := map[string]movement.Direction{"radial": movement.Radial(), "tangential": movement.Tangential()}[row[1]]
		for _, with := range []bool{true, false} {
			w := of.Value
			if !with {
				w.DifferentialRadial, w.DifferentialTangential = wood.Figure{}, wood.Figure{}
			}
			m, err := movement.Change(quantity.Metre, direction, quantity.NormalBand[quantity.Moisture](0.12, 0), quantity.NormalBand[quantity.Moisture](0.08, 0), w)
			require.NoError(t, err)
			low, middle, high := -25*m.Strain.High, -25*m.Strain.Value, -25*m.Strain.Low
			if printed < low || printed > high {
				outside[with]++
				t.Logf("%s %s, with it %v: printed %.3f, told %.3f (%.3f to %.3f)", row[0], row[1], with, printed, middle, low, high)
			}
		}
	}
	t.Logf("outside of 40: %d with the differential form, %d without", outside[true], outside[false])
	assert.LessOrEqual(t, outside[true], 4)
	assert.LessOrEqual(t, outside[false], 4)
}
