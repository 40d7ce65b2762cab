package inservice

import (
	"context"
	"math"
	"strconv"

	"latewood/woodphys/laminate"
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
)

// Rest is the driest or the wettest state of a piece.
type Rest struct {
	At   quantity.Duration // since the start of the room; 0 without one
	Mean quantity.Band[quantity.Moisture]
}

// PieceFigures are the movement figures of a piece.
type PieceFigures struct {
	Dry, Wet Rest
	PerPoint movement.PerPoint // about the build
	Sizes    []SizeFigures
}

// SizeFigures are those of one dimension.
type SizeFigures struct {
	Dimension Dimension
	PerPoint  quantity.Band[quantity.Length] // change per point of moisture content about the build
	Sizes
}

// Meeting is two parts that meet with a clearance between them.
type Meeting struct {
	Name         string // for people
	Outer, Inner Side   // Outer gives room, and where it grows the gap opens
	Play         laminate.Play
	Season       laminate.Season
}

// Met is what becomes of the clearance of a meeting.
type Met struct {
	laminate.Clearance
	Outer quantity.Length // size of the outer side at the build
	Made  *laminate.Made  // by the sizes of both sides; nil where they are the same, one size told for both
	// Wetter says that a part is wetter at the build than it will ever be again.
	Wetter bool
}

// Side is a dimension of a part across a joint.
type Side struct {
	Part      int // its number
	Dimension Dimension
	Over      quantity.Length // how much of it takes part, 0 to 100 m; 0 for all
}

// Joint is two parts that are glued to each other, each across a size that lies along the glue.
type Joint struct {
	Name          string // for people
	First, Second Side
}

// JointHeld is what two parts that are glued hold each other from: by how much they would
// differ from the build if they were free.
type JointHeld struct {
	Over     quantity.Length                // of the joint: the smaller of its two sides
	Dry, Wet quantity.Band[quantity.Length] // change of the first less that of the second over it, to both states
	// DryStrain and WetStrain are the same over Over. One part bears all of it where the other
	// does not give; the first is pulled below 0, the second above.
	DryStrain, WetStrain quantity.Band[float64]
	Share                quantity.Band[float64] // the larger of both, whichever way, over FailureLow
	Danger               Danger                 // by the upper end of Share
}

// Figures are the movement figures of all parts of finished work.
type Figures struct {
	Parts    []PieceFigures
	Meetings []Met
	Joints   []JointHeld
	// Most is the dimension that moves most between driest and wettest, in percent of its
	// size, MostOf the number of its part.
	Most    Dimension
	MostOf  int
	MostPct float64
	Notes   method.Notes
}

// FiguresOf returns the movement figures of the parts of finished work, the clearances
// between those that meet, and what those that are glued hold each other from. Their driest and wettest states are those of the year of a room,
// or, where room is nil, what the parts say.
//
// Errors: as YearOf, movement.Between and movement.PerPointOf under parts/i/, where
// contradictory for wettest says that driest is the wetter; as laminate.AtBuild under
// pairs/i/.
// Accuracy: as YearOf, SizesOf and laminate.AtBuild.
//
// Source: YearOf, SizesOf, movement.OnePoint, laminate.AtBuild; row inservice.held-strain for
// joints.
func (s *Season) FiguresOf(ctx context.Context, room *Room, parts []Piece, meetings []Meeting, joints []Joint) (Figures, error) {
	var out Figures
	for i := range parts {
		var own method.Notes
		one, err := s.figures(ctx, room, &parts[i], &own)
		if err != nil {
			return Figures{}, ofPart(err, i)
		}
		room.told(&out.Notes, "parts/"+strconv.Itoa(i), parts[i].Name, own)
		out.Parts = append(out.Parts, one)
	}
	for i := range meetings {
		met, err := meetings[i].meets(parts, out.Parts)
		if err != nil {
			return Figures{}, method.Below(err, "pairs/"+strconv.Itoa(i))
		}
		out.Notes.MergeFor("pairs/"+strconv.Itoa(i), meetings[i].Name, met.Notes)
		out.Meetings = append(out.Meetings, met)
	}
	for i := range joints {
		out.Notes.Rest(&heldRow)
		for _, k := range [...]int{joints[i].First.Part, joints[i].Second.Part} {
			var own method.Notes
			laminate.NoteGlued(parts[k].MadeAt.Value, "made_mc_pct", &own)
			out.Notes.MergeFor("parts/"+strconv.Itoa(k), parts[k].Name, own)
		}
		out.Joints = append(out.Joints, joints[i].held(out.Parts))
	}
	out.findMost()
	return out, nil
}

// meets is what becomes of the clearance between the parts.
func (m *Meeting) meets(parts []Piece, figures []PieceFigures) (Met, error) {
	outer, inner := m.Outer.strains(figures), m.Inner.strains(figures)
	c, err := laminate.AtBuild(outer.moves(), inner.moves(), m.Play, m.Season)
	if err != nil {
		return Met{}, err
	}
	met := Met{Clearance: c, Outer: outer.over}
	for _, i := range [...]int{m.Outer.Part, m.Inner.Part} {
		met.Wetter = met.Wetter || parts[i].MadeAt.Value > figures[i].Wet.Mean.High
	}
	if gap := outer.over - inner.over; math.Abs(float64(gap)) > sameSize {
		made := c.AsMade(gap, m.Play)
		met.Made = &made
	}
	return met, nil
}

// sameSize is a difference of sizes, m, below which they are one: a nanometre.
const sameSize = 1e-9

// held is what the two sides of a joint hold each other from.
func (j *Joint) held(parts []PieceFigures) JointHeld {
	first, second := j.First.strains(parts), j.Second.strains(parts)
	out := JointHeld{Over: min(first.over, second.over)}
	out.DryStrain, out.WetStrain = apart(first.dry, second.dry), apart(first.wet, second.wet)
	out.Dry, out.Wet = times(out.DryStrain, out.Over), times(out.WetStrain, out.Over)
	dry, wet := eitherWay(out.DryStrain), eitherWay(out.WetStrain)
	if wet.High > dry.High {
		dry = wet
	}
	out.Share = quantity.Band[float64]{Value: dry.Value / FailureLow, Low: dry.Low / FailureLow, High: dry.High / FailureLow}
	out.Danger = dangerOf(out.Share)
	return out
}

// apart is the difference of two independent strains: the ends combine by squares.
func apart(a, b quantity.Band[float64]) quantity.Band[float64] {
	v := a.Value - b.Value
	return quantity.Band[float64]{Value: v, Low: v - math.Hypot(a.Value-a.Low, b.High-b.Value),
		High: v + math.Hypot(a.High-a.Value, b.Value-b.Low)}
}

// eitherWay is the size of a strain without its sign.
func eitherWay(b quantity.Band[float64]) quantity.Band[float64] {
	low, high := math.Abs(b.Low), math.Abs(b.High)
	if b.Low <= 0 && b.High >= 0 {
		return quantity.Band[float64]{Value: math.Abs(b.Value), High: math.Max(low, high)}
	}
	return quantity.Band[float64]{Value: math.Abs(b.Value), Low: math.Min(low, high), High: math.Max(low, high)}
}

func (s *Season) figures(ctx context.Context, room *Room, p *Piece, notes *method.Notes) (PieceFigures, error) {
	notes.Merge(p.Notes)
	var out PieceFigures
	var err error
	if out.Dry, out.Wet, err = s.extremes(ctx, room, p, notes); err != nil {
		return PieceFigures{}, err
	}
	if out.PerPoint, err = movement.PerPointOf(p.MadeAt.Value, p.Wood); err != nil {
		return PieceFigures{}, err
	}
	notes.Merge(out.PerPoint.Notes)
	samePiece := p.MadeIn != nil && (room != nil || p.InAirs)
	driest, wettest := "driest", "wettest"
	if room != nil {
		driest, wettest = ofRoom, ofRoom
	}
	for _, d := range p.dimensions() {
		names := d.names(driest, wettest)
		sizes, err := SizesOf(d.size, d.direction, p.MadeAt, out.Dry.Mean, out.Wet.Mean, samePiece, p.Wood)
		if err != nil {
			return PieceFigures{}, method.Renamed(err, names...)
		}
		notes.Merge(sizes.Notes.Renamed(names...))
		rate, err := movement.OnePoint(d.size, d.direction, p.MadeAt.Value, p.Wood)
		if err != nil {
			return PieceFigures{}, method.Renamed(err, names...)
		}
		out.Sizes = append(out.Sizes, SizeFigures{d.name, rate.Change, sizes})
	}
	movement.NoteOnset(&p.Wood, notes)
	return out, nil
}

// extremes are the driest and the wettest state of a piece.
func (s *Season) extremes(ctx context.Context, room *Room, p *Piece, notes *method.Notes) (dry, wet Rest, err error) {
	if room == nil {
		if p.Driest.Value > p.Wettest.Value {
			limit := method.AtLeast(quantity.RoundedUp(p.Driest.Value.Percent(), 2), "%")
			err = &method.Error{Code: method.Contradictory, Input: "wettest", Limit: limit,
				Detail: "wettest is drier than driest; are they exchanged? It must be " + limit.String()}
		}
		return Rest{Mean: p.Driest}, Rest{Mean: p.Wettest}, err
	}
	year, err := s.YearOf(ctx, room, &p.Part)
	if err != nil {
		return dry, wet, err
	}
	notes.Merge(year.Notes)
	return Rest{year.Dry.At, year.Dry.Mean}, Rest{year.Wet.At, year.Wet.Mean}, nil
}

// sideStrains are those of a side from the build, over a length.
type sideStrains struct {
	dry, wet quantity.Band[float64]
	over     quantity.Length
}

// strains are those of a side; none for a dimension that its part lacks.
func (m *Side) strains(parts []PieceFigures) sideStrains {
	for i := range parts[m.Part].Sizes {
		s := &parts[m.Part].Sizes[i]
		if s.Dimension != m.Dimension {
			continue
		}
		out := sideStrains{s.Dry.Strain, s.Wet.Strain, m.Over}
		if out.over == 0 {
			out.over = s.Build
		}
		return out
	}
	return sideStrains{}
}

// moves are the changes of a side from the build.
func (s sideStrains) moves() laminate.Part {
	return laminate.Part{ToDriest: times(s.dry, s.over), ToWettest: times(s.wet, s.over)}
}

// times is a strain over a length.
func times(b quantity.Band[float64], over quantity.Length) quantity.Band[quantity.Length] {
	return quantity.Band[quantity.Length]{Value: quantity.Length(b.Value) * over, Low: quantity.Length(b.Low) * over,
		High: quantity.Length(b.High) * over}
}

// findMost finds the dimension that moves most, in percent of its size. Sizes are compared
// as they are told, in millimetres, so that of dimensions that move alike the same one is
// named as its figures show.
func (f *Figures) findMost() {
	f.MostPct = -1
	for i := range f.Parts {
		for k := range f.Parts[i].Sizes {
			s := &f.Parts[i].Sizes[k]
			swing, _ := s.Swing.Value.In("mm")
			size, _ := s.Build.In("mm")
			if share := 100 * swing / size; share > f.MostPct {
				f.Most, f.MostOf, f.MostPct = s.Dimension, i, share
			}
		}
	}
}
