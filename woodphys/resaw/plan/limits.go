package plan

import "math"

// counts is a number of sets of each tracked kind.
type counts [MaxKinds]uint16

// limits says how the limits on counts of an order list see a number of sets.
// Sets beyond top, which is the most of a kind or the least of one without a
// most, are not told apart: those beyond a most are worth nothing, and those
// beyond a least are worth no more than any other.
type limits struct {
	tracked []bool
	kinds   []int // those tracked
	top     counts
	bounded [MaxKinds]bool  // has a most
	wanted  [MaxKinds]bool  // has a least
	worth   [MaxKinds]int64 // lost with a set beyond top, and with one given up
	priced  [MaxKinds]int64 // the same, at the prices last set
}

func newLimits(parts []want) limits {
	l := limits{tracked: make([]bool, len(parts))}
	for p := range parts {
		k := &parts[p]
		l.bounded[p], l.wanted[p] = k.most != nil, k.least > 0
		if l.tracked[p] = l.bounded[p] || l.wanted[p]; !l.tracked[p] {
			continue
		}
		l.kinds = append(l.kinds, p)
		top := k.least
		if l.bounded[p] {
			top, l.worth[p] = *k.most, k.worth
		}
		l.top[p] = uint16(min(top, math.MaxUint16))
	}
	return l
}

// setPrices takes over shadow prices.
func (l *limits) setPrices(p *prices) {
	for _, k := range l.kinds {
		l.priced[k] = l.worth[k]*scale - p.most[k] + p.least[k]
	}
}

// add returns a sum of counts, none above top, and the worth and the priced worth
// of the sets that lie above it.
func (l *limits) add(a, b *counts) (sum counts, worth, priced int64) {
	sum = *a
	for _, k := range l.kinds {
		v := uint32(a[k]) + uint32(b[k])
		if over := int64(v) - int64(l.top[k]); over > 0 {
			worth += over * l.worth[k]
			priced += over * l.priced[k]
			v = uint32(l.top[k])
		}
		sum[k] = uint16(v)
	}
	return sum, worth, priced
}

// serves reports whether counts a of worth v serve every plan as well as counts b
// of worth w: a has all the sets that are wanted at least, and is worth no less
// when the sets it has beyond b are given up for nothing. Whatever is added to
// both leaves that so, because sets beyond a most are worth nothing either way.
func (l *limits) serves(a *counts, v int64, b *counts, w int64) bool {
	left := v - w
	for _, k := range l.kinds {
		switch {
		case a[k] > b[k]:
			left -= int64(a[k]-b[k]) * l.worth[k]
		case a[k] < b[k] && l.wanted[k]:
			return false
		}
		if left < 0 {
			return false
		}
	}
	return left >= 0
}
