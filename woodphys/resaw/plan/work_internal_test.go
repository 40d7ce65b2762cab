package plan

import (
	"context"
	"fmt"
	"math/rand/v2"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// dearRequest is one whose search takes much: many zones, and kinds of odd sizes.
func dearRequest(r *rand.Rand, zones, kinds int) Request {
	size := func(low, high float64) quantity.Length {
		return quantity.Length(int(1000*(low+(high-low)*r.Float64()))) * quantity.Millimetre / 1000
	}
	b := Billet{Length: size(1500, 2500), Width: size(200, 450), Thickness: size(40, 80)}
	for range zones {
		x, y := size(0, 1400), size(0, 180)
		b.Zones = append(b.Zones, Zone{Kind: "knot", X0: x, X1: x + size(2, 25), Y0: y, Y1: y + size(2, 18)})
	}
	q := Request{Billets: []Billet{b}, Saws: []Saw{{Resaw: size(1, 2), Crosscut: size(2, 3), Rip: size(2, 3)}}}
	for k := range kinds {
		q.Parts = append(q.Parts, PartKind{Name: fmt.Sprint(k), Length: size(150, 600), Width: size(40, 150),
			Final: size(3, 12), Pieces: 1 + r.IntN(3), Match: MatchNone, Worth: int64(10 + r.IntN(2000))})
	}
	return q
}

// However little memory a search is given, its plan is no better than its bound and than
// that of a search with all memory, and its bound is no lower than what can be had.
func TestMemoryEndsASearchHonestly(t *testing.T) {
	r := rand.New(rand.NewPCG(91, 92))
	short, found := 0, 0
	for range 25 {
		q := dearRequest(r, 1+r.IntN(6), 1+r.IntN(5))
		for i := range q.Parts {
			if r.IntN(3) == 0 {
				most := r.IntN(6)
				q.Parts[i].Most = &most
			}
		}
		q.Work = 3_000_000
		full, err := Make(t.Context(), q)
		require.NoError(t, err)
		for _, room := range []int64{1, 10_000, 100_000, 1_000_000, 10_000_000} {
			q.Memory = room
			p, err := Make(t.Context(), q)
			require.NoError(t, err)
			assert.LessOrEqual(t, p.Worth, p.Bound)
			assert.GreaterOrEqual(t, p.Bound, full.Worth)
			if full.Optimal {
				assert.LessOrEqual(t, p.Worth, full.Worth)
			}
			if p.Optimal {
				assert.GreaterOrEqual(t, p.Worth, full.Worth)
			} else if short++; p.Worth > 0 {
				found++
			}
		}
	}
	assert.Greater(t, short, 20, "some searches are ended")
	assert.Greater(t, found, 10, "and find something all the same")
}

// What is reckoned of a board and the lists made on it is no less than what they hold,
// and not so much more that it would be of no use.
func TestMemoryIsReckonedAsItIs(t *testing.T) {
	r := rand.New(rand.NewPCG(93, 94))
	held := func() int64 {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return int64(m.HeapAlloc)
	}
	for range 6 {
		q := dearRequest(r, 12, 4)
		for i := range q.Parts {
			most := 4
			q.Parts[i].Most = &most
		}
		rig := newRig(&q.Saws[0], q.Parts)
		w := newOffer(&q.Billets[0], &rig.cost, false)
		rig.deepest = w.deepest()
		spent := &work{ctx: context.Background(), most: 30_000_000}
		value := make([]int64, len(q.Parts))
		for p := range q.Parts {
			value[p] = q.Parts[p].Worth * unitOfWorth
		}
		before := held()
		b, err := newBoard(w, rig, rig.suited(w), spent)
		require.NoError(t, err)
		rig.stamp++
		if _, err = b.price(value, 1); err != nil {
			require.ErrorIs(t, err, errBudget)
		}
		lim := newLimits(rig.kinds)
		l := newLister(b, &lim, value, value, 3*unitOfWorth)
		all, err := l.all()
		if err != nil {
			require.ErrorIs(t, err, errBudget)
		}
		is, reckoned := held()-before, spent.held.boards+spent.held.lists
		t.Logf("%.1f MiB held, %.1f reckoned", float64(is)/(1<<20), float64(reckoned)/(1<<20))
		assert.GreaterOrEqual(t, reckoned, is*9/10)
		assert.LessOrEqual(t, reckoned, 6*is+1<<20)
		runtime.KeepAlive(b)
		runtime.KeepAlive(all)
	}
}

// A context that ended because the work took its time ends the search as its steps do;
// one that ended because nobody waits stops it.
func TestTimeEndsASearchHonestly(t *testing.T) {
	q := dearRequest(rand.New(rand.NewPCG(95, 96)), 20, 6)
	q.Work = 20_000_000
	ended := &counting{Context: t.Context(), left: 3}
	p, err := Make(ended, q)
	require.NoError(t, err)
	assert.False(t, p.Optimal)
	assert.Less(t, p.Work, q.Work/10, "it was ended")
	assert.InDelta(t, 1, p.Used, 0, "all of the time")
	assert.Greater(t, p.Bound, p.Worth)
	told, err := Tell(&counting{Context: t.Context(), left: 3}, Question{Request: q})
	require.NoError(t, err)
	assert.True(t, told.Ended)

	ctx, cancel := context.WithCancelCause(t.Context())
	cancel(method.ErrUsedUp)
	_, err = Make(ctx, q)
	require.NoError(t, err, "its cause is known")
	ctx, stop := context.WithCancel(t.Context())
	stop()
	_, err = Make(ctx, q)
	var domain *method.Error
	require.ErrorAs(t, err, &domain)
	assert.Equal(t, method.Stopped, domain.Code)
}

// counting is a context that ends, for the reason that the work took its time, when it
// was looked at so often.
type counting struct {
	context.Context
	left int
	over context.Context
}

func (c *counting) Err() error {
	if c.left--; c.left >= 0 {
		return nil
	}
	if c.over == nil {
		ctx, cancel := context.WithCancelCause(context.Background())
		cancel(method.ErrUsedUp)
		c.over = ctx
	}
	return c.over.Err()
}

func (c *counting) Value(key any) any {
	if c.over != nil {
		return c.over.Value(key)
	}
	return c.Context.Value(key)
}
