package laminate

import (
	"errors"
	"math"
	"strconv"

	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/section"
	"latewood/woodphys/sorption"
)

// Stack is a panel with what is asked of it besides.
type Stack struct {
	Panel
	GlueTold bool // the glue is the caller's
	// StripRatio is the stiffness of the upper of two layers over that of the lower, across
	// the grain, 0.01 to 100; 0 takes that of the woods.
	StripRatio float64
}

// Check tells what of a stack does not go together; its layers need their grain only.
//
// Errors: contradictory for glue of one layer, and for a strip that is not that of two
// layers with the grain along the length.
// Accuracy: exact.
// Source: the meaning of both.
func (s *Stack) Check() error {
	var glue, strip error
	if len(s.Layers) < 2 && s.GlueTold {
		glue = &method.Error{Code: method.Contradictory, Input: "glue", Detail: "one layer has no glue line"}
	}
	if s.StripRatio != 0 && !s.isStrip() {
		strip = &method.Error{Code: method.Contradictory, Input: "strip",
			Detail: "the strip is that of two layers, both with the grain along the length (an angle of 0 or 180 degrees)"}
	}
	return errors.Join(glue, strip)
}

// isStrip reports two layers, both with the grain along the length.
func (s *Stack) isStrip() bool {
	for i := range s.Layers {
		if turned := tidy(math.Abs(s.Layers[i].Grain.Degrees())); turned != 0 && turned != 180 {
			return false
		}
	}
	return len(s.Layers) == 2
}

// Sense is how sure a bend is of its direction.
type Sense string

// Senses of a bend.
const (
	StaysStraight  Sense = "straight"
	EitherWay      Sense = "either"   // the band holds both ways, and neither is worth telling
	ProbablyHollow Sense = "probably" // the band holds both ways
	Hollow         Sense = "hollow"
)

// Tendency is which way a panel bends.
type Tendency struct {
	Sense Sense
	Above bool // hollow above; false: below, or no direction
}

// undecidedShare is the share of its band below which a bend has no direction
// worth telling. Own choice.
const undecidedShare = 0.2

func tendency(b quantity.Band[quantity.Length]) Tendency {
	switch {
	case math.Abs(float64(b.Value)) < float64(section.StillFlat):
		return Tendency{Sense: StaysStraight}
	case b.Low < 0 && b.High > 0 && math.Abs(float64(b.Value)) < undecidedShare*float64(b.High-b.Low):
		return Tendency{Sense: EitherWay}
	case b.Low < 0 && b.High > 0:
		return Tendency{ProbablyHollow, b.Value > 0}
	}
	return Tendency{Hollow, b.Value > 0}
}

// Glued is what becomes of a stack.
type Glued struct {
	Warped
	Stacked       []Layer // as they were computed with
	Across, Along Tendency
	Twists        bool
	Strip         *PlainStrip // only for two layers with the grain along the length
	Notes         method.Notes
}

// PlainStrip is two layers across the width alone, as for a cap on a body.
type PlainStrip struct {
	Pair
	Ratio float64 // stiffness of the upper layer over the lower
}

// GlueUp returns what becomes of a stack that was glued flat when every layer has come to
// its later moisture content, and for two layers with the grain along the length the plain
// strip beside it.
//
// Errors: as Stack.Check, Bend, and CapAndBody under layers/0/ and layers/1/.
// Accuracy: as Bend and CapAndBody; the errors of one piece in two airs as
// sorption.SamePiece.
// Source: Bend, CapAndBody.
func GlueUp(s Stack) (Glued, error) {
	if err := s.Check(); err != nil {
		return Glued{}, err
	}
	layers := make([]Layer, len(s.Layers))
	copy(layers, s.Layers)
	for i := range layers {
		if l := &layers[i]; l.TwoAirs {
			l.AtGlueUp, l.Later = sorption.SamePiece(l.AtGlueUp, l.Later)
		}
	}
	s.Layers = layers
	warped, err := Bend(s.Panel)
	if err != nil {
		return Glued{}, err
	}
	out := Glued{Warped: warped, Stacked: layers, Across: tendency(warped.Cup), Along: tendency(warped.Bow),
		Notes: warped.Notes}
	out.Twists = math.Abs(float64(warped.CornerLift.Value)) >= float64(section.StillFlat)
	s.freeDifferences(&out)
	if s.isStrip() {
		if out.Strip, err = s.strip(); err != nil {
			return Glued{}, err
		}
		out.Notes.Merge(ofStrip(out.Strip.Notes))
	}
	s.noteDeflection(&out)
	if len(layers) > 1 {
		for i := range layers {
			NoteGlued(layers[i].AtGlueUp.Value, "layers/"+strconv.Itoa(i)+"/at_glue_up_mc_pct", &out.Notes)
		}
	}
	return out, nil
}

// Moisture contents to which usual glues hold well, and from which they do not. Common
// practice, no source: makers of glues name 6 to 15 %MC or less.
const (
	wetForGlue    = 15 * quantity.PercentMC
	tooWetForGlue = 20 * quantity.PercentMC
)

// NoteGlued warns of wood that is too wet to be glued at the moisture content mc (0 to 2.5), which
// the caller knows by the name input.
//
// Accuracy: that of a rule of the trade. Source: common practice, no source.
func NoteGlued(mc quantity.Moisture, input string, n *method.Notes) {
	const wait = "let it dry to the room it will live in before it is glued"
	switch {
	case mc > tooWetForGlue:
		n.Warn(method.Warning{Code: method.Caution, Method: panelRow.ID, Input: input,
			Detail: "too wet to be glued: usual glues ask for at most about 15 % and do not hold above about 20 %, and the joint is torn as the wood dries (common practice); " + wait})
	case mc > wetForGlue:
		n.Warn(method.Warning{Code: method.Caution, Method: panelRow.ID, Input: input,
			Detail: "wet to be glued: usual glues ask for at most about 15 % (common practice), and the joint is strained as the wood dries; " + wait})
	}
}

// freeDifferences fills in by how much the layers at each glue line would part.
func (s *Stack) freeDifferences(out *Glued) {
	for i := range out.GlueLines {
		below, above := s.free(i, &out.Layers[i]), s.free(i+1, &out.Layers[i+1])
		for c, to := range []*quantity.Band[quantity.Length]{&out.GlueLines[i].FreeLength, &out.GlueLines[i].FreeWidth} {
			size, d := [...]quantity.Length{s.Length, s.Width}[c], minus(above[c], below[c])
			*to = quantity.Band[quantity.Length]{Value: size * quantity.Length(d.Value), Low: size * quantity.Length(d.Low),
				High: size * quantity.Length(d.High)}
		}
	}
}

// free is the change of a layer along the length and the width of the panel, had
// it not been glued.
func (s *Stack) free(i int, k *Kept) [2]quantity.Band[float64] {
	sin, cos := math.Sincos(float64(s.Layers[i].Grain))
	mix := func(along, across float64) quantity.Band[float64] {
		v := along*k.Along.Value + across*k.Across.Value
		return quantity.Band[float64]{
			Value: v,
			Low:   v - math.Hypot(along*(k.Along.Value-k.Along.Low), across*(k.Across.Value-k.Across.Low)),
			High:  v + math.Hypot(along*(k.Along.High-k.Along.Value), across*(k.Across.High-k.Across.Value)),
		}
	}
	return [2]quantity.Band[float64]{mix(cos*cos, sin*sin), mix(sin*sin, cos*cos)}
}

// strip is the plain strip of two layers beside the panel.
func (s *Stack) strip() (*PlainStrip, error) {
	var members [2]Member
	for i := range members {
		l := &s.Layers[i]
		across, err := AcrossGrain(l.Elastic, l.Ring)
		if err != nil {
			return nil, method.Below(err, "layers/"+strconv.Itoa(i))
		}
		members[i] = Member{Wood: l.Wood, Direction: movement.WidthAt(l.Ring, 0),
			Strip: Strip{Thickness: l.Thickness, Modulus: across.Modulus}, From: l.AtGlueUp, To: l.Later}
	}
	body, top := &members[0], &members[1]
	if s.StripRatio != 0 {
		top.Strip.Modulus = body.Strip.Modulus * quantity.Pressure(s.StripRatio)
	}
	pair, err := CapAndBody(*top, *body, s.Width)
	if err != nil {
		return nil, method.Renamed(err, layerNames...)
	}
	pair.Notes = pair.Notes.Renamed(layerNames...)
	return &PlainStrip{pair, float64(top.Strip.Modulus / body.Strip.Modulus)}, nil
}

// ofStrip are the notes of the plain strip, of whose layers only that is said which the panel
// does not say.
func ofStrip(n method.Notes) method.Notes {
	out := method.Notes{Basis: n.Basis}
	for _, w := range n.Warnings {
		if w.Method == stripRow.ID || w.Method == pairRow.ID {
			out.Warn(w)
		}
	}
	return out
}

// layerNames are the body and the cap by the layers that they are.
var layerNames = [][2]string{{"body/", "layers/0/"}, {"cap/", "layers/1/"}}

// noteDeflection warns where the theory of small deflection is left.
func (s *Stack) noteDeflection(out *Glued) {
	thick := quantity.Length(0)
	for i := range s.Layers {
		thick += s.Layers[i].Thickness
	}
	large := func(l quantity.Length) bool { return math.Abs(float64(l)) > float64(thick) }
	if large(out.Bow.Value) || large(out.Cup.Value) || large(out.CornerLift.Value) {
		out.Notes.Warn(method.Warning{Code: method.OutsideFitted, Method: panelRow.ID, Input: "length",
			Detail: "the panel bends by more than it is thick; where it bends both ways or twists, so large a deflection is " +
				"less than told"})
	}
}
