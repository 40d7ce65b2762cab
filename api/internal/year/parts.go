package year

import (
	"errors"
	"strconv"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
	"latewood/woodphys/inservice"
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// part is a part ready for the physics.
type part struct {
	inservice.Piece
	req    *ServicePart
	wood   *shelf.Wood
	factor drying.Factor
}

// parts reads the parts of a request.
type parts struct {
	tables     *shelf.Tables
	notes      *method.Notes
	made       *shelf.Conditions                         // of all parts without their own
	madeAt     map[bool]quantity.Band[quantity.Moisture] // by woods rich in extractives
	transports map[wood.Wood]*drying.Transport
}

func partsOf(t *shelf.Tables, made *shelf.Conditions, notes *method.Notes) *parts {
	return &parts{tables: t, notes: notes, made: made, madeAt: map[bool]quantity.Band[quantity.Moisture]{},
		transports: map[wood.Wood]*drying.Transport{}}
}

// read reads the parts and tells what is wrong with any of them at once; a part of which
// too little is known to look further is nil.
func (a *parts) read(requests []ServicePart) ([]*part, error) {
	problems := []error{named(requests)}
	all := make([]*part, len(requests))
	for i := range requests {
		p, err := a.part(&requests[i])
		problems = append(problems, wire.Under("parts/"+strconv.Itoa(i), err))
		all[i] = p
	}
	return all, errors.Join(problems...)
}

// named checks that no two parts have the same name.
func named(requests []ServicePart) error {
	seen := map[string]int{}
	for i := range requests {
		if first, twice := seen[requests[i].Name]; twice {
			return wire.Contradictory("parts/"+strconv.Itoa(i)+"/name",
				"parts "+strconv.Itoa(first)+" and "+strconv.Itoa(i)+" have the same name")
		}
		seen[requests[i].Name] = i
	}
	return nil
}

// part reads a part; errors are relative to it.
func (a *parts) part(req *ServicePart) (*part, error) {
	w, err := a.tables.WoodOf(req.Wood, a.notes)
	if err != nil {
		return nil, err
	}
	p := &part{req: req, wood: w, Piece: inservice.Piece{
		Name: req.Name, Wood: w.Value, Width: lengthOf(req.Width), Length: lengthOf(req.Length), Held: req.Held,
		Part: inservice.Part{Thickness: req.Thickness.SI},
	}}
	switch {
	case req.RingAngle != nil:
		p.Ring.Angle = quantity.Angle(*req.RingAngle) * quantity.Degree
		if req.RingAngleSD != nil {
			p.Ring.SD = quantity.Angle(*req.RingAngleSD) * quantity.Degree
		}
	case req.RingAngleSD != nil:
		return nil, wire.Contradictory("ring_angle_sd_deg", "ring_angle_sd_deg goes with ring_angle_deg")
	default:
		p.Ring = movement.UnknownRing(req.Name, a.notes)
	}
	made, rich := a.made, w.Value.LowerEMC
	if req.MadeAt != nil {
		made = req.MadeAt
		p.MadeAt, err = made.Moisture("build_condition", rich, a.notes)
	} else if p.MadeAt, err = a.shared(rich); err != nil {
		return nil, err
	}
	if made.InAir() {
		p.MadeIn = &made.Settled().Air.Temperature.SI
	}
	return p, err
}

// shared is the moisture content at the build of all parts without their own.
func (a *parts) shared(rich bool) (quantity.Band[quantity.Moisture], error) {
	if mc, known := a.madeAt[rich]; known {
		return mc, nil
	}
	mc, err := a.made.Moisture("build_condition", rich, a.notes)
	if err != nil {
		return mc, wire.OfRequest(err)
	}
	a.madeAt[rich] = mc
	return mc, nil
}

// simulable makes the parts ready for the year of a room, and tells what stands against
// that in any of them.
func (a *parts) simulable(all []*part) error {
	var problems []error
	for i, p := range all {
		if p != nil {
			at := "parts/" + strconv.Itoa(i) + "/"
			problems = append(problems, wire.Under("", wire.Under(strings.TrimSuffix(at, "/"), a.through(p)),
				p.req.names(at)...))
		}
	}
	return errors.Join(problems...)
}

// through makes the part ready for the year of a room.
func (a *parts) through(p *part) error {
	if _, err := p.wood.BasicGravity(&p.Notes); err != nil {
		return err
	}
	factor, err := drying.FactorOf(&p.Wood, p.Thickness, p.Ring.Angle, p.req.Wood.DryingFactor())
	if err != nil {
		return err
	}
	p.Notes.Merge(factor.Notes)
	transport := a.transports[p.Wood]
	if transport == nil {
		if transport, err = drying.NewTransport(p.Wood); err != nil {
			return err
		}
		a.transports[p.Wood] = transport
	}
	faces, err := p.req.Finish.coats().Faces()
	if err != nil {
		return wire.Under("finish", err)
	}
	p.factor = factor
	p.Part = inservice.Part{Transport: transport, Thickness: p.Thickness, Factor: factor.Median,
		FactorSpread: factor.SpreadLog, Faces: faces, LowerEMC: p.Wood.LowerEMC}
	return nil
}

// pieces are the parts as the physics takes them.
func pieces(all []*part) []inservice.Piece {
	out := make([]inservice.Piece, 0, len(all))
	for _, p := range all {
		out = append(out, p.Piece)
	}
	return out
}

// pointed points an error of the physics at the members of the request.
func pointed(err error, requests []ServicePart) error {
	var names [][2]string
	for i := range requests {
		names = append(names, requests[i].names("parts/"+strconv.Itoa(i)+"/")...)
	}
	return wire.Under("", err, names...)
}
