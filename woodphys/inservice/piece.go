package inservice

import (
	"strconv"
	"strings"

	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Piece is a part of finished work with its sizes and how it was built.
type Piece struct {
	Name string // for people
	Wood wood.Wood
	// Part is what runs through a year; of a piece that is at rest only its thickness is
	// needed.
	Part
	Width, Length *quantity.Length // across and along the grain, 1 micrometre to 1 km; nil where they are not asked about
	Ring          movement.Ring    // to the wide face
	MadeAt        quantity.Band[quantity.Moisture]
	// MadeIn is the temperature of the air that MadeAt is the equilibrium of; nil where it
	// was told otherwise.
	MadeIn *quantity.Temperature
	Held   bool // glued across its grain to something that does not move
	// Driest and Wettest are where the piece comes to rest, for Figures without a room; in
	// airs if InAirs.
	Driest, Wettest quantity.Band[quantity.Moisture]
	InAirs          bool
	// Notes are what these figures rest on; they are told with the piece.
	Notes method.Notes
}

// Dimension is one of the sizes of a piece.
type Dimension string

// The dimensions.
const (
	Thick Dimension = "thickness"
	Wide  Dimension = "width"
	Long  Dimension = "length"
)

// lying is a dimension of a piece, and how it lies in the wood.
type lying struct {
	name      Dimension
	size      quantity.Length
	direction movement.Direction
}

// names are the inputs of its movement by what they are of the piece, and of where it comes
// to rest.
func (l *lying) names(driest, wettest string) [][2]string {
	return [][2]string{{"dimension", string(l.name)}, {"first_mc_pct", driest}, {"second_mc_pct", wettest}}
}

// dimensions are those that are asked about.
func (p *Piece) dimensions() []lying {
	all := []lying{{Thick, p.Thickness, movement.ThicknessAt(p.Ring.Angle, p.Ring.SD)}}
	if p.Width != nil {
		all = append(all, lying{Wide, *p.Width, movement.WidthAt(p.Ring.Angle, p.Ring.SD)})
	}
	if p.Length != nil {
		all = append(all, lying{Long, *p.Length, movement.Longitudinal()})
	}
	return all
}

// ofPart says that an error speaks of one of several parts, or of the room.
func ofPart(err error, i int) error { return method.EachInput(err, partInput(i)) }

// partInput is what an input of one of several parts is called beside those of the others;
// those of the room are of no part.
func partInput(i int) func(string) string {
	return func(input string) string {
		if strings.HasPrefix(input, "/") {
			return input
		}
		return strings.TrimSuffix("parts/"+strconv.Itoa(i)+"/"+input, "/")
	}
}
