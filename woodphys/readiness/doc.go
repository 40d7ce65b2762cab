// Package readiness decides which step of the work a piece of seasoned wood is
// ready for: resawing, working to thickness, jointing and gluing.
//
// The steps differ. Resawing only needs wood that will not close on the blade
// or curl off it, so a piece some points above the shop may do; a glued joint
// wants the moisture content of the room it is made in, no gradient and a
// weight at rest. Each step is a list of criteria with limits that a caller may
// change; each criterion is judged by its probability, and the verdict by all
// of them together.
//
// Limits and thresholds are common practice, no source. Source of the idea that
// level, gradient and rest are all needed: Wood Handbook, FPL-GTR-190, ch. 13
// (read in part); constant weight proves equilibrium with the room, not the
// right moisture content.
//
// Left out: drying stress. No reading of moisture shows it; the prong test does.
package readiness
