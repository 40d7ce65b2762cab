package dry

import (
	"context"
	"slices"
	"strconv"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/seasoning"
)

func (h *history) answer(ctx context.Context, result *ReadinessResult, notes *method.Notes) error {
	h.question.NoCourse = shelf.InBrief(ctx)
	a, err := seasoning.Judge(ctx, &h.piece, &h.question)
	if err != nil {
		return h.wrong(err)
	}
	notes.Merge(wire.AtMembers(a.Notes, h.wrong))
	h.rested.tell(h.req, a.Posterior.Used, notes)
	h.cut(a.Posterior.Cut, notes)
	wedge(h.req.Billet, &h.question.Setup, ", and a step is ready when both places are. The weight is that of its shape. Of a meter and a sample say taken_at", h.report, notes)
	for i := range a.Impossible {
		aside := h.cannotBe(&a.Impossible[i])
		notes.Warn(aside.warned())
	}
	h.word(a, result)
	h.req.settled(&a.Settled, result, notes)
	return nil
}

// cut tells what a step of the weights may come of, and what was done about it.
func (h *history) cut(cut *readiness.Cut, notes *method.Notes) {
	if cut == nil {
		return
	}
	share, low, high, than := cut.Share.Value, cut.Share.Low, cut.Share.High, "lighter"
	may := "if wood was cut off or planed away in between, say so with event, and give the size of the billet as it is now; if not, check the scale"
	if share < 0 {
		share, low, high, than = -share, -high, -low, "heavier"
		may = "if its ends were sealed in between, say so with event; if not, see whether it was another scale, or something lay on it"
	}
	percent := func(v float64) string { return quantity.FormatNumber(100*max(v, 0), 0) }
	detail := "from this weighing on the billet is some " + percent(share) + " % (" + percent(low) + " to " + percent(high) + ") " + than +
		" than its weights up to " + h.sources[cut.Before].date + " lead to expect, and evenly so: " + may
	if cut.Apart {
		detail += ". The weights before and after were read as of two masses, each unknown to the other, so the answer is less sure"
	}
	notes.Warn(method.Warning{Code: method.Disagreement, Method: "readiness.contradiction", Input: h.sources[cut.Index].pointer[1:], Detail: detail})
}

// wrong points errors of the judgement at the members of the request.
func (h *history) wrong(err error) error {
	if domain, is := wire.AsDomain(err); is {
		if pointer, is := h.ofObservation(domain.Input); is {
			moved := *domain
			moved.Input = pointer
			return &moved
		}
	}
	days := [][2]string{{"at_days", "as_of"}}
	err = method.Renamed(err, slices.Concat(limitNames, days)...)
	return method.EachInput(h.req.ofSettling(ofForecast(err)), h.rested.places)
}

// ofObservation turns "observations/3/..." into the pointer of the reading, and names
// what stands for all of them.
func (h *history) ofObservation(input string) (pointer string, is bool) {
	switch kind, rest, _ := strings.Cut(input, "/"); kind {
	case "meters":
		return "readings", true
	case "bodies":
		return "billet", true
	case "observations":
		if rest == "" {
			return "readings", true
		}
		number, name, _ := strings.Cut(rest, "/")
		i, err := strconv.Atoi(number)
		switch {
		case err != nil || i >= len(h.sources):
			return "", false
		case name == "mass_resolution":
			return "scale_division", true
		case name == "mass":
			return h.sources[i].pointer + "/mass", true
		}
		return h.sources[i].pointer, true
	}
	return "", false
}
