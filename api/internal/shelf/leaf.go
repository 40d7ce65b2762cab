package shelf

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
)

// LeafBuild is the thickness of a leaf and what it is made of.
type LeafBuild struct {
	Thickness wire.Quantity `json:"thickness" required:"true"`
	Parts     []LeafPart    `json:"parts,omitempty"`
}

// LeafPart is one line of a build-up.
type LeafPart struct {
	Name      string        `json:"name" required:"true"`
	Thickness wire.Quantity `json:"thickness" required:"true"`
}

// Leaf is the sawn thickness: given, or built up from the final one.
func (p *PlatePart) Leaf(l *Losses, w *Wood, usual *StandIns, notes *method.Notes) (quantity.Length, LeafBuild, error) {
	switch {
	case p.Sawn != nil && (p.Final != nil || p.Allowances != nil):
		return 0, LeafBuild{}, wire.Contradictory("sawn_thickness",
			"give sawn_thickness, or final_thickness with its allowances, not both")
	case p.Sawn != nil:
		return p.Sawn.SI, LeafBuild{Thickness: usual.Report.Length(p.Sawn.SI)}, nil
	case p.Final == nil:
		return 0, LeafBuild{}, wire.Missing("sawn_thickness",
			"give sawn_thickness, or final_thickness with its allowances")
	}
	a := p.Allowances
	if a == nil {
		a = &Allowances{}
	}
	over := a.over(l, usual, notes)
	over.Final = p.Final.SI
	drying, err := a.drying(w)
	if err != nil {
		return 0, LeafBuild{}, wire.Under("allowances", err)
	}
	leaf, err := resaw.LeafToSaw(over, drying)
	if err != nil {
		return 0, LeafBuild{}, wire.Under("allowances", err, MovedBetween...)
	}
	notes.Merge(leaf.Notes)
	return leaf.Thickness, LeafBuildOf(&leaf, usual.Report.Length), nil
}

// MovedBetween are the request's names of what a movement moves between.
var MovedBetween = [][2]string{{"from_mc_pct", "sawn_at_pct"}, {"to_mc_pct", "dried_to_pct"}, {"wood", "/wood"}}

// LeafBuildOf tells the build-up of a leaf.
func LeafBuildOf(leaf *resaw.SawnLeaf, length func(quantity.Length) wire.Quantity) LeafBuild {
	build := LeafBuild{Thickness: length(leaf.Thickness)}
	for _, line := range leaf.Parts {
		build.Parts = append(build.Parts, LeafPart{line.Name, length(line.Thickness)})
	}
	return build
}

// over is what a leaf has over its final thickness, with the usual losses in place of
// those not given.
func (a *Allowances) over(l *Losses, usual *StandIns, notes *method.Notes) resaw.Allowances {
	show := usual.Or(a.CleanupShow, "cleanup_show", l.Cleanup)
	back := LengthOr(a.CleanupBack, show)
	if a.CleanupShow == nil {
		back = usual.Or(a.CleanupBack, "cleanup_back", l.Cleanup)
	}
	over := resaw.Allowances{CleanupShow: show, CleanupBack: back,
		Wander: usual.Or(a.Wander, "wander", l.Wander), Flatness: usual.Or(a.Flatness, "flatness", l.Flatness)}
	if words := UsualWords(usual.Report, CleanupLoss(a.CleanupShow, a.CleanupBack, l.Cleanup),
		UsualLoss{a.Wander, l.Wander, "wander"}, UsualLoss{a.Flatness, l.Flatness, "flatness"}); words != "" {
		notes.Warn(method.Warning{Code: method.DefaultUsed, Input: "part/allowances", Detail: words})
	}
	return over
}

// drying is what the leaf still goes through; nil where nothing is said of it.
func (a *Allowances) drying(w *Wood) (*resaw.Drying, error) {
	asked, err := DryingOf(a.SawnAtPct, a.DriedToPct)
	if asked == nil || err != nil {
		return nil, err
	}
	if w == nil {
		return nil, NoWoodToDry()
	}
	asked.Wood, asked.RingAngle = w.Value, 90*quantity.Degree
	if a.RingAngle != nil {
		asked.RingAngle = quantity.Angle(*a.RingAngle) * quantity.Degree
	}
	return asked, nil
}

// DryingOf is the drying of a leaf between two moisture contents, in percent; nil
// where neither is given.
func DryingOf(sawnAt, driedTo *float64) (*resaw.Drying, error) {
	const together = "sawn_at_pct and dried_to_pct go together"
	switch {
	case sawnAt == nil && driedTo == nil:
		return nil, nil //nolint:nilnil // no drying is told
	case sawnAt == nil:
		return nil, wire.Missing("sawn_at_pct", together)
	case driedTo == nil:
		return nil, wire.Missing("dried_to_pct", together)
	case *driedTo > *sawnAt:
		return nil, wire.Contradictory("dried_to_pct",
			"dried_to_pct is wetter than sawn_at_pct; a leaf that will swell needs no allowance for it, leave both out")
	}
	return &resaw.Drying{From: wire.FromPercent(*sawnAt), To: wire.FromPercent(*driedTo)}, nil
}

// NoWoodToDry is the error of a leaf that dries and whose wood is not known.
func NoWoodToDry() error {
	return wire.Missing("/wood", "the shrinkage still to come needs the wood")
}
