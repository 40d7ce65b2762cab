package year

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/drying"
	"latewood/woodphys/inservice"
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// part is a part ready for the physics.
type part struct {
	inservice.Piece
	req    *ServicePart
	id     string
	wood   *shelf.Wood
	factor drying.Factor
}

// parts reads the parts of a request.
type parts struct {
	tables     *shelf.Tables
	notes      *method.Notes
	made       *shelf.Condition // of all parts without their own
	madeAt     map[wood.Wood]quantity.Band[quantity.Moisture]
	transports map[wood.Wood]*drying.Transport
}

func partsOf(t *shelf.Tables, made *shelf.Condition, notes *method.Notes) *parts {
	return &parts{tables: t, notes: notes, made: made, madeAt: map[wood.Wood]quantity.Band[quantity.Moisture]{},
		transports: map[wood.Wood]*drying.Transport{}}
}

// read reads the parts and tells what is wrong with any of them at once; a part of which
// too little is known to look further is nil.
func (a *parts) read(requests []ServicePart) ([]*part, error) {
	problems := []error{ids("parts", len(requests), func(i int) string { return requests[i].ID })}
	all := make([]*part, len(requests))
	for i := range requests {
		p, err := a.part(&requests[i], i)
		problems = append(problems, wire.Under("parts/"+strconv.Itoa(i), err))
		all[i] = p
	}
	return all, errors.Join(problems...)
}

// idle names what has no bearing on the answer: where no year is run, what only a year
// rests on, and in the figures of an assembly what is held.
func idle(requests []ServicePart, year, figures bool, notes *method.Notes) {
	used := slices.Concat([]string{"thickness", "width", "length", "build_condition"}, shelf.Below("wood", shelf.WoodInMovement...),
		shelf.Below("rings", "pith", "readings", "chord", "angle_deg", "angle_sd_deg", "pith_side"))
	if year {
		used = append(used, "finish", "wood/specific_gravity", "wood/drying_factor")
	}
	if !figures {
		used = append(used, "restrained")
	}
	var idle shelf.NotUsed
	for i := range requests {
		idle.Look("parts/"+strconv.Itoa(i), &requests[i], used...)
	}
	idle.Tell(notes)
}

var bareTaken = method.Warning{Code: method.DefaultUsed, Input: "finish", Detail: "no finish is given: both faces are taken as bare"}

// tellBare tells of the parts that live through a year without a finish.
func tellBare(requests []ServicePart, notes *method.Notes) {
	for i := range requests {
		if p := &requests[i]; p.Finish == nil {
			notes.MergeFor("parts/"+strconv.Itoa(i), calledBy(p.Name, p.ID, "part", i), method.Notes{Warnings: []method.Warning{bareTaken}})
		}
	}
}

// ids checks that no two items of a list have the same id.
func ids(list string, count int, id func(int) string) error {
	seen := map[string]int{}
	var wrong []error
	for i := range count {
		own := shelf.IDOf(id(i), i)
		if first, twice := seen[own]; twice {
			wrong = append(wrong, &method.Error{Code: method.Duplicate, Input: list + "/" + strconv.Itoa(i) + "/id", Detail: "the " + list + " " +
				strconv.Itoa(first+1) + " and " + strconv.Itoa(i+1) + " of the list have the same id " + strconv.Quote(own)})
			continue
		}
		seen[own] = i
	}
	return errors.Join(wrong...)
}

// calledBy is what people read of an item: its name, its id, or what it is by its position.
func calledBy(name, id, kind string, i int) string {
	switch {
	case name != "":
		return name
	case id != "":
		return id
	}
	return kind + " " + strconv.Itoa(i+1)
}

// part reads a part; errors are relative to it.
func (a *parts) part(req *ServicePart, i int) (*part, error) {
	var own method.Notes // they are told with the part
	w, noWood := a.tables.WoodOf(req.Wood, &own)
	p := &part{req: req, id: shelf.IDOf(req.ID, i), wood: w, Piece: inservice.Piece{
		Name: calledBy(req.Name, req.ID, "part", i), Width: lengthOf(req.Width), Length: lengthOf(req.Length), Held: req.Held,
		Part: inservice.Part{Thickness: req.Thickness.SI},
	}}
	var noRing, notMade error
	if req.Rings == nil {
		p.Ring = movement.UnknownRing(p.Name, &own)
	} else {
		told := len(own.Warnings)
		p.Ring, noRing = req.Rings.Ring(p.Width, p.Thickness, &own)
		own.Place(told, "rings")
	}
	made := a.made
	if req.Build != nil {
		made = req.Build
		p.MadeAt, notMade = made.Moisture("build_condition", w, &own)
	} else {
		p.MadeAt, notMade = a.shared(w)
	}
	a.notes.MergeFor("parts/"+strconv.Itoa(i), p.Name, own)
	_, noFinish := req.Finish.faces()
	if err := errors.Join(noWood, wire.Under("rings", noRing), notMade, noFinish); err != nil {
		return nil, err
	}
	p.Wood = w.Value
	if made.InAir() {
		p.MadeIn = &made.Settled().Air.Temperature.SI
	}
	return p, nil
}

// shared is the moisture content at the build of all parts without their own.
func (a *parts) shared(w *shelf.Wood) (quantity.Band[quantity.Moisture], error) {
	var of wood.Wood
	if w != nil {
		of = w.Value
	}
	if mc, known := a.madeAt[of]; known {
		return mc, nil
	}
	if a.made == nil {
		return quantity.Band[quantity.Moisture]{}, wire.Missing("/build_condition",
			"build_condition is needed for what has none of its own")
	}
	mc, err := a.made.Moisture("/build_condition", w, a.notes)
	if err != nil {
		return mc, err
	}
	a.madeAt[of] = mc
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
	transport, err := a.transport(p.Wood)
	if err != nil {
		return err
	}
	faces, err := p.req.Finish.faces()
	if err != nil {
		return err
	}
	p.factor = factor
	p.Part = inservice.Part{Transport: transport, Thickness: p.Thickness, Factor: factor.Median,
		FactorSpread: factor.SpreadLog, Faces: faces, Curves: sorption.CurvesOf(&p.Wood)}
	return nil
}

// transport is a wood made ready for diffusion, once for all that is of it.
func (a *parts) transport(w wood.Wood) (*drying.Transport, error) {
	if made := a.transports[w]; made != nil {
		return made, nil
	}
	made, err := drying.NewTransport(w)
	if err == nil {
		a.transports[w] = made
	}
	return made, err
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
	return wire.Under("", err, append(names, ofRoom...)...)
}

// ofRoom are what a request calls the inputs of the room that a year is lived in.
var ofRoom = func() (names [][2]string) {
	for _, n := range roomNames {
		names = append(names, [2]string{"/room/" + n[0], strings.TrimSuffix("/room/"+n[1], "/")})
	}
	return names
}()
