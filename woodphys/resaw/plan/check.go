package plan

import (
	"math"
	"strconv"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
)

// checker checks the inputs of a request. Inputs are named by their place, such
// as "billets/0/zones/2/x1".
type checker struct {
	billets int
	notes   *method.Notes
	place   string
	err     error
}

func (c *checker) fail(code method.Code, input, detail string, limit *method.Limit) {
	if c.err == nil {
		c.err = &method.Error{Code: code, Input: c.place + input, Detail: c.place + input + ": " + detail, Limit: limit}
	}
}

// number checks v, in the unit of the row, against the row's input.
func (c *checker) number(input, rowInput string, v float64) {
	if c.err != nil {
		return
	}
	c.notes.Rest(rowPlan)
	w, err := rowPlan.Check(rowInput, v)
	if err != nil {
		e, ok := err.(*method.Error) //nolint:errorlint // Check returns it bare
		if !ok {
			c.err = err
			return
		}
		c.fail(e.Code, input, e.Detail, e.Limit)
		return
	}
	if w != nil {
		w.Input = c.place + input
		c.notes.Warn(*w)
	}
}

func (c *checker) length(input, rowInput string, l quantity.Length) {
	c.number(input, rowInput, exact.Millimetres(l))
}

func (c *checker) optional(input, rowInput string, l *quantity.Length) {
	if l != nil {
		c.length(input, rowInput, *l)
	}
}

func (c *checker) size(input string, n, low, high int) {
	if n < low || n > high {
		limit := method.Between(float64(low), float64(high), "")
		c.fail(method.OutOfRange, input, "there must be "+limit.String()+"; got "+strconv.Itoa(n), limit)
	}
}

func checkRequest(q *Request, notes *method.Notes) error {
	c := &checker{notes: notes, billets: len(q.Billets)}
	c.size("billets", len(q.Billets), 1, MaxBillets)
	c.size("parts", len(q.Parts), 1, MaxKinds)
	c.size("saws", len(q.Saws), 1, MaxSaws)
	c.number("work", "work", float64(q.Work))
	for i := range q.Billets {
		c.place = "billets/" + strconv.Itoa(i) + "/"
		c.billet(&q.Billets[i])
	}
	for i := range q.Parts {
		c.place = "parts/" + strconv.Itoa(i) + "/"
		c.part(&q.Parts[i])
	}
	for i := range q.Saws {
		c.place = "saws/" + strconv.Itoa(i) + "/"
		c.saw(&q.Saws[i])
	}
	return c.err
}

func (c *checker) billet(b *Billet) {
	c.length("length", "length", b.Length)
	c.length("width", "width", b.Width)
	c.length("thickness", "thickness", b.Thickness)
	c.optional("width_end", "width_end", b.WidthEnd)
	c.optional("thickness_end", "thickness_end", b.ThicknessEnd)
	c.optional("thickness_far_edge", "thickness_far_edge", b.ThicknessFarEdge)
	c.length("facing_face1", "facing", b.FacingFace1)
	c.length("facing_far", "facing", b.FacingFar)
	c.length("trim_start", "trim", b.TrimStart)
	c.length("trim_end", "trim", b.TrimEnd)
	c.length("cup", "cup", b.Cup)
	c.length("bow", "bow", b.Bow)
	c.length("twist", "twist", b.Twist)
	c.size("zones", len(b.Zones), 0, MaxZones)
	if b.Pith != nil {
		c.length("pith/x", "pith", b.Pith.X)
		c.length("pith/z", "pith", b.Pith.Z)
	}
	if b.RingAngle != nil {
		c.number("ring_angle", "ring_angle", round9(b.RingAngle.Degrees()))
		if b.Pith != nil {
			c.fail(method.Contradictory, "ring_angle", "give the pith or one ring angle, not both", nil)
		}
	}
	if b.RunoutOneIn != nil {
		c.number("runout_one_in", "runout_one_in", *b.RunoutOneIn)
	}
	place := c.place
	for i := range b.Zones {
		c.place = place + "zones/" + strconv.Itoa(i) + "/"
		c.zone(&b.Zones[i])
	}
	c.place = place
}

func (c *checker) zone(z *Zone) {
	c.length("x0", "zone", z.X0)
	c.length("x1", "zone", z.X1)
	c.length("y0", "zone", z.Y0)
	c.length("y1", "zone", z.Y1)
	c.optional("z0", "zone", z.Z0)
	c.optional("z1", "zone", z.Z1)
	switch {
	case z.X1 <= z.X0:
		c.fail(method.Contradictory, "x1", "x1 must be more than x0", method.MoreThan(z.X0.AtLeast("mm")))
	case z.Y1 <= z.Y0:
		c.fail(method.Contradictory, "y1", "y1 must be more than y0", method.MoreThan(z.Y0.AtLeast("mm")))
	case (z.Z0 == nil) != (z.Z1 == nil):
		c.fail(method.Missing, "z1", "z0 and z1 belong together", nil)
	case z.Z0 != nil && *z.Z1 <= *z.Z0:
		c.fail(method.Contradictory, "z1", "z1 must be more than z0", method.MoreThan(z.Z0.AtLeast("mm")))
	}
}

func (c *checker) part(p *PartKind) {
	c.length("length", "part_length", p.Length)
	c.length("width", "part_width", p.Width)
	c.length("final", "final", p.Final)
	c.length("thin_edge", "thin_edge", p.ThinEdge)
	if p.ThinEdge > 0 && (p.ThinEdge > p.Final || p.Pieces != 2 || p.Match != MatchBook) {
		c.fail(method.Contradictory, "thin_edge", "a thin edge is that of a bookmatched pair, and no thicker than the "+
			"thick one", method.AtMost(p.Final.AtMost("mm")))
	}
	c.length("flatness", "allowance", p.Flatness)
	c.number("shrinkage", "shrinkage", p.Shrinkage)
	c.number("pieces", "pieces", float64(p.Pieces))
	c.number("least_ring_angle", "least_ring_angle", round9(p.LeastRingAngle.Degrees()))
	c.number("most_runout_one_in", "most_runout_one_in", p.MostRunoutOneIn)
	c.number("least", "least", float64(p.Least))
	c.number("worth", "worth", float64(p.Worth))
	if p.Most != nil {
		c.number("most", "most", float64(*p.Most))
		if *p.Most < p.Least {
			c.fail(method.Contradictory, "most", "most must be at least least", method.AtLeast(float64(p.Least), ""))
		}
	}
	for i, from := range p.From {
		if from < 0 || from >= c.billets {
			c.fail(method.Unknown, "from/"+strconv.Itoa(i), "there is no such billet", nil)
		}
	}
	switch p.Match {
	case MatchBook, MatchSlip, MatchNone:
	default:
		c.fail(method.Unknown, "match", "match must be bookmatch, slip_match or none", method.OneOf(MatchBook, MatchSlip, MatchNone))
	}
}

func (c *checker) saw(s *Saw) {
	c.length("resaw", "kerf", s.Resaw)
	c.length("crosscut", "kerf", s.Crosscut)
	c.length("rip", "kerf", s.Rip)
	c.length("wander", "allowance", s.Wander)
	c.length("cleanup_show", "allowance", s.CleanupShow)
	c.length("cleanup_back", "allowance", s.CleanupBack)
	c.length("reface", "allowance", s.Reface)
	c.length("highest_cut", "highest_cut", s.HighestCut)
}

func round9(v float64) float64 { return math.Round(v*1e9) / 1e9 }

// warnAbout notes what a plan leaves open: grain that is asked for and was not
// measured.
func warnAbout(q *Request, notes *method.Notes) {
	for i := range q.Billets {
		b := &q.Billets[i]
		place := "billets/" + strconv.Itoa(i) + "/"
		ring, runout := false, false
		for j := range q.Parts {
			ring = ring || q.Parts[j].LeastRingAngle > 0 && b.Pith == nil && b.RingAngle == nil
			runout = runout || q.Parts[j].MostRunoutOneIn > 0 && b.RunoutOneIn == nil
		}
		if ring {
			notes.Warn(method.Warning{
				Code: method.Assumption, Method: rowPlan.ID, Input: place + "ring_angle",
				Detail: "no pith and no ring angle was measured, so no part that asks for a ring angle is cut from " +
					"this billet",
			})
		}
		if runout {
			notes.Warn(method.Warning{
				Code: method.Assumption, Method: rowPlan.ID, Input: place + "runout_one_in",
				Detail: "no runout was measured, so no part that limits runout is cut from this billet",
			})
		}
	}
	notes.Warn(method.Warning{
		Code: method.Caution, Method: rowPlan.ID,
		Detail: "a plan is geometry only: wood under stress can close on a blade or spring; tall resawing needs a " +
			"high fence and a pusher; follow the machine's manual",
	})
}
