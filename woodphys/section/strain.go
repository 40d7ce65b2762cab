package section

import (
	"latewood/woodphys/method"
	"latewood/woodphys/movement"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Strains are the changes in the directions of the wood, as package movement has them for
// every question.
type Strains struct{ movement.Strains }

func (s *Strains) between(n *method.Notes, from, to quantity.Band[quantity.Moisture], w *wood.Wood) error {
	var err error
	s.Strains, err = movement.StrainsBetween(n, from, to, w)
	return err
}
