package cut

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// ResawPlanRequest asks for the best plan to cut billets into sets.
type ResawPlanRequest struct {
	Billets  []shelf.Billet `json:"billets" validate:"required,min=1,max=50,dive" needs:"length width thickness" nullable:"false" description:"the wood that is at hand"`
	Saws     []shelf.Saw    `json:"saws" validate:"required,min=1,max=6,dive" needs:"kerf|usual_kerf" nullable:"false" description:"compared; a plan uses one"`
	Parts    []shelf.Part   `json:"parts" validate:"required,min=1,max=20,dive" needs:"length|part_size width|part_size final_thickness|sawn_thickness|part_size" nullable:"false" description:"what is wanted"`
	Varies   *PlanVariation `json:"variation,omitempty" description:"what varies; with it the answer tells how probable at least n sets are. Left out: no probabilities"`
	Work     *int           `json:"max_search_steps,omitempty" validate:"omitempty,gte=1000,lte=20000000" default:"20000000" description:"steps of the search, so that the same request has the same answer on every machine; a million takes about 0.03 s"`
	Template string         `json:"template_billet,omitempty" validate:"omitempty,id" description:"with ?as=template: id of the billet whose end is drawn. Left out: the first billet"`
	AsOf     string         `json:"as_of,omitempty" validate:"omitempty,datetime=2006-01-02" description:"today, for the title block of the drawing. Left out: no date"`
	ReportIn string         `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer"`
}

// System is the one that the request asks its answer in.
func (r *ResawPlanRequest) System() string { return r.ReportIn }

// PlanVariation is what varies between the plan and the bench.
type PlanVariation struct {
	KerfSD   *wire.Length `json:"kerf_sd,omitempty" validate:"omitempty,gte=0,lte=0.01" description:"standard deviation of the resaw kerf, one for the whole job. Left out: 0"`
	WanderSD *wire.Length `json:"wander_sd,omitempty" validate:"omitempty,gte=0,lte=0.01" description:"standard deviation of the wander, each leaf on its own; one that strays by more than wander allows is lost. Left out: 0"`
	Hidden   *float64     `json:"hidden_fault_probability,omitempty" validate:"omitempty,gte=0,lte=1" default:"0" description:"how probable it is that a leaf which looks clear on the billet is not when it is opened, 0 to 1"`
}
