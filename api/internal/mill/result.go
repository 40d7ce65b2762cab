package mill

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// LogPlanResult is what a log gives.
type LogPlanResult struct {
	Summary   string             `json:"summary" required:"true" description:"the answer in a sentence"`
	Billets   []LogBillet        `json:"billets" required:"true" nullable:"false" description:"every billet, length by length; none where the log is too thin"`
	Bolts     []LogBolt          `json:"bolts" required:"true" nullable:"false" description:"the lengths that the log is crosscut into; one, the whole log, where no length is wanted"`
	Thickness wire.Quantity      `json:"green_thickness" required:"true" description:"to saw at, so that it is as wanted once it is dry: along the rings, where wood shrinks most. Of a wedge the least at its thick edge"`
	Setting   *LogSetting        `json:"saw_setting,omitempty" description:"of the first length, through and through: where the first board begins, and the step from board to board"`
	Sectors   int                `json:"sectors,omitempty" description:"of wedges: how many equal sectors stand about the pith of the first length; a half log holds half of them"`
	Cuts      []LogCut           `json:"cuts" nullable:"false" detail:"full" description:"the cuts along the first length that part it, in the order in which they are made, as they lie on its start end, to the edge of its wood; each goes through one of the pieces that are there by then; edges are ripped besides. Left out with ?detail=summary"`
	Volume    LogVolume          `json:"volume" required:"true" description:"of the log and its billets"`
	Scales    *LogScales         `json:"scales,omitempty" description:"what rules of the trade say that the log yields, from its small end. Left out for a half log, and for sizes that they do not know"`
	Mass      *wire.Band         `json:"mass,omitempty" description:"of the log without its bark, which is lifted too and not weighed here, at the moisture content it is sawn at; told where its wood is known"`
	Advice    []string           `json:"advice" required:"true" nullable:"false" description:"what to do, in order"`
	StandIns  []shelf.Provenance `json:"defaults_used,omitempty" description:"figures of the tables that stood in for what was not given, with their sources; GET /v1/sawing-losses lists them"`

	drawn *logDrawing
}

// LogBillet is one billet with where it lies in the log.
type LogBillet struct {
	Billet      shelf.Billet  `json:"billet" required:"true" needs:"length width thickness" description:"green, in the form that /v1/resaw-plan takes. Its near edge is the one to the bark, of a board from bark to bark the left one"`
	Bolt        int           `json:"bolt" required:"true" description:"number of the length that it comes from, from 1"`
	DryWidth    wire.Quantity `json:"dry_width" required:"true" description:"once it has come to final_condition, by the ring angle in its middle; else as it is sawn"`
	DryThick    wire.Quantity `json:"dry_thickness" required:"true" description:"at its thick edge then, at least"`
	LeastAngle  float64       `json:"min_ring_angle_deg" required:"true" description:"least angle of the rings to its face 1, over the whole section and length"`
	MiddleAngle float64       `json:"middle_ring_angle_deg" required:"true" description:"the same in the middle of its start end"`
	Corners     []LogPlace    `json:"corners" nullable:"false" detail:"full" description:"of its section on the start end of its length: near and far edge of face 1, far and near edge of face 2. Left out with ?detail=summary"`
}

// LogPlace is a place on the start end of a length of the log.
type LogPlace struct {
	Y wire.Quantity `json:"y" required:"true" description:"from the middle to the right"`
	Z wire.Quantity `json:"z" required:"true" description:"from the middle downwards"`
}

// LogBolt is a length that the log is crosscut into.
type LogBolt struct {
	XFrom   wire.Quantity `json:"x_from" required:"true" description:"where it begins, from the start of the log"`
	Length  wire.Quantity `json:"length" required:"true" description:"with the end trims of its billets"`
	Start   wire.Quantity `json:"start_wood_diameter" required:"true" description:"at its start, without the bark"`
	End     wire.Quantity `json:"end_wood_diameter" required:"true" description:"at its end, without the bark"`
	Setting *LogSetting   `json:"saw_setting,omitempty" description:"through and through, of this length. Left out for other patterns, and where it gives no billet"`
	Sectors int           `json:"sectors,omitempty" description:"of wedges: how many equal sectors stand about the pith of this length; a half log holds half of them"`
	Cuts    []LogCut      `json:"cuts" nullable:"false" detail:"full" description:"the cuts along this length, as those of the first are told; none where it gives no billet. Left out with ?detail=summary"`
}

// LogSetting is how a saw is set for boards through and through.
type LogSetting struct {
	First wire.Quantity `json:"first_from_middle" required:"true" description:"where the first board begins, square to the cuts from the middle of the start end; negative before it"`
	Step  wire.Quantity `json:"step" required:"true" description:"from one board to the next: thickness and kerf"`
}

// LogCut is a cut on the start end, the middle of its kerf.
type LogCut struct {
	From LogPlace `json:"from" required:"true" description:"one end"`
	To   LogPlace `json:"to" required:"true" description:"the other end"`
}

// LogVolume is what the log holds and what becomes of it.
type LogVolume struct {
	Log     shelf.BilletVolume `json:"log" required:"true" description:"of its wood without the bark"`
	Billets shelf.BilletVolume `json:"billets" required:"true" description:"of all billets as they are sawn, end trims and all"`
	Share   float64            `json:"billet_share_pct" required:"true" description:"billets in percent of the log"`
}

// LogScales are board feet by rules of the trade. Tables round the Doyle rule to 1, the
// International rule to 5 and the Scribner rule to 1 or 10 board feet.
type LogScales struct {
	Doyle         float64 `json:"doyle_board_feet" required:"true" resolution:"0.1" description:"by the Doyle rule; far too little for thin logs"`
	International float64 `json:"international_quarter_board_feet" required:"true" resolution:"0.1" description:"by the International rule for a kerf of 1/4 in"`
	Scribner      float64 `json:"scribner_board_feet" required:"true" resolution:"0.1" description:"by the formula of the Scribner rule, recalled from its publication"`
}

// Render draws the start end with its cuts and billets.
func (r *LogPlanResult) Render(string) ([]byte, error) { return r.drawn.draw(), nil }

// RenderShown draws it for a screen that has so many px for it.
func (r *LogPlanResult) RenderShown(width int) ([]byte, error) { return r.drawn.drawShown(width), nil }
