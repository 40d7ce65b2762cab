package drying

import (
	"context"
	"math"
	"strconv"

	"latewood/woodphys/air"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// StackLayer is one of several layers of wood that are glued face to face.
type StackLayer struct {
	Transport *Transport
	Thickness quantity.Length // 0.05 to 600 mm
	Factor    float64         // drying factor k with the ring angle in it, 0.005 to 20
}

// StackSetting is what lies on and between the layers of a stack.
type StackSetting struct {
	Faces [2]Exposure // on the first and on the last layer
	Glue  float64     // resistance of each glue line to vapour, s/m, 0 to 1e9
	Finer int         // times as many cells as usual, 1 to 8; 0 means 1
}

// MaxStackLayers is the largest number of layers of a stack.
const MaxStackLayers = 32

// Cells through a layer: cellsThrough for the whole stack, shared by thickness, and at
// least fewestCells for each layer. Chosen by the error over a year: see
// TestStackOfTwiceTheCells.
const (
	cellsThrough = 32
	fewestCells  = 5
	// stackStep is the longest time step in seconds.
	stackStep = day
	// stackCellsPerStep cells count as a time step of a board, whose grid has about as many.
	stackCellsPerStep = 16
)

// Stack is glued layers through whose faces moisture comes and goes, with the moisture
// content of each of its cells. Make it with NewStack. Not for two goroutines at a time.
//
// Within a layer moisture flows down the potential of its own wood, as in a board
// (package comment). Across a glue line it flows down the humidity in balance with the
// wood, which is the same on both sides of a line without resistance: moisture content
// jumps there from wood to wood. The balance of each cell is exact, so that what leaves
// one layer enters the next.
type Stack struct {
	Work *Work // counts and bounds the steps of all runs; may be nil

	layers  []StackLayer
	faces   [2]float64 // films with their coats, m/s
	glue    float64
	of      []int     // layer of each cell
	first   []int     // first cell of each layer, and the number of cells
	width   []float64 // of the cells of each layer, m
	density []float64 // of each layer, kg/m3, ovendry mass over green volume
	m       []float64 // moisture content of each cell
	now     stackMoment
	scheme  stackScheme
	cursor  int
}

// StackCourse is the moisture of the layers of a stack at the times asked for.
type StackCourse struct {
	Mean [][]quantity.Moisture // by layer, then by time
	// Tilt is the moisture content at the layer's further face less that at its face
	// towards the first layer, of the straight line with the same mean and first moment.
	Tilt  [][]quantity.Moisture
	Notes method.Notes
}

// NewStack returns a stack of 1 to 32 layers at no moisture content yet; Rest and Start set
// it.
//
// Errors: *method.Error with input "layers", "layers/<n>/wood", "layers/<n>/thickness",
// "layers/<n>/drying_factor", "film_coefficient", "coat_resistance", "glue_resistance".
// Accuracy: as Stack.Run.
//
// Source: row drying.stack.
func NewStack(layers []StackLayer, set StackSetting, notes *method.Notes) (*Stack, error) {
	if err := notes.Use(&rowStack, "layers", float64(len(layers))); err != nil {
		return nil, err
	}
	if err := notes.Use(&rowStack, "glue_resistance", set.Glue); err != nil {
		return nil, err
	}
	s := &Stack{layers: layers, glue: set.Glue}
	for i := range set.Faces {
		if err := set.Faces[i].check(notes); err != nil {
			return nil, err
		}
		s.faces[i] = set.Faces[i].film()
	}
	whole := quantity.Length(0)
	for i := range layers {
		l := &layers[i]
		var own method.Notes
		err := l.check(&own)
		notes.MergeFor("layers/"+strconv.Itoa(i), "", own)
		if err != nil {
			return nil, method.Below(err, "layers/"+strconv.Itoa(i))
		}
		whole += l.Thickness
	}
	for i := range layers {
		s.cut(i, whole, max(set.Finer, 1))
	}
	s.first = append(s.first, len(s.of))
	s.m = make([]float64, len(s.of))
	s.now.sized(len(layers))
	s.scheme.sized(len(s.of))
	return s, nil
}

func (l *StackLayer) check(notes *method.Notes) error {
	if l.Transport == nil {
		return &method.Error{Code: method.Missing, Input: "wood", Detail: "the wood is missing"}
	}
	notes.Merge(l.Transport.notes)
	if err := notes.Use(&rowStack, "thickness", l.Thickness.Millimetres()); err != nil {
		return err
	}
	return notes.Use(&rowStack, "drying_factor", l.Factor)
}

// cut divides a layer into cells.
func (s *Stack) cut(i int, whole quantity.Length, finer int) {
	l := &s.layers[i]
	n := finer * max(fewestCells, int(math.Ceil(cellsThrough*float64(l.Thickness/whole))))
	s.first = append(s.first, len(s.of))
	for range n {
		s.of = append(s.of, i)
	}
	s.width = append(s.width, float64(l.Thickness)/float64(n))
	s.density = append(s.density, waterDensity*l.Transport.wood.gravity)
}

// Rest sets every layer to where its wood comes to rest in air of t (-40 to 80 degC) and rh
// (fraction 0 to 1).
//
// Accuracy: as sorption.Curves.At.
//
// Source: the isotherms of the layers.
func (s *Stack) Rest(t quantity.Temperature, rh float64) {
	for k, i := range s.of {
		s.m[k] = float64(s.layers[i].Transport.Isotherm(t).Surface(rh))
	}
}

// Start sets the moisture content of every cell, as Cells returned it.
//
// Accuracy: exact.
//
// Source: the moisture contents that are given.
func (s *Stack) Start(cells []float64) { copy(s.m, cells) }

// Cells returns a copy of the moisture contents of all cells, from the first layer on, as
// fractions.
//
// Accuracy: as Run.
//
// Source: row drying.stack.
func (s *Stack) Cells() []float64 { return append([]float64{}, s.m...) }

// Masses returns the ovendry mass of each layer per area of the stack, in kg/m2.
//
// Accuracy: that of the specific gravity.
//
// Source: specific gravity times thickness.
func (s *Stack) Masses() []float64 {
	masses := make([]float64, len(s.layers))
	for i := range masses {
		masses[i] = s.density[i] * float64(s.layers[i].Thickness)
	}
	return masses
}

// Run takes the stack through a stay in a climate and returns its layers at the times, which
// rise from 0 to the length of the stay. The stack keeps what moisture it has at the end.
//
// Errors: *method.Error with code TooMuchWork (input "max_steps") when the budget of s.Work
// is used up; code Stopped when ctx ends; Unsupported for a stack that cannot be computed.
// Accuracy: of the numbers, the mean of a layer 0.02 %MC against a grid of four times the
// cells and against the slab of Solver; of the model, as the slab: the drying factor.
//
// Source: row drying.stack.
func (s *Stack) Run(ctx context.Context, climate *Climate, times []quantity.Duration) (StackCourse, error) {
	out := StackCourse{Mean: make([][]quantity.Moisture, len(s.layers)), Tilt: make([][]quantity.Moisture, len(s.layers))}
	out.Notes.Rest(&rowStack)
	out.Notes.Rest(&rowFrost)
	out.Notes.Merge(climate.notes)
	longest, t := min(stackStep, climate.maxStep), 0.0
	s.cursor = 0
	for _, until := range times {
		left := float64(until) - t
		n := int(math.Ceil(left/longest - 1e-9))
		for k := range n {
			if err := s.mayGoOn(ctx); err != nil {
				return StackCourse{}, err
			}
			at := t + left*float64(k)/float64(n)
			if !s.advance(climate, at, left/float64(n), 0) {
				return StackCourse{}, &method.Error{Code: method.Unsupported, Input: "layers",
					Detail: "the moisture of these layers cannot be computed; check their thicknesses and drying factors"}
			}
		}
		t = float64(until)
		s.emit(&out)
	}
	return out, nil
}

func (s *Stack) mayGoOn(ctx context.Context) error {
	for range (len(s.of) + stackCellsPerStep - 1) / stackCellsPerStep {
		if err := s.Work.step(); err != nil {
			return err
		}
	}
	if ctx.Err() != nil {
		return &method.Error{Code: method.Stopped, Input: "phases", Detail: "the forecast was stopped before it was done"}
	}
	return nil
}

// emit adds the state of all layers to the course.
func (s *Stack) emit(out *StackCourse) {
	for i := range s.layers {
		cells := s.m[s.first[i]:s.first[i+1]]
		n := float64(len(cells))
		mean, moment := 0.0, 0.0
		for k, m := range cells {
			mean += m / n
			moment += m * (float64(k) + 0.5 - n/2)
		}
		// a straight line that rises by 1 from face to face has the moment (n^2 - 1)/12
		out.Mean[i] = append(out.Mean[i], quantity.Moisture(mean))
		out.Tilt[i] = append(out.Tilt[i], quantity.Moisture(12*moment/(n*n-1)))
	}
}

// Lags returns for each layer how long its mean is behind slow air, and that of the whole
// stack, by the mass of its layers, at rest in air of t (-40 to 80 degC) and rh (fraction):
// the time constant of a plate, R a + a^2/3D, of each depth below both faces.
//
// Errors: *method.Error with input "finish" for faces that let nothing pass.
// Accuracy: exact for small changes of the air.
//
// Source: the delay of a network of capacities and conductances, the integral of what is
// missing after a step: W. C. Elmore, Journal of Applied Physics 19, 1948 (from memory).
func (s *Stack) Lags(t quantity.Temperature, rh float64) (layers []quantity.Duration, whole quantity.Duration, err error) {
	kept := s.Cells()
	defer s.Start(kept)
	s.Rest(t, rh)
	s.fill(t.Celsius(), rh)
	s.balance(s.scheme.f)
	delay, ok := s.scheme.delays(s)
	if !ok {
		return nil, 0, &method.Error{Code: method.Contradictory, Input: "finish",
			Detail: "both faces are closed; nothing would ever reach the wood"}
	}
	sum, mass := 0.0, 0.0
	for i := range s.layers {
		mean, n := 0.0, float64(s.first[i+1]-s.first[i])
		for k := s.first[i]; k < s.first[i+1]; k++ {
			mean += delay[k] / n
		}
		layers = append(layers, quantity.Duration(mean))
		weight := s.density[i] * float64(s.layers[i].Thickness)
		sum, mass = sum+weight*mean, mass+weight
	}
	return layers, quantity.Duration(sum / mass), nil
}

// stackMoment is what the balances need of one instant.
type stackMoment struct {
	c, h   float64 // degC and relative humidity
	filled bool
	rows   []diffuseRow
	acts   []activityAt
	tables []activityRow // that acts read
	full   float64       // vapour density of saturated air, kg/m3
}

func (m *stackMoment) sized(n int) {
	m.rows, m.acts, m.tables = make([]diffuseRow, n), make([]activityAt, n), make([]activityRow, n)
}

// blended is the activity read from one row, which is filled, in place of four.
func (a activityAt) blended(into []activityRow) activityAt {
	into[0] = activityRow{full: a.full}
	for i := range a.rows {
		row, w := &a.rows[i], a.weight[i]
		for j := range into[0].a {
			into[0].a[j] += w * row.a[j]
			into[0].slope[j] += w * row.slope[j]
		}
	}
	return activityAt{rows: into, weight: [4]float64{1}, full: a.full}
}

// fill makes the moment for air of c degC and relative humidity h.
func (s *Stack) fill(c, h float64) {
	s.now.h = min(h, highestFaceHumidity)
	if s.now.filled && c == s.now.c {
		return
	}
	for i := range s.layers {
		l := &s.layers[i]
		l.Transport.blend(c, l.Factor*frost(c), &s.now.rows[i])
		s.now.acts[i] = l.Transport.activityFor(c).blended(s.now.tables[i : i+1])
	}
	t := quantity.Celsius(c)
	s.now.full = air.SaturationPressureOverWater(t).Pascals() / (vapourConstant * t.Kelvin())
	s.now.c, s.now.filled = c, true
}

var rowStack = method.Method{
	ID: "drying.stack", Chapter: "drying",
	Summary:  "Moisture of glued layers of different woods through their thickness under a climate",
	Equation: "in a layer dM/dt = d/dz(k D dM/dz); across a glue line G rho_w k D dM/dz = (a_1 - a_2) p_s/(R_v T r_glue), a the humidity in balance with the wood, alike on both sides for r_glue = 0; at the faces as drying.slab",
	Inputs: []method.Input{
		{Name: "layers", Fitted: method.Range{Low: 1, High: MaxStackLayers}, Limit: method.Range{Low: 1, High: MaxStackLayers}},
		{Name: "thickness", Unit: "mm", Fitted: method.Range{Low: 0.5, High: 110}, Limit: method.Range{Low: 0.05, High: 600}},
		{Name: "drying_factor", Fitted: method.Range{Low: 0.05, High: 2}, Limit: method.Range{Low: 0.005, High: 20}},
		{Name: "glue_resistance", Unit: "s/m", Fitted: method.Range{Low: 0, High: 1e6}, Limit: method.Range{Low: 0, High: 1e9}},
	},
	Accuracy: "the numbers: 0.02 %MC in the mean of a layer; edges and end grain are left out; the model: as drying.slab",
	Source: "as drying.slab, with continuous humidity at the glue line, derived; Alexander 1977, SIAM Journal on " +
		"Numerical Analysis 14, 1006-1021 for the time stepping (from memory)",
	Checked: method.Derived,
}
