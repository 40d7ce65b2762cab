package shelf

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Value is the moisture content meant, without its band; errors point below the named
// member. One that is stated is taken as it is.
func (c *Conditions) Value(member string, lowerEMC bool, notes *method.Notes) (quantity.Moisture, error) {
	if c.MC != nil && c.Air == nil && !c.Green {
		return wire.FromPercent(*c.MC), nil
	}
	band, err := c.Moisture(member, lowerEMC, notes)
	return band.Value, err
}

// ValueAndSD is the moisture content meant with its standard deviation, 0 where it is taken
// as exact; errors point below the named member.
func (c *Conditions) ValueAndSD(member string, lowerEMC bool, notes *method.Notes) (mc, sd quantity.Moisture, err error) {
	if c.MC != nil && c.Air == nil && !c.Green {
		if c.SD != nil {
			sd = wire.FromPercent(*c.SD)
		}
		return wire.FromPercent(*c.MC), sd, nil
	}
	band, err := c.Moisture(member, lowerEMC, notes)
	return band.Value, (band.High - band.Low) / (2 * quantity.Z90), err
}
