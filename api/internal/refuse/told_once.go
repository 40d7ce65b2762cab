package refuse

import "slices"

// same reports whether two faults are the same.
func same(a, b FieldError) bool {
	return a.Pointer == b.Pointer && a.Parameter == b.Parameter && a.Code == b.Code && a.Detail == b.Detail
}

// AddFault adds a fault that is not yet told.
func AddFault(all []FieldError, one FieldError) []FieldError {
	if slices.ContainsFunc(all, func(f FieldError) bool { return same(f, one) }) {
		return all
	}
	return append(all, one)
}
