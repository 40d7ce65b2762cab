package inservice

import (
	"context"
	"math"
	"slices"
	"strconv"
	"strings"

	"latewood/woodphys/drying"
	"latewood/woodphys/laminate"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// Layered is finished work of layers that were glued flat: a cap on a body, a neck of
// staves, a veneered panel.
type Layered struct {
	Name          string          // for people
	Layers        []GluedLayer    // 1 to 32, from face 1 on
	Length, Width quantity.Length // of the panel, 0.01 mm to 100 m
	Faces         [2]Finish       // on face 1 and on face 2; the edges let nothing pass
	Glue          laminate.Glue
	GlueVapour    float64      // resistance of each glue line to vapour, s/m, 0 to 1e9; 0 leaves it out
	Notes         method.Notes // what these figures rest on; they are told with the work
}

// GluedLayer is one layer: as the panel takes it, its Later and Tilt left out, and how
// moisture goes through it.
type GluedLayer struct {
	laminate.Layer
	Transport    *drying.Transport
	Factor       float64         // drying factor with the ring angle in it, 0.005 to 20
	FactorSpread float64         // standard deviation of its natural logarithm, 0 to 3
	Curves       sorption.Curves // of the wood, with the scatter of its fibre saturation
	Notes        method.Notes    // what these figures rest on; they are told with the layer
}

// called is what a warning about the layer names.
func (l *GluedLayer) called() string {
	if l.Name != "" {
		return l.Name
	}
	return l.Wood.Name
}

// LayeredYear is the year of such work in a room.
type LayeredYear struct {
	Times    []quantity.Duration // since the start of the room
	Mean     []quantity.Band[quantity.Moisture]
	Cup, Bow []quantity.Band[quantity.Length] // positive: hollow on face 1
	Dry, Wet LayeredState                     // by the mean moisture content, by mass
	// CupEnds and BowEnds are the days when the panel is most hollow on face 1, or least on
	// face 2, and the other way round.
	CupEnds, BowEnds [2]BendAt
	Swing            LayeredSwing
	Lag              quantity.Duration // time constant of the whole, by mass
	Delay            quantity.Duration // how long after those of the air its extremes come, the mean of the two
	Layers           []LayerYear       // from face 1 on
	Years            int               // run until the year came round
	Notes            method.Notes
}

// LayerYear is the moisture content of one layer through the year.
type LayerYear struct {
	Lag      quantity.Duration // time constant of the layer, by its depth below both faces
	Delay    quantity.Duration // how long after those of the air its extremes come
	Dry, Wet Rest              // its own driest and wettest state
}

// LayeredState is the work on its driest or wettest day.
type LayeredState struct {
	At     quantity.Duration
	Mean   quantity.Band[quantity.Moisture]   // by mass
	Layers []quantity.Band[quantity.Moisture] // from face 1 on
	Glued  laminate.Glued                     // the panel, its layers from face 2 on
}

// BendAt is the bend of the work at a time.
type BendAt struct {
	At   quantity.Duration
	Bend quantity.Band[quantity.Length]
}

// LayeredSwing is the wettest state less the driest.
type LayeredSwing struct {
	Mean                      quantity.Moisture
	Cup, Bow, CornerLift      quantity.Band[quantity.Length]
	ChangeLength, ChangeWidth quantity.Band[quantity.Length]
}

// layeredRun is the work while its year is looked for.
type layeredRun struct {
	season  *Season
	room    *Room
	work    *Layered
	days    []quantity.Duration // of the runs
	states  []state             // of the woods of the layers, in the mean air
	scatter []float64           // of their EMC
	masses  []float64           // of the layers, shares of the whole
	ends    [3]drying.StackCourse
	out     LayeredYear
}

// LayeredYear returns how finished work of glued layers lives through the year of a room:
// the moisture of each layer by its depth below the faces, and what that bends.
//
// Errors: as drying.NewStack and laminate.GlueUp, layers counted from face 1; "finish",
// "finish/outside" and "finish/inside"; glue_resistance.
// Accuracy: of the numbers 0.05 %MC in a layer; moisture passes the two faces only; bending
// is elastic, an upper bound (laminate.Creep). Bands: moisture as YearOf, the panel as
// laminate.Bend.
//
// Source: rows inservice.layers, drying.stack and laminate.panel.
func (s *Season) LayeredYear(ctx context.Context, room *Room, work *Layered) (LayeredYear, error) {
	r := &layeredRun{season: s, room: room, work: work, days: room.every(roughStep)}
	r.out.Times = room.times()
	if err := r.prepare(); err != nil {
		return LayeredYear{}, err
	}
	if err := r.moisture(ctx); err != nil {
		return LayeredYear{}, err
	}
	if err := r.bend(); err != nil {
		return LayeredYear{}, ofOtherFace(err, len(work.Layers))
	}
	r.room.leftOut(r.out.Lag, &r.out.Notes)
	r.out.Notes.Warn(method.Warning{Code: method.Assumption, Method: layersRow.ID,
		Detail: "moisture passes the two faces of the layers only, not their edges; open edges make narrow work quicker than told"})
	if work.GlueVapour == 0 && len(work.Layers) > 1 {
		r.out.Notes.Warn(method.Warning{Code: method.Assumption, Method: layersRow.ID, Input: "glue_resistance",
			Detail: "the resistance of the glue lines to vapour is left out"})
	}
	return r.out, nil
}

// prepare checks the work and looks at its layers in the mean air.
func (r *layeredRun) prepare() error {
	notes := &r.out.Notes
	notes.Merge(r.work.Notes)
	notes.Merge(r.room.notes.Below(ofRoom))
	notes.Rest(&layersRow)
	if err := checkFaces(r.work.Faces, notes); err != nil {
		return err
	}
	if err := notes.Use(&layersRow, "glue_resistance", r.work.GlueVapour); err != nil {
		return err
	}
	for i := range r.work.Layers {
		l := &r.work.Layers[i]
		at := "layers/" + strconv.Itoa(i)
		if l.Transport == nil {
			return &method.Error{Code: method.Missing, Input: at + "/wood", Detail: "the wood is missing"}
		}
		if err := notes.Use(&layersRow, "drying_factor_spread", l.FactorSpread); err != nil {
			return method.Below(err, at)
		}
		mean := r.room.meanState(r.out.Times, l.Transport)
		var own method.Notes
		own.Merge(l.Notes)
		sd, err := scatter(&mean, l.Curves, &own)
		if err != nil {
			return method.Below(err, at)
		}
		notes.MergeFor(at, l.called(), own)
		r.states, r.scatter = append(r.states, mean), append(r.scatter, sd)
	}
	return nil
}

// pace multiplies what makes layered work quicker or slower.
type pace struct {
	factors []float64 // of the layers
	film    float64
	coats   [2]float64
}

func (l *Layered) asKnown() pace {
	p := pace{film: 1, coats: [2]float64{1, 1}}
	for range l.Layers {
		p.factors = append(p.factors, 1)
	}
	return p
}

// stack is the work at a pace, at rest in the mean air of the room.
func (r *layeredRun) stack(p *pace, notes *method.Notes) (*drying.Stack, error) {
	layers := make([]drying.StackLayer, len(r.work.Layers))
	for i := range layers {
		l := &r.work.Layers[i]
		layers[i] = drying.StackLayer{Transport: l.Transport, Thickness: l.Thickness, Factor: l.Factor * p.factors[i]}
	}
	set := drying.StackSetting{Glue: r.work.GlueVapour}
	for i, f := range r.work.Faces {
		set.Faces[i] = drying.Exposure{Name: "room", FilmCoefficient: roomFilm * p.film,
			CoatResistance: math.Min(f.Resistance*p.coats[i], 1e9)}
	}
	s, err := drying.NewStack(layers, set, notes)
	if err != nil {
		return nil, err
	}
	s.Work = r.season.Work
	s.Rest(r.states[0].temperature, r.states[0].rh)
	return s, nil
}

// moisture runs the year at three paces and fills in what is told of moisture.
func (r *layeredRun) moisture(ctx context.Context) error {
	known := r.work.asKnown()
	var told method.Notes // what other paces say counts for nothing
	middle, err := r.stack(&known, &told)
	if err != nil {
		return err
	}
	r.tell(told)
	lags, whole, err := middle.Lags(r.states[0].temperature, r.states[0].rh)
	if err != nil {
		return err
	}
	r.masses = middle.Masses()
	total := 0.0
	for _, m := range r.masses {
		total += m
	}
	for i := range r.masses {
		r.masses[i] /= total
	}
	fast, slow, err := r.paces(whole)
	if err != nil {
		return err
	}
	for i, p := range []pace{known, fast, slow} {
		stack, err := r.stack(&p, &method.Notes{})
		if err != nil {
			return err
		}
		if r.ends[i], err = r.around(ctx, stack, i == 0); err != nil {
			return err
		}
		if i == 0 {
			r.out.Notes.Merge(r.ends[0].Notes)
		}
	}
	r.out.Lag = whole
	r.fill(lags)
	return nil
}

// tell adds notes whose layers have no subject yet.
func (r *layeredRun) tell(told method.Notes) {
	for k := range told.Warnings {
		w := &told.Warnings[k]
		for i := range r.work.Layers {
			if w.Subject == "" && strings.HasPrefix(w.Input+"/", "layers/"+strconv.Itoa(i)+"/") {
				w.Subject = r.work.Layers[i].called()
			}
		}
	}
	r.out.Notes.Merge(told)
}

// paces are the fast and the slow point: the likeliest combination of the drying factors, the
// film and the finishes at the 5 and 95 % quantile of the lag of the whole, each shifted by
// its share in that lag, as for a part.
func (r *layeredRun) paces(whole quantity.Duration) (fast, slow pace, err error) {
	n := len(r.work.Layers)
	spreads := make([]float64, 0, n+3)
	for i := range r.work.Layers {
		spreads = append(spreads, r.work.Layers[i].FactorSpread)
	}
	spreads = append(spreads, filmSpread, r.work.Faces[0].SpreadLog, r.work.Faces[1].SpreadLog)
	shift := func(p *pace, i int, by float64) {
		switch {
		case i < n:
			p.factors[i] *= by
		case i == n:
			p.film *= by
		default:
			p.coats[i-n-1] /= by
		}
	}
	const probe = 1.01
	shares, norm := make([]float64, len(spreads)), 0.0
	for i, sd := range spreads {
		if sd == 0 || i > n && r.work.Faces[i-n-1].Resistance == 0 {
			continue
		}
		p := r.work.asKnown()
		shift(&p, i, probe)
		stack, err := r.stack(&p, &method.Notes{})
		if err != nil {
			return fast, slow, err
		}
		_, lag, err := stack.Lags(r.states[0].temperature, r.states[0].rh)
		if err != nil {
			return fast, slow, err
		}
		shares[i] = -math.Log(float64(lag/whole)) / math.Log(probe) * sd
		norm += shares[i] * shares[i]
	}
	fast, slow = r.work.asKnown(), r.work.asKnown()
	if !(norm > 0) {
		return fast, slow, nil
	}
	for i, sd := range spreads {
		by := quantity.Z90 * shares[i] / math.Sqrt(norm) * sd
		shift(&fast, i, math.Exp(by))
		shift(&slow, i, math.Exp(-by))
	}
	return fast, slow, nil
}

// around runs the stack through the room until the year comes round; see Season.around.
func (r *layeredRun) around(ctx context.Context, stack *drying.Stack, told bool) (drying.StackCourse, error) {
	var before []float64
	var leap leaps
	for n := 1; ; n++ {
		start := stack.Cells()
		c, err := stack.Run(ctx, r.room.climate, r.days)
		if err != nil {
			return c, err
		}
		end := stack.Cells()
		moved, most := make([]float64, len(end)), 0.0
		for k := range end {
			moved[k] = end[k] - start[k]
			most = math.Max(most, math.Abs(moved[k]))
		}
		ratio, ahead := ratioOf(moved, before), 0.0
		if ratio > 0 && ratio < 0.99 {
			ahead = ratio / (1 - ratio)
		}
		r.out.Years = max(r.out.Years, n)
		off := most * (1 + ahead)
		if !r.room.repeats || n > 1 && off < float64(cameRound) {
			return c, nil
		}
		if n == mostYears {
			if told && off > float64(nearlyRound) {
				c.Notes.Warn(method.Warning{Code: method.Assumption, Method: layersRow.ID, Input: "layers",
					Detail: "the work is so slow that its year has not quite come round; its mean may still drift by some tenths of a point"})
			}
			return c, nil
		}
		before = moved
		leap.landed(most)
		if ahead > 0 {
			ahead = leap.far(most, ahead)
			for k := range end {
				end[k] = math.Min(math.Max(end[k]+ahead*moved[k], 0), 1)
			}
			stack.Start(end)
			before = nil
		}
	}
}

// ratioOf is by how much a year moves the cells of what the year before moved them.
func ratioOf(moved, before []float64) float64 {
	product, square := 0.0, 0.0
	for k := range before {
		product += moved[k] * before[k]
		square += before[k] * before[k]
	}
	return product / square // NaN where there was no year before
}

// band is the moisture content of a layer at a time.
func (r *layeredRun) band(i int, at quantity.Duration) quantity.Band[quantity.Moisture] {
	read := func(run int) quantity.Moisture { return readAt(r.days, r.ends[run].Mean[i], at) }
	return around(read(0), read(1), read(2), r.scatter[i])
}

// whole is the moisture content of the work, by mass, at a time; its layers deviate together.
func (r *layeredRun) whole(at quantity.Duration) (mean quantity.Band[quantity.Moisture], layers []quantity.Band[quantity.Moisture]) {
	for i, share := range r.masses {
		b, w := r.band(i, at), quantity.Moisture(share)
		layers = append(layers, b)
		mean.Value, mean.Low, mean.High = mean.Value+w*b.Value, mean.Low+w*b.Low, mean.High+w*b.High
	}
	return mean, layers
}

// fill fills in what is told of moisture.
func (r *layeredRun) fill(lags []quantity.Duration) {
	air := r.room.Year()
	delay := func(dry, wet quantity.Duration) quantity.Duration {
		return (r.room.after(dry, air.Driest.At) + r.room.after(wet, air.Wettest.At)) / 2
	}
	for i := range r.work.Layers {
		own := func(sign float64) Rest {
			at, m := extreme(r.days, r.ends[0].Mean[i], sign, false)
			_, fast := extreme(r.days, r.ends[1].Mean[i], sign, false)
			_, slow := extreme(r.days, r.ends[2].Mean[i], sign, false)
			return Rest{at, around(m, fast, slow, r.scatter[i])}
		}
		dry, wet := own(-1), own(1)
		r.out.Layers = append(r.out.Layers, LayerYear{Lag: lags[i], Delay: delay(dry.At, wet.At), Dry: dry, Wet: wet})
	}
	for _, at := range r.out.Times {
		mean, _ := r.whole(at)
		r.out.Mean = append(r.out.Mean, mean)
	}
	values := make([]quantity.Moisture, len(r.days))
	for k := range r.days {
		for i, share := range r.masses {
			values[k] += quantity.Moisture(share) * r.ends[0].Mean[i][k]
		}
	}
	for _, one := range []struct {
		sign float64
		to   *LayeredState
	}{{-1, &r.out.Dry}, {1, &r.out.Wet}} {
		one.to.At, _ = extreme(r.days, values, one.sign, false)
		one.to.Mean, one.to.Layers = r.whole(one.to.At)
	}
	r.out.Delay = delay(r.out.Dry.At, r.out.Wet.At)
}

// panel is the work as the lamination theory takes it, bottom first, with the moisture of a
// time.
func (r *layeredRun) panel(at quantity.Duration) laminate.Stack {
	n := len(r.work.Layers)
	s := laminate.Stack{Panel: laminate.Panel{Length: r.work.Length, Width: r.work.Width, Glue: r.work.Glue,
		Layers: make([]laminate.Layer, n)}}
	for i := range n {
		l := r.work.Layers[i].Layer
		l.Later, l.Tilt = r.band(i, at), -readAt(r.days, r.ends[0].Tilt[i], at) // the chapter's z goes up
		s.Layers[n-1-i] = l
	}
	return s
}

// bend fills in what the moisture of the layers bends.
func (r *layeredRun) bend() error {
	out := &r.out
	for _, at := range out.Times {
		g, err := laminate.GlueUp(r.panel(at))
		if err != nil {
			return err
		}
		out.Cup, out.Bow = append(out.Cup, g.Cup), append(out.Bow, g.Bow)
	}
	for _, one := range []*LayeredState{&out.Dry, &out.Wet} {
		g, err := laminate.GlueUp(r.panel(one.At))
		if err != nil {
			return err
		}
		one.Glued = g
		g.Notes = g.Notes.Renamed(otherFace(len(r.work.Layers))...)
		out.Notes.Merge(g.Notes)
	}
	for k, sign := range []float64{1, -1} {
		out.CupEnds[k], out.BowEnds[k] = furthest(out.Times, out.Cup, sign), furthest(out.Times, out.Bow, sign)
		for _, one := range []*LayeredState{&out.Dry, &out.Wet} { // which may lie between two of the times
			out.CupEnds[k] = further(out.CupEnds[k], BendAt{one.At, one.Glued.Cup}, sign)
			out.BowEnds[k] = further(out.BowEnds[k], BendAt{one.At, one.Glued.Bow}, sign)
		}
	}
	return r.swing()
}

// furthest is where a bend is highest (sign 1) or lowest (-1).
func furthest(times []quantity.Duration, bends []quantity.Band[quantity.Length], sign float64) BendAt {
	best := BendAt{times[0], bends[0]}
	for k := range bends {
		best = further(best, BendAt{times[k], bends[k]}, sign)
	}
	return best
}

// further is that of two bends which is higher (sign 1) or lower (-1), the first where they
// are alike.
func further(a, b BendAt, sign float64) BendAt {
	if sign*float64(b.Bend.Value) > sign*float64(a.Bend.Value) {
		return b
	}
	return a
}

// swing is the wettest state less the driest, with the band of a panel that comes from one to
// the other.
func (r *layeredRun) swing() error {
	dry, wet := &r.out.Dry, &r.out.Wet
	s := laminate.Stack{Panel: laminate.Panel{Length: r.work.Length, Width: r.work.Width, Glue: r.work.Glue,
		Layers: slices.Clone(wet.Glued.Stacked)}}
	n := len(s.Layers)
	for i := range s.Layers {
		l := &s.Layers[i]
		l.AtGlueUp, l.Later, l.TwoAirs = dry.Layers[n-1-i], wet.Layers[n-1-i], true
		l.Tilt -= dry.Glued.Stacked[i].Tilt
	}
	between, err := laminate.GlueUp(s)
	if err != nil {
		return err
	}
	d, w := &dry.Glued.Warped, &wet.Glued.Warped
	r.out.Swing = LayeredSwing{
		Mean: wet.Mean.Value - dry.Mean.Value,
		Cup:  shifted(between.Cup, w.Cup.Value-d.Cup.Value), Bow: shifted(between.Bow, w.Bow.Value-d.Bow.Value),
		CornerLift:   shifted(between.CornerLift, w.CornerLift.Value-d.CornerLift.Value),
		ChangeLength: shifted(between.ChangeLength, w.ChangeLength.Value-d.ChangeLength.Value),
		ChangeWidth:  shifted(between.ChangeWidth, w.ChangeWidth.Value-d.ChangeWidth.Value),
	}
	return nil
}

// shifted is a band moved to another value.
func shifted(b quantity.Band[quantity.Length], to quantity.Length) quantity.Band[quantity.Length] {
	by := to - b.Value
	return quantity.Band[quantity.Length]{Value: to, Low: b.Low + by, High: b.High + by}
}

// ofOtherFace is an error of the lamination theory with its layers counted from face 1.
func ofOtherFace(err error, n int) error { return method.Renamed(err, otherFace(n)...) }

// otherFace turns the numbers of layers from face 2, as the lamination theory counts, into
// those from face 1.
func otherFace(n int) [][2]string {
	var names [][2]string
	for i := range n {
		from, to := "layers/"+strconv.Itoa(i), "layers/"+strconv.Itoa(n-1-i)
		names = append(names, [2]string{from, to}, [2]string{from + "/", to + "/"})
	}
	return names
}
