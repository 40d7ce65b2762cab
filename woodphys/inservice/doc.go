// Package inservice is the chapter on finished work in the rooms it lives in: how
// the moisture content of a part follows the air of a room through the year,
// behind its finish and through its thickness, and what that does to its sizes.
//
// # Rooms
//
// A room is a year of air that comes again every year (Indoors from the monthly
// air of a place that is heated, UnderCover from the same as it is, TwoSeasons from a winter and a summer), or a
// record (Recorded). Monthly air has no weather in it; Weekly adds a swing of the
// relative humidity with the week, which thin bare plates follow and thick bodies
// do not.
//
// # The year of a part
//
// The diffusion of package drying runs through the year until the year comes
// round (YearOf). It has the same air and finish on both faces, or not: then the
// slab is cut at the plane that nothing crosses,
//
//	a = L (R2 + L/3D)/(R1 + R2 + 2L/3D),  b = L - a
//
// R1, R2 the resistances of the two faces and L/3D that of the wood inside, so
// that both sides have the same time constant R a + a^2/3D; each is half of a
// symmetric slab of twice its depth. With one face sealed it is exact (a slab
// with a sealed face is half of one twice as thick), with equal faces as well
// (a = L/2), and for thin parts, where the resistances in parallel decide.
//
// # What is told
//
// The driest and the wettest state of the mean with their dates, the shells at
// both faces then, sizes, the way of an edge from the seam, the strain a part has
// to bear if it is held (glued to a rigid rim or across another grain) against
// the strain at which wood breaks across the grain, and the humidity to build at
// so that winter and summer share the movement.
//
// Live answers for all parts of finished work at once, FiguresOf for the movement figures
// of an assembly and the clearances between its parts, in a room or at rest in two states.
//
// # Bands
//
// 90 %: the scatter of EMC between woods and with the history, the drying factor,
// the film of air and the finish. The last three act as one speed: two more
// runs stand at the point of the 5 and 95 % quantile that is likeliest, each
// shifted by its share in the time constant. An error of the air of the room is
// not in the bands.
//
// # Left out
//
// Hysteresis: wood that turns round hardly responds within about a point, so real
// swings are up to a point smaller than told (the safe side). Edges and end grain
// (thin plates of large area follow a little faster), the day cycle, sun and
// stoves, heat that moves moisture inside an instrument, a closed body or case
// that has an air of its own, creep and set.
package inservice
