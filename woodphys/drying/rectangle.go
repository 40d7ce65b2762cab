package drying

import (
	"context"
	"math"
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// rectangleCells is the number of intervals over half the thickness and half the
// width, 24 nodes each.
const rectangleCells = 23

// rectangleTolerance is the error of a step allowed here over the tolerance of
// the setting: the estimate is of first order and far above the true error.
const rectangleTolerance = 20

// RectangleJob is a run of a square or narrow billet, which dries through its
// thickness and its width; the ends are left out.
type RectangleJob struct {
	Job                       // Thickness, factor, phases and what is wanted; Cells and Profile are not used
	Width     quantity.Length // green, 0.5 to 600 mm
	RingAngle quantity.Angle  // of the ring tangent to the wide face, -360 to 360 degrees; 0 flatsawn
}

// RectangleCourse is the answer of a run of a billet.
type RectangleCourse struct {
	Times     []quantity.Duration
	Mean      []quantity.Moisture // over the section
	Core      []quantity.Moisture // in the middle of the section
	Face      []quantity.Moisture // in the middle of the wide face
	Edge      []quantity.Moisture // in the middle of the narrow face
	Arris     []quantity.Moisture // at the edge line where the faces meet
	Final     quantity.Moisture
	Reached   bool
	ReachedAt quantity.Duration
	Lost      quantity.Moisture // what passed the faces, as a change of the mean
	Imbalance float64           // as in Course
	Steps     int
	Rejected  int
	Notes     method.Notes
}

// Rectangle runs jobs in two dimensions and keeps its workspace. The zero value
// is ready. Not for two goroutines at a time.
//
// The sorption curve is the middle one; the hysteresis of Solver is left out.
//
// Method: finite volumes on 24 by 24 nodes of a quarter of the section, crowded
// towards the faces, with Kirchhoff's potential; ROS2 of second order with the
// step matrix split into the two directions (Verwer, Spee, Blom and Hundsdorfer
// 1999), which keeps second order and the balance for any split.
type Rectangle struct {
	Work *Work // as in Solver

	line    Solver // tables and surface law
	grid    *grid
	volume  []float64 // of the nodes along one direction; sum 1
	scale   [2]float64
	film    [2]float64
	job     *RectangleJob
	n       int
	y, phi  []float64
	k1, k2  []float64
	trial   []float64
	d       []float64
	dq      [2][]float64 // slope of the flux at the face nodes
	low, up []float64    // factors of the step matrices, both directions
	inv     []float64
	h, lost float64
	out     float64 // what leaves in the step in hand
	course  RectangleCourse
}

var rowRectangle = method.Method{
	ID: "drying.rectangle", Chapter: "drying",
	Summary:  "Moisture in the section of a square or narrow billet under a climate",
	Equation: "dM/dt = d/dx(w^S k D_x dM/dx) + d/dy(w^S k D_y dM/dy), w^S as drying.slab has it; D_R = 1.2 D_T; D_x = D_T (1.2 cos^2 a + sin^2 a), D_y = D_T (1.2 sin^2 a + cos^2 a)",
	Inputs: []method.Input{
		{Name: "width", Unit: "mm", Fitted: method.Range{Low: 10, High: 300}, Limit: method.Range{Low: 0.5, High: 600}},
		{Name: "ring_angle_deg", Unit: "deg", Fitted: method.Range{Low: 0, High: 90}, Limit: method.Range{Low: -360, High: 360}},
	},
	Accuracy: "the numbers: 0.1 %MC of the mean; hysteresis left out, up to 1 %MC; the skew term of the diffusion tensor between 0 and 90 degrees (at most a tenth of D_T) is left out",
	Source:   siauSource + "; Verwer, Spee, Blom and Hundsdorfer 1999, SIAM J. Sci. Comput. 20, 1456-1480 for the time scheme", Checked: method.Memory,
}

// Run computes one job.
//
// Errors: as Solver.Run; input "width" or "ring_angle_deg".
// Accuracy: 0.1 %MC of the mean in the numbers at Standard.
//
// Source: row drying.rectangle.
func (r *Rectangle) Run(ctx context.Context, job *RectangleJob) (RectangleCourse, error) {
	inner := job.Job
	if inner.Setting == (Setting{}) {
		inner.Setting = Standard()
	}
	inner.Cells, inner.Profile = rectangleCells, nil
	notes := method.Notes{}
	if err := inner.check(&notes); err != nil {
		return RectangleCourse{}, err
	}
	notes.Basis = slices.DeleteFunc(notes.Basis, func(id string) bool { return id == rowHysteresis.ID })
	if err := notes.Use(&rowRectangle, "width", job.Width.Millimetres()); err != nil {
		return RectangleCourse{}, err
	}
	if err := notes.Use(&rowRectangle, "ring_angle_deg", job.RingAngle.Degrees()); err != nil {
		return RectangleCourse{}, err
	}
	if inner.History != NoHysteresis {
		notes.Warn(method.Warning{Code: method.Assumption, Method: rowRectangle.ID, Input: "history",
			Detail: "the section of a billet is computed on the middle sorption curve; stock dried from green may rest up to 1 %MC higher"})
	}
	r.prepare(job, &inner)
	r.course.Notes = notes
	start := r.mean(r.y)
	if err := r.phases(ctx, &inner); err != nil {
		return RectangleCourse{}, err
	}
	c := &r.course
	end := r.mean(r.y)
	c.Final, c.Lost = quantity.Moisture(end), quantity.Moisture(r.lost)
	c.Imbalance = math.Abs(start-end-r.lost) / math.Max(math.Abs(r.lost), 0.01)
	c.Times = inner.Times[:len(c.Mean)]
	return *c, nil
}

func (r *Rectangle) prepare(job *RectangleJob, inner *Job) {
	if r.grid == nil {
		r.grid = newGrid(rectangleCells, spacingRatio)
		n := rectangleCells + 1
		r.n = n
		r.volume = make([]float64, n)
		for i := range n {
			if i > 0 {
				r.volume[i] += (r.grid.x[i] - r.grid.x[i-1]) / 2
			}
			if i < n-1 {
				r.volume[i] += (r.grid.x[i+1] - r.grid.x[i]) / 2
			}
		}
		for _, v := range []*[]float64{&r.y, &r.phi, &r.k1, &r.k2, &r.trial, &r.d} {
			*v = make([]float64, n*n)
		}
		for _, v := range []*[]float64{&r.low, &r.up, &r.inv} {
			*v = make([]float64, 2*n*n)
		}
		for axis := range 2 {
			r.dq[axis] = make([]float64, n)
		}
	}
	s := &r.line
	if s.now == nil {
		s.now, s.next, s.aux = new(moment), new(moment), new(moment)
	}
	// The potential is scaled per direction, so the surface law works per metre.
	s.tables, s.half, s.factor, s.pace = inner.Transport, 1, inner.Factor, inner.pace()
	s.density = waterDensity * inner.Transport.wood.gravity
	s.history, s.fresh, s.exchange = NoHysteresis, 0, drying
	sin2 := job.RingAngle.Sin() * job.RingAngle.Sin()
	middle := (RadialFactor + 1) / 2 // the factor is for the mean of the two directions
	half := [2]float64{float64(inner.Thickness) / 2, float64(job.Width) / 2}
	along := [2]float64{(RadialFactor*(1-sin2) + sin2) / middle, (RadialFactor*sin2 + 1 - sin2) / middle}
	for axis := range 2 {
		r.scale[axis] = along[axis] / (half[axis] * half[axis])
		r.film[axis] = 1 / half[axis]
	}
	for i := range r.y {
		r.y[i] = float64(inner.Initial)
	}
	r.job, r.lost, r.h = job, 0, firstStep
	r.course = RectangleCourse{}
}

func (r *Rectangle) mean(y []float64) float64 {
	sum := 0.0
	for i, a := range r.volume {
		sum += a * dot(r.volume, y[i*r.n:(i+1)*r.n])
	}
	return sum
}

func (r *Rectangle) phases(ctx context.Context, job *Job) error {
	budget := job.MaxSteps
	if budget == 0 {
		budget = UsualMaxSteps
	}
	s, c := &r.line, &r.course
	tolerance, t, end := rectangleTolerance*float64(job.Tolerance), 0.0, 0.0
	for p := range job.Phases {
		phase := &job.Phases[p]
		end += float64(phase.Length)
		s.stay(phase)
		temp, _, rh, _ := phase.Climate.at(t, &s.cursor)
		s.fill(s.now, temp, rh, r.y[0])
		if p == 0 {
			r.emit(job, 0, 0)
		}
		r.h = min(max(r.h, firstStep), 6*3600)
		for t < end && !c.Reached {
			if c.Steps+c.Rejected >= budget {
				return tooMuch("the simulation needs", budget)
			}
			if err := r.Work.step(); err != nil {
				return err
			}
			if (c.Steps+c.Rejected)%16 == 0 && ctx.Err() != nil {
				return &method.Error{Code: method.Stopped, Input: "phases", Detail: "the forecast was stopped before it was done"}
			}
			h := min(r.h, phase.Climate.maxStep)
			if left := end - t; h > left*(1-1e-9) {
				h = left
			} else if h > left/2 {
				h = left / 2
			}
			err := r.attempt(phase.Climate, t, h) / tolerance
			if !(err <= 1) {
				c.Rejected++
				if math.IsNaN(err) {
					err = 1e9
				}
				r.h = h * max(0.1, 0.85*math.Pow(err, -0.5))
				if r.h < minStep {
					return &method.Error{Code: method.Unsupported, Input: "phases", Detail: "the time steps became too small; the input is outside what can be computed"}
				}
				continue
			}
			r.accept(job, t, h)
			t += h
			if end-t < 1e-6 {
				t = end
			}
			r.h = max(h*min(3, 0.85*math.Pow(max(err, 1e-6), -0.5)), minStep)
		}
		if c.Reached {
			break
		}
	}
	return nil
}

// face returns the node j of the wide face (axis 0) or the narrow face (axis 1).
func (r *Rectangle) face(axis, j int) int {
	if axis == 0 {
		return (r.n-1)*r.n + j
	}
	return j*r.n + r.n - 1
}

func (r *Rectangle) accept(job *Job, t, h float64) {
	c := &r.course
	if target := float64(job.StopAt); target > 0 {
		a, b := r.mean(r.y), r.mean(r.trial)
		if a <= target {
			c.Reached, c.ReachedAt = true, quantity.Duration(t)
		} else if b <= target {
			c.Reached, c.ReachedAt = true, quantity.Duration(t+h*(a-target)/(a-b))
		}
	}
	r.emit(job, t, h)
	r.y, r.trial = r.trial, r.y
	r.lost += r.out
	r.line.now, r.line.next = r.line.next, r.line.now
	c.Steps++
}

// emit gives out the wanted times from t to t+h, in a straight line within the step.
func (r *Rectangle) emit(job *Job, t, h float64) {
	c := &r.course
	n, last := r.n, r.n-1
	for len(c.Mean) < len(job.Times) {
		at := float64(job.Times[len(c.Mean)])
		if at > t+h*(1+1e-12) || c.Reached && at > float64(c.ReachedAt) {
			return
		}
		u := 0.0
		if h > 0 {
			u = min((at-t)/h, 1)
		}
		blend := func(a, b float64) quantity.Moisture { return quantity.Moisture(a + u*(b-a)) }
		trial := r.trial
		if h == 0 {
			trial = r.y
		}
		c.Mean = append(c.Mean, blend(r.mean(r.y), r.mean(trial)))
		c.Core = append(c.Core, blend(r.y[0], trial[0]))
		c.Face = append(c.Face, blend(r.y[last*n], trial[last*n]))
		c.Edge = append(c.Edge, blend(r.y[last], trial[last]))
		c.Arris = append(c.Arris, blend(r.y[n*n-1], trial[n*n-1]))
	}
}
