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

// cut suggests what a step of the weights may come of.
func (h *history) cut(cut *readiness.Cut, notes *method.Notes) {
	if cut == nil {
		return
	}
	notes.Warn(method.Warning{Code: method.Disagreement, Method: "readiness.contradiction", Input: h.sources[cut.Index].pointer[1:],
		Detail: "from this weighing on the billet is some " + quantity.FormatNumber(100*cut.Share, 0) + " % lighter than its earlier weights " +
			"lead to expect, and evenly so: if wood was cut off or planed away before it, say so with event"})
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
