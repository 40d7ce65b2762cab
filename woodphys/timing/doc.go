// Package timing is the chapter on one decision: saw a wet billet into leaves now, or dry
// it whole and saw it then.
//
// # The two ways
//
// Sawn now, the leaves are cut thicker by the shrinkage still to come and by what thick
// and thin take, and dry in a fraction of the time. Dried whole, the billet waits until
// it is within the limits for resawing, in level and in the difference between core and
// shell; its leaves then need only settle. Both are forecast with package seasoning
// from the same start, in the same places; leaves and sets are counted by whoever asks
// (Counter).
//
// # The profile
//
// A billet is not even through its thickness. Read at shell and core its profile is taken
// as a parabola, M = c - a u^2 with u from 0 in the middle to 1 at the face. Not read it is one
// of many: how wet the billet was when it was green, how wet it is, and how fast it dried are
// not known, so it is let dry from 48 spread starts in the mean air of the first place of
// storage until it holds what it holds today. One that starts no wetter than that has not
// dried at all, and is even; so is one that does not come down so far there. With a rising
// moisture content the cases go over from dried to even one by one, so that nothing jumps at
// fibre saturation. Mean, shell and core are told with the band over the cases.
//
// The ensemble of the forecast starts even, so the wait for the gradient is computed beside
// it, in single runs from the mean profile; slow wood takes the late date, fast wood the
// early one. The wettest leaf is the one that is waited for.
//
// # The cup of a leaf
//
// A leaf cut out of a steep profile bends when it becomes even (section.Gradient). The
// leaf that bends most is told, against the thickness that is planned for flattening: the
// mean over the cases, the band that holds nine of ten of them, and the probability of more
// than was planned.
//
// # Weighing
//
// A way is preferred where its date is earlier by more than the bands of the dates, where
// it gives more sets, where less is missing of its leaves once their cup is planed off, or
// where its faces check less. A way that loses its leaves to their cup is not weighed up by
// a date. What tells for one and against it makes a trade-off; nothing, a
// toss-up. Every reason is told, as a code with its amounts.
//
// # Validity
//
// That of packages seasoning and section. Two ways only; a billet resawn into a few thick
// planks, or roughed out and dried, is not looked at. The spread of the profile and the
// thresholds are our own choice.
package timing
