package cut

import (
	"context"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/plan"
)

// Reasons for which a billet gives no set of a part on a saw.
const (
	tooHigh = iota
	tooLong
	tooWide
	tooThick
	tooFlat
	tooSteep // of the fibre
	reasons
)

// nowhere gathers why no billet gives a set of one part on any saw.
type nowhere struct {
	p     *planner
	part  *plan.PartKind
	pairs int          // of billet and saw
	fails [reasons]int // pairs that fail for a reason

	highest, longest, widest, thickest, needed quantity.Length // the best there is
}

// aloneWork is what the parts that are missing are planned for by themselves, all of
// them together, to see whether others stand in their way: one kind takes little.
const aloneWork = 1_000_000

// tellWhatIsMissing warns of the parts of which no billet can give a set on any saw,
// and of those that are wanted and do not come to their least, with the reasons.
func (p *planner) tellWhatIsMissing(ctx context.Context, made *plan.Plan) error {
	left := int64(aloneWork)
	for i := range p.asked.Parts {
		part := &p.asked.Parts[i]
		if made.Short[i] == 0 && (made.Sets[i] > 0 || part.Most != nil && *part.Most == 0) {
			continue
		}
		reason := ""
		if made.Sets[i] == 0 {
			n := &nowhere{p: p, part: part}
			reason = n.reason()
		}
		if reason == "" {
			alone, err := p.alone(ctx, i, max(1, left))
			if err != nil {
				return err
			}
			left -= alone.Work
			switch most := alone.Sets[0]; {
			case most == 0 && alone.Optimal:
				reason = "zones, taper, warp or the rings round the pith leave no clear place that is large enough"
			case made.Short[i] == 0:
				continue // it could be had, and pays less than what is cut
			case most < part.Least && alone.Optimal:
				p.tell(i, wire.CountOf(made.Short[i], "set")+" of "+part.Name+" are missing: with no other part the wood would give "+wire.CountOf(most, "set"))
				continue
			default:
				gives := ""
				if most > 0 { // else the work ended first
					gives = ", which would give at least " + wire.CountOf(most, "set") + " of this one alone"
				}
				p.tell(i, wire.CountOf(made.Short[i], "set")+" of "+part.Name+" are missing: the parts compete for the same wood"+gives+"; the plan misses as few sets in all as it can, one as good as another, and only then looks at their worth")
				continue
			}
		}
		p.tell(i, "no billet gives a set of "+part.Name+": "+reason)
	}
	return nil
}

// tellWhatIsTrimmed warns of parts whose leaves come from larger blanks.
func (p *planner) tellWhatIsTrimmed(made *plan.Plan) {
	var names []string
	for i := range p.asked.Parts {
		part := &p.asked.Parts[i]
		if larger(made, i, part) {
			names = append(names, part.Name)
		}
	}
	if len(names) > 0 {
		p.notes.Warn(method.Warning{Code: method.Assumption, Method: "resaw.plan", Detail: "leaves of " + strings.Join(names, ", ") +
			" come in part from blanks larger than they need; trimming such leaves to size after resawing is not among the steps and cuts, and the shares count them whole"})
	}
}

func larger(made *plan.Plan, kind int, part *plan.PartKind) bool {
	for i := range made.Billets {
		for j := range made.Billets[i].Blanks {
			b := &made.Billets[i].Blanks[j]
			if b.Length <= part.Length+shelf.Tiny && b.Width <= part.Width+shelf.Tiny {
				continue
			}
			for k := range b.Leaves {
				if b.Leaves[k].Part == kind {
					return true
				}
			}
		}
	}
	return false
}

func (p *planner) tell(part int, detail string) {
	p.notes.Warn(method.Warning{Code: method.Assumption, Method: "resaw.plan", Input: place("parts", part), Detail: detail})
}

// alone plans one part by itself, as many sets as there are, within so many steps.
func (p *planner) alone(ctx context.Context, i int, steps int64) (plan.Plan, error) {
	q := p.asked
	part := q.Parts[i]
	part.Least, part.Most, part.Worth = 0, nil, 1
	q.Parts, q.Work = []plan.PartKind{part}, steps
	made, err := plan.Make(ctx, q)
	if err != nil {
		return made, planError(err)
	}
	return made, nil
}

// reason is why there is no set; "" if one could be had by the sizes alone.
func (n *nowhere) reason() string {
	for i := range n.p.asked.Billets {
		b := &n.p.asked.Billets[i]
		for j := range n.p.asked.Saws {
			if !n.holds(b, &n.p.asked.Saws[j]) {
				n.pairs++
				continue
			}
			return ""
		}
	}
	said := n.said()
	var everywhere, somewhere []string
	for r, count := range n.fails {
		switch count {
		case 0:
		case n.pairs:
			everywhere = append(everywhere, said[r])
		default:
			somewhere = append(somewhere, [...]string{"highest cut", "length", "width", "thickness", "ring angle", "runout"}[r])
		}
	}
	if len(everywhere) > 0 {
		return strings.Join(everywhere, "; ")
	}
	return "none offers all that it needs at once, which each fails by its " + strings.Join(somewhere, " or ")
}

// holds says whether a billet could give a set on a saw, were it clear and without
// taper, and counts for which reasons it could not.
func (n *nowhere) holds(b *plan.Billet, s *plan.Saw) bool {
	part := n.part
	failed := false
	fail := func(is bool, reason int) {
		if is {
			failed = true
			n.fails[reason]++
		}
	}
	length, width := b.Length-b.TrimStart-b.TrimEnd, max(b.Width, orLength(b.WidthEnd))
	n.highest, n.longest, n.widest = max(n.highest, s.HighestCut), max(n.longest, length), max(n.widest, width)
	fail(s.HighestCut > 0 && part.Width > s.HighestCut+shelf.Tiny, tooHigh)
	fail(part.Length > length+shelf.Tiny, tooLong)
	fail(part.Width > width+shelf.Tiny, tooWide)
	thick := max(b.Thickness, orLength(b.ThicknessEnd)) + max(0, orLength(b.ThicknessFarEdge)-b.Thickness)*(width/b.Width) - b.FacingFace1 - b.FacingFar // at the thickest corner
	flat, err := resaw.Flatten(resaw.Warp{Thickness: b.Thickness, Length: b.Length, Width: width, Cup: b.Cup, Bow: b.Bow, Twist: b.Twist, Packed: b.Packed,
		PieceLength: min(part.Length, b.Length), PieceWidth: min(part.Width, width)})
	if err == nil {
		thick -= flat.LossInAll
	}
	leaf := part.On(s).Sum()
	need := quantity.Length(part.Pieces)*leaf + quantity.Length(part.Pieces-1)*(s.Resaw+s.Reface)
	if !s.FarFaceFinished {
		need += s.Resaw
	}
	n.thickest = max(n.thickest, thick)
	if n.needed == 0 || need < n.needed {
		n.needed = need
	}
	fail(need > thick+shelf.Tiny, tooThick)
	const smallAngle = 1e-9 * quantity.Degree
	fail(part.LeastRingAngle > 0 && b.Pith == nil && (b.RingAngle == nil || *b.RingAngle < part.LeastRingAngle-smallAngle), tooFlat)
	fail(part.MostRunoutOneIn > 0 && (b.RunoutOneIn == nil || *b.RunoutOneIn < part.MostRunoutOneIn), tooSteep)
	return !failed
}

// said words the reasons that hold for every billet on every saw.
func (n *nowhere) said() [reasons]string {
	say := func(l quantity.Length) string { return l.Format(n.p.report.LengthUnit) }
	part := n.part
	return [reasons]string{
		tooHigh:  "at " + say(part.Width) + " it is wider than the highest cut of every saw, at most " + say(n.highest),
		tooLong:  "at " + say(part.Length) + " it is longer than every billet between its end trims, at most " + say(n.longest),
		tooWide:  "at " + say(part.Width) + " it is wider than every billet, at most " + say(n.widest),
		tooThick: "a set of " + wire.CountOf(part.Pieces, "piece") + " takes " + say(n.needed) + " of thickness with its cuts, and no billet has more than " + say(max(0, n.thickest)) + " left after facing and flattening",
		tooFlat:  "of no billet is it known that its rings stand at " + quantity.FormatNumber(part.LeastRingAngle.Degrees(), 2) + " degrees or more",
		tooSteep: "of no billet is it known that its fibre leaves the face by 1 in " + quantity.FormatNumber(part.MostRunoutOneIn, 0) + " at most",
	}
}
