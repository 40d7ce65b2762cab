package asking

// wrong is a request that must be refused. wants lists every error in order:
// the pointer, or ?name for a query or path parameter, then the code. says is a
// part of the detail of the first error, or of the problem when wants is empty.
type wrong struct {
	Name string
	Asked
	Status int
	Wants  []string
	Says   string
}
