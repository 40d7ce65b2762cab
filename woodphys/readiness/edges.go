package readiness

import (
	"context"
	"math"
)

// edges runs the thin and the thick places of a wedge with the parameters of every member
// that counts. A reading is of the whole, so that they change no weight.
func (p *Posterior) edges(ctx context.Context) error {
	at := p.setup.Edges
	if at == nil {
		return nil
	}
	e := p.e
	thin, thick := p.beside(&at.Thin), p.beside(&at.Thick)
	n := len(e.times)
	flat := make([]float32, 3*p.setup.Members*n)
	part := func() []float32 {
		cut := flat[:n:n]
		flat = flat[n:]
		return cut
	}
	e.thin, e.thick, e.steep = make([][]float32, p.setup.Members), make([][]float32, p.setup.Members), make([][]float32, p.setup.Members)
	for m, w := range e.weight {
		e.thin[m], e.thick[m], e.steep[m] = part(), part(), part()
		if w < leastWeight/float64(p.setup.Members) {
			continue
		}
		if err := thin.off(ctx, p, m, e.thin[m], nil); err != nil {
			return err
		}
		if err := thick.off(ctx, p, m, e.thick[m], e.steep[m]); err != nil {
			return err
		}
	}
	return nil
}

// leastWeight is the weight, as a share of an even one, below which a member is not run at
// the edges: all such together weigh less than that share.
const leastWeight = 0.02

// besideSlab is the forecast of a place of another thickness.
type besideSlab struct {
	*slab
	setup  Setup
	faster float64 // logarithm
}

func (p *Posterior) beside(at *Edge) *besideSlab {
	b := &besideSlab{setup: p.setup, faster: math.Log(at.Faster)}
	b.setup.Thickness = at.Thickness
	b.slab = newSlab(&b.setup)
	return b
}

// off fills by how much the place lies off the mean of member m, and, where asked, by how
// much its core minus shell is more.
func (b *besideSlab) off(ctx context.Context, p *Posterior, m int, mean, steep []float32) error {
	e, x := p.e, p.e.x[m]
	x[iFactor] += b.faster
	b.from = p.f.starts[p.parts[e.part[m]].start].History
	c, err := b.run(ctx, p.setup.hold(x), e.times, nil)
	if err != nil {
		return err
	}
	p.f.runs++
	for i := range mean {
		mean[i] = float32(c.Mean[i]) - e.mean[m][i]
		if steep != nil {
			steep[i] = float32(c.Core[i]-c.Shell[i]) - (e.core[m][i] - e.shell[m][i])
		}
	}
	return nil
}

// spread is by how much the driest and the wettest place of member m lie off its mean: 0
// for a board.
func (g *gauge) spread(e *ensemble, m int) (driest, wettest float64) {
	if e.thin == nil {
		return 0, 0
	}
	thin, thick := g.here.of(e.thin[m]), g.here.of(e.thick[m])
	return min(0, thin, thick), max(0, thin, thick)
}

// steep is by how much core minus shell of member m is more where the piece is thickest.
func (g *gauge) steep(e *ensemble, m int) float64 {
	if e.steep == nil {
		return 0
	}
	return g.here.of(e.steep[m])
}
