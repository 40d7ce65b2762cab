package year

import (
	"errors"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/inservice"
	"latewood/woodphys/laminate"
	"latewood/woodphys/method"
)

// JointPair is two parts that meet and stay loose: panel and groove, pocket and inlay, lid and
// rim.
type JointPair struct {
	ID       string       `json:"id,omitempty" validate:"omitempty,id" description:"yours, by which the answer calls the pair; no two pairs have the same. Left out: its position in the list, such as \"1\""`
	Name     string       `json:"name,omitempty" validate:"max=100" description:"for people; given back as it is"`
	Outer    *JointSide   `json:"outer" validate:"required" description:"the part that gives room, such as the pocket or the rebate: where it grows the gap opens"`
	Inner    *JointSide   `json:"inner" validate:"required" description:"the part that takes it up, such as the tenon, the inlay or the panel"`
	Least    *wire.Length `json:"min_clearance,omitempty" validate:"omitempty,gte=-0.01,lte=0.1" default:"0 mm" description:"least clearance at any time: 0 never binds, below 0 allows a press fit"`
	Most     *wire.Length `json:"max_clearance" validate:"required,gte=0,lte=0.1" description:"widest gap that still serves"`
	Extremes string       `json:"extremes,omitempty" validate:"omitempty,oneof=together apart" default:"together" description:"whether both parts are dry at one time and wet at one time. Apart: one may still be wet when the other is dry, as a thin inlay in a thick board"`
}

// JointSide is a dimension of a part.
type JointSide struct {
	Part      string       `json:"part" validate:"required,max=64" description:"the id of a part"`
	Dimension string       `json:"dimension" validate:"required,oneof=thickness width length" description:"which size of the part lies across the joint"`
	Size      *wire.Length `json:"size,omitempty" validate:"omitempty,gte=0.0001,lte=12" description:"how much of that dimension takes part, such as the width of a pocket. Left out: all of it"`
}

// meetingsOf are the pairs in SI; it tells which of them name no part or no dimension.
func meetingsOf(pairs []JointPair, parts []ServicePart) ([]inservice.Meeting, error) {
	numbers, names := numbered(parts)
	all := make([]inservice.Meeting, 0, len(pairs))
	problems := []error{ids("pairs", len(pairs), func(i int) string { return pairs[i].ID })}
	for i := range pairs {
		p := &pairs[i]
		at := "pairs/" + strconv.Itoa(i)
		outer, noOuter := p.Outer.side(parts, numbers, names)
		inner, noInner := p.Inner.side(parts, numbers, names)
		problems = append(problems, wire.Under(at+"/outer", noOuter), wire.Under(at+"/inner", noInner))
		m := inservice.Meeting{Name: calledBy(p.Name, p.ID, "pair", i), Outer: outer, Inner: inner, Play: laminate.Play{Most: p.Most.SI},
			Season: laminate.Season(p.Extremes == "apart")}
		if p.Least != nil {
			m.Play.Least = p.Least.SI
		}
		all = append(all, m)
	}
	return all, errors.Join(problems...)
}

// numbered are the numbers of the parts by their ids, and the ids.
func numbered(parts []ServicePart) (numbers map[string]int, names []string) {
	numbers = map[string]int{}
	for i := range parts {
		id := shelf.IDOf(parts[i].ID, i)
		numbers[id] = i
		names = append(names, id)
	}
	return numbers, names
}

// side is a side in SI.
func (m *JointSide) side(parts []ServicePart, numbers map[string]int, names []string) (inservice.Side, error) {
	i, known := numbers[m.Part]
	if !known {
		detail := "there is no part with the id " + wire.Quoted(m.Part)
		if near := wire.Nearest(m.Part, names); near != "" {
			detail += "; did you mean " + strconv.Quote(near) + "?"
		}
		return inservice.Side{}, &method.Error{Code: method.Unknown, Input: "part", Detail: detail, Limit: method.OneOf(wire.NearestFew(m.Part, names, len(names))...)}
	}
	p := &parts[i]
	if given := map[string]*wire.Length{"thickness": p.Thickness, "width": p.Width,
		"length": p.Length}[m.Dimension]; given == nil {
		return inservice.Side{}, wire.Missing("dimension", "the part "+wire.Quoted(m.Part)+" has no "+m.Dimension)
	}
	side := inservice.Side{Part: i, Dimension: inservice.Dimension(m.Dimension)}
	if m.Size != nil {
		side.Over = m.Size.SI
	}
	return side, nil
}
