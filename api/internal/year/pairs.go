package year

import (
	"errors"
	"strconv"

	"latewood/api/internal/wire"
	"latewood/woodphys/inservice"
	"latewood/woodphys/laminate"
	"latewood/woodphys/method"
)

// meetings are the pairs in SI; it tells which of them name no part or no dimension.
func (req *FiguresRequest) meetings() ([]inservice.Meeting, error) {
	numbers := map[string]int{}
	names := make([]string, 0, len(req.Parts))
	for i := range req.Parts {
		numbers[req.Parts[i].Name] = i
		names = append(names, req.Parts[i].Name)
	}
	all := make([]inservice.Meeting, 0, len(req.Pairs))
	var problems []error
	for i := range req.Pairs {
		p := &req.Pairs[i]
		at := "pairs/" + strconv.Itoa(i)
		outer, noOuter := p.Outer.side(req.Parts, numbers, names)
		inner, noInner := p.Inner.side(req.Parts, numbers, names)
		problems = append(problems, wire.Under(at+"/outer", noOuter), wire.Under(at+"/inner", noInner))
		m := inservice.Meeting{Outer: outer, Inner: inner, Play: laminate.Play{Most: p.Most.SI}, Season: laminate.Season(p.Season == "apart")}
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
	if given := map[string]*wire.Length{"thickness": p.Thickness, "width": p.Width, "length": p.Length}[m.Dimension]; given == nil {
		return inservice.Side{}, wire.Missing("dimension", "the part "+wire.Quoted(m.Part)+" has no "+m.Dimension)
	}
	side := inservice.Side{Part: i, Dimension: inservice.Dimension(m.Dimension)}
	if m.Over != nil {
		side.Over = m.Over.SI
	}
	return side, nil
}
