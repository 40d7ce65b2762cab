package main

import "slices"

// shape is a change that no line of the table can say.
type shape struct {
	routes []string // old paths without /v1/
	change func(top *node)
}

// shapes come after the rules of the table, in their order.
var shapes = slices.Concat(woodShapes, cutShapes, dryShapes, yearShapes)
