package rack

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"maps"
	"runtime"
	"runtime/debug"
	"slices"
	"sync"
	"time"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/wire"
)

// Asking lets the rack ask the calculations for itself, between the requests of callers.
type Asking struct {
	// Version is that of the tables and of the code: what one version found out is not
	// taken for what another would.
	Version string
	// Ask answers a calculation as it is sent. What is refused of the request itself is a
	// *wire.Refused; all else may pass.
	Ask func(ctx context.Context, path string, body []byte) ([]byte, error)
	Log *slog.Logger // of faults, which users are told in a sentence; nil: nowhere
}

// AskWith lets the rack find out what its overview tells.
func (r *Rack) AskWith(a Asking) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.asking = a
}

// learner finds out in the background what is not known any more, while everything else
// goes on: it asks as one caller among others, and keeps what it learns as it comes.
type learner struct {
	mu      sync.Mutex
	asking  Asking
	context context.Context //nolint:containedctx // of what goes on between requests
	stop    context.CancelFunc
	working sync.WaitGroup
	running bool
	again   bool // something may have changed since the run began
	state   Progress
	faults  map[store.Key]string // pieces that no answer came for by a fault, with the basis of the question
	changed chan struct{}        // closed when the state changes
}

// Progress is how far the answers about a rack are.
type Progress struct {
	AsOf    string `json:"as_of" required:"true" format:"date" description:"day that the answers are for"`
	Running bool   `json:"running" required:"true" description:"answers are being worked out; entry goes on meanwhile"`
	Total   int    `json:"total" required:"true" description:"pieces of wood that are asked about"`
	Current int    `json:"current" required:"true" description:"of them with an answer to all that is kept, for that day"`
	Left    int    `json:"left_out,omitempty" description:"pieces of wood beyond those that are asked about"`
	Failed  string `json:"failed,omitempty" description:"why the work ended before it was done; it is taken up again with the next request"`
}

func (l *learner) begin() {
	l.context, l.stop = context.WithCancel(context.Background())
	l.changed, l.faults = make(chan struct{}), map[store.Key]string{}
}

// end stops what is being found out, and waits for it.
func (l *learner) end() {
	l.mu.Lock()
	l.stop() // from here on nothing is begun
	l.mu.Unlock()
	l.working.Wait()
}

// tell lets those who wait know how far it is.
func (l *learner) tell(change func(*Progress)) {
	l.mu.Lock()
	defer l.mu.Unlock()
	change(&l.state)
	close(l.changed)
	l.changed = make(chan struct{})
}

// progress is how far it is, and what is closed when that changes.
func (l *learner) progress() (Progress, <-chan struct{}) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.state, l.changed
}

// wake lets all that is not known be found out.
func (r *Rack) wake() {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.asking.Ask == nil || r.context.Err() != nil {
		return
	}
	if r.running {
		r.again = true
		return
	}
	r.running, r.state.Running, r.state.Failed = true, true, ""
	r.working.Add(1)
	go func() {
		defer r.working.Done()
		err := r.learnAll(r.context)
		for err == nil && r.onceMore() {
			err = r.learnAll(r.context)
		}
		r.tell(func(p *Progress) {
			r.running, r.again, p.Running = false, false, false
			switch {
			case r.context.Err() != nil:
			case err != nil:
				r.logged("the rack could not be looked at", "error", err)
				p.Failed = "the rack could not be read; it is tried again with the next request"
			case len(r.faults) > 0:
				p.Failed = wire.CountOf(len(r.faults), "piece") + " without an answer, by a fault of the service; it is tried again with the next request"
			}
		})
	}()
}

// onceMore reports whether something may have changed since the run began.
func (l *learner) onceMore() bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	again := l.again
	l.again = false
	return again
}

// learnAll finds out what is not known.
func (r *Rack) learnAll(ctx context.Context) error {
	all, left, err := r.standings(ctx)
	if err != nil {
		return err
	}
	var stale []*standing
	for i := range all {
		if !all[i].current {
			stale = append(stale, &all[i])
		}
	}
	r.tell(func(p *Progress) { p.AsOf, p.Total, p.Current, p.Left = r.today(), len(all), len(all)-len(stale), left })
	r.only(stale)
	work := make(chan *standing)
	var working sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		working.Go(func() {
			for s := range work {
				r.learnOne(ctx, s)
			}
		})
	}
	for _, s := range stale {
		work <- s
	}
	close(work)
	working.Wait()
	return ctx.Err()
}

// only forgets the faults of pieces that nothing is to be found out of any more.
func (l *learner) only(stale []*standing) {
	l.mu.Lock()
	defer l.mu.Unlock()
	maps.DeleteFunc(l.faults, func(key store.Key, _ string) bool {
		return !slices.ContainsFunc(stale, func(s *standing) bool { return s.record.Key == key })
	})
}

// learnOne finds out about one piece of wood. What goes wrong there, whatever it is, is logged and
// stays with that piece: the others are found out all the same.
func (r *Rack) learnOne(ctx context.Context, s *standing) {
	if ctx.Err() != nil {
		return // the rack is being closed
	}
	err := guarded(func() error { return r.learn(ctx, s) })
	if ctx.Err() != nil {
		return
	}
	if err != nil {
		r.logged("no answer about wood on the rack", "kind", s.record.Kind, "id", s.record.ID, "error", err)
	}
	r.tell(func(p *Progress) {
		if err != nil {
			r.faults[s.record.Key] = s.basis
			return
		}
		delete(r.faults, s.record.Key)
		p.Current++
	})
}

// faulty is what users are told of a fault: the rest is in the log.
const faulty = "a fault in the service left it without an answer; it was logged"

// guarded makes an error of a panic.
func guarded(do func() error) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("panic: %v\n%s", p, debug.Stack())
		}
	}()
	return do()
}

// logged writes down what users are not told.
func (l *learner) logged(text string, about ...any) {
	if l.asking.Log != nil {
		l.asking.Log.Error(text, about...)
	}
}

// finding is what is kept of an answer.
type finding struct {
	AsOf     string          `json:"as_of"`
	Readings []string        `json:"readings"`          // their ids, in the order of the request
	Answer   json.RawMessage `json:"answer,omitempty"`  // of readiness
	Refused  string          `json:"refused,omitempty"` // why there is none
}

// learn asks about one piece of wood and keeps the answer.
func (r *Rack) learn(ctx context.Context, s *standing) error {
	f := finding{AsOf: s.asOf, Readings: s.readings, Refused: s.unasked}
	if s.fault != nil {
		r.logged("wood on the rack cannot be asked about", "kind", s.record.Kind, "id", s.record.ID, "error", s.fault)
	}
	if f.Refused == "" {
		answer, err := r.asked(ctx, "/v1/readiness", s.body)
		var refused *wire.Refused
		switch {
		case errors.As(err, &refused):
			f.Refused = refused.Detail
		case err != nil:
			return err
		default:
			if f.Answer, err = leastOf(answer); err != nil {
				return err
			}
		}
	}
	text, err := json.Marshal(f)
	if err != nil {
		return err
	}
	learned := store.Learned{Key: s.record.Key, Basis: s.basis, Answer: text}
	s.knows(&learned)
	return r.store.Learn(ctx, &learned)
}

// leastOf is what of an answer is kept: what the overview reads.
func leastOf(answer []byte) ([]byte, error) {
	var j judged
	if err := json.Unmarshal(answer, &j); err != nil {
		return nil, err
	}
	return json.Marshal(&j)
}

// formOfFindings names the form of what is kept: one of another form is found out again.
const formOfFindings = "2"

// patience is between two tries where the service has no room.
const patience = 200 * time.Millisecond

// asked asks a calculation, as often as there is no room for it.
func (r *Rack) asked(ctx context.Context, path string, body []byte) ([]byte, error) {
	r.mu.Lock()
	ask := r.asking.Ask
	r.mu.Unlock()
	if ask == nil {
		return nil, errors.New("nothing is there to ask")
	}
	for {
		answer, err := ask(ctx, path, body)
		if !errors.Is(err, wire.ErrBusy) {
			return answer, err
		}
		select {
		case <-ctx.Done():
			return nil, ctx.Err()
		case <-time.After(patience):
		}
	}
}

// standing is a piece of wood with the question about it and what is known of the answer.
type standing struct {
	composed
	asOf    string // empty where the question has no day
	body    []byte
	unasked string // why it cannot be asked
	fault   error  // that is behind it, where the service is at fault
	basis   string
	current bool // found is the answer to the question
	found   *finding
	answer  judged // of it
	failed  bool   // no answer came, by a fault
}

// ends are the events after which a billet is no more.
var ends = []string{"resawn", "used"}

// ended reports wood that was sawn up or used.
func (v *view) ended(key store.Key) bool {
	for k, r := range v.owned[key] {
		if k.Kind == store.Event && slices.Contains(ends, r.Form) {
			return true
		}
	}
	return false
}

// mostStanding is how many pieces of wood an overview takes. Own choice.
const mostStanding = 2000

// standings are the billets and pieces that are there, with what is known of them, and how
// many there are beyond.
func (r *Rack) standings(ctx context.Context) (all []standing, left int, err error) {
	day, version := r.today(), r.version()
	err = r.seeing(ctx, func(v *view) error {
		for _, kind := range []store.Kind{store.Billet, store.Piece} {
			for _, record := range v.all(kind) {
				if len(all) == mostStanding {
					if !v.ended(record.Key) {
						left++
					}
					continue
				}
				if s, there := v.standing(record, day, version); there {
					all = append(all, s)
				}
			}
		}
		return nil
	})
	if err != nil {
		return nil, 0, err
	}
	known, err := r.store.Learned(ctx)
	if err != nil {
		return nil, 0, err
	}
	found := map[store.Key]*store.Learned{}
	for i := range known {
		found[known[i].Key] = &known[i]
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	for i := range all {
		s := &all[i]
		s.knows(found[s.record.Key])
		s.failed = !s.current && r.faults[s.record.Key] == s.basis
	}
	return all, left, nil
}

// standing is the question about one piece of wood; there is none about one that was sawn up
// or used. What cannot be asked about still is that piece, and what it weighed is known.
func (v *view) standing(record *store.Record, day, version string) (s standing, there bool) {
	if v.ended(record.Key) {
		return s, false
	}
	s.composed = composed{record: *record}
	err := guarded(func() error {
		events, err := v.of(store.Event, record.Key)
		if err != nil {
			return err
		}
		c, err := v.compose(record, events, day)
		if err == nil {
			s.body, err = c.overviewed(day)
		}
		s.composed = *c
		return err
	})
	var refused *wire.Refused
	switch {
	case errors.As(err, &refused):
		s.unasked = refused.Detail
	case err != nil:
		s.unasked, s.fault = faulty, err
	}
	if s.members["as_of"] != nil {
		s.asOf = textOf(s.members["as_of"])
	}
	s.basis = s.basisOf(version)
	return s, true
}

// version is that of what answers.
func (r *Rack) version() string {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.asking.Version
}

// basisOf is the digest of all that an answer rests on.
func (s *standing) basisOf(version string) string {
	sum := sha256.New()
	for _, part := range []string{formOfFindings, version, s.unasked} {
		_, _ = sum.Write([]byte(part + "\x00"))
	}
	_, _ = sum.Write(s.body)
	return hex.EncodeToString(sum.Sum(nil))
}

// knows takes what was found out before. What cannot be read any more is as if it was not.
func (s *standing) knows(l *store.Learned) {
	if l == nil {
		return
	}
	var f finding
	var answer judged
	if json.Unmarshal(l.Answer, &f) != nil || f.Refused == "" && json.Unmarshal(f.Answer, &answer) != nil {
		return
	}
	s.found, s.answer, s.current = &f, answer, l.Basis == s.basis
}
