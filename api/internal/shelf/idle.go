package shelf

import (
	"errors"
	"strconv"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// CheckIdle refuses rings and zones that contradict themselves, for a route in which neither
// has a bearing: a billet is judged alike in every route. Errors point below the billet.
func (b *Billet) CheckIdle() error {
	var noRings error
	if b.Rings != nil {
		noRings = wire.Under("rings", b.Rings.Check())
	}
	return errors.Join(noRings, b.CheckZones())
}

// CheckZones refuses zones that end before they begin, or have only one depth. Errors point
// below the billet.
func (b *Billet) CheckZones() error {
	var all []error
	for i := range b.Zones {
		all = append(all, wire.Under("zones/"+strconv.Itoa(i), b.Zones[i].Check()))
	}
	return errors.Join(all...)
}

// Check refuses a zone that ends before it begins, or has only one depth. Errors point below it.
func (z *Zone) Check() error {
	return errors.Join(inOrder("x_from", "x_to", z.XFrom, z.XTo), inOrder("y_from", "y_to", z.YFrom, z.YTo),
		inOrder("z_from", "z_to", z.ZFrom, z.ZTo))
}

// inOrder refuses a stretch that ends before it begins, or of which one end is left out.
func inOrder(fromName, toName string, from, to *wire.Length) error {
	together := fromName + " and " + toName + " go together; without both the zone goes from face to face"
	switch {
	case from == nil && to == nil:
		return nil
	case from == nil:
		return wire.Missing(fromName, together)
	case to == nil:
		return wire.Missing(toName, together)
	case to.SI <= from.SI:
		limit := method.MoreThan(from.SI.AtLeast(to.Unit))
		return &method.Error{Code: method.Contradictory, Input: toName, Limit: limit, Detail: toName + " must be " + limit.String() + ", which is " + fromName}
	}
	return nil
}
