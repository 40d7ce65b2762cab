package cut

import (
	"slices"
	"strconv"

	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
)

// Words for the openings.
var openingWords = map[string]string{"bookmatch": "book", "slip_match": "slip", "wrong_way": "outer faces out"}

// conclude puts the chosen pairs into words.
func (r *BookmatchResult) conclude(report wire.Reporter) {
	if len(r.Chosen) == 0 {
		r.Summary = "no two neighbouring leaves are sound; there is no pair"
		return
	}
	r.Summary = strconv.Itoa(len(r.Chosen)) + " pairs"
	if len(r.Chosen) == 1 {
		r.Summary = "1 pair"
	}
	for i, c := range r.Chosen {
		pair := &r.Pairs[slices.IndexFunc(r.Pairs, func(p PairMatch) bool { return p.First == c.First })]
		opening := &pair.Openings[slices.IndexFunc(pair.Openings,
			func(o OpeningMatch) bool { return o.Opening == c.Opening })]
		seam := &opening.Seams[slices.IndexFunc(opening.Seams, func(s SeamMatch) bool { return s.Edge == c.Edge })]
		name := strconv.Itoa(c.First) + " and " + strconv.Itoa(c.Second)
		step := "leaves " + name + ": " + openingWords[c.Opening] + ", " + c.Edge + " edge"
		if c.Opening == string(resaw.SlipMatch) {
			step += " of leaf " + strconv.Itoa(c.First)
		}
		step += " to the seam"
		if seam.Faced != "" {
			step += " (" + seam.Faced + " side)"
		}
		step += seam.inWords(c.Opening, c.First, report)
		r.Advice = append(r.Advice, step)
		if i == 0 {
			r.Summary += "; " + step
		}
	}
}

// inWords says how the ring lines meet and what brings them together.
func (s *SeamMatch) inWords(opening string, first int, report wire.Reporter) string {
	show := func(q wire.Quantity) string { return quantity.FormatNumber(q.Value, report.Places()) + " " + q.Unit }
	halves := map[string]string{"first": "leaf " + strconv.Itoa(first), "second": "leaf " + strconv.Itoa(first+1),
		"either": "the leaf whose line lies farther from the seam"}
	var text string
	switch {
	case s.Shift == nil:
		text = "; ring lines there have no partner"
	case opening == string(resaw.SlipMatch) && s.Cure.Residual.Value < 1e-6:
		text = "; a slip-match repeats, here evenly"
	case opening == string(resaw.SlipMatch):
		text = "; a slip-match repeats, its period varies by " + show(s.Cure.Residual)
	case s.Cure.Half == "":
		text = "; ring lines meet"
	default:
		text = "; ring lines miss by " + show(s.Cure.Width) + ", take that off the seam edge of " + halves[s.Cure.Half]
		if s.Cure.Residual.Value != 0 {
			text += ", which leaves " + show(s.Cure.Residual) + " elsewhere"
			if len(s.Carved) > 0 {
				text += " on the carved outside"
			}
		}
	}
	if s.Cure.Slide != nil && s.Cure.Slide.Value > 0 {
		text += "; slide one along the other by " + show(*s.Cure.Slide) + " for the flame"
	}
	if len(s.Cure.NotMatched) > 0 {
		text += "; more than the spare wood: "
		for i, what := range s.Cure.NotMatched {
			if i > 0 {
				text += ", "
			}
			text += what
		}
	}
	return text
}
