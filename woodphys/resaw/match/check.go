package match

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/exact"
)

// stackOf checks and returns the faces of all leaves.
func stackOf(in *Input, notes *method.Notes) ([]resaw.LeafFaces, error) {
	leaves := in.Leaves
	if len(leaves) == 0 {
		if err := exact.Check(notes, rowMatch, exact.Named("first", in.First), exact.Named("leaf", in.Leaf),
			exact.Named("kerf", in.Kerf), exact.Named("reface", in.Reface)); err != nil {
			return nil, err
		}
		if err := leafCount(in.Count); err != nil {
			return nil, err
		}
		leaves = make([]resaw.LeafFaces, in.Count)
		for i := range leaves {
			front := in.First + quantity.Length(i)*(in.Leaf+in.Kerf+in.Reface)
			leaves[i] = resaw.LeafFaces{Front: front, Back: front + in.Leaf}
		}
	} else if in.Count != 0 && in.Count != len(leaves) {
		return nil, exact.Contradictory("count", "count is not the number of leaves given")
	}
	if err := leafCount(len(leaves)); err != nil {
		return nil, err
	}
	for i, l := range leaves {
		if err := checkLeaf(in, leaves, i, l, notes); err != nil {
			return nil, err
		}
	}
	return leaves, nil
}

func leafCount(n int) error {
	if n > MostLeaves {
		return &method.Error{
			Code: method.TooMuchWork, Input: "count", Limit: method.AtMost(MostLeaves, "leaves"),
			Detail: fmt.Sprintf("there are more than %d leaves", MostLeaves),
		}
	}
	if n < 2 {
		return exact.OutOfRange("count", "a match needs two leaves or more", method.Between(2, MostLeaves, ""))
	}
	return nil
}

func checkLeaf(in *Input, leaves []resaw.LeafFaces, i int, l resaw.LeafFaces, notes *method.Notes) error {
	if len(in.Leaves) > 0 {
		name := fmt.Sprintf("leaves/%d", i)
		if err := exact.Check(notes, rowMatch, exact.Named("front", l.Front), exact.Named("back", l.Back)); err != nil {
			return exact.Rename(err, map[string]string{"front": name + "/front", "back": name + "/back"})
		}
		if l.Back <= l.Front {
			return exact.MoreThan(name+"/back", "the back of a leaf lies deeper than its front", l.Front)
		}
		if i > 0 && l.Front < leaves[i-1].Back {
			return exact.AtLeast(name+"/front", "the leaf begins before the one above it ends", leaves[i-1].Back)
		}
	}
	if exact.Whole(in.CleanupShow)+exact.Whole(in.CleanupBack) >= exact.Whole(l.Back-l.Front) {
		what := "the clean-up of both faces leaves nothing of leaf " + fmt.Sprint(i+1)
		if exact.Whole(in.CleanupBack) >= exact.Whole(l.Back-l.Front) {
			return exact.LessThan("cleanup_back", what, max(0, l.Back-l.Front-in.CleanupShow))
		}
		return exact.LessThan("cleanup_show", what, l.Back-l.Front-in.CleanupBack)
	}
	if exact.Whole(in.CleanupShow)+exact.Whole(in.CleanupBack)+exact.Whole(in.Arch) >= exact.Whole(l.Back-l.Front) {
		return exact.LessThan("arch_height", "the arch leaves nothing of leaf "+fmt.Sprint(i+1)+" at its outer edge",
			l.Back-l.Front-in.CleanupShow-in.CleanupBack)
	}
	return nil
}

// checkMatch checks all that is neither the stack nor the rings.
func checkMatch(in *Input, notes *method.Notes) error {
	if err := exact.Check(notes, rowMatch, exact.Named("width", in.Width),
		exact.Named("cleanup_show", in.CleanupShow), exact.Named("cleanup_back", in.CleanupBack),
		exact.Named("seam_edge", in.SeamEdge), exact.Named("arch_height", in.Arch), exact.Named("ring_width", in.RingWidth),
		exact.Named("spare_width", in.SpareWidth), exact.Named("spare_length", in.SpareLength)); err != nil {
		return err
	}
	if 2*in.SeamEdge >= in.Width {
		return exact.LessThan("seam_edge", "the seam edge takes half of the width or more", in.Width/2)
	}
	if in.Arch > in.Width-2*in.SeamEdge {
		return exact.AtMost("arch_height", "the arch is higher than a half is wide", in.Width-2*in.SeamEdge)
	}
	if err := notes.Use(rowMatch, "dip_one_in", in.Dip); err != nil {
		return err
	}
	if in.Runout != 0 {
		if err := checkRunout(in.Runout, notes); err != nil {
			return err
		}
	}
	if in.BandLean != nil {
		if err := notes.Use(rowMatch, "band_lean", math.Round(in.BandLean.Degrees()*1e9)/1e9); err != nil {
			return err
		}
	}
	if in.AngleSD != 0 {
		if err := notes.Use(rowMatchBand, "ring_angle_sd", math.Round(in.AngleSD.Degrees()*1e9)/1e9); err != nil {
			return err
		}
	}
	for _, e := range []struct {
		name string
		kind EdgeKind
	}{{"near", in.Near}, {"far", in.Far}} {
		if e.kind != UnknownEdge && e.kind != BarkEdge && e.kind != PithEdge {
			return &method.Error{Code: method.Unknown, Input: e.name, Detail: e.name + " must be bark or pith",
				Limit: method.OneOf(BarkEdge, PithEdge)}
		}
	}
	for i, o := range in.Openings {
		if o != resaw.Bookmatch && o != resaw.SlipMatch && o != resaw.WrongWay {
			return &method.Error{
				Code: method.Unknown, Input: fmt.Sprintf("openings/%d", i), Limit: method.OneOf(resaw.Bookmatch, resaw.SlipMatch, resaw.WrongWay),
				Detail: "an opening must be bookmatch, slip_match or wrong_way",
			}
		}
		if slices.Contains(in.Openings[:i], o) {
			return exact.Contradictory(fmt.Sprintf("openings/%d", i), "the opening stands twice")
		}
	}
	return checkWeights(in.Weights)
}

// checkRunout notes a runout steeper than the one published limit of 1 in 24.
func checkRunout(oneIn float64, notes *method.Notes) error {
	notes.Rest(rowMatch)
	w, err := rowMatch.Check("runout_one_in", oneIn)
	if err != nil {
		return err
	}
	if w != nil {
		notes.Warn(method.Warning{
			Code: method.Assumption, Method: rowMatch.ID, Input: "runout_one_in",
			Detail: "runout steeper than 1 in 24, the limit one maker states for tops: booked halves will look " +
				"unlike in the light, and the leaf is weaker",
		})
	}
	return nil
}

func checkWeights(w *Weights) error {
	if w == nil {
		return nil
	}
	for _, v := range []struct {
		name  string
		value float64
	}{
		{"ring", w.Ring}, {"residual", w.Residual}, {"ray", w.Ray}, {"band", w.Band}, {"tip", w.Tip},
		{"spacing", w.Spacing},
		{"runout", w.Runout}, {"pith_edge", w.PithEdge}, {"no_mirror", w.NoMirror}, {"most", w.Most},
	} {
		if _, err := rowMatchScore.Check("weights", v.value); err != nil {
			var e *method.Error
			if errors.As(err, &e) {
				e.Input = "weights/" + v.name
			}
			return err
		}
	}
	return nil
}

// edges returns what the two edges are: as given, or by their distance from the
// pith. A pith between the edges tells nothing: both may face the bark.
func (r *rings) edges(in *Input, notes *method.Notes) (near, far EdgeKind) {
	near, far = in.Near, in.Far
	if !r.circular || r.x >= 0 && r.x <= float64(in.Width) {
		return near, far
	}
	byNear, byFar := PithEdge, BarkEdge
	if r.x > 0 {
		byNear, byFar = BarkEdge, PithEdge
	}
	if near != UnknownEdge && near != byNear || far != UnknownEdge && far != byFar {
		notes.Warn(method.Warning{
			Code: method.Disagreement, Method: rowMatch.ID, Input: "near",
			Detail: "what was said of the edges does not go with the position of the pith; what was said is kept",
		})
		return near, far
	}
	if near == UnknownEdge || far == UnknownEdge {
		notes.Warn(method.Warning{
			Code: method.Assumption, Method: rowMatch.ID, Input: "near",
			Detail: "which edge faces the bark was taken from the position of the pith",
		})
	}
	return byNear, byFar
}
