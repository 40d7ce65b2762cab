package drying

import (
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Course is the answer of a run. Its slices belong to the Solver and hold until
// its next run.
type Course struct {
	Times   []quantity.Duration // those wanted, up to the end of the run
	Mean    []quantity.Moisture // average over the thickness
	Shell   []quantity.Moisture // average over the outer tenth at each face
	Core    []quantity.Moisture // average over the middle fifth
	Surface []quantity.Moisture // at the face
	Depth   [][]quantity.Moisture

	End       quantity.Duration // when the run ended
	Final     quantity.Moisture // mean at the end
	Reached   bool              // StopAt was reached
	ReachedAt quantity.Duration // when, if so
	// Stopped is the moisture content at the depths asked for when StopAt was reached;
	// empty otherwise.
	Stopped []quantity.Moisture

	Lost      quantity.Moisture // what passed the faces, as a change of the mean; positive is drying
	Imbalance float64           // difference of that from the change of the mean, over the larger of Lost and 1 %MC
	Steps     int               // accepted
	Rejected  int
	Notes     method.Notes
}
