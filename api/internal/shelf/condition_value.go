package shelf

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Value is the moisture content meant, without its band; errors point below the named
// member. One that is stated is taken as it is.
func (c *Condition) Value(member string, w *Wood, notes *method.Notes) (quantity.Moisture, error) {
	if stated := c.Stated(); stated != nil {
		return wire.FromPercent(*stated.MC), nil
	}
	band, err := c.Moisture(member, w, notes)
	return band.Value, err
}

// ValueAndSD is the moisture content meant with its standard deviation, 0 where it is taken
// as exact; errors point below the named member.
func (c *Condition) ValueAndSD(member string, w *Wood, notes *method.Notes) (mc, sd quantity.Moisture, err error) {
	if stated := c.Stated(); stated != nil {
		if stated.SD != nil {
			sd = wire.FromPercent(*stated.SD)
		}
		return wire.FromPercent(*stated.MC), sd, nil
	}
	band, err := c.Moisture(member, w, notes)
	return band.Value, (band.High - band.Low) / (2 * quantity.Z90), err
}
