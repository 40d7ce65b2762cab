package plan

import "latewood/woodphys/resaw/exact"

// Uncut is why a billet stays whole.
type Uncut int

// Reasons.
const (
	NotNeeded Uncut = iota // all that is wanted comes from others
	NotChosen              // a better plan may be to cut it, or others give what pays
	NothingFits
)

// uncut tells why a billet stays whole that does.
func uncut(q *Request, p *Plan) Uncut {
	some, all := false, true // sets at all; all that are wanted
	for i, n := range p.Sets {
		most := q.Parts[i].Most
		some, all = some || n > 0, all && most != nil && n >= *most
	}
	switch {
	case all:
		return NotNeeded
	case some || !p.Optimal:
		return NotChosen
	}
	return NothingFits
}

// trimmed returns the parts of which some leaves come from larger blanks.
func trimmed(q *Request, p *Plan) []int {
	var out []int
	for i := range q.Parts {
		if larger(p, i, &q.Parts[i]) {
			out = append(out, i)
		}
	}
	return out
}

func larger(p *Plan, kind int, part *PartKind) bool {
	for i := range p.Billets {
		for j := range p.Billets[i].Blanks {
			b := &p.Billets[i].Blanks[j]
			if b.Length <= part.Length+exact.Tiny && b.Width <= part.Width+exact.Tiny {
				continue
			}
			for k := range b.Leaves {
				if b.Leaves[k].Part == kind && b.Leaves[k].Strips == nil {
					return true
				}
			}
		}
	}
	return false
}
