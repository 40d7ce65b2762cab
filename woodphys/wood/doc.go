// Package wood is the one value that stands for a wood in every chapter: the figures
// that the tables or the caller know of it, each with the mark of how it is known.
// What is not known is zero; each chapter says what it does then.
//
// The package computes nothing that needs a method of the registry, but for the published
// relations by which a figure that no source gives is estimated from others. The figures of
// the woods themselves stand in the tables, outside of woodphys.
package wood
