// Package readiness decides which step of the work a piece of seasoned wood is
// ready for (resawing, working to thickness, jointing and gluing), and if it is
// not, when it will be.
//
// The steps differ. Resawing only needs wood that will not close on the blade
// or curl off it, so a piece some points above the shop may do; a glued joint
// wants the moisture content of the room it is made in, no gradient and a
// weight at rest. Each step is a list of criteria with limits that a caller may
// change (LimitsFor).
//
// There are two ways to the verdict. Judge takes what is known of the piece now,
// however it was found, and needs no history. Learn takes the day of stacking, the
// wood and the places, and all dated readings, and returns a Posterior that
// answers for any time: Now, Course, Judge, ReadyDate, NextReading.
//
// # Learning from readings
//
// The forecast of package drying depends on unknowns nonlinearly: the logarithms of the
// drying factor k and of the wet-stage pace, the moisture content M0 on the day of
// stacking, the logarithm of the EMC scale of the wood, and for each stay (the last three,
// earlier ones together) by how much its air and how fast it dries differ from
// what is told. The others enter linearly and are integrated in closed form: the logarithm of each body's
// ovendry mass, the common error of each meter and of the samples, and two discrepancies
// between piece and model, one of weeks (weather) and one that is smooth over months (the
// law is not that of the piece), which more readings do not take away.
//
//	weight   ln W = ln OD + ln(1 + M(t)) + d(t)/(1 + M) + noise
//	meter    m    = M(t, depth) + d(t) + bias + noise
//	sample   m    = M(t, depth) - 0.02 (M - 8 %) + d(t) + noise
//	noise    that of scale, meter or oven, and what M changes in a day
//	C        = noise + cov(d) + X P X'              (frozen at the mode)
//	log p    = -1/2 |(theta - prior)/s|^2 - 1/2 r' C^-1 r,   r = y - g(theta)
//
// A piece of which nobody has told how it was stacked may have been green, part dry or
// dry (Setup.Else): each state is fitted, weighed by its evidence (Laplace) and drawn from.
//
// Gauss-Newton steps find the mode. Readings that the others rule out are then looked for,
// with wilder weather than ours: one is set aside if all readings are much likelier with it
// wrong, by a slip of the pen or by anything, than with none (wrong.go). It has to be off by
// what is no weather, must not be the only ovendry sample, nor lie in the band that would be
// printed for it. What remains has errors with heavy tails. If the readings still disagree
// with the forecast, it is the forecast that is taken to be less sure, and a warning says so.
//
// An ensemble is drawn about the mode (Student for what the wood is, normal for the
// stays) at the points of a Sobol sequence with a fixed seed and weighted by the exact
// posterior density, in which an ovendry sample that is the only one may have been cut too
// near an end (mostly it was not; in one case of ten it is drier than the piece by some
// 15 %); the EMC scale lies on a lattice so that members share the tables of the solver. If
// the effective size is small the ensemble is drawn anew about its own mean and spread, then
// more widely, then from the prior; the best is kept and named (Posterior.Method). If it is
// still too thin to trust, all this is done from the mode nearest to the prior as well.
//
// The verdict is the probability of all criteria together over the ensemble, not
// the product of theirs. The ready date is the first day on which half of the ensemble meets
// them all that very day: outdoors wood is ready in one season and no longer in the next, and
// by a day half of the members may have been ready once though few are on it. A member is ready on
// some day or on none with its own path of the discrepancy and its own target. In the room
// that it lies in that is where it comes to rest there itself, between the edges of the
// sorption loop (drying.Loop): with the scale of its EMC and the error of its air.
//
// # Validity
//
// That of package drying; readings 0 to 200 in one fit (more are thinned). Bands
// are checked by simulation, in the model's own truth and in truths of other laws,
// COVERAGE.md. The discrepancy, the share of a meter's
// error that is common, the limits and the thresholds of the verdicts are our own
// choice or common practice, no source. Source of the idea that level, gradient and
// rest are all needed: Wood Handbook, FPL-GTR-190, ch. 13 (read in part); constant
// weight proves equilibrium with the room, not the right moisture content.
//
// # Left out
//
// Drying stress: no reading of moisture shows it; the prong test does. The
// film of the air is not learned: through the inside of the wood it acts like the factor. A
// weight counts for the whole piece; wood cut off between two weighings is another body. Where
// nobody says so and a step of the weights looks like it, that is told (Cut). Where it explains
// much more than setting weights aside does, and two weights lie on either side, those before
// it are read as of another mass, EVENTS.md. The discrepancy moves shell and core alike.
package readiness
