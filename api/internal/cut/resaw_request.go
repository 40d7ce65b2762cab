package cut

import (
	"strconv"
	"strings"

	"latewood/api/internal/drawing"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// ResawPlanRequest asks for the best plan to cut billets into sets.
type ResawPlanRequest struct {
	Billets  []shelf.Billet `json:"billets" validate:"required,min=1,max=50,dive" needs:"length width thickness" nullable:"false" description:"the wood that is at hand"`
	Saws     []shelf.Saw    `json:"saws" validate:"required,min=1,max=6,dive" needs:"kerf|usual_kerf" nullable:"false" description:"compared; a plan uses one"`
	Parts    []shelf.Part   `json:"parts" validate:"required,min=1,max=20,dive" needs:"length|part_size width|part_size final_thickness|sawn_thickness|part_size" nullable:"false" description:"what is wanted"`
	Varies   *PlanVariation `json:"variation,omitempty" description:"what varies; with it the answer tells how probable at least n sets are. Left out: no probabilities"`
	Work     *int           `json:"max_search_steps,omitempty" validate:"omitempty,gte=1000,lte=20000000" default:"20000000" description:"steps of the search, so that the same request has the same answer on every machine; a million takes about 0.03 s"`
	Template string         `json:"template_billet,omitempty" validate:"omitempty,id" description:"with ?as=template and ?as=template_pdf: id of the billet whose ends are drawn; with ?as=dxf of the one whose face is. Left out: the first billet"`
	Paper    string         `json:"paper,omitempty" validate:"omitempty,oneof=a4 letter" description:"with ?as=pdf, template_pdf and labels: what it is printed on. Left out: letter with report_in inch, else a4"`
	Fraction string         `json:"inch_fraction,omitempty" validate:"omitempty,oneof=1/32 1/64" description:"with report_in inch: the plan is made for a scale in these fractions of an inch: parts are sawn as long, wide and thick as whole ones of them, rounded up, crosscuts and rips are counted as wide; settings are told so that no leaf comes out smaller, other lengths to the nearest. Left out: sizes as they are, in decimals"`
	AsOf     string         `json:"as_of,omitempty" validate:"omitempty,datetime=2006-01-02" description:"today, for the title block of the drawing. Left out: no date"`
	ReportIn string         `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer"`
}

// fraction is the denominator of fractions of an inch; 0 for decimals.
func (r *ResawPlanRequest) fraction() int {
	_, under, _ := strings.Cut(r.Fraction, "/")
	n, err := strconv.Atoi(under)
	if err != nil { // none is asked for
		return 0
	}
	return n
}

// step is the fraction of an inch that saws are set to; 0 for any setting.
func (r *ResawPlanRequest) step() quantity.Length {
	if n := r.fraction(); n > 0 {
		return quantity.Inch / quantity.Length(n)
	}
	return 0
}

// checkFraction refuses fractions of an inch in a metric answer.
func (r *ResawPlanRequest) checkFraction() error {
	if r.Fraction != "" && r.ReportIn != wire.InchLB {
		return &method.Error{Code: method.Contradictory, Input: "inch_fraction",
			Detail: "inch_fraction goes with report_in inch: this answer is in millimetres"}
	}
	return nil
}

// paperOf is the paper that prints are made for.
func paperOf(r *ResawPlanRequest) drawing.Paper {
	if r.Paper == drawing.Letter.Name || r.Paper == "" && r.ReportIn == wire.InchLB {
		return drawing.Letter
	}
	return drawing.A4
}

// System is the one that the request asks its answer in.
func (r *ResawPlanRequest) System() string { return r.ReportIn }

// PlanVariation is what varies between the plan and the bench.
type PlanVariation struct {
	KerfSD   *wire.Length `json:"kerf_sd,omitempty" validate:"omitempty,gte=0,lte=0.01" description:"standard deviation of the resaw kerf, one for the whole job. Left out: 0"`
	WanderSD *wire.Length `json:"wander_sd,omitempty" validate:"omitempty,gte=0,lte=0.01" description:"standard deviation of the wander, each leaf on its own; one that strays by more than wander allows is lost. Left out: 0"`
	Hidden   *float64     `json:"hidden_fault_probability,omitempty" validate:"omitempty,gte=0,lte=1" default:"0" description:"how probable it is that a leaf which looks clear on the billet is not when it is opened, 0 to 1"`
}
