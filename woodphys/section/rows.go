package section

import "latewood/woodphys/method"

const chapter = "section"

var (
	moistureRange = method.Range{Low: 0, High: 250}
	sizeRange     = method.Range{Low: 0.01, High: 1e5}
	changeRange   = method.Range{Low: -60, High: 60}
	angleRange    = method.Range{Low: 0, High: 90}

	// pithRange is a tenth more than StraightRings: from the halves of a section the pith may
	// lie further off than from the whole.
	pithRange = method.Range{Low: -1.1e6, High: 1.1e6}
)

var polarRow = method.Method{
	ID: "section.polar", Chapter: chapter,
	Summary:  "Stress-free shape of a section after a uniform change of moisture content",
	Equation: "r' = r (1 - s_R), phi' = phi (1 - s_T)/(1 - s_R), pole at the pith",
	Inputs: []method.Input{
		{Name: "width", Unit: "mm", Fitted: method.Range{Low: 1, High: 2000}, Limit: sizeRange},
		{Name: "thickness", Unit: "mm", Fitted: method.Range{Low: 0.5, High: 1000}, Limit: sizeRange},
		{Name: "pith_x", Unit: "mm", Fitted: pithRange, Limit: pithRange},
		{Name: "pith_y", Unit: "mm", Fitted: pithRange, Limit: pithRange},
		{Name: "radial_change_pct", Unit: "%", Fitted: method.Range{Low: -20, High: 20}, Limit: changeRange},
		{Name: "tangential_change_pct", Unit: "%", Fitted: method.Range{Low: -20, High: 20}, Limit: changeRange},
		{Name: "points_per_side", Unit: "", Fitted: method.Range{Low: 1, High: 2000}, Limit: method.Range{Low: 1, High: 2000}},
		{Name: "x", Unit: "mm", Fitted: pithRange, Limit: pithRange},
		{Name: "y", Unit: "mm", Fitted: pithRange, Limit: pithRange},
	},
	Accuracy: "of its band: radial and tangential shrinkage of a piece vary by 15 % each and go together with a correlation of 0.6, so that their ratio varies by 13 %; where one wood was sampled in two places they did by 0.67, and the ratio varied by 12 % (36 woods). Exact for circular rings and uniform moisture; in linear finite elements the largest difference is 0.05 % of the displacement at the finest mesh and the residual stress goes to zero with the mesh",
	Source:   "derived; idea as in Booker, Ward and Williams 1992 (from memory); correlation from Laboratorio de Produtos Florestais (SFB Brazil), data base of Brazilian woods, read in a transcript (testdata/section)",
	Checked:  method.Derived,
}

var heartRow = method.Method{
	ID: "section.boxed-heart", Chapter: chapter,
	Summary:  "Opening of the check in a section that holds the pith",
	Equation: "opening = 2 pi (1 - (1 - s_T)/(1 - s_R)); gap at radius r: 2 pi r (s_T - s_R)",
	Accuracy: "the sum of all checks when they relieve all stress; creep and wood left under stress make it less",
	Source:   "derived: a full turn about the pith becomes 2 pi k",
	Checked:  method.Derived,
}

var ringRow = method.Method{
	ID: "section.ring-angle", Chapter: chapter,
	Summary:  "Ring angle and ring radius at a place of the section",
	Equation: "atan(|x - pith_x| / |y - pith_y|)",
	Inputs: []method.Input{
		{Name: "ring_angle_deg", Unit: "deg", Fitted: angleRange, Limit: angleRange},
		{Name: "ring_radius", Unit: "mm", Fitted: method.Range{Low: 1, High: 1e6}, Limit: method.Range{Low: 0.01, High: 1e6}},
	},
	Accuracy: "exact for circular rings",
	Source:   "geometry of circular rings about one pith",
	Checked:  method.Derived,
}

var gradientRow = method.Method{
	ID: "section.gradient", Chapter: chapter,
	Summary:  "Curvature across the grain from a moisture profile through the thickness",
	Equation: "kappa = 12/h^3 integral(strain y dy), y from mid-thickness; cup = kappa w^2/8",
	Inputs: []method.Input{
		{Name: "thickness", Unit: "mm", Fitted: method.Range{Low: 0.5, High: 200}, Limit: sizeRange},
		{Name: "width", Unit: "mm", Fitted: method.Range{Low: 1, High: 2000}, Limit: sizeRange},
		{Name: "mc_pct", Unit: "%MC", Fitted: moistureRange, Limit: moistureRange},
		{Name: "depth", Unit: "of thickness", Fitted: method.Range{Low: 0, High: 1}, Limit: method.Range{Low: 0, High: 1}},
		{Name: "ring_angle_deg", Unit: "deg", Fitted: angleRange, Limit: angleRange},
	},
	Accuracy: "elastic beam of one stiffness; creep and set make the real cup smaller, and set leaves some of it behind",
	Source:   "beam theory; Timoshenko 1925 is its two-layer case",
	Checked:  method.Derived,
}

var twistRow = method.Method{
	ID: "section.twist", Chapter: chapter,
	Summary:  "Twist of a piece with spiral grain",
	Equation: "twist per length = 2 s g/((1 + s) r), r = integral(r^2 dA)/integral(r dA) over the section",
	Inputs: []method.Input{
		{Name: "tangential_pct", Unit: "%", Fitted: method.Range{Low: 0, High: 12}, Limit: method.Range{Low: -40, High: 40}},
		{Name: "spiral_deg", Unit: "deg", Fitted: method.Range{Low: -10, High: 10}, Limit: method.Range{Low: -45, High: 45}},
		{Name: "pith_distance", Unit: "mm", Fitted: method.Range{Low: 20, High: 1000}, Limit: method.Range{Low: 1, High: 1e6}},
		{Name: "length", Unit: "mm", Fitted: method.Range{Low: 1, High: 12000}, Limit: sizeRange},
	},
	Accuracy: "correlation good in spruce, scatter large: a residual of 30 % (1 SD, assumed) is in the band",
	Source:   "Stevens and Johnston 1960; the mean radius of a section derived, moments of twist in balance",
	Checked:  method.Memory,
}

var crookRow = method.Method{
	ID: "section.crook", Chapter: chapter,
	Summary:  "Crook or bow from a difference of movement along the grain between two sides",
	Equation: "kappa = difference/depth; sagitta = kappa L^2/8",
	Inputs: []method.Input{
		{Name: "depth", Unit: "mm", Fitted: method.Range{Low: 1, High: 1000}, Limit: sizeRange},
		{Name: "length", Unit: "mm", Fitted: method.Range{Low: 1, High: 12000}, Limit: sizeRange},
		{Name: "difference_pct", Unit: "%", Fitted: method.Range{Low: -2, High: 2}, Limit: method.Range{Low: -10, High: 10}},
	},
	Accuracy: "for a difference that varies evenly from side to side",
	Source:   "beam theory: curvature of a bar whose sides differ in strain, sagitta of a circular arc",
	Checked:  method.Derived,
}

// Methods returns the registry rows of this chapter.
func Methods() []*method.Method {
	return []*method.Method{&polarRow, &heartRow, &ringRow, &gradientRow, &prongRow, &twistRow, &crookRow}
}
