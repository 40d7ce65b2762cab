package movement

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

var seasonRow = method.Method{
	ID: "movement.season", Chapter: "movement",
	Summary:  "Movement of a part between two airs, counted from the moisture content it was made at",
	Equation: "change to each air by movement.blend; swing = size in the second - size in the first",
	Inputs: []method.Input{
		{Name: "first_mc_pct", Unit: "%MC", Fitted: moistureRange, Limit: moistureRange},
		{Name: "second_mc_pct", Unit: "%MC", Fitted: moistureRange, Limit: moistureRange},
	},
	Accuracy: "as the form used; for parts free to move and long enough in each air to come to rest",
	Source:   "Wood Handbook FPL-GTR-190 ch. 13",
	Checked:  method.Derived,
}

// Airs are the moisture contents that wood comes to in two airs: two seasons of
// one room, or here and there. The caller finds them from temperature and
// relative humidity.
type Airs struct {
	First, Second quantity.Band[quantity.Moisture]
}

// Swing is the movement of a part between two airs.
type Swing struct {
	ToFirst  Movement                       // from made to the first air
	ToSecond Movement                       // from made to the second air
	Between  quantity.Band[quantity.Length] // size in the second minus size in the first
	Notes    method.Notes
}

// Between returns how a dimension, cut to size when the wood had the moisture
// content made, moves to each of two airs and from the first to the second. The
// band of Between is not the difference of the other two bands, because the
// piece's own shrinkage is the same on both ways.
//
// Errors: as Change, with made_mc_pct, first_mc_pct and second_mc_pct.
// Accuracy: as Change.
// Source: Wood Handbook ch. 13.
func Between(dimension quantity.Length, direction Direction, made quantity.Band[quantity.Moisture], airs Airs, w wood.Wood) (Swing, error) {
	var s Swing
	s.Notes.Rest(&seasonRow)
	var err error
	if s.ToFirst, err = Change(dimension, direction, made, airs.First, w); err != nil {
		return Swing{}, method.Renamed(err, [2]string{"from_mc_pct", "made_mc_pct"}, [2]string{"to_mc_pct", "first_mc_pct"})
	}
	if s.ToSecond, err = Change(dimension, direction, made, airs.Second, w); err != nil {
		return Swing{}, method.Renamed(err, [2]string{"to_mc_pct", "second_mc_pct"})
	}
	between, err := Change(s.ToFirst.Final.Value, direction, airs.First, airs.Second, w)
	if err != nil {
		return Swing{}, method.Renamed(err, [2]string{"from_mc_pct", "first_mc_pct"}, [2]string{"to_mc_pct", "second_mc_pct"})
	}
	s.Between = between.Change
	s.Notes.Merge(s.ToFirst.Notes)
	s.Notes.Merge(s.ToSecond.Notes)
	s.Notes.Merge(between.Notes)
	return s, nil
}

// Methods returns the registry rows of this chapter.
func Methods() []*method.Method {
	return []*method.Method{
		&blendRow, &coefficientRow, &shrinkageRow, &longitudinalRow, &ringAngleRow, &seasonRow,
	}
}
