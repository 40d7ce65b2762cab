package plan

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
