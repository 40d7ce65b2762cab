// Package refuse is what a caller is told of a request that is not answered: the problem, the
// members that are wrong with it, and the limit that each missed. It sends nothing.
package refuse
