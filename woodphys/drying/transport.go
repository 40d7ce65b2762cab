package drying

import (
	"math"
	"sync"

	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// Sizes of the tables: rows every 5 K, read by cubic interpolation, and knots in
// shares of fibre saturation or of the EMC of saturated air, read by cubic
// Hermite interpolation. The errors are measured by a test.
const (
	rowStep       = 5.0 // K
	firstDiffuseC = 0.0 // D is read at 0 C at least, frost does the rest
	diffuseRows   = 17  // 0 to 80 C
	diffuseKnots  = 17
	activityRows  = 25 // -40 to 80 C
	activityKnots = 33
)

// Transport is a wood made ready for the solver: tables of the Kirchhoff
// potential and of the surface activity. It tells the same for ever and may be shared.
// Making all its rows takes about half a millisecond; each is made when it is first read,
// and wood outdoors never reads those of a kiln.
type Transport struct {
	wood      medium
	direction direction
	notes     method.Notes
	made      [diffuseRows]sync.Once
	diffuse   [diffuseRows]diffuseRow
	told      [activityRows]sync.Once
	activity  [activityRows]activityRow
}

// diffuseRow is the potential phi = integral of D dM (m2/s) and D at one
// temperature, at shares 0, 1/16 .. 1 of fibre saturation.
type diffuseRow struct {
	fsp   float64
	width float64 // of an interval, fraction of MC, and its inverse
	inv   float64
	phi   [diffuseKnots]float64
	slope [diffuseKnots]float64
}

// activityRow is the relative humidity in balance with the wood and its slope
// per share, at shares of the EMC of saturated air.
type activityRow struct {
	full  float64 // EMC of saturated air
	a     [activityKnots]float64
	slope [activityKnots]float64
}

// NewTransport returns the tables of w for diffusion across the grain.
//
// Errors: *method.Error with input "specific_gravity", "fibre_saturation_pct",
// "emc_factor" or "pressure".
// Accuracy: within 2e-4 of Diffusivity as a share, 2e-4 of relative humidity.
//
// Source: as Diffusivity.
func NewTransport(w wood.Wood) (*Transport, error) { return newTransport(mediumOf(&w, 0), transverse) }

func newTransport(w medium, d direction) (*Transport, error) {
	tr := &Transport{wood: w, direction: d}
	if err := w.check(&tr.notes); err != nil {
		return nil, err
	}
	return tr, nil
}

// diffuseRow is a row of the potential.
func (tr *Transport) diffuseRow(r int) *diffuseRow {
	tr.made[r].Do(func() {
		tr.diffuse[r].fill(newSiau(tr.wood, quantity.Celsius(firstDiffuseC+rowStep*float64(r)), tr.direction))
	})
	return &tr.diffuse[r]
}

// activityRows are four rows of the surface activity from one on.
func (tr *Transport) activityRows(first int) []activityRow {
	for r := first; r < first+4; r++ {
		tr.told[r].Do(func() { tr.activity[r].fill(tr.wood.curve(quantity.Celsius(lowestAirC + rowStep*float64(r)))) })
	}
	return tr.activity[first : first+4 : first+4]
}

// Diffusivity returns the diffusion coefficient of moisture across the grain
// (m2/s, gradient of MC as driving force), between radial and tangential, of a
// wood at moisture content m (0 to 1.5; above fibre saturation, that there) and
// temperature t (-40 to 80 degC). The slowing by frost and by free water and the drying
// factor are not in it.
//
// Errors: *method.Error with input "specific_gravity", "fibre_saturation_pct",
// "emc_factor", "pressure", "mc_pct" or "temperature".
// Accuracy: a factor of about 2 for one wood; its rise with temperature and
// density is better known than its level. Real woods rise more steeply with MC.
//
// Source: Siau 1984, Transport Processes in Wood, and 1995 (from memory).
func (tr *Transport) Diffusivity(m quantity.Moisture, t quantity.Temperature) (float64, error) {
	return diffusivity(tr.wood, m, t, transverse)
}

// SpecificGravity returns the basic specific gravity of the wood, 0.10 to 1.20.
//
// Accuracy: exact. Source: the wood the tables were made for.
func (tr *Transport) SpecificGravity() float64 { return tr.wood.gravity }

// Isotherm returns the isotherm of the wood at t (held to -40 to 120 degC).
//
// Accuracy: as sorption.Curves.At. Source: the wood the tables were made for.
func (tr *Transport) Isotherm(t quantity.Temperature) sorption.Isotherm { return tr.wood.curve(t) }

func (row *diffuseRow) fill(s siau) {
	row.fsp = s.fsp
	// three-point Gauss-Legendre in each half interval
	const g, wMid, wEnd = 0.7745966692414834, 8.0 / 18, 5.0 / 18
	width := s.fsp / (diffuseKnots - 1)
	row.slope[0] = s.at(0)
	for j := 1; j < diffuseKnots; j++ {
		sum := 0.0
		for half := range 2 {
			mid := width * (float64(j-1) + 0.25 + 0.5*float64(half))
			sum += width / 2 * (wMid*s.at(mid) + wEnd*(s.at(mid-g*width/4)+s.at(mid+g*width/4)))
		}
		row.phi[j] = row.phi[j-1] + sum
		row.slope[j] = s.at(width * float64(j))
	}
}

func (row *activityRow) fill(curve sorption.Isotherm) {
	row.full = float64(curve.At(1))
	for j := range row.a {
		h := curve.Inverse(quantity.Moisture(row.full * float64(j) / (activityKnots - 1)))
		row.a[j], row.slope[j] = h, row.full/curve.Slope(h)
	}
}

// weights returns the first of four rows around the temperature c (degC) in a
// table of n rows that starts at first, and their cubic Lagrange weights.
func weights(c, first float64, n int) (int, [4]float64) {
	u := (c - first) / rowStep
	r := min(max(int(u)-1, 0), n-4)
	s := u - float64(r) // 0 to 3
	a, b, d, e := s, s-1, s-2, s-3
	return r, [4]float64{-b * d * e / 6, a * d * e / 2, -a * b * e / 2, a * b * d / 6}
}

// blend fills out with the potential at temperature c, at least 0 degC, all
// times scale.
func (tr *Transport) blend(c, scale float64, out *diffuseRow) {
	r, w := weights(max(c, firstDiffuseC), firstDiffuseC, diffuseRows)
	r0, r1, r2, r3 := tr.diffuseRow(r), tr.diffuseRow(r+1), tr.diffuseRow(r+2), tr.diffuseRow(r+3)
	out.fsp = w[0]*r0.fsp + w[1]*r1.fsp + w[2]*r2.fsp + w[3]*r3.fsp
	out.space()
	w0, w1, w2, w3 := w[0]*scale, w[1]*scale, w[2]*scale, w[3]*scale
	for j := range out.phi {
		out.phi[j] = w0*r0.phi[j] + w1*r1.phi[j] + w2*r2.phi[j] + w3*r3.phi[j]
		out.slope[j] = w0*r0.slope[j] + w1*r1.slope[j] + w2*r2.slope[j] + w3*r3.slope[j]
	}
}

// space sets the width of the intervals from the fibre saturation point.
func (row *diffuseRow) space() {
	row.width = row.fsp / (diffuseKnots - 1)
	row.inv = 1 / row.width
}

// at returns the potential and the diffusivity at m; below 0 it goes on in a straight
// line, above fibre saturation as freeWater.
func (row *diffuseRow) at(m float64) (phi, d float64) {
	const last = diffuseKnots - 1
	u := m * row.inv
	if !(u < last) {
		phi, d = freeWater(m - row.fsp)
		return row.phi[last] + row.slope[last]*phi, row.slope[last] * d
	}
	if u < 0 {
		return row.slope[0] * m, row.slope[0]
	}
	j := int(u) & 15 // below last; the mask tells the compiler
	s := u - float64(j)
	p0, m0, m1 := row.phi[j], row.slope[j]*row.width, row.slope[j+1]*row.width
	rise := row.phi[j+1] - p0
	c2, c3 := 3*rise-2*m0-m1, m0+m1-2*rise
	return p0 + s*(m0+s*(c2+s*c3)), (m0 + s*(2*c2+s*3*c3)) * row.inv
}

// activityAt is where the surface activity is read at one temperature.
type activityAt struct {
	rows   []activityRow
	weight [4]float64
	full   float64
}

func (tr *Transport) activityFor(c float64) activityAt {
	r, w := weights(c, lowestAirC, activityRows)
	rows := tr.activityRows(r)
	return activityAt{rows, w, w[0]*rows[0].full + w[1]*rows[1].full + w[2]*rows[2].full + w[3]*rows[3].full}
}

// at returns the activity at m and its slope with m; 1 from the EMC of
// saturated air up.
func (a *activityAt) at(m float64) (activity, slope float64) {
	const last = activityKnots - 1
	u := m / a.full * last
	if !(u < last) {
		if math.IsNaN(u) {
			return u, u
		}
		return 1, 0
	}
	if u < 0 { // a straight line on, which brings the scheme back
		for i := range a.rows {
			slope += a.weight[i] * a.rows[i].slope[0] / a.full
		}
		return slope * m, slope
	}
	j := int(u)
	s := u - float64(j)
	for i := range a.rows {
		row := &a.rows[i]
		p0, m0, m1 := row.a[j], row.slope[j]/last, row.slope[j+1]/last
		rise := row.a[j+1] - p0
		c2, c3 := 3*rise-2*m0-m1, m0+m1-2*rise
		activity += a.weight[i] * (p0 + s*(m0+s*(c2+s*c3)))
		slope += a.weight[i] * (m0 + s*(2*c2+s*3*c3))
	}
	return activity, slope * last / a.full
}
