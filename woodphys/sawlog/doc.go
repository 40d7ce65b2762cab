// Package sawlog saws or splits a log or a half log into billets: through and through,
// quartered, or in wedges from the pith. It tells where every billet lies in the log,
// how large it is green so that it is as large as wanted once it is dry, and what the
// log holds by the measures of the trade.
//
// # Frame
//
// Look along the log from its start, the butt. The origin is the middle of the start
// end; X runs along the log, Y to the right, Z down. A sweep stands out to the right: the
// middle of the length lies that much to the right of the straight line between the
// middles of both ends. A half log lies with its flat face up, at Z = 0.
//
// # Sources
//
// Where billets fit is geometry of circles and straight cuts, derived beside the code.
// The rules that scale a log in board feet are published; each stands with its source.
//
// # Left out
//
// Logs that are not round, branches, spiral grain, boards that are sawn along the taper,
// and wood that springs when it is freed.
package sawlog
