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
// every side, so that the waste in front of one may be set to the step below.

// InSteps returns a request for the same with parts that are sawn in whole multiples of a step.
//
// step: more than 0 to 25 mm, such as 1/32 in. Accuracy: exact in whole nanometres. Source:
// derived by arithmetic; the argument stands above.
func (q Request) InSteps(step quantity.Length) Request {
	q.Parts = slices.Clone(q.Parts)
	for i := range q.Parts {
		p := &q.Parts[i]
		p.Step = step
		p.Length, p.Width = upTo(p.Length, step), upTo(p.Width, step)
	}
	return q
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
