package shelf

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
)

// LengthOr is a length that may be given, or what stands in for it.
func LengthOr(l *wire.Length, fallback quantity.Length) quantity.Length {
	if l == nil {
		return fallback
	}
	return l.SI
}

// LengthOrNone is a length that may be given; 0 where it is not.
func LengthOrNone(l *wire.Length) quantity.Length { return LengthOr(l, 0) }

// OptionalLength is a length that may be given; nil where it is not.
func OptionalLength(l *wire.Length) *quantity.Length {
	if l == nil {
		return nil
	}
	return &l.SI
}
