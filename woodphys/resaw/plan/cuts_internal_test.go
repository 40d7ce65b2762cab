package plan

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"latewood/woodphys/quantity"
	"latewood/woodphys/resaw"
)

// The cuts the search counts are those that the written plan makes at most: a length whose
// strips all begin further on is crosscut once where they begin, and not twice.
func TestCutsCountedAreCutsMade(t *testing.T) {
	const mm = quantity.Millimetre
	r := rand.New(rand.NewPCG(21, 22))
	size := func(low, high int) quantity.Length { return quantity.Length(low+r.IntN(high-low+1)) * mm }
	made, equal := 0, 0
	for range 400 {
		b := Billet{
			Length: size(200, 700), Width: size(60, 200), Thickness: size(15, 40), FacingFace1: mm, TrimStart: size(0, 1) * 20, TrimEnd: size(0, 1) * 20,
			Bow: size(0, 3), Cup: size(0, 2),
		}
		if r.IntN(3) == 0 {
			end := b.Width - size(0, 20)
			b.WidthEnd = &end
		}
		if r.IntN(3) == 0 {
			end := b.Thickness + size(0, 8) - 4*mm
			b.ThicknessEnd = &end
		}
		for range r.IntN(3) {
			x, y := size(0, 600), size(0, 150)
			z := Zone{X0: x, X1: x + size(5, 40), Y0: y, Y1: y + size(5, 40)}
			if r.IntN(2) == 0 {
				low := size(0, 20)
				high := low + size(1, 6)
				z.Z0, z.Z1 = &low, &high
			}
			b.Zones = append(b.Zones, z)
		}
		if r.IntN(2) == 0 {
			b.Pith = &resaw.Point{X: size(0, 300) - 50*mm, Z: size(0, 60) - 20*mm}
		}
		saw := Saw{Resaw: size(0, 2), Crosscut: size(0, 3), Rip: size(0, 3), Reface: size(0, 1), FarFaceFinished: r.IntN(2) == 0}
		var parts []PartKind
		for range 3 {
			parts = append(parts, PartKind{
				Length: size(80, 300), Width: size(25, 90), Final: size(2, 6), Pieces: 1 + r.IntN(3), Match: MatchSlip,
				Worth: int64(1 + r.IntN(50)), LeastRingAngle: quantity.Angle(r.IntN(2)*40) * quantity.Degree,
			})
		}
		rig := newRig(&saw, parts)
		w := newOffer(&b, &rig.cost, true)
		rig.deepest = w.deepest()
		board, err := newBoard(w, rig, rig.suited(w), &work{ctx: context.Background(), most: 1e9})
		require.NoError(t, err)
		value := make([]int64, len(parts))
		for p := range parts {
			value[p] = parts[p].Worth * unitOfWorth
		}
		rig.stamp++
		v, err := board.price(value, 1)
		require.NoError(t, err)
		writer := &writer{w: w, r: rig, parts: rig.kinds, made: make([]int, len(parts))}
		plan := writer.write(wayOf(board.trace(value, 1)))
		counted := plan.Cuts
		for i := range plan.Steps { // those that part a leaf are not sought to be few
			if s := &plan.Steps[i]; s.Action != Resaw && s.Action.cuts() && s.Action != Plane && plan.Places[s.Piece].Z0 != nil {
				counted--
			}
		}
		net := plan.Worth*unitOfWorth - int64(counted)
		require.LessOrEqual(t, v, net)
		require.Less(t, net, v+4)
		if net == v {
			equal++
		}
		if plan.Worth > 0 {
			made++
		}
	}
	require.Greater(t, made, 200)
	require.Greater(t, equal, 380)
}

// Sections bounded and built when they matter must give what building all of
// them gives.
func TestSectionsBuiltLateLoseNothing(t *testing.T) {
	const mm = quantity.Millimetre
	r := rand.New(rand.NewPCG(23, 24))
	size := func(low, high int) quantity.Length { return quantity.Length(low+r.IntN(high-low+1)) * mm }
	late := 0
	for range 150 {
		b := Billet{Length: size(500, 1200), Width: size(80, 250), Thickness: size(20, 50), Bow: size(0, 4)}
		end := b.Thickness - size(0, 10)
		b.ThicknessEnd = &end
		x, y := size(0, 600), size(0, 150)
		b.Zones = []Zone{{X0: x, X1: x + size(5, 40), Y0: y, Y1: y + size(5, 40)}}
		saw := Saw{Resaw: size(1, 2), Crosscut: size(1, 3), Rip: size(1, 3), FarFaceFinished: true}
		var parts []PartKind
		for range 4 {
			parts = append(parts, PartKind{
				Length: size(80, 400), Width: size(25, 120), Final: size(2, 8), Pieces: 1 + r.IntN(2), Worth: int64(1 + r.IntN(90)),
			})
		}
		prices := func(all bool) int64 {
			rig := newRig(&saw, parts)
			w := newOffer(&b, &rig.cost, false)
			rig.deepest = w.deepest()
			board, err := newBoard(w, rig, rig.suited(w), &work{ctx: context.Background(), most: 1e9})
			require.NoError(t, err)
			if all {
				for i := range board.sections {
					if !board.sections[i].built {
						require.NoError(t, board.build(i))
					}
				}
			} else if board.unbuilt > 0 {
				late++
			}
			value := make([]int64, len(parts))
			for p := range parts {
				value[p] = parts[p].Worth * unitOfWorth
			}
			rig.stamp++
			v, err := board.price(value, 1)
			require.NoError(t, err)
			return v
		}
		require.Equal(t, prices(true), prices(false))
	}
	require.Greater(t, late, 100)
}
