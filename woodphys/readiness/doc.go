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
// The forecast of package drying depends on three unknowns nonlinearly: the
// logarithm of the drying factor k, the moisture content M0 on the day of stacking,
// and the logarithm of the EMC scale. The others enter linearly and are integrated
// in closed form: the logarithm of each body's ovendry mass, the common error of
// each meter, and a discrepancy d(t) between piece and model, correlated over about
// three weeks.
//
//	weight   ln W = ln OD + ln(1 + M(t)) + d(t)/(1 + M) + noise
//	meter    m    = M(t, depth) + d(t) + bias + noise
//	sample   m    = M(t, depth) + d(t) + noise
//	C        = noise + cov(d) + X P X'              (frozen at the mode)
//	log p    = -1/2 |(theta - prior)/s|^2 - 1/2 r' C^-1 r,   r = y - g(theta)
//
// Gauss-Newton steps find the mode. Readings that the others rule out are then
// looked for by their leave-one-out residuals, the fit is repeated without each
// suspect, and the one whose absence explains most is set aside and named; of two
// that contradict each other with nothing to tell which is wrong, both are. At most
// a third of the readings, and ten, are set aside one by one. If the rest still agree worse
// than chance allows, all are taken to be more uncertain, and a warning says so.
//
// An ensemble is drawn from a Student distribution about the mode at the points of
// a Sobol sequence with a fixed seed and weighted by the exact posterior density;
// the EMC scale lies on a lattice so that members share the tables of the solver.
// If the effective size is small the ensemble is drawn anew about its own mean and
// spread, then more widely, then from the prior; the best is kept and named
// (Posterior.Method).
//
// The verdict is the probability of all criteria together over the ensemble, not
// the product of theirs. The ready date of a member is the first time at which it
// meets them all, with its own path of the discrepancy and its own target.
//
// # Validity
//
// That of package drying; readings 0 to 200 in one fit (more are thinned). Bands
// are checked by simulation, COVERAGE.md. The discrepancy, the share of a meter's
// error that is common, the limits and the thresholds of the verdicts are our own
// choice or common practice, no source. Source of the idea that level, gradient and
// rest are all needed: Wood Handbook, FPL-GTR-190, ch. 13 (read in part); constant
// weight proves equilibrium with the room, not the right moisture content.
//
// # Left out
//
// Drying stress: no reading of moisture shows it; the prong test does. The
// exposure is not learned: through the inside of the wood it acts like the factor. A
// weight counts for the whole piece; wood cut off between two weighings makes a
// contradiction. The discrepancy moves shell and core alike.
package readiness
