package year

import (
	"context"
	"math"
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

// FinishOn is what is on the two faces of a part.
type FinishOn struct {
	Outside           string   `json:"outside,omitempty" validate:"omitempty,oneof=bare wax oil thin_lacquer lacquer varnish shellac epoxy closed" default:"bare" description:"on the outer face; closed: glued to something that lets nothing pass"`
	Inside            string   `json:"inside,omitempty" validate:"omitempty,oneof=bare wax oil thin_lacquer lacquer varnish shellac epoxy closed" description:"on the other face; default: as outside"`
	OutsideResistance *float64 `json:"outside_resistance_s_per_m,omitempty" validate:"omitempty,gte=0,lte=1e9" description:"your own figure: resistance to vapour, 7.4e-6 over the permeance in kg/(Pa m2 s); 1 US perm is 1.3e5 s/m"`
	InsideResistance  *float64 `json:"inside_resistance_s_per_m,omitempty" validate:"omitempty,gte=0,lte=1e9"`
}

// ServicePart is a part of finished work.
type ServicePart struct {
	Name        string            `json:"name" validate:"required,max=60" description:"no two parts have the same"`
	Species     string            `json:"species,omitempty" validate:"max=100" description:"id or name; or give your own figures as wood"`
	Wood        *shelf.OwnWood    `json:"wood,omitempty"`
	Thickness   *wire.Length      `json:"thickness" validate:"required,gte=0.0005,lte=0.3" description:"between the two faces; of a body carved from the solid the mean"`
	Width       *wire.Length      `json:"width,omitempty" validate:"omitempty,gte=0.0005,lte=5" description:"across the grain"`
	Length      *wire.Length      `json:"length,omitempty" validate:"omitempty,gte=0.0005,lte=12" description:"along the grain"`
	RingAngle   *float64          `json:"ring_angle_deg,omitempty" validate:"omitempty,gte=0,lte=90" description:"of the rings to the wide face: 90 quartersawn, 0 flatsawn; default 45 with a wide band"`
	RingAngleSD *float64          `json:"ring_angle_sd_deg,omitempty" validate:"omitempty,gte=0,lte=20" description:"standard deviation of ring_angle_deg" default:"0"`
	MadeAt      *shelf.Conditions `json:"made_at,omitempty" description:"moisture content at the build, if it is not that of all parts"`
	Finish      *FinishOn         `json:"finish,omitempty" description:"default: bare"`
	Factor      *shelf.OwnFactor  `json:"drying_factor,omitempty" description:"in place of that of the tables"`
	Held        bool              `json:"held,omitempty" description:"glued across its grain to something that does not move: a rigid rim, a brace, a breadboard end"`
}

// FinishUsed is a finish as the answer took it.
type FinishUsed struct {
	Name       string  `json:"name" required:"true"`
	Resistance float64 `json:"resistance_s_per_m" required:"true"`
	Low        float64 `json:"low_s_per_m" required:"true" description:"5 % of cases lie below"`
	High       float64 `json:"high_s_per_m" required:"true" description:"5 % of cases lie above"`
	Source     string  `json:"source" required:"true"`
}

func describeFinish(f inservice.Finish) FinishUsed {
	spread := math.Exp(quantity.Z90 * f.SpreadLog)
	source := f.Source
	if f.Checked != "" {
		source += " (" + string(f.Checked) + ")"
	}
	return FinishUsed{f.Name, f.Resistance, f.Resistance / spread, f.Resistance * spread, source}
}

// finishes are those of the two faces, outside first; errors point below "finish".
func (p *ServicePart) finishes() (faces [2]inservice.Finish, err error) {
	f := p.Finish
	if f == nil {
		f = &FinishOn{}
	}
	outside, inside, insideOwn := f.Outside, f.Inside, f.InsideResistance
	if outside == "" {
		outside = "bare"
	}
	if inside == "" {
		inside = outside
		if insideOwn == nil {
			insideOwn = f.OutsideResistance
		}
	}
	for i, one := range []struct {
		name string
		own  *float64
	}{{outside, f.OutsideResistance}, {inside, insideOwn}} {
		if one.own != nil {
			faces[i], err = inservice.OwnFinish(one.name, *one.own)
		} else {
			faces[i], err = inservice.FinishNamed(one.name)
		}
		if err != nil {
			return faces, wire.Under("finish", err)
		}
	}
	return faces, nil
}

// assembly is the work on the parts of one request.
type assembly struct {
	tables     *shelf.Tables
	notes      *method.Notes
	made       *shelf.Conditions
	madeAt     map[bool]quantity.Band[quantity.Moisture] // by woods rich in extractives
	transports map[wood.Wood]*drying.Transport
	season     inservice.Season
}

func assemble(ctx context.Context, t *shelf.Tables, made *shelf.Conditions, notes *method.Notes) *assembly {
	return &assembly{tables: t, notes: notes, made: made, madeAt: map[bool]quantity.Band[quantity.Moisture]{}, transports: map[wood.Wood]*drying.Transport{},
		season: inservice.Season{Work: shelf.Simulation(ctx)}}
}

// part is a part ready for the physics.
type part struct {
	req       *ServicePart
	wood      *shelf.Wood
	made      quantity.Band[quantity.Moisture]
	fromAir   bool // made is the equilibrium of an air
	angle, sd quantity.Angle
}

// usualAngle stands for a ring angle that was not given; its spread is that of an
// angle of which nothing is known.
const (
	usualAngle       = 45 * quantity.Degree
	usualAngleSpread = 26 * quantity.Degree
)

// named checks that no two parts have the same name.
func named(parts []ServicePart) error {
	seen := map[string]int{}
	for i := range parts {
		if first, twice := seen[parts[i].Name]; twice {
			return wire.Contradictory("parts/"+strconv.Itoa(i)+"/name", "parts "+strconv.Itoa(first)+" and "+strconv.Itoa(i)+" have the same name")
		}
		seen[parts[i].Name] = i
	}
	return nil
}

// prepare reads a part; errors are relative to it.
func (a *assembly) prepare(req *ServicePart) (*part, error) {
	w, err := a.tables.WoodOf(req.Species, req.Wood, a.notes)
	if err != nil {
		return nil, err
	}
	p := &part{req: req, wood: w, angle: usualAngle, sd: usualAngleSpread}
	switch {
	case req.RingAngle != nil:
		p.angle, p.sd = quantity.Angle(*req.RingAngle)*quantity.Degree, 0
		if req.RingAngleSD != nil {
			p.sd = quantity.Angle(*req.RingAngleSD) * quantity.Degree
		}
	case req.RingAngleSD != nil:
		return nil, wire.Contradictory("ring_angle_sd_deg", "ring_angle_sd_deg goes with ring_angle_deg")
	default:
		a.notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "ring_angle_deg", Detail: "the ring angle of " + req.Name + " is taken as 45 degrees, give or take 26"})
	}
	if req.MadeAt != nil {
		p.fromAir = req.MadeAt.Air != nil
		p.made, err = req.MadeAt.Moisture("made_at", w.Value.LowerEMC, a.notes)
		return p, err
	}
	p.fromAir = a.made.Air != nil
	made, known := a.madeAt[w.Value.LowerEMC]
	if !known {
		if made, err = a.made.Moisture("made_at", w.Value.LowerEMC, a.notes); err != nil {
			return nil, ofRequest(err)
		}
		a.madeAt[w.Value.LowerEMC] = made
	}
	p.made = made
	return p, nil
}

// ofRequest says that an error speaks of a member of the whole request, not of a
// part.
func ofRequest(err error) error {
	domain, is := wire.AsDomain(err)
	if !is {
		return err
	}
	moved := *domain
	moved.Input = "/" + strings.TrimPrefix(moved.Input, "/")
	return &moved
}

// through makes the part ready for the year of a room.
func (a *assembly) through(p *part) (inservice.Part, drying.Factor, error) {
	var out inservice.Part
	if _, err := p.wood.BasicGravity(a.notes); err != nil {
		return out, drying.Factor{}, wire.Under("", err, [2]string{"specific_gravity", "wood/specific_gravity"})
	}
	factor, err := drying.FactorOf(&p.wood.Value, p.req.Thickness.SI, p.angle, p.req.Factor.Given())
	if err != nil {
		return out, factor, err
	}
	a.notes.Merge(factor.Notes)
	kind := p.wood.Value
	transport := a.transports[kind]
	if transport == nil {
		if transport, err = drying.NewTransport(kind); err != nil {
			return out, factor, wire.Under("", err, [2]string{"specific_gravity", "wood/specific_gravity"}, [2]string{"fibre_saturation_pct", "wood/fibre_saturation_pct"})
		}
		a.transports[kind] = transport
	}
	faces, err := p.req.finishes()
	if err != nil {
		return out, factor, err
	}
	return inservice.Part{Transport: transport, Thickness: p.req.Thickness.SI, Factor: factor.Median, FactorSpread: factor.SpreadLog, Faces: faces, LowerEMC: p.wood.Value.LowerEMC}, factor, nil
}

// partError points at the members of a part.
func partError(p *part, err error) error {
	if p.req.Wood == nil {
		err = wire.Under("", err, [2]string{"wood", "species"})
	}
	return wire.Under("", err, [2]string{"made_mc_pct", "made_at"}, [2]string{"radial_pct", "wood/radial_shrinkage_pct"}, [2]string{"tangential_pct", "wood/tangential_shrinkage_pct"},
		[2]string{"fibre_saturation_pct", "wood/fibre_saturation_pct"}, [2]string{"drying_factor", "drying_factor/median"}, [2]string{"max_steps", "/room"})
}

// partSize is one of the sizes of a part and how it lies in the wood.
type partSize struct {
	name      string
	size      quantity.Length
	direction movement.Direction
}

// dimensions are those that were given.
func (p *part) dimensions() []partSize {
	all := []partSize{{"thickness", p.req.Thickness.SI, movement.ThicknessAt(p.angle, p.sd)}}
	if p.req.Width != nil {
		all = append(all, partSize{"width", p.req.Width.SI, movement.WidthAt(p.angle, p.sd)})
	}
	if p.req.Length != nil {
		all = append(all, partSize{"length", p.req.Length.SI, movement.Longitudinal()})
	}
	return all
}
