// Package plan finds the best way to cut whole billets into sets: crosscut, rip,
// flatten, resaw. It proves it, or says how much better another could be.
//
// # The model and its proof
//
// The model and the proof that its cut positions lose nothing stand in offer.go, the
// proof of the order list in order.go, the search over all cuts from edge to edge in
// deepen.go, its proof in refine.go and counted.go. It is checked against every way to cut
// small billets, by a program of its own and in the tests, its staged search against 500
// integer programs that two general-purpose solvers agree on (testdata/planner), and by a
// saw mill in the tests that carries out every step.
//
// # Exactness
//
// Places and sizes are whole nanometres (woodphys/resaw/exact). Work is counted in
// steps and not in time, so that the same request has the same plan everywhere.
//
// # Left out
//
// The match of the halves (woodphys/resaw/match), the spring of stressed wood, and leaves
// that are parted into pieces of several parts.
package plan
