package readiness

import (
	"context"
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/quantity"
)

// point is a value of the parameters that enter the forecast nonlinearly, in
// the order of the constants below; of each stay then, in standard deviations, by how
// much its air and its pace differ from what is told.
type point [maxDims]float64

const (
	iEMC    = iota // logarithm of the EMC scale over the wood's EMCFactor
	iFactor        // logarithm of the drying factor
	iStart         // moisture content on the day of stacking
	iPace          // logarithm of the wet-stage pace in a wide pile
	iStays         // of the first stay: air, pace; then of the next

	mostStays = 3 // with errors of their own; the earlier ones share theirs
	maxDims   = iStays + 2*mostStays
)

// stays is how many stays have errors of their own.
func (s *Setup) stays() int { return min(len(s.Phases), mostStays) }

// dims is how many parameters count.
func (s *Setup) dims() int { return iStays + 2*s.stays() }

// stayOf is which of them a phase belongs to.
func (s *Setup) stayOf(phase int) int { return max(0, phase-(len(s.Phases)-s.stays())) }

// forward computes the course of the moisture content for given parameters. The
// slices of the result hold until the next run.
type forward interface {
	run(ctx context.Context, x point, times []quantity.Duration, depths []float64) (drying.Course, error)
}

// slab is the forecast of the drying chapter.
type slab struct {
	solver drying.Solver
	setup  *Setup
	phases []drying.Phase
	from   drying.History // of the start in hand
	// transports of EMC scales met; the ensemble uses few of them, see lattice
	transports map[float64]*drying.Transport
}

func newSlab(s *Setup) *slab {
	return &slab{setup: s, from: s.History, solver: drying.Solver{Work: s.Work}, transports: make(map[float64]*drying.Transport)}
}

// mostTransports are kept, 19 kB each.
const mostTransports = 100

func (f *slab) transport(emc float64) (*drying.Transport, error) {
	if tr := f.transports[emc]; tr != nil {
		return tr, nil
	}
	w := f.setup.Wood
	w.EMCFactor *= math.Exp(emc)
	tr, err := drying.NewTransport(w)
	if err != nil {
		return nil, err
	}
	if len(f.transports) >= mostTransports {
		clear(f.transports)
	}
	f.transports[emc] = tr
	return tr, nil
}

func (f *slab) run(ctx context.Context, x point, times []quantity.Duration, depths []float64) (drying.Course, error) {
	tr, err := f.transport(x[iEMC])
	if err != nil {
		return drying.Course{}, err
	}
	end := quantity.Duration(0)
	if len(times) > 0 {
		end = times[len(times)-1]
	}
	return f.solver.Run(ctx, &drying.Job{
		Transport: tr, Thickness: f.setup.Thickness, Factor: math.Exp(x[iFactor]), Pace: math.Exp(x[iPace]), Initial: quantity.Moisture(x[iStart]),
		History: f.from, Ends: f.setup.Ends, Phases: f.until(&x, end), Times: times, Depths: depths, Setting: drying.Coarse(),
	})
}

// until returns the phases up to end, as they differ from what is told.
func (f *slab) until(x *point, end quantity.Duration) []drying.Phase {
	f.phases = f.phases[:0]
	_, own := f.setup.factorShares()
	start := quantity.Duration(0)
	for i, p := range f.setup.Phases {
		if start >= end && len(f.phases) > 0 {
			break
		}
		start += p.Length
		if start > end {
			p.Length -= start - end
			start = end
		}
		k := iStays + 2*f.setup.stayOf(i)
		p.Damper = min(max(f.setup.airOf(i)*x[k], -0.45), 0.45)
		p.FactorShift = min(max(own*f.setup.FactorLogSD*x[k+1], -4), 4)
		p.PaceShift = min(max(stayPace*f.setup.PaceLogSD*x[k+1], -4), 4)
		f.phases = append(f.phases, p)
	}
	return f.phases
}

// inside reports whether the parameters are ones a run accepts.
func (s *Setup) inside(x point) bool {
	factor, scale := math.Exp(x[iFactor]), s.Wood.EMCFactor*math.Exp(x[iEMC])
	pace := math.Exp(x[iPace])
	return pace >= lowestFactor && pace <= highestFactor && factor >= lowestFactor && factor <= highestFactor && scale >= lowestEMC && scale <= highestEMC &&
		x[iStart] >= lowestStart && x[iStart] <= highestStart
}

// hold moves the parameters inside.
func (s *Setup) hold(x point) point {
	const in = 1e-9
	x[iFactor] = min(max(x[iFactor], math.Log(lowestFactor)+in), math.Log(highestFactor)-in)
	x[iPace] = min(max(x[iPace], math.Log(lowestFactor)+in), math.Log(highestFactor)-in)
	x[iEMC] = min(max(x[iEMC], math.Log(lowestEMC/s.Wood.EMCFactor)+in), math.Log(highestEMC/s.Wood.EMCFactor)-in)
	x[iStart] = min(max(x[iStart], lowestStart), highestStart)
	return x
}

// airOf is how far the relative humidity of the air of a phase lies from what is told.
func (s *Setup) airOf(phase int) float64 {
	if c := s.Phases[phase].Climate; s.airTold || c == nil || !c.Steady() {
		return s.AirSD
	}
	return DefaultRoomSD
}
