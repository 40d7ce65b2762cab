package year

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
)

// ServicePart is a part of finished work.
type ServicePart struct {
	ID        string           `json:"id,omitempty" validate:"omitempty,id" description:"yours, by which pairs and the answer call the part; no two parts have the same. Left out: its position in the list, such as \"1\""`
	Name      string           `json:"name,omitempty" validate:"max=100" description:"for people; given back as it is"`
	Wood      *shelf.WoodAsked `json:"wood,omitempty" description:"its name, or figures of your own"`
	Thickness *wire.Length     `json:"thickness" validate:"required,gte=0.0005,lte=0.3" description:"between the two faces; of a body carved from the solid the mean"`
	Width     *wire.Length     `json:"width,omitempty" validate:"omitempty,gte=0.0005,lte=5" description:"across the grain. Left out: nothing is told of it"`
	Length    *wire.Length     `json:"length,omitempty" validate:"omitempty,gte=0.0005,lte=12" description:"along the grain. Left out: nothing is told of it"`
	Rings     *shelf.Rings     `json:"rings,omitempty" description:"how the growth rings lie in the part, seen on the end of its grain; only their angle to the wide face counts here. Left out: an angle of 45 degrees with a wide band"`
	Build     *shelf.Condition `json:"build_condition,omitempty" description:"condition of this part at the build. Left out: that of all parts"`
	Finish    *Finishes        `json:"finish,omitempty" description:"what is on the faces of the part: a finish for both, or one for each. Left out: bare"`
	Held      bool             `json:"restrained,omitempty" description:"the part is glued across its grain to something that does not move: a rigid rim, a brace, a breadboard end"`
}

// names are what the request calls the inputs of a part that stands at a place.
func (p *ServicePart) names(at string) [][2]string {
	built := "/build_condition" // that of all parts
	if p.Build != nil {
		built = at + "build_condition"
	}
	return append(shelf.WoodNames(at), [2]string{at + "made_mc_pct", built},
		[2]string{at + "drying_factor", at + "wood/drying_factor/value"}, [2]string{at + "max_steps", "/room"},
		[2]string{at + "ring_angle_deg", at + "rings"}, [2]string{at + "ring_angle_sd_deg", at + "rings/angle_sd_deg"})
}

// lengthOf is a length in SI; nil where it is not given.
func lengthOf(l *wire.Length) *quantity.Length {
	if l == nil {
		return nil
	}
	return &l.SI
}
