package dry

import (
	"strconv"
	"strings"
	"time"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/seasoning"
)

// rested is wood that has lain longer than a forecast lasts: it is forecast from a later day on,
// on which it is at rest where it lies; or, where it may not be so by today, as if it had been
// stacked on that day, which has it no drier than it is.
type rested struct {
	wet     bool              // it may not be at rest
	lain    quantity.Duration // since it was stacked
	since   time.Time
	stays   []shelf.Stay // those that are not over by then
	dropped int          // that are
	before  []string     // places of readings from before
}

// old is the billet as one that has rested, if it is so old; nil else.
func (req *ReadinessRequest) old() *rested {
	stacked, noStack := shelf.ParseDay("billet/stacked_on", req.Billet.StackedOn)
	today, noDay := shelf.ParseDay("as_of", req.AsOf)
	if noStack != nil || noDay != nil { // which is told elsewhere
		return nil
	}
	lain := quantity.Duration(today.Sub(stacked).Seconds())
	begin, is := seasoning.RestingSince(lain)
	if !is {
		return nil
	}
	r := &rested{lain: lain, since: stacked.Add(time.Duration(begin.Days()*24) * time.Hour), stays: req.Stays}
	end := stacked
	for i := range req.Stays[:len(req.Stays)-1] {
		stay := &req.Stays[i]
		if until, err := shelf.ParseDay("until", stay.Until); err == nil {
			end = until
		}
		for k := range stay.Phases {
			if days := stay.Phases[k].Days; days != nil {
				end = end.Add(time.Duration(*days*24) * time.Hour)
			}
		}
		if end.After(r.since) {
			break
		}
		r.stays, r.dropped = req.Stays[i+1:], i+1
	}
	return r
}

// start is what the wood holds on the day on which its forecast begins.
func (r *rested) start(t *shelf.Tables, w *shelf.Wood) seasoning.Start {
	var told method.Notes // with the stays
	air, _, err := climateOf(t, &r.stays[0], r.since, &told)
	if err != nil || air == nil || w == nil { // which is told with the stays
		return seasoning.Start{}
	}
	return seasoning.Resting(air, w.Sorption())
}

// places calls the stays that are left as they were sent.
func (r *rested) places(input string) string {
	rest, is := strings.CutPrefix(input, "stays/")
	if r == nil || !is {
		return input
	}
	number, below, deeper := strings.Cut(rest, "/")
	i, err := strconv.Atoi(number)
	if err != nil {
		return input
	}
	moved := "stays/" + strconv.Itoa(i+r.dropped)
	if deeper {
		moved += "/" + below
	}
	return moved
}

// leaves reports a reading from before the forecast begins, which says nothing of wood that has
// come to rest since.
func (r *rested) leaves(place, date string) bool {
	if r == nil || date == "" {
		return false
	}
	day, err := shelf.ParseDay("date", date)
	if err != nil || !day.Before(r.since) {
		return false
	}
	r.before = append(r.before, place)
	return true
}

// tell says what the forecast of old wood rests on; used is how many readings count.
func (r *rested) tell(req *ReadinessRequest, used int, notes *method.Notes) {
	if r == nil {
		return
	}
	since := wire.PlainDate(r.since.Format(time.DateOnly))
	text := "the wood has lain for longer than a forecast lasts: it is taken to be at rest since " + since + ", in the air of the place where it lies"
	switch {
	case r.wet:
		text = "the wood has lain for longer than a forecast lasts, and wood so thick, or kept so damp, may not be at rest even so: it is forecast " +
			"as if it had been stacked on " + since + ", and may be drier than that by now; a meter at half its thickness, or a sample, tells"
	case used == 0:
		text += ". No reading confirms that: what it holds is as sure as that air and the sorption of its wood; a weight, or a meter " +
			"at half its thickness, tells whether it is so"
	}
	notes.Warn(method.Warning{Code: method.Assumption, Input: "billet/stacked_on", Detail: text})
	for _, place := range r.before {
		notes.Warn(method.Warning{Code: method.Assumption, Input: place, Detail: "this is from before that day, and does not count"})
	}
	if req.Horizon != nil {
		notes.Warn(method.Warning{Code: method.Assumption, Input: "horizon_days", Detail: "it counts from stacking, which is too long ago: " +
			"the forecast reaches two years ahead"})
	}
}
