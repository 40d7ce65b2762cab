// Package method is the form of the registry rows that every chapter keeps of
// its methods, and the small vocabulary of errors and warnings that goes with
// them.
//
// A Method names one relation: what it does, its inputs with the range it was
// fitted in and the range it is computed in, its stated accuracy and its
// source. The code asks its own row (Check) before it computes: outside the
// limit is an *Error, outside the fitted range is a Warning. The service lists
// the rows, and tests sweep them.
package method
