// Package simplex solves linear programs that are given column by column, by the
// primal simplex method with an explicit inverse:
//
//	maximise    sum of worth x  -  sum of what lies beyond a limit, at its cost
//	subject to  least <= sum of a x <= most   for every row
//	            x >= 0
//
// A limit with a cost may be gone beyond at that cost for each unit; one without a
// cost holds. Columns may be added between two solutions, which go on from the last.
//
// # Accuracy
//
// Floating point, with tolerances of 1e-7 on worths: who needs a proof takes the
// prices and bounds the program with them in whole numbers.
//
// # Sources
//
// The method is that of Dantzig, Linear Programming and Extensions, 1963 (from
// memory); entering variables by the largest reduced worth and, after a long stall,
// by number, against cycling (Bland, Mathematics of Operations Research 2(2), 1977,
// from memory).
package simplex
