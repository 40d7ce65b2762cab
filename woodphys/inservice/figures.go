package inservice

import (
	"context"
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
	Outer, Inner Side // Outer gives room, and where it grows the gap opens
	Play         laminate.Play
	Season       laminate.Season
}

// Side is a dimension of a part across a joint.
type Side struct {
	Part      int // its number
	Dimension Dimension
	Over      quantity.Length // how much of it takes part, 0 to 100 m; 0 for all
}

// Figures are the movement figures of all parts of finished work.
type Figures struct {
	Parts    []PieceFigures
	Meetings []laminate.Clearance
	// Most is the dimension that moves most between driest and wettest, in percent of its
	// size, MostOf the number of its part.
	Most    Dimension
	MostOf  int
	MostPct float64
	Notes   method.Notes
}

// FiguresOf returns the movement figures of the parts of finished work, and the clearances
// between those that meet. Their driest and wettest states are those of the year of a room,
// or, where room is nil, what the parts say.
//
// Errors: as YearOf, movement.Between and movement.PerPointOf under parts/i/, where
// contradictory for wettest says that driest is the wetter; as laminate.AtBuild under
// pairs/i/.
// Accuracy: as YearOf, SizesOf and laminate.AtBuild.
//
// Source: YearOf, SizesOf, movement.OnePoint, laminate.AtBuild.
func (s *Season) FiguresOf(ctx context.Context, room *Room, parts []Piece, meetings []Meeting) (Figures, error) {
	var out Figures
	for i := range parts {
		first := len(out.Notes.Warnings)
		one, err := s.figures(ctx, room, &parts[i], &out.Notes)
		if err != nil {
			return Figures{}, ofPart(err, i)
		}
		placePart(&out.Notes, first, i)
		out.Parts = append(out.Parts, one)
	}
	for i := range meetings {
		m := &meetings[i]
		c, err := laminate.AtBuild(m.Outer.moves(out.Parts), m.Inner.moves(out.Parts), m.Play, m.Season)
		if err != nil {
			return Figures{}, method.Below(err, "pairs/"+strconv.Itoa(i))
		}
		out.Notes.Merge(c.Notes.Below("pairs/" + strconv.Itoa(i)))
		out.Meetings = append(out.Meetings, c)
	}
	out.findMost()
	return out, nil
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
			err = &method.Error{Code: method.Contradictory, Input: "wettest",
				Detail: "wettest is drier than driest; are they exchanged?"}
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

// moves are the changes of a side from the build; none for a dimension that its part lacks.
func (m *Side) moves(parts []PieceFigures) laminate.Part {
	for i := range parts[m.Part].Sizes {
		s := &parts[m.Part].Sizes[i]
		if s.Dimension != m.Dimension {
			continue
		}
		over := m.Over
		if over == 0 {
			over = s.Build
		}
		times := func(b quantity.Band[float64]) quantity.Band[quantity.Length] {
			return quantity.Band[quantity.Length]{Value: quantity.Length(b.Value) * over, Low: quantity.Length(b.Low) * over,
				High: quantity.Length(b.High) * over}
		}
		return laminate.Part{ToDriest: times(s.Dry.Strain), ToWettest: times(s.Wet.Strain)}
	}
	return laminate.Part{}
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
