// Package seasoning is the chapter on what a maker asks of the forecast of a piece that
// is drying: when it is dry, how dry its place makes it at all, what another month of
// stacking or another thickness would change, whether its faces may check, how much
// sooner a narrow piece dries through its edges, and how far its ends run ahead.
//
// # What is known of a piece
//
// A Piece is the wood, its size and rings, where it lies and how wet it started. Where
// the start is not told the wood was green: the published moisture of heartwood and
// sapwood, give or take a fifth. Setup makes of it what the chapter on readiness
// learns from; what is wrong is told all at once.
//
// Wood that has been drier than 25 %MC before has an unknown place in the sorption
// loop; wood that dries from green comes to rest on the drying side of it (Branch).
//
// # Two kinds of answer
//
// The dates and the course come from the ensemble (package readiness), with their
// bands. What compares cases (Lowest, ByMonth, ByThickness, checks, edges, ends) comes
// from single runs of the middle forecast, so the same case may differ by some days
// from the dates of the ensemble.
//
// # Validity
//
// That of packages drying and readiness. The thresholds here are common practice or our
// own choice, no source, as each says.
//
// Left out: cost, the value of a piece, and what to do; those are the maker's.
package seasoning
