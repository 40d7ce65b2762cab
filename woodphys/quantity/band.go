package quantity

import "math"

// Coverage is the share of cases every band of the project means to hold
// unless it says otherwise: 5 % lie below Low and 5 % above High.
const Coverage = 0.90

// Z90 is the half width of a 90 % band of a normal distribution in standard
// deviations: the 0.95 quantile of the standard normal distribution.
const Z90 = 1.6448536269514722

// Band is a central value with the ends of its 90 % band, Low <= Value <= High.
type Band[T ~float64] struct{ Value, Low, High T }

// NormalBand returns the 90 % band of a normal distribution with the given
// mean and standard deviation (same unit, sd >= 0).
func NormalBand[T ~float64](mean, sd T) Band[T] {
	return Band[T]{Value: mean, Low: mean - T(Z90)*sd, High: mean + T(Z90)*sd}
}

// SD returns the standard deviation of the normal distribution whose 90 % band
// is as wide as b.
func (b Band[T]) SD() T { return (b.High - b.Low) / T(2*Z90) }

// Shifted returns the band moved by so much, as wide as before.
func (b Band[T]) Shifted(by T) Band[T] {
	return Band[T]{Value: b.Value + by, Low: b.Low + by, High: b.High + by}
}

// Clamp returns b with all three values held inside low and high.
func (b Band[T]) Clamp(low, high T) Band[T] {
	hold := func(v T) T { return T(math.Min(math.Max(float64(v), float64(low)), float64(high))) }
	return Band[T]{Value: hold(b.Value), Low: hold(b.Low), High: hold(b.High)}
}
