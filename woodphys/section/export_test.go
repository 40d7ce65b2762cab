package section

import "latewood/woodphys/movement"

// ChangeBy is the shape of a section whose radial and tangential relative changes
// (negative for shrinkage) are given exactly; every band has no width.
func ChangeBy(s Section, radial, tangential float64) (Result, error) {
	var out Result
	if err := s.check(&out.Notes); err != nil {
		return Result{}, err
	}
	if err := checkChange(&out.Notes, radial, tangential); err != nil {
		return Result{}, err
	}
	e := Strains{movement.Strains{Radial: movement.Strain{Value: radial, Mean: radial}, Tangential: movement.Strain{Value: tangential, Mean: tangential}}}
	out.fill(&s, &e)
	return out, nil
}

// MostCurl is what the tests see of the limit of a curl.
const MostCurl = mostCurl

// Together is the correlation of radial and tangential shrinkage that the bands take.
const Together = together
