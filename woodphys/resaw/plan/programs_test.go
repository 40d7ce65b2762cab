package plan_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/plan"
)

// programInstance is one instance of testdata/planner/instances.json, in
// millimetres: a random small request and its optimum, found by CBC from an
// integer program that knows nothing of normal patterns. testdata/planner/make.py
// remakes the file.
type programInstance struct {
	ID  int
	Saw struct {
		Resaw, Cross, Rip, Reface float64
		Far                       bool
	}
	Billets []struct {
		Length, Width, Thickness, Face1 float64
		FarFace                         float64 `json:"far_face"`
		Trim0, Trim1                    float64
		WidthEnd                        *float64 `json:"width_end"`
		ThicknessEnd                    *float64 `json:"thickness_end"`
		ThicknessFarEdge                *float64 `json:"thickness_far_edge"`
		Cup, Bow, Twist                 float64
		Zones                           []struct {
			X0, X1, Y0, Y1 float64
			Z0, Z1         *float64
		}
		Pith      *struct{ X, Z float64 }
		RingAngle *float64 `json:"ring_angle"`
		Runout    *float64
	}
	Parts []struct {
		Length, Width, Thickness float64
		Pieces                   int
		Ringed                   bool
		Runout                   float64
		Worth                    int64
		Least                    int
		Most                     *int
	}
	Worth int64
	Short int
}

func (in *programInstance) request() plan.Request {
	l := func(v float64) quantity.Length { return quantity.Length(v) * mm }
	opt := func(v *float64) *quantity.Length {
		if v == nil {
			return nil
		}
		x := l(*v)
		return &x
	}
	q := plan.Request{Saws: []plan.Saw{{
		Resaw: l(in.Saw.Resaw), Crosscut: l(in.Saw.Cross), Rip: l(in.Saw.Rip), Reface: l(in.Saw.Reface), FarFaceFinished: in.Saw.Far,
	}}}
	for _, b := range in.Billets {
		out := plan.Billet{
			Length: l(b.Length), Width: l(b.Width), Thickness: l(b.Thickness), FacingFace1: l(b.Face1), FacingFar: l(b.FarFace),
			TrimStart: l(b.Trim0), TrimEnd: l(b.Trim1), Cup: l(b.Cup), Bow: l(b.Bow), Twist: l(b.Twist),
			WidthEnd: opt(b.WidthEnd), ThicknessEnd: opt(b.ThicknessEnd), ThicknessFarEdge: opt(b.ThicknessFarEdge), RunoutOneIn: b.Runout,
		}
		for _, z := range b.Zones {
			out.Zones = append(out.Zones, plan.Zone{Kind: "knot", X0: l(z.X0), X1: l(z.X1), Y0: l(z.Y0), Y1: l(z.Y1), Z0: opt(z.Z0), Z1: opt(z.Z1)})
		}
		if b.Pith != nil {
			out.Pith = &resaw.Point{X: l(b.Pith.X), Z: l(b.Pith.Z)}
		}
		if b.RingAngle != nil {
			a := quantity.Angle(*b.RingAngle) * quantity.Degree
			out.RingAngle = &a
		}
		q.Billets = append(q.Billets, out)
	}
	for _, p := range in.Parts {
		k := plan.PartKind{
			Length: l(p.Length), Width: l(p.Width), Final: l(p.Thickness), Pieces: p.Pieces, Match: plan.MatchSlip, // neighbours, as the programs have it

			Worth: p.Worth, Least: p.Least, Most: p.Most, MostRunoutOneIn: p.Runout,
		}
		if p.Ringed {
			k.LeastRingAngle = 45 * quantity.Degree
		}
		q.Parts = append(q.Parts, k)
	}
	return q
}

func programInstances(t testing.TB) []programInstance {
	t.Helper()
	path := os.Getenv("LATEWOOD_INSTANCES")
	if path == "" {
		path = "../../../testdata/planner/instances.json"
	}
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	var all []programInstance
	require.NoError(t, json.Unmarshal(data, &all))
	require.Len(t, all, 500)
	return all
}

// The staged search is exact for crosscuts, rips and trims in that order, which is what
// the programs know.
func TestStagedSearchAgainstIntegerPrograms(t *testing.T) {
	for _, in := range programInstances(t) {
		worth, short, done := plan.Staged(in.request())
		require.Equal(t, in.Short, short, "sets missing of %d", in.ID)
		require.Equal(t, in.Worth, worth, "worth of %d", in.ID)
		require.True(t, done, "proof of %d", in.ID)
	}
}

// The search over all cuts from edge to edge finds no less than the programs know of.
func TestPlanAgainstIntegerPrograms(t *testing.T) {
	all := programInstances(t)
	positive, short, limited, proven := 0, 0, 0, 0
	for i := range all {
		in := &all[i]
		t.Run(fmt.Sprint(in.ID), func(t *testing.T) {
			q := in.request()
			q.Work = 500_000
			p, err := plan.Make(context.Background(), q)
			require.NoError(t, err)
			checkPlan(t, q, p)
			missing := 0
			for _, n := range p.Short {
				missing += n
			}
			require.LessOrEqual(t, missing, in.Short, "sets missing")
			if missing < in.Short {
				return
			}
			require.GreaterOrEqual(t, p.Worth, in.Worth, "more ways to cut are worth no less")
			if p.Optimal {
				proven++
			}
			for _, part := range q.Parts {
				if part.Most != nil || part.Least > 0 {
					limited++
					break
				}
			}
			if in.Worth > 0 {
				positive++
			}
			if in.Short > 0 {
				short++
			}
		})
	}
	t.Logf("%d with something to cut, %d with limits on counts, %d that miss a least count", positive, limited, short)
	require.Greater(t, proven, 300)
	require.Greater(t, positive, 300)
	require.Greater(t, limited, 150)
}
