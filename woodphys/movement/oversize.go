package movement

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// SizeBefore returns the size to make a piece at the moisture content from, so that
// it measures dry when it has come to the moisture content to.
//
// dry: any length; direction: of that size in the wood; from, to: 0 to 2.5.
// Errors: as Change. Accuracy: that of the strain of Change, of which the middle is
// taken: dry / (1 + strain).
//
// Source: the meaning of a strain as a share of the size before it; the strain as
// Change has it.
func SizeBefore(dry quantity.Length, direction Direction, from, to quantity.Moisture, w wood.Wood) (quantity.Length,
	method.Notes, error) {
	m, err := Change(quantity.Metre, direction, quantity.NormalBand(from, 0), quantity.NormalBand(to, 0), w)
	if err != nil {
		return 0, method.Notes{}, err
	}
	return dry / quantity.Length(1+m.Strain.Value), m.Notes, nil
}
