package readiness

import (
	"slices"

	"latewood/woodphys/quantity"
)

// WantKind is what would make a judgement surer, or what to wait for.
type WantKind string

// Kinds of wants.
const (
	WantSample       WantKind = "sample"        // the level is not known well enough
	WantTarget       WantKind = "target"        // the level is known better than where it comes to rest
	WantTime         WantKind = "time"          // too wet
	WantRoom         WantKind = "room"          // too wet, and at rest where it lies
	WantMoisture     WantKind = "moisture"      // too dry
	WantTwoDepths    WantKind = "two_depths"    // the gradient is not known
	WantSplitSample  WantKind = "split_sample"  // it is not known well enough
	WantEven         WantKind = "even"          // it is too steep
	WantWeights      WantKind = "weights"       // there are too few for a trend
	WantAgain        WantKind = "again"         // the newest reading was set aside, and would be a reason against the work
	WantMoreWeighing WantKind = "more_weighing" // the weight is not at rest
)

// Want is one of them.
type Want struct {
	Kind WantKind
	// SD is how well the level is known, for a sample, or the target, and FromEnd how far from an end
	// that is cut at least; 0 where the piece is too short for that. Whole says that it is too short
	// to be cut at all.
	SD      quantity.Moisture
	FromEnd quantity.Length
	Whole   bool
	More    int // weights that are wanted, at least 1
}

// sampleFromEnd is how far from an end a sample stands for the piece: the ends dry
// first. Common practice, no source.
const sampleFromEnd = 300 * quantity.Millimetre

// shortestCut is the shortest piece that a sample is cut from: a section of an inch with wood left on
// both sides of it. Own choice.
const shortestCut = 150 * quantity.Millimetre

// TooShortToCut reports that no sample can be cut from the billet with wood left on both sides of
// it; false where its length is not known.
//
// Accuracy: a rule of thumb. Source: own choice.
func (b *Billet) TooShortToCut() bool { return b.Length > 0 && b.Length < shortestCut }

// wantSample is a sample that is wanted of a piece of a length, 0 where that is not known.
func wantSample(sd quantity.Moisture, length quantity.Length) Want {
	want := Want{Kind: WantSample, SD: sd, FromEnd: sampleFromEnd}
	if length > 0 && length < 2*sampleFromEnd {
		want.FromEnd, want.Whole = 0, length < shortestCut
	}
	return want
}

// wants are those of the criteria that are not met, each once.
func (s *Seen) wants(length quantity.Length, verdicts []Verdict, target quantity.Band[quantity.Moisture]) []Want {
	var list []Want
	atRest := false
	for i := range verdicts {
		for j := range verdicts[i].Criteria {
			c := &verdicts[i].Criteria[j]
			atRest = atRest || c.Name == restCriterion && c.Outcome == Ready
		}
	}
	for i := range verdicts {
		for j := range verdicts[i].Criteria {
			c := &verdicts[i].Criteria[j]
			if c.Outcome == Ready {
				continue
			}
			if want := s.wantOf(c, length, target, atRest); !slices.Contains(list, want) {
				list = append(list, want)
			}
		}
	}
	return list
}

// wantOf is what a criterion that is not met wants; wood at rest gets no drier by waiting.
func (s *Seen) wantOf(c *Criterion, length quantity.Length, target quantity.Band[quantity.Moisture], atRest bool) Want {
	unsure := c.Outcome == CannotSay
	switch {
	case c.Name == levelCriterion && unsure && s.MC.SD < target.SD(): // no sample makes that surer
		return Want{Kind: WantTarget, SD: target.SD()}
	case c.Name == levelCriterion && unsure:
		return wantSample(s.MC.SD, length)
	case c.Name == levelCriterion && s.MC.MC.Value > target.Value && atRest:
		return Want{Kind: WantRoom}
	case c.Name == levelCriterion && s.MC.MC.Value > target.Value:
		return Want{Kind: WantTime}
	case c.Name == levelCriterion:
		return Want{Kind: WantMoisture}
	case c.Name == gradientCriterion && s.Gradient == nil:
		return Want{Kind: WantTwoDepths}
	case c.Name == gradientCriterion && unsure:
		return Want{Kind: WantSplitSample}
	case c.Name == gradientCriterion:
		return Want{Kind: WantEven}
	case s.Trend == nil:
		return Want{Kind: WantWeights, More: max(1, trendFrom-s.Weights)}
	}
	return Want{Kind: WantMoreWeighing}
}
