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

func summarise(r *ReadinessResult) string {
	text := quantity.FormatNumber(r.Moisture.MC.Value, 1) + " % now"
	if l := r.Calibration; l != nil && l.ReadingsUsed == 0 {
		text = "forecast " + quantity.FormatNumber(r.Moisture.MC.Value, 1) + " % (" +
			quantity.FormatNumber(r.Moisture.MC.Low, 1) + " to " +
			quantity.FormatNumber(r.Moisture.MC.High, 1) + "), no reading"
	}
	text += ", target " + quantity.FormatNumber(r.Target.MC.Value, 1) + " %"
	for _, s := range r.Verdicts {
		text += "; " + s.Step + ": " + verdictWords[s.Verdict]
	}
	return text
}
