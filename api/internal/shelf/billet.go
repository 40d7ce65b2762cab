package shelf

import (
	"errors"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
)

// Billet is a rough piece to be sawn. A wedge is thinner along one edge, a
// taper thinner at one end.
type Billet struct {
	Wood           *WoodAsked   `json:"wood,omitempty" description:"its name, such as \"black walnut\", or figures of your own, or both"`
	Length         *wire.Length `json:"length,omitempty" validate:"omitempty,gte=0.01,lte=20"`
	Width          *wire.Length `json:"width,omitempty" validate:"omitempty,gte=0.01,lte=5"`
	Thickness      *wire.Length `json:"thickness,omitempty" validate:"omitempty,gte=0.0005,lte=2" description:"at its thickest"`
	ThinEnd        *wire.Length `json:"thin_end,omitempty" validate:"omitempty,gte=0,lte=2" description:"thickness at the thin end of a billet that tapers along its length"`
	ThinEdge       *wire.Length `json:"thin_edge,omitempty" validate:"omitempty,gte=0,lte=2" description:"thickness along the thin edge of a wedge; parts are laid from the thick edge"`
	EndTrim        *wire.Length `json:"end_trim,omitempty" validate:"omitempty,gte=0,lte=5" description:"lost at each end to checks; 10 to 25 mm sealed fresh, 50 to 75 mm sealed late or not (common practice)"`
	EdgeTrim       *wire.Length `json:"edge_trim,omitempty" validate:"omitempty,gte=0,lte=2" description:"lost along each edge to wane, sapwood or straightening"`
	Rings          *Rings       `json:"rings,omitempty" description:"how the annual rings lie on the end grain. Left out: not known"`
	EndSeal        string       `json:"end_seal,omitempty" validate:"omitempty,oneof=sealed_fresh sealed_late bare" description:"how the ends are kept while the wood dries. Left out: not known"`
	StartCondition *Condition   `json:"start_condition,omitempty" description:"moisture content on the day it was stacked. Left out: the published green moisture content of the wood"`
	StackedOn      string       `json:"stacked_on,omitempty" validate:"omitempty,datetime=2006-01-02" description:"day on which it was put to dry"`
}

// Rings is how the annual rings lie.
type Rings struct {
	Angle *float64 `json:"angle_deg,omitempty" validate:"omitempty,gte=0,lte=90" description:"one ring angle for the whole piece: 0 flatsawn, 90 quartersawn"`
}

// Saw is what one cut takes.
type Saw struct {
	Kerf     *wire.Length `json:"kerf" validate:"required,gte=0,lte=0.02" description:"width of wood turned to dust by the resaw cut; make one cut in scrap and measure it"`
	RipKerf  *wire.Length `json:"rip_kerf,omitempty" validate:"omitempty,gte=0,lte=0.02" description:"default: the resaw kerf"`
	Crosscut *wire.Length `json:"crosscut_kerf,omitempty" validate:"omitempty,gte=0,lte=0.02" description:"default: the resaw kerf"`
	Facing   *wire.Length `json:"facing,omitempty" validate:"omitempty,gte=0,lte=0.2" description:"taken off the two outside faces in all before the first cut; default 2 mm"`
	Reface   *wire.Length `json:"reface,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"taken off the billet after every cut; default none"`
	RoughFar bool         `json:"face_2_rough,omitempty" description:"the far face is not finished, so every leaf needs a cut of its own"`
}

// PlatePart is the part to be had from the leaves.
type PlatePart struct {
	Length     *wire.Length `json:"length" validate:"required,gte=0.01,lte=20" description:"of one piece, oversize included"`
	Width      *wire.Length `json:"width" validate:"required,gte=0.005,lte=5" description:"of one piece, oversize included"`
	Sawn       *wire.Length `json:"sawn_thickness,omitempty" validate:"omitempty,gte=0.0002,lte=1" description:"of the leaf as sawn; or give final_thickness with its allowances"`
	Final      *wire.Length `json:"final_thickness,omitempty" validate:"omitempty,gte=0.0002,lte=1"`
	Allowances *Allowances  `json:"allowances,omitempty" description:"over the final thickness"`
	PerSet     *int         `json:"pieces_per_set,omitempty" validate:"omitempty,gte=1,lte=100" default:"2" description:"consecutive leaves that make one set"`
}

// Allowances are what a sawn leaf has over its final thickness.
type Allowances struct {
	CleanupShow *wire.Length `json:"cleanup_show,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"off the show face; default 0.8 mm"`
	CleanupBack *wire.Length `json:"cleanup_back,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"off the back; default as cleanup_show"`
	Wander      *wire.Length `json:"wander,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"of the blade; default 0.5 mm"`
	Flatness    *wire.Length `json:"flatness,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"lost to flattening; default 0.5 mm"`
	SawnAtPct   *float64     `json:"sawn_at_pct,omitempty" validate:"omitempty,gte=0,lte=250" description:"moisture content when sawn; with dried_to_pct and a species it adds the shrinkage still to come"`
	DriedToPct  *float64     `json:"dried_to_pct,omitempty" validate:"omitempty,gte=0,lte=30"`
	RingAngle   *float64     `json:"ring_angle_deg,omitempty" validate:"omitempty,gte=0,lte=90" default:"90" description:"of the rings to the face: 90 quartersawn, whose thickness moves tangentially"`
}

// SpoiledLeaf names a leaf that cannot be used.
type SpoiledLeaf struct {
	Row    *int `json:"row" validate:"required,gte=1,lte=10000" description:"from the thick end"`
	Column *int `json:"column" validate:"required,gte=1,lte=10000" description:"from the thick edge"`
	Leaf   *int `json:"leaf" validate:"required,gte=1,lte=100000" description:"from face 1"`
}

// ResawCaution is the usual one for tall cuts; the machine's manual decides.
var ResawCaution = method.Warning{Code: method.Caution,
	Detail: "a tall cut can close on the blade and a narrow high piece tips: " +
		"use a high fence and a pusher, stop rather than pull back, and follow the machine's manual"}

// Tapers refuses what a billet cannot taper by.
func (b *Billet) Tapers() error {
	var all []error
	for _, thin := range []struct {
		name string
		is   *wire.Length
	}{{"thin_end", b.ThinEnd}, {"thin_edge", b.ThinEdge}} {
		if thin.is != nil && thin.is.SI > b.Thickness.SI {
			all = append(all, &method.Error{Code: method.Contradictory, Input: thin.name,
				Limit: "at most " + b.Thickness.SI.AtMost(b.Thickness.Unit), Detail: thin.name +
					" is thicker than thickness, the thickest place"})
		}
	}
	if b.ThinEnd != nil && b.ThinEdge != nil {
		all = append(all, wire.Contradictory("thin_edge",
			"give thin_end or thin_edge; a billet that tapers both ways is not answered here"))
	}
	return errors.Join(all...)
}

// Fits refuses a part that is larger than the billet between its trims.
func (p *PlatePart) Fits(b *Billet) error {
	var all []error
	for _, one := range []struct {
		name  string
		given *wire.Length
		most  quantity.Length
		more  string
	}{
		{"length", p.Length, b.Length.SI - 2*LengthOrNone(b.EndTrim), "longer than the billet between its trims"},
		{"width", p.Width, b.Width.SI - 2*LengthOrNone(b.EdgeTrim), "wider than the billet between its trims"},
		{"final_thickness", p.Final, b.Thickness.SI, "thicker than the billet"},
		{"sawn_thickness", p.Sawn, b.Thickness.SI, "thicker than the billet"},
	} {
		if one.given == nil || one.most <= 0 ||
			one.given.SI <= one.most+exact.Tiny { // trims that leave nothing are refused as such
			continue
		}
		is, limit := one.given.SI.Over(one.most, one.given.Unit)
		all = append(all, &method.Error{Code: method.Contradictory, Input: one.name, Limit: "at most " + limit,
			Detail: "the part is " + one.more + " (" + is + " against " + limit + ")"})
	}
	return errors.Join(all...)
}

// Measured is the billet in SI.
func (b *Billet) Measured() resaw.Billet {
	return resaw.Billet{
		Length: b.Length.SI, Width: b.Width.SI, Thickness: b.Thickness.SI, ThinEnd: OptionalLength(b.ThinEnd),
		ThinEdge: OptionalLength(b.ThinEdge),
		EndTrim:  LengthOrNone(b.EndTrim), EdgeTrim: LengthOrNone(b.EdgeTrim),
	}
}

// Takes is what the saw takes, with the usual facing in place of one not given.
func (s *Saw) Takes(l *Losses, usual *StandIns, notes *method.Notes) resaw.Saw {
	facing := usual.Or(s.Facing, "facing", l.Facing)
	if s.Facing == nil {
		notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "saw/facing",
			Detail: Spoken(usual.Report, l.Facing) +
				" is taken off the two outside faces together (common practice, no source)"})
	}
	return resaw.Saw{Kerf: s.Kerf.SI, Rip: LengthOr(s.RipKerf, s.Kerf.SI), Crosscut: LengthOr(s.Crosscut, s.Kerf.SI),
		Facing: facing, Reface: LengthOrNone(s.Reface), RoughFar: s.RoughFar}
}

// usualSet is how many leaves make a set unless the request says otherwise.
const usualSet = 2

// LeavesPerSet is how many leaves make a set.
func (p *PlatePart) LeavesPerSet() int {
	if p.PerSet == nil {
		return usualSet
	}
	return *p.PerSet
}
