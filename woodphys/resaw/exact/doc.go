// Package exact is the arithmetic that the parts of resaw share: lengths in whole
// nanometres, volumes in whole cubic nanometres, sizes along a straight taper, and
// the checks of lengths against the rows of the registry.
//
// Counting is done in whole nanometres (int64), because both a whole micrometre
// and 1/64 in (396 875 nm) are whole numbers of them: an exact fit never loses
// a leaf, in millimetres or in inches. Lengths are rounded to the nearest
// nanometre on entry. Volumes are whole cubic nanometres (Cubic), so that the
// shares of a billet add up to the billet without remainder.
package exact
