package plan_test

import (
	"math/rand/v2"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
	"latewood/woodphys/resaw/plan"
)

const mm = quantity.Millimetre

// randomBillet makes a billet of a size that makers buy.
func randomBillet(r *rand.Rand) plan.Billet {
	b := plan.Billet{
		Length: quantity.Length(500+r.IntN(900)) * mm, Width: quantity.Length(180+r.IntN(270)) * mm,
		Thickness: quantity.Length(30+r.IntN(50)) * mm, FacingFace1: mm, FacingFar: mm,
		TrimStart: quantity.Length(r.IntN(50)) * mm, TrimEnd: quantity.Length(r.IntN(50)) * mm,
	}
	point := func(l quantity.Length) *quantity.Length { return &l }
	if r.IntN(3) == 0 {
		b.ThicknessEnd = point(b.Thickness - quantity.Length(r.IntN(8))*mm)
	}
	if r.IntN(4) == 0 {
		b.WidthEnd = point(b.Width - quantity.Length(r.IntN(40))*mm)
	}
	if r.IntN(5) == 0 {
		b.ThicknessFarEdge = point(b.Thickness - quantity.Length(r.IntN(25))*mm)
	}
	if r.IntN(3) == 0 {
		b.Cup, b.Bow, b.Twist = quantity.Length(r.IntN(4))*mm, quantity.Length(r.IntN(8))*mm, quantity.Length(r.IntN(4))*mm
	}
	for range r.IntN(4) {
		x, y := quantity.Length(r.IntN(1000))*mm, quantity.Length(r.IntN(350))*mm
		z := plan.Zone{Kind: "knot", X0: x, X1: x + quantity.Length(5+r.IntN(80))*mm, Y0: y, Y1: y + quantity.Length(5+r.IntN(60))*mm}
		if r.IntN(2) == 0 {
			z.Z0 = point(quantity.Length(r.IntN(40)) * mm)
			z.Z1 = point(*z.Z0 + quantity.Length(2+r.IntN(15))*mm)
		}
		b.Zones = append(b.Zones, z)
	}
	switch r.IntN(3) {
	case 0:
		b.Pith = &resaw.Point{X: quantity.Length(r.IntN(900)-300) * mm, Z: quantity.Length(r.IntN(160)-40) * mm}
		if b.ThicknessFarEdge != nil { // a wedge is thin towards the pith
			b.Pith.X = b.Width + quantity.Length(5+r.IntN(100))*mm
		}
	case 1:
		a := quantity.Angle(40+r.IntN(50)) * quantity.Degree
		b.RingAngle = &a
	}
	if r.IntN(2) == 0 {
		n := float64(10 + r.IntN(60))
		b.RunoutOneIn = &n
	}
	return b
}

// catalogue holds sizes of plates.csv, common practice.
var catalogue = []plan.PartKind{
	{Name: "dreadnought top", Length: 560 * mm, Width: 210 * mm, Final: 2.8 * mm, Pieces: 2, Match: plan.MatchBook, LeastRingAngle: 60 * quantity.Degree, Worth: 9000},
	{Name: "dreadnought back", Length: 560 * mm, Width: 210 * mm, Final: 2.6 * mm, Pieces: 2, Match: plan.MatchBook, Worth: 8000},
	{Name: "dreadnought sides", Length: 840 * mm, Width: 127 * mm, Final: 2.2 * mm, Pieces: 2, Match: plan.MatchBook, Worth: 6500},
	{Name: "classical top", Length: 550 * mm, Width: 195 * mm, Final: 2.5 * mm, Pieces: 2, Match: plan.MatchBook, MostRunoutOneIn: 24, Worth: 8500},
	{Name: "soprano top", Length: 270 * mm, Width: 90 * mm, Final: 1.7 * mm, Pieces: 2, Match: plan.MatchBook, Worth: 2500},
	{Name: "tenor sides", Length: 490 * mm, Width: 84 * mm, Final: 1.9 * mm, Pieces: 2, Match: plan.MatchBook, Worth: 2000},
	{Name: "headplate", Length: 220 * mm, Width: 95 * mm, Final: 2 * mm, Pieces: 1, Match: plan.MatchNone, Worth: 600},
	{Name: "fingerboard", Length: 520 * mm, Width: 75 * mm, Final: 6.5 * mm, Pieces: 1, Match: plan.MatchNone, LeastRingAngle: 45 * quantity.Degree, Worth: 1500},
	{Name: "bridge blank", Length: 180 * mm, Width: 42 * mm, Final: 9 * mm, Pieces: 1, Match: plan.MatchNone, Worth: 700},
	{Name: "binding", Length: 840 * mm, Width: 8 * mm, Final: 2 * mm, Pieces: 4, Match: plan.MatchNone, Worth: 400},
	{Name: "drop top", Length: 530 * mm, Width: 185 * mm, Final: 6.35 * mm, Pieces: 2, Match: plan.MatchBook, Worth: 7000},
	{Name: "ribs", Length: 420 * mm, Width: 38 * mm, Final: 1 * mm, Pieces: 3, Match: plan.MatchNone, Worth: 1200},
	{Name: "concert top", Length: 305 * mm, Width: 107 * mm, Final: 1.8 * mm, Pieces: 2, Match: plan.MatchSlip, Worth: 3000},
	{Name: "mandolin top", Length: 370 * mm, Width: 140 * mm, Final: 2.8 * mm, Pieces: 2, Match: plan.MatchBook, Worth: 4200},
	{Name: "bridge plate", Length: 180 * mm, Width: 65 * mm, Final: 2.5 * mm, Pieces: 1, Match: plan.MatchNone, Worth: 350},
	{Name: "end graft", Length: 130 * mm, Width: 60 * mm, Final: 2 * mm, Pieces: 1, Match: plan.MatchNone, Worth: 150},
	{Name: "back, small", Length: 510 * mm, Width: 182 * mm, Final: 2.4 * mm, Pieces: 2, Match: plan.MatchBook, Worth: 7200},
	{Name: "tenor top", Length: 335 * mm, Width: 124 * mm, Final: 2 * mm, Pieces: 2, Match: plan.MatchBook, Worth: 3500},
	{Name: "baritone sides", Length: 570 * mm, Width: 97 * mm, Final: 1.9 * mm, Pieces: 2, Match: plan.MatchBook, Worth: 2600},
	{Name: "brace wood", Length: 560 * mm, Width: 75 * mm, Final: 8 * mm, Pieces: 1, Match: plan.MatchNone, LeastRingAngle: 70 * quantity.Degree, Worth: 1800},
}

var bandsaw = plan.Saw{
	Name: "bandsaw", Resaw: 1.3 * mm, Crosscut: 2.4 * mm, Rip: 2 * mm, Wander: 0.4 * mm, CleanupShow: 0.5 * mm, CleanupBack: 0.5 * mm,
	FarFaceFinished: true, HighestCut: 300 * mm,
}

func randomParts(r *rand.Rand, n int) []plan.PartKind {
	var out []plan.PartKind
	for _, i := range r.Perm(len(catalogue))[:n] {
		out = append(out, catalogue[i])
	}
	return out
}
