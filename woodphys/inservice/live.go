package inservice

import (
	"context"
	"slices"
	"strconv"

	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
)

// SizeLived is one dimension of a piece through its year.
type SizeLived struct {
	Dimension Dimension
	Sizes
}

// Lived is the year of a piece in a room.
type Lived struct {
	Year
	Sizes []SizeLived
	Held  *Held // what it bears across the grain if it cannot move; only with a width
	Build BuildAir
}

// Lives is the year of all parts of finished work.
type Lives struct {
	Pieces    []Lived       // in the order of the parts
	Laminates []LayeredYear // in the order of the laminates
	Widest    int           // the part whose moisture content swings most
	// DriestBuild and DampestBuild are the builds of the lowest and of the highest humidity;
	// one humidity for all parts lies halfway between them.
	DriestBuild, DampestBuild BuildAir
	AtRisk                    []int // parts that may crack if they are held
	Notes                     method.Notes
}

// Live returns the year of the parts of finished work in a room, with their sizes, what
// they bear if they are held, and the air to build them in; and that of its laminates, with
// what they bend.
//
// Errors: as YearOf, movement.Between, HeldStrain and AirToBuild, under parts/i/; the
// dimension is named for an error about it; as LayeredYear under laminates/i/.
// Accuracy: as YearOf, SizesOf and LayeredYear.
//
// Source: YearOf, SizesOf, HeldStrain, AirToBuild, LayeredYear.
func (s *Season) Live(ctx context.Context, room *Room, parts []Piece, laminates []Layered) (Lives, error) {
	out := Lives{Pieces: make([]Lived, 0, len(parts))}
	for i := range parts {
		var own method.Notes
		one, err := s.lived(ctx, room, &parts[i], &own)
		if err != nil {
			return Lives{}, ofPart(err, i)
		}
		room.told(&out.Notes, "parts/"+strconv.Itoa(i), parts[i].Name, own)
		out.Pieces = append(out.Pieces, one)
	}
	for i := range laminates {
		one, err := s.LayeredYear(ctx, room, &laminates[i])
		if err != nil {
			return Lives{}, method.Below(err, "laminates/"+strconv.Itoa(i))
		}
		room.told(&out.Notes, "laminates/"+strconv.Itoa(i), laminates[i].Name, one.Notes)
		out.Laminates = append(out.Laminates, one)
	}
	out.conclude()
	return out, nil
}

func (s *Season) lived(ctx context.Context, room *Room, p *Piece, notes *method.Notes) (Lived, error) {
	notes.Merge(p.Notes)
	year, err := s.YearOf(ctx, room, &p.Part)
	if err != nil {
		return Lived{}, err
	}
	notes.Merge(year.Notes)
	out := Lived{Year: year}
	onset := quantity.Moisture(0)
	for _, d := range p.dimensions() {
		sizes, err := SizesOf(d.size, d.direction, p.MadeAt, year.Dry.Mean, year.Wet.Mean, p.MadeIn != nil, p.Wood)
		if err != nil {
			return Lived{}, method.Renamed(err, [2]string{"dimension", string(d.name)})
		}
		notes.Merge(sizes.Notes)
		onset = sizes.Dry.Onset
		out.Sizes = append(out.Sizes, SizeLived{d.name, sizes})
		if d.name != Wide {
			continue
		}
		held, err := p.held(&sizes, notes)
		if err != nil {
			return Lived{}, err
		}
		out.Held = &held
	}
	movement.NoteOnset(&p.Wood, notes)
	out.Build, err = AirToBuild(year.Dry.Mean.Value, year.Wet.Mean.Value, onset, p.MadeIn, sorption.CurvesOf(&p.Wood))
	notes.Merge(out.Build.Notes)
	return out, err
}

// held is what the piece bears across the grain; the caution is for one that is held.
func (p *Piece) held(sizes *Sizes, notes *method.Notes) (Held, error) {
	h, err := HeldStrain(sizes.Dry.Strain, sizes.Wet.Strain)
	if err != nil {
		return Held{}, method.Renamed(err, [2]string{"strain_pct", string(Wide)})
	}
	notes.Merge(method.Notes{Basis: h.Notes.Basis})
	if p.Held {
		for _, w := range h.Notes.Warnings {
			w.Input = "restrained"
			notes.Warn(w.Of(p.Name))
		}
	}
	return h, nil
}

// conclude finds the widest swing, the builds furthest apart and what may crack.
func (l *Lives) conclude() {
	if len(l.Pieces) == 0 {
		return
	}
	l.DriestBuild, l.DampestBuild = l.Pieces[0].Build, l.Pieces[0].Build
	for i := range l.Pieces {
		p := &l.Pieces[i]
		if p.swing() > l.Pieces[l.Widest].swing() {
			l.Widest = i
		}
		switch rh := p.Build.RH.Value; {
		case rh < l.DriestBuild.RH.Value:
			l.DriestBuild = p.Build
		case rh > l.DampestBuild.RH.Value:
			l.DampestBuild = p.Build
		}
		if p.Held != nil && p.Held.Danger == High {
			l.AtRisk = append(l.AtRisk, i)
		}
	}
}

func (l *Lived) swing() quantity.Moisture { return l.Wet.Mean.Value - l.Dry.Mean.Value }

// told adds the notes of one part or laminate: what speaks of the room or of every part alike
// is said once, the rest of that part.
func (r *Room) told(notes *method.Notes, place, name string, own method.Notes) {
	rest := method.Notes{Basis: own.Basis}
	for _, w := range own.Warnings {
		if r != nil && slices.Contains(r.notes.Warnings, w) || w.Method == roomRow.ID || w.Input == "" && (w.Method == yearRow.ID || w.Method == layersRow.ID) {
			notes.Warn(w)
			continue
		}
		rest.Warn(w)
	}
	notes.MergeFor(place, name, rest)
}
