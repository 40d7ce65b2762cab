package simplex

// Objective returns the worth of a solved program.
//
// Accuracy: see the package. Source: duality: the limits at their prices.
func (s *Solver) Objective() float64 {
	v := 0.0
	for _, lines := range [2][]int{s.most, s.least} {
		for _, l := range lines {
			if l >= 0 {
				v += s.price[l] * s.lines[l].At
			}
		}
	}
	return v
}
