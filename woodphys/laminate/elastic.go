package laminate

import (
	"math"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// Elastic holds the elastic constants of a wood at the moisture content it works
// at. EL is along the grain. Ratios are to EL; Poisson's ratios have the direction of the
// stress first. Only the ones with the stress along the stiffer direction are used; the
// others follow by symmetry.
type Elastic struct {
	EL quantity.Pressure // 100 MPa to 100 GPa
	wood.Ratios
	StandIn wood.Ratios // for ratios that are not known: the means of Group
	Group   wood.Group
}

// ratios are the elastic ratios of a wood in full.
type ratios struct {
	etEL, erEL, glrEL, gltEL, grtEL float64
	poissonLR, poissonLT, poissonRT float64
}

// resolve fills missing ratios from the group and checks all of them.
func (e *Elastic) resolve(n *method.Notes) (ratios, error) {
	n.Rest(&elasticRow)
	if err := n.Use(&elasticRow, "modulus_along", e.EL.Pascals()/1e6); err != nil {
		return ratios{}, err
	}
	names := [...]string{"et_el", "er_el", "glr_el", "glt_el", "grt_el", "nu_lr", "nu_lt", "nu_rt"}
	figures, means := inOrder(&e.Ratios), inOrder(&e.StandIn)
	var values [len(names)]float64
	missing, recalled := "", false
	for i, f := range figures {
		if !f.Known {
			if !means[i].Known {
				return ratios{}, &method.Error{Code: method.Missing, Input: names[i],
					Detail: names[i] + " is not known, and no group (hardwood, softwood) is given whose mean could stand for it"}
			}
			missing, values[i] = names[i], means[i].Value
			continue
		}
		recalled = recalled || f.Recalled
		if err := n.Use(&elasticRow, names[i], f.Value); err != nil {
			return ratios{}, err
		}
		values[i] = f.Value
	}
	if missing != "" {
		n.Rest(&ratiosRow)
		n.Warn(method.Warning{Code: method.DefaultUsed, Method: ratiosRow.ID, Input: missing,
			Detail: "elastic ratios that are not known are taken as the mean of the " + string(e.Group) + "s"})
	}
	if recalled {
		n.Warn(method.Warning{Code: method.Recalled, Method: elasticRow.ID,
			Detail: "elastic ratios of the wood are recalled from their table, not re-read"})
	}
	return ratios{
		etEL: values[0], erEL: values[1], glrEL: values[2], gltEL: values[3], grtEL: values[4],
		poissonLR: values[5], poissonLT: values[6], poissonRT: values[7],
	}, nil
}

// inOrder are the ratios in the order of their row.
func inOrder(r *wood.Ratios) [8]wood.Figure {
	return [8]wood.Figure{r.ETEL, r.EREL, r.GLREL, r.GLTEL, r.GRTEL, r.PoissonLR, r.PoissonLT, r.PoissonRT}
}

// plane is the stiffness of a layer in its own plane, L along the grain and w
// across, and its shear moduli through the thickness, in pascals.
type plane struct {
	q11, q12, q22, q66 float64
	gLz, gwz           float64
}

// at turns the R-T plane so that the width of the layer stands at the ring angle
// with this cosine and sine.
func (r *ratios) at(el, cos, sin float64) (plane, error) {
	c2, s2 := cos*cos, sin*sin
	et, er, grt := r.etEL*el, r.erEL*el, r.grtEL*el
	// compliance along the width: 1/E_w
	sw := c2*c2/et + s2*s2/er + s2*c2*(1/grt-2*r.poissonRT/er)
	nu := r.poissonLT*c2 + r.poissonLR*s2
	s11, s12 := 1/el, -nu/el
	glw := 1 / (c2/(r.gltEL*el) + s2/(r.glrEL*el))
	det := s11*sw - s12*s12
	if !(sw > 0) || !(det > 0) || r.poissonRT*r.poissonRT*et >= er { // also catches NaN
		return plane{}, &method.Error{Code: method.Contradictory, Input: "nu_rt",
			Detail: "these elastic ratios cannot belong to one material: energy could be gained by straining it"}
	}
	return plane{
		q11: sw / det, q12: -s12 / det, q22: s11 / det, q66: glw,
		gLz: 1 / (s2/(r.gltEL*el) + c2/(r.glrEL*el)),
		gwz: 1 / (4*s2*c2*(1/et+1/er+2*r.poissonRT/er) + (c2-s2)*(c2-s2)/grt),
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
