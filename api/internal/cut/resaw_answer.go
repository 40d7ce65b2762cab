package cut

import (
	"math"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw/exact"
	"latewood/woodphys/resaw/plan"
)

// gravitySD is the share by which pieces of one wood differ in density: Wood
// Handbook, about 10 % (from memory).
const gravitySD = 0.10

func (p *planner) billetAnswer(made *plan.Plan, i int) (BilletAnswer, *quantity.Band[quantity.Mass], error) {
	b, rough := &made.Billets[i], &p.asked.Billets[i]
	volume := b.Shares.Whole.Volume()
	share := func(c exact.Cubic) float64 { return wire.Rounded(100*float64(c.Volume()/volume), 6) }
	out := BilletAnswer{Name: rough.Name, Worth: b.Worth, Cuts: b.Cuts, Remainder: p.length(b.Remainder), Volume: billetVolume(volume),
		Steps: p.Steps(b), Blanks: []PlanBlank{}}
	out.Shares = PlanShares{share(b.Shares.Plate), share(b.Shares.Kerf), share(b.Shares.Shavings), share(b.Shares.Offcut) + share(b.Shares.Trim)}
	if rough.Pith != nil {
		out.Pith = &PlanPlace{p.length(rough.Pith.X), p.length(rough.Pith.Z)}
	}
	for j := range b.Blanks {
		blank, err := p.blank(made, &b.Blanks[j], j)
		if err != nil {
			return out, nil, err
		}
		out.Blanks = append(out.Blanks, blank)
	}
	mass, err := p.mass(i, volume)
	if err != nil || mass == nil {
		return out, nil, err
	}
	band := p.massBand(*mass)
	out.Mass = &band
	return out, mass, nil
}

// billetVolume shows a volume.
func billetVolume(v quantity.Volume) shelf.BilletVolume {
	return shelf.BilletVolume{CubicMetres: wire.Rounded(v.CubicMetres(), 9), BoardFeet: wire.Rounded(v.BoardFeet(), 9)}
}

func (p *planner) massBand(b quantity.Band[quantity.Mass]) wire.QuantityBand {
	value, low, high := p.report.Mass(b.Value), p.report.Mass(b.Low), p.report.Mass(b.High)
	return wire.QuantityBand{Value: wire.Rounded(value.Value, 9), Low: wire.Rounded(low.Value, 9), High: wire.Rounded(high.Value, 9), Unit: value.Unit}
}

// mass is that of a rough billet, nil where species or moisture is not given.
func (p *planner) mass(i int, volume quantity.Volume) (*quantity.Band[quantity.Mass], error) {
	w, mc := p.woods[i], p.req.Billets[i].MC
	if w == nil || mc == nil {
		return nil, nil //nolint:nilnil // no mass is told
	}
	basic, err := w.BasicGravity(p.notes)
	if err != nil {
		return nil, wire.Under("", err, [2]string{"specific_gravity", "species"})
	}
	at := func(pct float64) (float64, error) {
		g, err := moisture.SpecificGravityAt(basic, wire.FromPercent(pct), w.VolumetricShrinkage(p.notes), w.FibreSaturation())
		p.notes.Merge(g.Notes)
		return g.Density, err
	}
	density, err := at(*mc)
	if err != nil {
		return nil, err
	}
	sd := 0.0
	if p.req.Billets[i].MCSD != nil && *p.req.Billets[i].MCSD > 0 {
		wetter, err := at(min(250, *mc+*p.req.Billets[i].MCSD))
		if err != nil {
			return nil, err
		}
		sd = wetter/density - 1
	}
	value := quantity.Mass(density * float64(volume))
	// The two add as independent shares.
	band := quantity.NormalBand(value, value*quantity.Mass(math.Hypot(gravitySD, sd)))
	return &band, nil
}

// letters names the n-th blank of a billet: A to Z, AA ...
func letters(n int) string {
	if n < 26 {
		return string(rune('A' + n))
	}
	return letters(n/26-1) + string(rune('A'+n%26))
}

func (p *planner) blank(made *plan.Plan, b *plan.Blank, j int) (PlanBlank, error) {
	q := p.length
	out := PlanBlank{Label: letters(j), X: q(b.X), Y: q(b.Y), Length: q(b.Length), Width: q(b.Width), Face1: q(b.Face1), Usable: q(b.Usable), Left: q(b.Remainder), Leaves: []PlanLeaf{}}
	last := -1
	for _, l := range b.Leaves {
		leaf := PlanLeaf{Number: l.Number, Role: string(l.Role), Set: l.Set, From: q(l.From), To: q(l.To)}
		if l.Part >= 0 {
			leaf.Part = p.asked.Parts[l.Part].Name
			last = l.Part
		}
		if l.Role != plan.RoleSet {
			leaf.GoodFor = p.goodFor(b, &l, &p.asked.Saws[made.Saw])
		}
		out.Leaves = append(out.Leaves, leaf)
	}
	if last < 0 {
		return out, nil
	}
	part, saw := &p.asked.Parts[last], &p.asked.Saws[made.Saw]
	sawn := part.On(saw).Sum()
	more := func(n int) (*MoreWood, error) {
		m, err := b.More(n, sawn, saw)
		if err != nil {
			return nil, err
		}
		out := &MoreWood{Leaves: n, ShortBy: q(m.ShortBy)}
		if m.KerfAtMost != nil {
			k := q(*m.KerfAtMost)
			out.KerfAtMost = &k
		}
		if m.ThinnerBy != nil {
			t := q(*m.ThinnerBy)
			out.ThinnerBy = &t
		}
		return out, nil
	}
	var err error
	if out.OneMore, err = more(1); err == nil && part.Pieces > 1 {
		out.NextSet, err = more(part.Pieces)
	}
	return out, err
}

// goodFor says what an odd or a spoiled leaf is good for: small parts of the
// table that it is large and thick enough for, then what the trade keeps such
// leaves for (common practice, no source). A spoiled leaf may hold its fault
// anywhere, so its parts must be cut clear of it.
func (p *planner) goodFor(b *plan.Blank, l *plan.Leaf, saw *plan.Saw) []string {
	var out []string
	without := ""
	if l.Role == plan.RoleSpoiled {
		without = ", clear of its fault"
	}
	thick := l.To - l.From - saw.CleanupShow - saw.CleanupBack
	for _, id := range []string{"gt_headplate", "gt_tailwedge", "gt_bridgeplate", "gt_binding"} {
		plate, known := p.t.Species.Plate(id)
		if !known {
			continue
		}
		length, _ := plate.Length.Get()
		width, _ := plate.Width.Get()
		final, _ := plate.Final.Get()
		if length <= b.Length && width <= b.Width && final <= thick {
			out = append(out, plate.Part+without)
		}
	}
	if l.Role == plan.RoleOdd {
		out = append(out, "a one-piece part, or to make up a four-piece set beside its neighbours")
	}
	return append(out, "test strips for bending and glue, ovendry samples, patches kept for repairs")
}

// Steps describes the cuts, with what becomes of every piece.
func (p *planner) Steps(b *plan.BilletPlan) []PlanStep {
	is := pieceNames(b)
	out := make([]PlanStep, 0, len(b.Steps))
	wood := func(piece int) *PlanWood {
		if piece < 0 {
			return nil
		}
		return &PlanWood{piece, is[piece]}
	}
	for i := range b.Steps {
		s := &b.Steps[i]
		step := PlanStep{Number: i + 1, Action: string(s.Action), Piece: s.Piece, At: p.length(s.At), Width: p.length(s.Kerf), Low: wood(s.Low), High: wood(s.High)}
		step.Do = p.inWords(s, is)
		out = append(out, step)
	}
	return out
}

// pieceNames names every piece: one that is cut further, a blank, a leaf or an offcut.
func pieceNames(b *plan.BilletPlan) map[int]string {
	is := map[int]string{0: "the billet"}
	for i := range b.Steps {
		for _, piece := range []int{b.Steps[i].Low, b.Steps[i].High} {
			is[piece] = "offcut"
		}
	}
	for i := range b.Steps {
		if b.Steps[i].Piece > 0 {
			is[b.Steps[i].Piece] = "to be cut further"
		}
	}
	// The wood in hand of every blank: each resaw cut frees a leaf before it, and
	// where the far face is finished the last leaf is what is left.
	blank, inHand := -1, -1
	freed := 0
	finish := func() {
		if blank >= 0 && inHand >= 0 && freed < len(b.Blanks[blank].Leaves) {
			is[inHand] = leafName(blank, &b.Blanks[blank].Leaves[freed])
		}
	}
	for i := range b.Steps {
		s := &b.Steps[i]
		switch s.Action {
		case plan.FlattenBlank:
			finish()
			blank, inHand, freed = blank+1, s.Low, 0
			is[inHand] = "blank " + letters(blank)
		case plan.Resaw:
			if s.Low >= 0 && freed < len(b.Blanks[blank].Leaves) {
				is[s.Low] = leafName(blank, &b.Blanks[blank].Leaves[freed])
				freed++
			}
			inHand = s.High
		case plan.Plane:
			inHand = s.High
		default:
		}
	}
	finish()
	return is
}

func leafName(blank int, l *plan.Leaf) string {
	kind := "leaf "
	if l.Role == plan.RoleSpoiled {
		kind = "slab "
	}
	return kind + letters(blank) + strconv.Itoa(l.Number)
}

// inWords writes a step for the bench.
func (p *planner) inWords(s *plan.Step, is map[int]string) string {
	at := s.At.Format(p.report.LengthUnit)
	piece := "piece " + strconv.Itoa(s.Piece)
	if s.Piece == 0 {
		piece = is[0]
	}
	kept := ""
	for _, made := range []int{s.Low, s.High} {
		if made >= 0 {
			if kept != "" {
				kept += "; "
			}
			kept += "piece " + strconv.Itoa(made) + ": " + is[made]
		}
	}
	if kept != "" {
		kept = " (" + kept + ")"
	}
	switch s.Action {
	case plan.Crosscut, plan.Trim:
		return string(s.Action) + " " + piece + ", kerf starts " + at + " from the start of the billet" + kept
	case plan.Rip:
		return "rip " + piece + ", kerf starts " + at + " from the near edge of the billet" + kept
	case plan.FlattenBlank:
		return "flatten " + piece + " to " + s.Kerf.Format(p.report.LengthUnit) + ", face 1 first, " + at + " deep" + kept
	case plan.Resaw:
		return "resaw " + piece + ", kerf starts " + at + " below the planed face 1" + kept
	default:
		return "plane " + s.Kerf.Format(p.report.LengthUnit) + " off " + piece + kept
	}
}

// woodsUsed names the woods whose figures the answer used.
func (p *planner) woodsUsed(r *ResawResult) {
	seen := map[*shelf.Wood]bool{}
	for _, w := range p.woods {
		if w == nil || seen[w] {
			continue
		}
		seen[w] = true
		r.Species = append(r.Species, w.Used("specific_gravity_green", "volumetric", "radial", "tangential", "fibre_saturation"))
	}
}

// length shows a length to the nanometre, in which plans are made, without the dust of
// a conversion.
func (p *planner) length(l quantity.Length) wire.Quantity {
	nm := math.Round(float64(l) * 1e9)
	if p.report.LengthUnit == "mm" {
		return wire.Quantity{Value: nm / 1e6, Unit: "mm"}
	}
	q := p.report.Length(quantity.Length(nm / 1e9))
	return wire.Quantity{Value: wire.Rounded(q.Value, 12), Unit: q.Unit}
}
