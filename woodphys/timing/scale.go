package timing

import (
	"context"
	"math"

	"latewood/woodphys/drying"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// The drying time goes with thickness to a power between these: as published for sawn
// boards, rounded up, and pure diffusion (drying.thickness).
const (
	leastPower = 1.5
	mostPower  = 2
)

// halfwayFrom is how far above its rest the wood is taken to be at least when a piece is
// followed to half of the way, and forever how long.
const (
	halfwayFrom = 3 * quantity.PercentMC
	forever     = 100 * 365 * quantity.Day
)

// scale says how much faster a leaf settles.
func (w *work) scale(ctx context.Context, a *Answer) error {
	s := &a.Scale
	s.Thickness = float64(w.q.Billet.Thickness / a.SawNow.Cut.Leaf)
	whole, err := w.halfway(ctx, theBillet, w.q.Billet.Thickness)
	if err != nil {
		return err
	}
	leaf, err := w.halfway(ctx, theLeaf, a.SawNow.Cut.Leaf)
	if err != nil {
		return err
	}
	s.Computed = float64(whole / leaf)
	// The rules know neither the film of air at a thin leaf nor the other rule for thick
	// stock: what the model says is one of the answers that they bound.
	s.Low = min(math.Pow(s.Thickness, leastPower), s.Computed)
	s.High = max(math.Pow(s.Thickness, mostPower), s.Computed)
	return nil
}

// halfway is how long a piece takes to lose half of its distance to its rest in the room.
func (w *work) halfway(ctx context.Context, of body, thickness quantity.Length) (quantity.Duration, error) {
	room, err := drying.Constant(w.q.Room.Temperature, w.q.Room.RelativeHumidity)
	if err != nil {
		return 0, method.Renamed(err, [2]string{"temperature", "room/temperature"}, [2]string{"rh_pct", "room/rh_pct"})
	}
	start := max(w.now.Value, w.q.Rest.Moisture.Value+halfwayFrom)
	prior, err := w.prior(of, thickness, 0, starting(w.now.Value, w.sd))
	if err != nil {
		return 0, err
	}
	job, err := prior.Middle()
	if err != nil {
		return 0, ofStart(err)
	}
	job.Ends = nil // how the time goes with the thickness
	job.Initial, job.History, job.Setting = start, drying.NoHysteresis, drying.Standard()
	job.StopAt = (start + w.q.Rest.Moisture.Value) / 2
	job.Phases = []drying.Phase{{Length: forever, Climate: room, Exposure: drying.ClosedRoom()}}
	course, err := w.solver.Run(ctx, &job)
	if err != nil {
		return 0, method.Renamed(err, [2]string{"phases/0/", "room/"}, [2]string{"mc_pct", "mean_pct"})
	}
	return max(course.ReachedAt, quantity.Minute), nil
}
