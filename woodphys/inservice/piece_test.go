package inservice_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/drying"
	"latewood/woodphys/inservice"
	"latewood/woodphys/laminate"
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

var moving = wood.Wood{Radial: wood.Published(0.043), Tangential: wood.Published(0.075), FibreSaturation: 0.30, SpecificGravity: wood.Published(0.4)}

// piece is a bare part of 100 by 400 mm whose rings are told.
func piece(tb testing.TB, name string, mm float64, ring quantity.Angle) inservice.Piece {
	tb.Helper()
	wide, long := 100*quantity.Millimetre, 400*quantity.Millimetre
	return inservice.Piece{
		Name: name, Wood: moving, Part: *partOf(tb, mm, 0.4, finish(tb, "bare"), finish(tb, "bare")), Width: &wide, Length: &long,
		Ring: movement.Ring{Angle: ring}, MadeAt: exact(10),
	}
}

// The year of an assembly is that of its parts, one by one: sizes, the thinnest swings
// most, the build lies between those of the parts, and only what is held is warned of.
func TestLive(t *testing.T) {
	room := twoSeasons(t, 20, 0.25, 0.65)
	thick, thin := piece(t, "neck", 60, 0), piece(t, "rib", 2, 90*quantity.Degree)
	thick.Held, thick.MadeAt = true, exact(16) // too wet
	var s inservice.Season
	lives, err := s.Live(t.Context(), room, []inservice.Piece{thick, thin}, nil)
	require.NoError(t, err)
	require.Len(t, lives.Pieces, 2)
	assert.Equal(t, 1, lives.Widest)
	alone := yearOf(t, room, &thin.Part)
	assert.Equal(t, alone.Dry, lives.Pieces[1].Dry)
	want, err := inservice.SizesOf(0.1, movement.WidthAt(90*quantity.Degree, 0), exact(10), alone.Dry.Mean, alone.Wet.Mean, false, moving)
	require.NoError(t, err)
	require.Len(t, lives.Pieces[1].Sizes, 3)
	assert.Equal(t, inservice.Wide, lives.Pieces[1].Sizes[1].Dimension)
	assert.Equal(t, want.Swing, lives.Pieces[1].Sizes[1].Swing)
	assert.LessOrEqual(t, lives.DriestBuild.RH.Value, lives.Pieces[0].Build.RH.Value)
	assert.GreaterOrEqual(t, lives.DampestBuild.RH.Value, lives.Pieces[1].Build.RH.Value)
	assert.InDelta(t, 20, lives.DriestBuild.Temperature.Celsius(), 1e-9, "where no air of the build is told")
	assert.Equal(t, []int{0}, lives.AtRisk, "flatsawn and built too wet; the quartered rib bears it")
	held := slices.IndexFunc(lives.Notes.Warnings, func(w method.Warning) bool { return w.Method == "inservice.held-strain" })
	require.GreaterOrEqual(t, held, 0)
	assert.Contains(t, lives.Notes.Warnings[held].Detail, "neck: held across the grain")

	thin.Notes.Warn(method.Warning{Code: method.Recalled, Detail: "its own"})
	narrow := piece(t, "edge", 2, 0)
	narrow.Width, narrow.Length = nil, nil
	lives, err = s.Live(t.Context(), room, []inservice.Piece{thin, narrow}, nil)
	require.NoError(t, err)
	assert.Contains(t, lives.Notes.Warnings, method.Warning{Code: method.Recalled, Detail: "its own", Input: "parts/0", Subject: "rib"})
	assert.Nil(t, lives.Pieces[1].Held, "no width is told")

	bad := piece(t, "bad", 2, 0)
	bad.Factor = 0
	_, err = s.Live(t.Context(), room, []inservice.Piece{thick, bad}, nil)
	refused(t, err, method.OutOfRange, "parts/1/drying_factor")
	bad = piece(t, "bad", 2, 0)
	*bad.Width = 0
	_, err = s.Live(t.Context(), room, []inservice.Piece{bad}, nil)
	refused(t, err, method.OutOfRange, "parts/0/width")
}

// At rest in two states, figures and clearances follow from the coefficients alone; in a
// room from the year.
func TestFiguresOf(t *testing.T) {
	top, back := piece(t, "top", 3, 70*quantity.Degree), piece(t, "back", 5, 0)
	for _, p := range []*inservice.Piece{&top, &back} {
		p.Driest, p.Wettest = exact(6), exact(12)
	}
	play := laminate.Play{Least: 0, Most: 5 * quantity.Millimetre}
	var s inservice.Season
	f, err := s.FiguresOf(t.Context(), nil, []inservice.Piece{top, back}, []inservice.Meeting{
		{Outer: inservice.Side{Part: 0, Dimension: inservice.Wide}, Inner: inservice.Side{Part: 1, Dimension: inservice.Wide, Over: 50 * quantity.Millimetre}, Play: play},
	}, nil)
	require.NoError(t, err)
	assert.Equal(t, inservice.Wide, f.Most)
	assert.Equal(t, 1, f.MostOf, "flatsawn")
	swing := f.Parts[1].Sizes[1].Swing.Value
	assert.InDelta(t, 100*float64(swing)/0.1, f.MostPct, 1e-9)
	point, err := movement.OnePoint(0.1, movement.Tangential(), 0.10, moving)
	require.NoError(t, err)
	assert.Equal(t, point.Change, f.Parts[1].Sizes[1].PerPoint)
	outer, inner := f.Parts[0].Sizes[1].Dry.Strain.Value, f.Parts[1].Sizes[1].Dry.Strain.Value
	assert.InDelta(t, 0.1*outer-0.05*inner, float64(f.Meetings[0].Dry.Value), 1e-12, "all of the outer, half of the inner")
	assert.Equal(t, quantity.Duration(0), f.Parts[0].Dry.At)

	room := twoSeasons(t, 20, 0.25, 0.65)
	lived, err := s.FiguresOf(t.Context(), room, []inservice.Piece{top}, nil, nil)
	require.NoError(t, err)
	assert.Equal(t, yearOf(t, room, &top.Part).Wet.Mean, lived.Parts[0].Wet.Mean)
	assert.Positive(t, lived.Parts[0].Wet.At)

	back.Driest, back.Wettest = back.Wettest, back.Driest
	_, err = s.FiguresOf(t.Context(), nil, []inservice.Piece{top, back}, nil, nil)
	refused(t, err, method.Contradictory, "parts/1/wettest")
	_, err = s.FiguresOf(t.Context(), nil, []inservice.Piece{top}, []inservice.Meeting{{Outer: inservice.Side{Dimension: inservice.Wide}, Inner: inservice.Side{Dimension: inservice.Thick}, Play: laminate.Play{Least: 1, Most: 0}}}, nil)
	refused(t, err, method.Contradictory, "pairs/0/play_most")
}

// The room in short: its driest and wettest day by the EMC, and the middle of each month;
// of a record every thirtieth day.
func TestRoomYear(t *testing.T) {
	year := twoSeasons(t, 20, 0.25, 0.65).Year()
	assert.InDelta(t, 0.25, year.Driest.RH, 0.01)
	assert.InDelta(t, 0.65, year.Wettest.RH, 0.01)
	assert.Less(t, year.Driest.EMC, year.Wettest.EMC)
	require.Len(t, year.Months, 12)
	assert.InDelta(t, 365.0/24, year.Months[0].At.Days(), 1e-9)
	record, err := inservice.Recorded([]drying.Reading{{Temperature: quantity.Celsius(20), RH: 0.4}, {Time: 70 * quantity.Day, Temperature: quantity.Celsius(20), RH: 0.5}})
	require.NoError(t, err)
	months := record.Year().Months
	require.Len(t, months, 2)
	assert.InDelta(t, 15, months[0].At.Days(), 1e-9)
	assert.InDelta(t, 45, months[1].At.Days(), 1e-9)
}

// Without a name the outer face is bare and the other is as the outer one, own resistance
// and all.
func TestCoats(t *testing.T) {
	own := 4e4
	for _, c := range []struct {
		coats   inservice.Coats
		outside string
		inside  float64
	}{
		{inservice.Coats{}, "bare", 0},
		{inservice.Coats{Outside: "shellac"}, "shellac", 4e4},
		{inservice.Coats{Outside: "shellac", Inside: "bare"}, "shellac", 0},
		{inservice.Coats{Outside: "oil", OutsideOwn: &own}, "oil", 4e4},
		{inservice.Coats{Outside: "oil", OutsideOwn: &own, Inside: "oil"}, "oil", 2.5e3},
	} {
		faces, err := c.coats.Faces()
		require.NoError(t, err)
		assert.Equal(t, c.outside, faces[0].Name)
		assert.InDelta(t, c.inside, faces[1].Resistance, 1e-9)
	}
	_, err := inservice.Coats{Inside: "tar"}.Faces()
	refused(t, err, method.Unknown, "finish")
	band := finish(t, "oil").Band()
	assert.InDelta(t, 3*band.Low, band.Value, 1e-9, "a factor of 3 either way")
	assert.InDelta(t, 3*band.Value, band.High, 1e-9)
}

// A glued joint by hand: 0.075 of 30 points is 0.0025 a point tangentially, 0.00143 radially,
// of the green size, 0.00263 and 0.00148 of that at 10 %, so over 60 mm and from 10 to 6 % a
// flatsawn part would become 60 x 4 x 0.00116 = 0.28 mm
// narrower than a quartered one; along the grain next to nothing moves.
func TestGluedJoint(t *testing.T) {
	flat, quartered := piece(t, "flat", 20, 0), piece(t, "quartered", 20, 90*quantity.Degree)
	for _, p := range []*inservice.Piece{&flat, &quartered} {
		p.Driest, p.Wettest = exact(6), exact(14)
	}
	wide := func(part int, over quantity.Length) inservice.Side {
		return inservice.Side{Part: part, Dimension: inservice.Wide, Over: over}
	}
	long := inservice.Side{Part: 1, Dimension: inservice.Long}
	var s inservice.Season
	f, err := s.FiguresOf(t.Context(), nil, []inservice.Piece{flat, quartered}, nil, []inservice.Joint{
		{First: wide(0, 0), Second: wide(1, 60*quantity.Millimetre)}, {First: wide(1, 0), Second: wide(1, 0)}, {First: wide(0, 0), Second: long}})
	require.NoError(t, err)
	require.Len(t, f.Joints, 3)
	across, alike, crossed := f.Joints[0], f.Joints[1], f.Joints[2]
	assert.InDelta(t, 60, across.Over.Millimetres(), 1e-9, "the smaller side")
	assert.InDelta(t, -60*4*(0.0025/0.95-0.0014333/0.97133), across.Dry.Value.Millimetres(), 0.02)
	assert.InDelta(t, 60*4*(0.0025/0.95-0.0014333/0.97133), across.Wet.Value.Millimetres(), 0.02)
	assert.Less(t, across.DryStrain.Low, across.DryStrain.Value)
	assert.InDelta(t, 0, alike.Dry.Value.Millimetres(), 1e-12)
	assert.Equal(t, inservice.Moderate, across.Danger)
	assert.Equal(t, inservice.High, crossed.Danger, "across the grain of the other it bears 1 % in the middle, and more than 1.5 in the band")
	assert.InDelta(t, 4*0.0025/0.015, crossed.Share.Value, 0.1)
	assert.InDelta(t, 100, crossed.Over.Millimetres(), 1e-9)
}
