package plan

import (
	"slices"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
)

// Settings in steps. A fence with a scale in 1/32 in is set to no 0.2217 in. A plan that is to be
// set so is made of sizes that can be: thickness, width and length of every part as sawn are
// rounded up to whole steps, and so are the kerfs of crosscuts and rips, so that of pieces that lie
// beside each other each is as large as planned and no smaller. The kerf of a resaw cut is
// left as it is: the fence is set anew from the sawn face. Zones are taken as one step larger on
// every side, so that the waste in front of one may be set to the step below. Face 1 is planed
// up to a step deep and a blank down to a step thick, but for a facing that was given; so is what is
// sawn off behind a blank, and the slabs between its leaves are as thick as whole steps.

// InSteps returns a request for the same with parts that are sawn in whole multiples of a step.
//
// step: more than 0 to 25 mm, such as 1/32 in. Accuracy: exact in whole nanometres. Source:
// derived by arithmetic; the argument stands above.
func (q Request) InSteps(step quantity.Length) Request {
	q.Parts, q.Billets = slices.Clone(q.Parts), slices.Clone(q.Billets)
	for i := range q.Billets {
		if b := &q.Billets[i]; b.UsualFacing {
			b.FacingFace1 = upTo(b.FacingFace1, step)
		}
	}
	for i := range q.Parts {
		p := &q.Parts[i]
		p.Step = step
		p.Length, p.Width = upTo(p.Length, step), upTo(p.Width, step)
	}
	return q
}

// SetTo is what the fence or the stop is set to for a cut, in whole steps: up where a leaf comes
// from what lies against it, which is to be large enough; down where that is waste, of which no more
// is taken. is tells what the pieces are; step: 0 to 25 mm, 0 for any setting.
//
// Accuracy: exact in whole nanometres. Source: derived; the argument stands above.
func (s *Step) SetTo(is map[int]Piece, step quantity.Length) quantity.Length {
	against := s.Low
	if (s.Against == End || s.Against == FarEdge) && s.Action != Resaw {
		against = s.High
	}
	to := upToSteps
	if of := is[against].Is; of == AnOffcut || of == ASlab {
		to = downToSteps
	}
	return exact.Length(to(exact.Whole(s.Fence), exact.Whole(step)))
}

// stepOf is the step of the parts; 0 where they are of any size.
func stepOf(parts []PartKind) nm { return exact.Whole(parts[0].Step) }

// upTo is a length rounded up to whole steps; 0: as it is.
func upTo(l, step quantity.Length) quantity.Length {
	return exact.Length(upToSteps(exact.Whole(l), exact.Whole(step)))
}

func upToSteps(l, step nm) nm {
	if step == 0 {
		return l
	}
	return (l + step - 1) / step * step
}

// downToSteps is a length rounded down to whole steps; 0: as it is.
func downToSteps(l, step nm) nm {
	if step == 0 || l < 0 {
		return l
	}
	return l / step * step
}
