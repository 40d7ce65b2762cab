package species

// Optional is a figure that may be missing. The zero Optional is missing, and
// the figure can only be read together with the answer whether there is one.
type Optional[T any] struct {
	value T
	known bool
}

// Known returns an Optional that holds value.
func Known[T any](value T) Optional[T] { return Optional[T]{value: value, known: true} }

// Get returns the figure and true, or the zero of T and false when it is missing.
func (o Optional[T]) Get() (value T, known bool) { return o.value, o.known }

// Known reports whether there is a figure.
func (o Optional[T]) Known() bool { return o.known }

// Or returns the figure, or fallback when it is missing.
func (o Optional[T]) Or(fallback T) T {
	if o.known {
		return o.value
	}
	return fallback
}
