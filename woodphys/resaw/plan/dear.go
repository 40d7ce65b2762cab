package plan

import "slices"

// vain reports whether nothing was found yet, where a plan is wanted.
func (o *order) vain() bool {
	return !o.plain && !slices.ContainsFunc(o.best, func(c *column) bool { return c != nil })
}

// manyZones are so many on one billet that the staged search takes long.
const manyZones = 10

// dear reports whether a billet has many zones.
func (o *order) dear() bool {
	return slices.ContainsFunc(o.woods, func(w *offer) bool { return len(w.zones) >= manyZones })
}
