package year

import (
	"errors"
	"strconv"

	"latewood/api/internal/wire"
	"latewood/woodphys/inservice"
	"latewood/woodphys/laminate"
	"latewood/woodphys/method"
)

// MeetingPair is two parts that meet: pocket and tenon, board and inlay, body
// and cap, lid and rim.
type MeetingPair struct {
	Name   string       `json:"name" validate:"required,max=60"`
	Outer  *MeetingSide `json:"outer" validate:"required" description:"the part that gives room: the pocket, the rebate; where it grows the gap opens"`
	Inner  *MeetingSide `json:"inner" validate:"required" description:"the part that takes it up: the tenon, the inlay, the panel"`
	Least  *wire.Length `json:"least,omitempty" validate:"omitempty,gte=-0.01,lte=0.1" description:"least clearance at any time; 0 never binds, below 0 allows a press fit; default 0"`
	Most   *wire.Length `json:"most" validate:"required,gte=0,lte=0.1" description:"widest gap that still serves"`
	Season string       `json:"season,omitempty" validate:"omitempty,oneof=together apart" default:"together" description:"apart: one part may still be wet when the other is dry, as a thin inlay in a thick board"`
}

// MeetingSide is a dimension of a part.
type MeetingSide struct {
	Part      string       `json:"part" validate:"required,max=60" description:"name of a part"`
	Dimension string       `json:"dimension" validate:"required,oneof=thickness width length" description:"of the part, which lies across the joint"`
	Over      *wire.Length `json:"over,omitempty" validate:"omitempty,gte=0.0001,lte=12" description:"how much of that dimension takes part, such as the width of a pocket; default: all"`
}

// meetingsOf are the pairs in SI; it tells which of them name no part or no dimension.
func meetingsOf(pairs []MeetingPair, parts []ServicePart) ([]inservice.Meeting, error) {
	numbers := map[string]int{}
	names := make([]string, 0, len(parts))
	for i := range parts {
		numbers[parts[i].Name] = i
		names = append(names, parts[i].Name)
	}
	all := make([]inservice.Meeting, 0, len(pairs))
	var problems []error
	for i := range pairs {
		p := &pairs[i]
		at := "pairs/" + strconv.Itoa(i)
		outer, noOuter := p.Outer.side(parts, numbers, names)
		inner, noInner := p.Inner.side(parts, numbers, names)
		problems = append(problems, wire.Under(at+"/outer", noOuter), wire.Under(at+"/inner", noInner))
		m := inservice.Meeting{Outer: outer, Inner: inner, Play: laminate.Play{Most: p.Most.SI},
			Season: laminate.Season(p.Season == "apart")}
		if p.Least != nil {
			m.Play.Least = p.Least.SI
		}
		all = append(all, m)
	}
	return all, errors.Join(problems...)
}

// side is a side in SI.
func (m *MeetingSide) side(parts []ServicePart, numbers map[string]int, names []string) (inservice.Side, error) {
	i, known := numbers[m.Part]
	if !known {
		detail := "there is no part called " + wire.Quoted(m.Part)
		if near := wire.Nearest(m.Part, names); near != "" {
			detail += "; did you mean " + strconv.Quote(near) + "?"
		}
		return inservice.Side{}, &method.Error{Code: method.Unknown, Input: "part", Detail: detail}
	}
	p := &parts[i]
	if given := map[string]*wire.Length{"thickness": p.Thickness, "width": p.Width,
		"length": p.Length}[m.Dimension]; given == nil {
		return inservice.Side{}, wire.Missing("dimension", "the part "+wire.Quoted(m.Part)+" has no "+m.Dimension)
	}
	side := inservice.Side{Part: i, Dimension: inservice.Dimension(m.Dimension)}
	if m.Over != nil {
		side.Over = m.Over.SI
	}
	return side, nil
}
