package shelf

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/plan"
)

// LeafBuild is the thickness of a leaf and what it is made of.
type LeafBuild struct {
	Thickness wire.Quantity   `json:"thickness" required:"true" description:"as it leaves the saw"`
	Terms     []ThicknessTerm `json:"terms,omitempty" description:"what adds up to it. Left out where the sawn thickness was given"`
}

// ThicknessTerm is one line of a build-up.
type ThicknessTerm struct {
	Kind      string        `json:"kind" required:"true" enum:"final_thickness,cleanup_show,cleanup_back,wander,flattening,oversize,rounding,sawn_thickness,thick_and_thin" description:"what it is for; oversize is for the shrinkage still to come, rounding up to the inch_fraction that a fence is set to"`
	Thickness wire.Quantity `json:"thickness" required:"true" description:"of this line"`
}

// LeafBuildOf tells the build-up of a leaf.
func LeafBuildOf(leaf *resaw.SawnLeaf, length func(quantity.Length) wire.Quantity) LeafBuild {
	build := LeafBuild{Thickness: length(leaf.Thickness)}
	for _, line := range leaf.Parts {
		kind := line.Name
		switch kind {
		case "flatness":
			kind = "flattening"
		case "final":
			kind = "final_thickness"
		}
		build.Terms = append(build.Terms, ThicknessTerm{kind, length(line.Thickness)})
	}
	return build
}

// Leaf is the sawn thickness of a leaf: given, or built up from the final one with what
// the saw leaves and what drying takes; drying is nil where nothing is said of it.
func (r *PartRead) Leaf(saw *SawRead, drying *resaw.Drying) (resaw.SawnLeaf, error) {
	if r.Sawn > 0 {
		return resaw.SawnLeaf{Thickness: r.Sawn}, nil
	}
	return resaw.LeafToSaw(resaw.Allowances{Final: r.Final, CleanupShow: saw.CleanupShow, CleanupBack: saw.CleanupBack,
		Wander: saw.Wander, Flatness: r.Flattening}, drying)
}

// Shrinks is what the leaves of a part still go through once they are sawn of a billet of
// that wood, found at a place such as billets/0; nil where nothing is said of it. The ring
// angle is left out. Errors point below the part.
func (p *Part) Shrinks(of *Billet, at string, w *Wood, notes *method.Notes) (*resaw.Drying, error) {
	switch {
	case p.FinalCondition == nil:
		return nil, nil //nolint:nilnil // no drying is told
	case of.Condition == nil:
		return nil, wire.Missing("/"+at+"/condition",
			"the shrinkage still to come needs the condition of the billet when it is sawn")
	case w == nil:
		return nil, NoWoodToDry(at)
	}
	from, err := of.Condition.Value("/"+at+"/condition", w, notes)
	if err != nil {
		return nil, err
	}
	to, err := p.FinalCondition.Value("final_condition", w, notes)
	return &resaw.Drying{From: from, To: to, Wood: w.Value}, err
}

// Swells is the error of a part that settles wetter than its billet is sawn, which is at from.
func Swells(from quantity.Moisture) error {
	return wire.TooWet("final_condition",
		"final_condition is wetter than the condition of the billet; a leaf that will swell needs no allowance for it, "+
			"leave final_condition out", from)
}

// NoWoodToDry is the error of a leaf that dries and whose wood is not known; at is the
// place of its billet.
func NoWoodToDry(at string) error {
	return wire.Missing("/"+at+"/wood", "the shrinkage still to come needs the wood")
}

// MovedBetween are the request's names of what a movement moves between; at is the place of
// the billet.
func MovedBetween(at string) [][2]string {
	names := [][2]string{{"from_mc_pct", "/" + at + "/condition"}, {"to_mc_pct", "final_condition"}, {"wood", "/" + at + "/wood"}}
	for _, one := range WoodNames("") {
		names = append(names, [2]string{one[0], "/" + at + "/" + one[1]})
	}
	return names
}

// LeafNames are the request's names of what a leaf is built up from, of one billet at that
// place, below its part.
func LeafNames(at string) [][2]string {
	return append(MovedBetween(at), [2]string{"final", "final_thickness"}, [2]string{"flatness", "flattening"},
		[2]string{"cleanup_show", "/saw/cleanup_show"}, [2]string{"cleanup_back", "/saw/cleanup_back"},
		[2]string{"wander", "/saw/wander"}, [2]string{"oversize", "final_condition"},
		[2]string{"ring_angle_deg", "shrinkage_ring_angle_deg"})
}

// RingsOf is a billet of which only the section and its rings are told, as the planner takes
// them. Errors and warnings point below the billet.
func RingsOf(b *Billet, notes *method.Notes) (plan.Billet, error) {
	one := plan.Billet{Width: b.Width.SI, Thickness: b.Thickness.SI, WidthEnd: OptionalLength(b.EndWidth),
		ThicknessEnd: OptionalLength(b.EndThickness), ThicknessFarEdge: OptionalLength(b.FarThickness)}
	if b.Rings == nil {
		return one, nil
	}
	var found method.Notes
	var err error
	one.Pith, one.RingAngle, err = b.Rings.Found(b.Width.SI, &found)
	notes.MergeFor("rings", "", found)
	return one, wire.Under("rings", err)
}
