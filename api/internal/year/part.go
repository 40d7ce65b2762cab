package year

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/inservice"
	"latewood/woodphys/quantity"
)

// FinishOn is what is on the two faces of a part.
type FinishOn struct {
	Outside           string   `json:"outside,omitempty" validate:"omitempty,oneof=bare wax oil thin_lacquer lacquer varnish shellac epoxy impermeable" default:"bare" description:"on the outer face; impermeable: glued to something that lets nothing pass"`
	Inside            string   `json:"inside,omitempty" validate:"omitempty,oneof=bare wax oil thin_lacquer lacquer varnish shellac epoxy impermeable" description:"on the other face; default: as outside"`
	OutsideResistance *float64 `json:"outside_resistance_s_per_m,omitempty" validate:"omitempty,gte=0,lte=1e9" description:"your own figure: resistance to vapour, 7.4e-6 over the permeance in kg/(Pa m2 s); 1 US perm is 1.3e5 s/m"`
	InsideResistance  *float64 `json:"inside_resistance_s_per_m,omitempty" validate:"omitempty,gte=0,lte=1e9"`
}

// ServicePart is a part of finished work.
type ServicePart struct {
	Name        string            `json:"name" validate:"required,max=60" description:"no two parts have the same"`
	Wood        *shelf.WoodAsked  `json:"wood,omitempty" description:"its name, or figures of your own"`
	Thickness   *wire.Length      `json:"thickness" validate:"required,gte=0.0005,lte=0.3" description:"between the two faces; of a body carved from the solid the mean"`
	Width       *wire.Length      `json:"width,omitempty" validate:"omitempty,gte=0.0005,lte=5" description:"across the grain"`
	Length      *wire.Length      `json:"length,omitempty" validate:"omitempty,gte=0.0005,lte=12" description:"along the grain"`
	RingAngle   *float64          `json:"ring_angle_deg,omitempty" validate:"omitempty,gte=0,lte=90" description:"of the rings to the wide face: 90 quartersawn, 0 flatsawn; default 45 with a wide band"`
	RingAngleSD *float64          `json:"ring_angle_sd_deg,omitempty" validate:"omitempty,gte=0,lte=20" description:"standard deviation of ring_angle_deg" default:"0"`
	MadeAt      *shelf.Conditions `json:"build_condition,omitempty" description:"moisture content at the build, if it is not that of all parts"`
	Finish      *FinishOn         `json:"finish,omitempty" description:"default: bare"`
	Held        bool              `json:"restrained,omitempty" description:"glued across its grain to something that does not move: a rigid rim, a brace, a breadboard end"`
}

// coats are what is on the two faces, in SI.
func (f *FinishOn) coats() inservice.Coats {
	if f == nil {
		return inservice.Coats{}
	}
	return inservice.Coats{Outside: f.Outside, Inside: f.Inside, OutsideOwn: f.OutsideResistance,
		InsideOwn: f.InsideResistance}
}

// names are what the request calls the inputs of a part that stands at a place.
func (p *ServicePart) names(at string) [][2]string {
	return append(shelf.WoodNames(at), [2]string{at + "made_mc_pct", at + "build_condition"},
		[2]string{at + "drying_factor", at + "drying_factor/median"}, [2]string{at + "max_steps", "/room"})
}

// lengthOf is a length in SI; nil where it is not given.
func lengthOf(l *wire.Length) *quantity.Length {
	if l == nil {
		return nil
	}
	return &l.SI
}
