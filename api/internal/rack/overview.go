package rack

import (
	"context"
	"strconv"
	"strings"
	"time"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// Overview is what a maker asks of the whole rack.
type Overview struct {
	Summary  string       `json:"summary" required:"true" description:"the answer in a sentence"`
	Progress Progress     `json:"progress" required:"true" description:"how many of the answers are to all that is kept; the others are those of before, or not there yet"`
	Totals   Totals       `json:"totals" required:"true" description:"how long the lists are, of which a page is told"`
	Ready    []ReadyWood  `json:"ready_now" required:"true" nullable:"false" description:"what is ready, under the last step of the work that it is ready for; the last step first, then the surest"`
	Maybe    []ReadyWood  `json:"may_be_ready" required:"true" nullable:"false" description:"what may be ready on the day of the answer, for which step, and cannot be said without a reading; the likeliest first"`
	Next     []ReadyWood  `json:"ready_next" required:"true" nullable:"false" description:"what is ready next, and for which step; the nearest first"`
	Read     []ReadNext   `json:"next_readings" required:"true" nullable:"false" description:"what to weigh or read next, and what to expect; the earliest first, and of one day the least sure one"`
	Look     []Doubt      `json:"contradictions" required:"true" nullable:"false" description:"readings to look at again: others rule them out"`
	Open     []Unanswered `json:"unanswered" required:"true" nullable:"false" description:"of which nothing can be said, with the reason"`
	Wood     []Standing   `json:"wood" required:"true" nullable:"false" description:"all that lies on the rack; billets first, in order of the days of stacking"`
}

// Totals are the lengths of the lists of an overview.
type Totals struct {
	Ready int `json:"ready_now" required:"true" description:"pieces that are ready for a step"`
	Maybe int `json:"may_be_ready" required:"true" description:"pieces that may be ready, which a reading settles"`
	Next  int `json:"ready_next" required:"true" description:"pieces that wait for a step"`
	Read  int `json:"next_readings" required:"true" description:"readings to take"`
	Look  int `json:"contradictions" required:"true" description:"readings to look at again"`
	Open  int `json:"unanswered" required:"true" description:"pieces of which nothing can be said"`
	Wood  int `json:"wood" required:"true" description:"pieces that lie on the rack"`
}

// Named is a piece of wood on the rack.
type Named struct {
	Kind  string `json:"kind" required:"true" enum:"billet,piece" description:"of the entry"`
	ID    string `json:"id" required:"true" description:"of the entry"`
	Name  string `json:"name,omitempty" description:"of the billet"`
	Wood  string `json:"species,omitempty" description:"id of the wood in the tables"`
	Place string `json:"place,omitempty" description:"id of the place it lies in"`
	Spot  string `json:"spot,omitempty" description:"where in that place"`
}

// ReadyWood is a piece of wood that is or will be ready for a step.
type ReadyWood struct {
	Named
	Step        string         `json:"step" required:"true" enum:"resaw,thickness,glue" description:"of the work"`
	Probability float64        `json:"probability" required:"true" description:"that it is ready on the day of the answer"`
	ReadyOn     *wire.DateBand `json:"ready_on,omitempty" description:"when it is first ready, from that day on"`
	Detail      string         `json:"detail" required:"true" description:"the judgement in words"`
}

// ReadNext is the one reading of a piece of wood that is worth taking next.
type ReadNext struct {
	Named
	Reading string     `json:"reading_kind" required:"true" enum:"weight,ovendry_sample,pin_meter" description:"what to read; a pin meter is read at the core"`
	Date    string     `json:"date" required:"true" format:"date" description:"when"`
	Mass    *wire.Band `json:"expected_mass,omitempty" description:"if all is well"`
	MC      *wire.Band `json:"expected_mc,omitempty" description:"if all is well"`
	Detail  string     `json:"detail" required:"true" description:"what it would tell"`
}

// Doubt is a reading that the others rule out.
type Doubt struct {
	Named
	Reading   string `json:"reading" required:"true" description:"id of the reading on the rack"`
	Date      string `json:"date" required:"true" format:"date" description:"of the reading"`
	Detail    string `json:"detail" required:"true" description:"what was read, and what the others lead to expect"`
	Slip      string `json:"likely_slip,omitempty" description:"the slip of the pen that would explain it"`
	Undecided bool   `json:"undecided" required:"true" description:"nothing tells which side is wrong"`
}

// Unanswered is a piece of wood of which nothing can be said.
type Unanswered struct {
	Named
	Detail string `json:"detail" required:"true" description:"what is missing or wrong"`
}

// Standing is all that the overview tells of a piece of wood.
type Standing struct {
	Named
	AsOf     string        `json:"as_of,omitempty" format:"date" description:"day that the answer is for. Left out: it was judged by its readings alone, which have no such day"`
	Current  bool          `json:"current" required:"true" description:"the answer is to all that is kept, for the day of the overview"`
	MC       *wire.Band    `json:"mc,omitempty" description:"over the whole thickness. Left out: not answered"`
	Target   *wire.Band    `json:"target_mc,omitempty" description:"where it settles"`
	Summary  string        `json:"summary,omitempty" description:"the answer of readiness in a sentence"`
	Verdicts []StepVerdict `json:"verdicts" required:"true" nullable:"false" description:"in the order of the work; none where nothing can be said"`
	Weighings
	Photo *KeptPhoto `json:"photo,omitempty" description:"that there is one. Left out: there is none"`
}

// StepVerdict is the judgement on one step.
type StepVerdict struct {
	Step        string         `json:"step" required:"true" enum:"resaw,thickness,glue" description:"of the work"`
	Verdict     string         `json:"verdict" required:"true" enum:"ready,not_ready,cannot_say" description:"as readiness judges it"`
	Probability float64        `json:"probability" required:"true" description:"that every criterion with a reading is met"`
	ReadyOn     *wire.DateBand `json:"ready_on,omitempty" description:"when it is first ready, from the day of the answer on"`
	Detail      string         `json:"detail" required:"true" description:"in words"`
}

// judged is what the overview reads of an answer of readiness.
type judged struct {
	Result struct {
		Summary  string        `json:"summary"`
		Verdicts []StepVerdict `json:"verdicts"`
		Moisture struct {
			MC    wire.Band  `json:"mc"`
			SD    float64    `json:"mc_sd_points"`
			Shell *wire.Band `json:"shell_mc"`
			Core  *wire.Band `json:"core_mc"`
		} `json:"moisture"`
		Target struct {
			MC wire.Band `json:"mc"`
		} `json:"target"`
		Rejected []struct {
			Pointer   string `json:"pointer"`
			Date      string `json:"date"`
			Detail    string `json:"detail"`
			Slip      string `json:"likely_slip"`
			Undecided bool   `json:"undecided"`
		} `json:"rejected_readings"`
		Next *struct {
			Kind   string     `json:"kind"`
			Date   string     `json:"date"`
			Mass   *wire.Band `json:"expected_mass"`
			MC     *wire.Band `json:"expected_mc"`
			Detail string     `json:"detail"`
		} `json:"next_reading"`
		Weights []struct {
			Date      string     `json:"date"`
			Mass      wire.Band  `json:"mass"`
			Plausible wire.Range `json:"plausible_mass"`
		} `json:"expected_weights"`
	} `json:"result"`
}

// UsualOverview is how many entries of each list an overview tells where nothing is said.
const UsualOverview = 500

// TellOverview is a page of what is known of the rack now.
func TellOverview(ctx context.Context, r *Rack, s *wire.Sent) (*Overview, error) {
	o, err := r.overview(ctx)
	if err != nil {
		return nil, err
	}
	limit := s.Limit
	if s.Asked["limit"] == "" {
		limit = UsualOverview
	}
	o.Ready, o.Maybe, o.Next = paged(o.Ready, s.Offset, limit), paged(o.Maybe, s.Offset, limit), paged(o.Next, s.Offset, limit)
	o.Read = paged(o.Read, s.Offset, limit)
	o.Look, o.Open, o.Wood = paged(o.Look, s.Offset, limit), paged(o.Open, s.Offset, limit), paged(o.Wood, s.Offset, limit)
	return o, nil
}

// paged is a page of a list.
func paged[T any](all []T, offset, limit int) []T {
	from := min(offset, len(all))
	return all[from:min(from+limit, len(all))]
}

// looked is the wood of the rack with what is known of each piece.
type looked struct {
	wood     []standing
	answers  []judged
	photos   map[store.Key]*KeptPhoto
	progress Progress
}

// looks looks at all that lies on the rack.
func (r *Rack) looks(ctx context.Context) (*looked, error) {
	all, left, err := r.standings(ctx)
	if err != nil {
		return nil, told(err)
	}
	l := &looked{wood: all, answers: make([]judged, len(all))}
	if l.photos, err = r.photos(ctx); err != nil {
		return nil, err
	}
	p := &l.progress
	*p, _ = r.progress()
	p.AsOf, p.Total, p.Current, p.Left = r.today(), len(all), 0, left
	for i := range all {
		if all[i].current {
			p.Current++
		}
		l.answers[i] = all[i].answer
	}
	p.Running = p.Running && p.Current < p.Total // else it only looks
	return l, nil
}

// overview is what is known of the rack now.
func (r *Rack) overview(ctx context.Context) (*Overview, error) {
	l, err := r.looks(ctx)
	if err != nil {
		return nil, err
	}
	o := &Overview{Progress: l.progress, Ready: []ReadyWood{}, Maybe: []ReadyWood{}, Next: []ReadyWood{}, Read: []ReadNext{}, Look: []Doubt{}, Open: []Unanswered{}, Wood: []Standing{}}
	standings := make([]readiness.Standing, len(l.wood))
	for i := range l.wood {
		o.look(&l.wood[i], &l.answers[i])
		o.Wood[i].Photo = l.photos[l.wood[i].record.Key]
		standings[i] = comparedOn(&l.answers[i], r.today())
		standings[i].Rejected += len(l.wood[i].left)
		standings[i].Sawn = l.wood[i].record.Kind == store.Piece
	}
	o.tell(l, readiness.SurveyOf(standings))
	o.Totals = Totals{len(o.Ready), len(o.Maybe), len(o.Next), len(o.Read), len(o.Look), len(o.Open), len(o.Wood)}
	o.summarise()
	return o, nil
}

// look tells what is known of one piece of wood.
func (o *Overview) look(s *standing, answer *judged) {
	told := Standing{Named: named(&s.record), Current: s.current, Verdicts: []StepVerdict{}, Weighings: s.weighings(answer, o.Progress.AsOf)}
	if s.failed { // an earlier answer is told all the same
		o.Open = append(o.Open, Unanswered{told.Named, faulty + ", and is tried again with the next request"})
	}
	switch f := s.found; {
	case f == nil:
	case f.Refused != "" && s.failed:
	case f.Refused != "":
		o.Open = append(o.Open, Unanswered{told.Named, f.Refused})
	default:
		got := &answer.Result
		told.Summary, told.MC, told.Target = got.Summary, &got.Moisture.MC, &got.Target.MC
		if got.Verdicts != nil {
			told.Verdicts = got.Verdicts
		}
		if s.asOf != "" {
			told.AsOf = f.AsOf
		}
	}
	o.Wood = append(o.Wood, told)
}

// named is what a record is called by.
func named(r *store.Record) Named {
	return Named{Kind: string(r.Kind), ID: r.ID, Name: r.Label, Wood: r.Form, Place: r.Place, Spot: spotOf(r.Body)}
}

// comparedOn is an answer as far as pieces are compared by it.
func comparedOn(answer *judged, day string) readiness.Standing {
	var s readiness.Standing
	for i := range answer.Result.Verdicts {
		v := &answer.Result.Verdicts[i]
		step := readiness.StepStanding{Step: readiness.Step(v.Step), Outcome: readiness.Outcome(v.Verdict), Probability: v.Probability}
		if v.ReadyOn != nil && v.ReadyOn.Value != "" {
			step.Dated, step.ReadyAt = true, between(day, v.ReadyOn.Value)
		}
		s.Steps = append(s.Steps, step)
	}
	if next := answer.Result.Next; next != nil {
		s.Read, s.ReadAt = true, between(day, next.Date)
	}
	s.Rejected = len(answer.Result.Rejected)
	return s
}

// between is the time from one day to another.
func between(from, to string) quantity.Duration {
	first, _ := time.Parse(time.DateOnly, from) // both were written by the service
	last, _ := time.Parse(time.DateOnly, to)
	return since(first, last)
}

// tell fills the lists of the overview.
func (o *Overview) tell(l *looked, s readiness.Survey) {
	answers := l.answers
	ready := func(p readiness.Place) ReadyWood {
		v := &answers[p.Piece].Result.Verdicts[p.Step]
		return ReadyWood{Named: o.Wood[p.Piece].Named, Step: v.Step, Probability: v.Probability, ReadyOn: v.ReadyOn, Detail: v.Detail}
	}
	for _, p := range s.Now {
		o.Ready = append(o.Ready, ready(p))
	}
	for _, p := range s.Maybe {
		o.Maybe = append(o.Maybe, ready(p))
	}
	for _, p := range s.Next {
		o.Next = append(o.Next, ready(p))
	}
	for _, i := range s.Read {
		next := answers[i].Result.Next
		o.Read = append(o.Read, ReadNext{Named: o.Wood[i].Named, Reading: next.Kind, Date: next.Date, Mass: next.Mass, MC: next.MC, Detail: next.Detail})
	}
	for _, i := range s.Look {
		for _, left := range l.wood[i].left {
			o.Look = append(o.Look, Doubt{Named: o.Wood[i].Named, Reading: left.reading, Date: left.date, Detail: left.why})
		}
		for _, d := range answers[i].Result.Rejected {
			o.Look = append(o.Look, Doubt{Named: o.Wood[i].Named, Reading: l.wood[i].found.reading(d.Pointer), Date: d.Date, Detail: d.Detail, Slip: d.Slip, Undecided: d.Undecided})
		}
	}
}

// reading is the id of the reading that a pointer of the answer names.
func (f *finding) reading(pointer string) string {
	number, _, _ := strings.Cut(strings.TrimPrefix(pointer, "/readings/"), "/")
	if i, err := strconv.Atoi(number); err == nil && i >= 0 && i < len(f.Readings) {
		return f.Readings[i]
	}
	return ""
}

// summarise is the overview in a sentence.
func (o *Overview) summarise() {
	p := &o.Progress
	are := " are"
	if len(o.Ready) == 1 {
		are = " is"
	}
	parts := []string{strconv.Itoa(len(o.Ready)) + " of " + wire.CountOf(p.Total, "piece") + are + " ready for a step of the work"}
	if n := len(o.Maybe); n > 0 {
		parts = append(parts, wire.CountOf(n, "piece")+" may be ready today, which a reading settles")
	}
	if len(o.Next) > 0 {
		next := &o.Next[0]
		parts = append(parts, "next is "+next.ID+" ("+next.Step+") about "+wire.PlainDate(next.ReadyOn.Value))
	}
	if len(o.Read) > 0 {
		parts = append(parts, "the first to read is "+o.Read[0].ID+" on "+wire.PlainDate(o.Read[0].Date))
	}
	if n := len(o.Look); n > 0 {
		parts = append(parts, wire.CountOf(n, "reading")+" to look at again")
	}
	if left := p.Total - p.Current; left > 0 {
		parts = append(parts, wire.CountOf(left, "answer")+" still to come")
	}
	if p.Left > 0 {
		parts = append(parts, wire.CountOf(p.Left, "piece")+" beyond those that an overview takes")
	}
	o.Summary = strings.Join(parts, "; ")
}
