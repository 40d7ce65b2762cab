package laminate

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Figure is one published number of a wood, as in package movement.
type Figure = wood.Figure

// Group is a group of woods whose means stand in for missing ratios.
type Group string

// The groups. None means that every ratio is given.
const (
	None     Group = ""
	Hardwood Group = "hardwood"
	Softwood Group = "softwood"
)

// Elastic holds the elastic constants of a wood at the moisture content it works
// at. EL is along the grain (1.10 times the bending modulus, Wood Handbook p. 5-2,
// from memory). Ratios are to EL; Poisson's ratios have the direction of the stress
// first. Only the ones with the stress along the stiffer direction are used; the
// others follow by symmetry.
type Elastic struct {
	EL                              quantity.Pressure // 100 MPa to 100 GPa
	ETEL, EREL                      Figure            // 0.001 to 1
	GLREL, GLTEL, GRTEL             Figure            // 0.001 to 1, GRTEL 0.0005 to 0.5
	PoissonLR, PoissonLT, PoissonRT Figure            // 0 to 0.9, RT to 0.95
	Group                           Group             // for ratios that are not known
}

// Ratios are the elastic ratios of a wood in full.
type Ratios struct {
	ETEL, EREL, GLREL, GLTEL, GRTEL float64
	PoissonLR, PoissonLT, PoissonRT float64
}

// Means of the hardwoods and softwoods of Wood Handbook FPL-GTR-190 tables 5-1 and
// 5-2, without the woods that lack the figure (GRT is known for 7 hardwoods only).
// Derived; most of the rows are recalled. Tested against
// testdata/published/elastic_ratios.csv.
var (
	hardwoodMeans = Ratios{ETEL: 0.0569, EREL: 0.1143, GLREL: 0.0892, GLTEL: 0.0666, GRTEL: 0.0177, PoissonLR: 0.3713, PoissonLT: 0.4668, PoissonRT: 0.7033}
	softwoodMeans = Ratios{ETEL: 0.0574, EREL: 0.0963, GLREL: 0.0824, GLTEL: 0.0771, GRTEL: 0.0092, PoissonLR: 0.3525, PoissonLT: 0.3651, PoissonRT: 0.4259}
)

// GroupRatios returns the mean ratios of a group; ok is false for a name that is no
// group.
//
// Accuracy: standard deviation within a group 20 to 50 % of the mean for stiffness.
// Source: means of Wood Handbook FPL-GTR-190 tables 5-1 and 5-2, derived.
func GroupRatios(g Group) (r Ratios, ok bool) {
	switch g {
	case Hardwood:
		return hardwoodMeans, true
	case Softwood:
		return softwoodMeans, true
	case None:
	}
	return Ratios{}, false
}

// resolve fills missing ratios from the group and checks all of them.
func (e *Elastic) resolve(n *method.Notes) (Ratios, error) {
	n.Rest(&elasticRow)
	if err := n.Use(&elasticRow, "modulus_along", e.EL.Pascals()/1e6); err != nil {
		return Ratios{}, err
	}
	m, hasGroup := GroupRatios(e.Group)
	names := [...]string{"et_el", "er_el", "glr_el", "glt_el", "grt_el", "nu_lr", "nu_lt", "nu_rt"}
	figures := [...]*Figure{&e.ETEL, &e.EREL, &e.GLREL, &e.GLTEL, &e.GRTEL, &e.PoissonLR, &e.PoissonLT, &e.PoissonRT}
	values := [...]float64{m.ETEL, m.EREL, m.GLREL, m.GLTEL, m.GRTEL, m.PoissonLR, m.PoissonLT, m.PoissonRT}
	missing, recalled := "", false
	for i, f := range figures {
		if !f.Known {
			if !hasGroup {
				return Ratios{}, &method.Error{Code: method.Missing, Input: names[i], Detail: names[i] + " is not known, and no group (hardwood, softwood) is given whose mean could stand for it"}
			}
			missing = names[i]
			continue
		}
		recalled = recalled || f.Recalled
		if err := n.Use(&elasticRow, names[i], f.Value); err != nil {
			return Ratios{}, err
		}
		values[i] = f.Value
	}
	if missing != "" {
		n.Rest(&ratiosRow)
		detail := "elastic ratios that are not known are taken as the mean of the hardwoods"
		if e.Group == Softwood {
			detail = "elastic ratios that are not known are taken as the mean of the softwoods"
		}
		n.Warn(method.Warning{Code: method.DefaultUsed, Method: ratiosRow.ID, Input: missing, Detail: detail})
	}
	if recalled {
		n.Warn(method.Warning{Code: method.Recalled, Method: elasticRow.ID, Detail: "elastic ratios of the wood are recalled from their table, not re-read"})
	}
	return Ratios{
		ETEL: values[0], EREL: values[1], GLREL: values[2], GLTEL: values[3], GRTEL: values[4],
		PoissonLR: values[5], PoissonLT: values[6], PoissonRT: values[7],
	}, nil
}

// plane is the stiffness of a layer in its own plane, L along the grain and w
// across, and its shear moduli through the thickness, in pascals.
type plane struct {
	q11, q12, q22, q66 float64
	gLz, gwz           float64
}

// at turns the R-T plane so that the width of the layer stands at the ring angle
// with this cosine and sine.
func (r *Ratios) at(el, cos, sin float64) (plane, error) {
	c2, s2 := cos*cos, sin*sin
	et, er, grt := r.ETEL*el, r.EREL*el, r.GRTEL*el
	// compliance along the width: 1/E_w
	sw := c2*c2/et + s2*s2/er + s2*c2*(1/grt-2*r.PoissonRT/er)
	nu := r.PoissonLT*c2 + r.PoissonLR*s2
	s11, s12 := 1/el, -nu/el
	glw := 1 / (c2/(r.GLTEL*el) + s2/(r.GLREL*el))
	det := s11*sw - s12*s12
	if !(sw > 0) || !(det > 0) || r.PoissonRT*r.PoissonRT*et >= er { // also catches NaN
		return plane{}, &method.Error{Code: method.Contradictory, Input: "nu_rt", Detail: "these elastic ratios cannot belong to one material: energy could be gained by straining it"}
	}
	return plane{
		q11: sw / det, q12: -s12 / det, q22: s11 / det, q66: glw,
		gLz: 1 / (s2/(r.GLTEL*el) + c2/(r.GLREL*el)),
		gwz: 1 / (4*s2*c2*(1/et+1/er+2*r.PoissonRT/er) + (c2-s2)*(c2-s2)/grt),
	}, nil
}

// Across is the stiffness of a wood across its grain, in the plane of a layer.
type Across struct {
	Modulus quantity.Pressure // E_w
	Shear   quantity.Pressure // G_Lw
	Poisson float64           // nu_Lw
	Notes   method.Notes
}

// AcrossGrain returns the stiffness of a wood in the direction across the grain that
// has the ring angle (0 to 90 degrees) to the rings.
//
// Errors: out_of_range for ring_angle_deg, modulus_along and the ratios; missing for
// a ratio that is not known without a group; contradictory for ratios of no material.
// Accuracy: exact rotation; pieces vary by 25 % and more.
// Source: rotation of the orthotropic compliance about L.
func AcrossGrain(e Elastic, ringAngle quantity.Angle) (Across, error) {
	var out Across
	if err := out.Notes.Use(&panelRow, "ring_angle_deg", tidy(ringAngle.Degrees())); err != nil {
		return Across{}, err
	}
	r, err := e.resolve(&out.Notes)
	if err != nil {
		return Across{}, err
	}
	sin, cos := math.Sincos(float64(ringAngle))
	p, err := r.at(float64(e.EL), cos, sin)
	if err != nil {
		return Across{}, err
	}
	out.Modulus = quantity.Pressure(p.q22 - p.q12*p.q12/p.q11)
	out.Shear = quantity.Pressure(p.q66)
	out.Poisson = p.q12 / p.q22 // nu_Lw = -s12/s11
	return out, nil
}

// tidy removes the last-digit dust of a unit conversion, so that a value on a
// limit is inside it.
func tidy(v float64) float64 {
	if r := math.Round(v*1e9) / 1e9; !math.IsInf(r, 0) {
		return r
	}
	return v
}
