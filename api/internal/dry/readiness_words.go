package dry

import (
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

func describeVerdict(v *readiness.Verdict) StepVerdict {
	out := StepVerdict{Step: string(v.Step), Verdict: string(v.Outcome), Probability: v.Probability,
		Detail: v.Detail, Criteria: []CriterionResult{}}
	for _, c := range v.Criteria {
		one := CriterionResult{Kind: c.Name, Verdict: string(c.Outcome), Detail: c.Detail}
		if c.Known {
			one.Probability = &c.Probability
		}
		out.Criteria = append(out.Criteria, one)
	}
	return out
}

// verdictWords say a verdict in a sentence.
var verdictWords = map[string]string{
	string(readiness.Ready): "ready", string(readiness.NotReady): "not ready", string(readiness.CannotSay): "cannot say",
}

// widePoints is how wide a band may be for its middle to stand alone in the summary.
const widePoints = 5.0

// coarsePoints is up to where a band from 0 on leaves open whether wood is dry. Own choice.
const coarsePoints = 25.0

func summarise(r *ReadinessResult) string {
	mc := &r.Moisture.MC
	level := quantity.FormatNumber(mc.Value, 1) + " %"
	band := " (" + quantity.FormatNumber(mc.Low, 1) + " to " + quantity.FormatNumber(mc.High, 1) + ")"
	text := level + " now"
	switch l := r.Calibration; {
	case l != nil && l.ReadingsUsed == 0:
		text = "forecast " + level + band + ", no reading"
	case mc.Low <= 0 && mc.High > coarsePoints: // its middle would be taken for a reading
		text = "somewhere from 0 to " + quantity.FormatNumber(mc.High, 1) + " % now, which no reading settles"
	case mc.High-mc.Low > widePoints:
		text = level + band + " now"
	}
	text += ", target " + quantity.FormatNumber(r.Target.MC.Value, 1) + " %"
	for _, s := range r.Verdicts {
		text += "; " + s.Step + ": " + verdictWords[s.Verdict]
		if s.perhaps {
			text += ", may be ready today"
		}
	}
	return text + r.harm
}
