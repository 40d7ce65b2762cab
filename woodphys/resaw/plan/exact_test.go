package plan_test

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/plan"
)

// exactInstance is one instance of testdata/planner/exact.json: a small request and its
// optimum over all cuts from edge to edge, by a program that tries them all.
type exactInstance struct {
	ID  int
	Saw struct {
		Resaw, Cross, Rip, Reface float64
		Far                       bool
	}
	Billet struct {
		Length, Width, Thickness, Trim0, Trim1 float64
		Zones                                  []struct {
			X0, X1, Y0, Y1 float64
			Z0, Z1         *float64
		}
		Pith *struct{ X, Z float64 }
	}
	Parts []struct {
		Length, Width, Thickness float64
		Pieces, Least            int
		Most                     *int
		Ringed                   bool
		Worth                    int64
	}
	Worth int64
	Short int
}

func (in *exactInstance) request() plan.Request {
	l := func(v float64) quantity.Length { return quantity.Length(v) * mm }
	opt := func(v *float64) *quantity.Length {
		if v == nil {
			return nil
		}
		x := l(*v)
		return &x
	}
	b := plan.Billet{Length: l(in.Billet.Length), Width: l(in.Billet.Width), Thickness: l(in.Billet.Thickness),
		TrimStart: l(in.Billet.Trim0), TrimEnd: l(in.Billet.Trim1)}
	for _, z := range in.Billet.Zones {
		b.Zones = append(b.Zones, plan.Zone{Kind: "knot", X0: l(z.X0), X1: l(z.X1), Y0: l(z.Y0), Y1: l(z.Y1), Z0: opt(z.Z0), Z1: opt(z.Z1)})
	}
	if p := in.Billet.Pith; p != nil {
		b.Pith = &resaw.Point{X: l(p.X), Z: l(p.Z)}
	}
	q := plan.Request{Billets: []plan.Billet{b}, Saws: []plan.Saw{{Resaw: l(in.Saw.Resaw), Crosscut: l(in.Saw.Cross), Rip: l(in.Saw.Rip),
		Reface: l(in.Saw.Reface), FarFaceFinished: in.Saw.Far}}}
	for _, p := range in.Parts {
		k := plan.PartKind{Length: l(p.Length), Width: l(p.Width), Final: l(p.Thickness), AsSawn: true, Pieces: p.Pieces,
			Match: plan.MatchSlip, Worth: p.Worth, Least: p.Least, Most: p.Most}
		if p.Ringed {
			k.LeastRingAngle = 45 * quantity.Degree
		}
		q.Parts = append(q.Parts, k)
	}
	return q
}

// What is called proven is the best of all ways to cut from edge to edge, and the rest is
// no more than 1 % below it in the mean.
func TestPlanAgainstEveryCutFromEdgeToEdge(t *testing.T) {
	data, err := os.ReadFile("../../../testdata/planner/exact.json")
	require.NoError(t, err)
	var all []exactInstance
	require.NoError(t, json.Unmarshal(data, &all))
	require.Len(t, all, 300)
	proven, rest, lost := 0, 0, 0.0
	for i := range all {
		in := &all[i]
		q := in.request()
		q.Work = 2_000_000
		p := makePlan(t, q)
		checkPlan(t, q, p)
		if p.Optimal {
			proven++
			assert.Equal(t, in.Short, missingSets(&p), "sets missing of %d", in.ID)
			assert.Equal(t, in.Worth, p.Worth, "worth of %d", in.ID)
			continue
		}
		rest++
		assert.GreaterOrEqual(t, missingSets(&p), in.Short, "sets missing of %d", in.ID)
		if missingSets(&p) == in.Short {
			assert.LessOrEqual(t, p.Worth, in.Worth, "worth of %d", in.ID)
			assert.GreaterOrEqual(t, p.Bound, in.Worth, "bound of %d", in.ID)
		}
		lost += float64(in.Worth-p.Worth) / float64(max(1, in.Worth))
	}
	t.Logf("%d proven, %d not, which lose %.2f %% in the mean", proven, rest, 100*lost/float64(max(1, rest)))
	assert.Greater(t, proven, 250)
	assert.LessOrEqual(t, lost, 0.01*float64(max(1, rest)))
}
