// Package mill answers what a log gives: the plan of its billets.
package mill

import (
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/sawlog"
)

// LogPlanRequest asks what billets a log gives.
type LogPlanRequest struct {
	Log           *Log          `json:"log" validate:"required" description:"the log or half log as it was measured"`
	Pattern       string        `json:"pattern" validate:"required,oneof=through_and_through quartered wedges" description:"through_and_through: parallel cuts, boards of all ring angles; quartered: two cuts through the pith, then boards from both sawn faces of a quarter in turns; wedges: equal sectors about the pith, for brace wood and carved tops, as many as are thick enough, in halves of halves where they are split"`
	Wanted        *WantedBillet `json:"wanted" validate:"required" description:"what billets are wanted, as large as they are to be once they are dry"`
	Saw           *shelf.Saw    `json:"saw" validate:"required" needs:"kerf|usual_kerf" description:"what its cuts take; usual_kerf froe splits wedges and takes no kerf"`
	PithOut       bool          `json:"pith_out,omitempty" default:"false" description:"no billet holds the pith; a board that would is ripped beside it"`
	PithClearance *wire.Length  `json:"pith_clearance,omitempty" validate:"omitempty,gte=0,lte=0.5" description:"with pith_out: wood around the pith that no billet holds. Left out: 10 mm (common practice, no source)"`
	SapwoodOut    bool          `json:"sapwood_out,omitempty" default:"false" description:"billets are of heartwood alone; needs the sapwood_thickness of the log"`
	Turn          *float64      `json:"turn_deg,omitempty" validate:"omitempty,gte=-180,lte=180" default:"0" description:"by how much the first cut is turned from level, clockwise on the start end; turn it so that checks and faults fall into the cuts"`
	ReportIn      string        `json:"report_in,omitempty" validate:"omitempty,oneof=metric inch" default:"metric" description:"units of the answer"`
}

// System is the one that the request asks its answer in.
func (r *LogPlanRequest) System() string { return r.ReportIn }

// Joins says which members go together.
func (*LogPlanRequest) Joins() wire.Joined {
	return wire.Joined{Needs: map[string][]string{"pith_clearance": {"pith_out"}}}
}

// Log is a round log, or a half log. Look along it from its start, the butt: the origin is
// the middle of the start end, y runs to the right and z down. A half log lies with its flat
// face up.
type Log struct {
	ID         string           `json:"id,omitempty" validate:"omitempty,id" description:"yours; ids of its billets begin with it"`
	Name       string           `json:"name,omitempty" validate:"max=100" description:"for people; given back as it is"`
	Wood       *shelf.WoodAsked `json:"wood,omitempty" description:"its name, such as \"sugar maple\", or figures of your own; needed with final_condition. Left out: not known"`
	Length     *wire.Length     `json:"length" validate:"required,gte=0.05,lte=20" description:"from the start to the end"`
	Start      *wire.Length     `json:"start_diameter" validate:"required,gte=0.03,lte=3" description:"at the start, the butt: over the bark where bark_thickness is given, else of the wood"`
	End        *wire.Length     `json:"end_diameter" validate:"required,gte=0.03,lte=3" description:"at the other end, measured the same way"`
	Bark       *wire.Length     `json:"bark_thickness,omitempty" validate:"omitempty,gte=0,lte=0.2" description:"of the bark on one side. Left out: the log is peeled, or the diameters are those of the wood"`
	Sapwood    *wire.Length     `json:"sapwood_thickness,omitempty" validate:"omitempty,gte=0,lte=1.5" description:"width of the ring of sapwood under the bark. Left out: not told apart"`
	Pith       *LogPoint        `json:"pith,omitempty" description:"where the pith lies on the start end. Left out: in the middle"`
	EndPith    *LogPoint        `json:"end_pith,omitempty" description:"where it lies on the other end, seen from the start. Left out: as on the start end"`
	Sweep      *wire.Length     `json:"sweep,omitempty" validate:"omitempty,gte=0,lte=1" description:"how far the middle of the length stands out, from a string between the ends; lay the log so that it stands out to the right. Left out: the log is straight"`
	Half       bool             `json:"half,omitempty" default:"false" description:"only the lower half, split or sawn level through the middle of both ends"`
	Condition  *shelf.Condition `json:"condition,omitempty" description:"moisture content when it is sawn. Left out: green"`
	SealedEnds string           `json:"end_seal,omitempty" validate:"omitempty,oneof=sealed_fresh sealed_late bare" description:"how its ends are kept; given on to the billets. Left out: not known"`
}

// LogPoint is a place on an end of a log.
type LogPoint struct {
	Y *wire.Length `json:"y,omitempty" validate:"omitempty,gte=-1.5,lte=1.5" description:"from the middle of the end to the right; negative to the left. Left out: 0"`
	Z *wire.Length `json:"z,omitempty" validate:"omitempty,gte=-1.5,lte=1.5" description:"from the middle of the end downwards; negative upwards. Left out: 0"`
}

// WantedBillet is what billets are wanted.
type WantedBillet struct {
	Thickness      *wire.Length     `json:"thickness" validate:"required,gte=0.001,lte=2" description:"of a board; of a wedge at its thick edge, the one to the bark. A wedge is at least that thick"`
	ThinEdge       *wire.Length     `json:"thin_edge,omitempty" validate:"omitempty,gte=0,lte=2" description:"of a wedge at its thin edge, the one to the pith: at least that. Left out: nothing, to a point"`
	MinWidth       *wire.Length     `json:"min_width" validate:"required,gte=0.001,lte=3" description:"narrower billets are left out; all are as wide as the wood allows"`
	MaxWidth       *wire.Length     `json:"max_width,omitempty" validate:"omitempty,gte=0.001,lte=3" description:"of a wedge: what is wider is cut off towards the pith, so that the thin edge is thicker. Left out: as wide as the wood allows"`
	Length         *wire.Length     `json:"length,omitempty" validate:"omitempty,gte=0.05,lte=20" description:"of a billet between its end trims; the log is crosscut first. Left out: billets are as long as the log"`
	EndTrim        *wire.Length     `json:"end_trim,omitempty" validate:"omitempty,gte=0,lte=1" description:"lost at each end of a billet to checks, given on to it. Left out: that of ends sealed while fresh, 25 mm"`
	MinRingAngle   *float64         `json:"min_ring_angle_deg,omitempty" validate:"omitempty,gte=0,lte=89" default:"0" description:"least angle of the rings to face 1 over the whole section; 0 takes any"`
	FinalCondition *shelf.Condition `json:"final_condition,omitempty" description:"moisture content at which the sizes above are wanted; green sizes are larger by the shrinkage until then. Left out: the sizes are green"`
}

// Bytes of an answer, at most: those that any has, those of a billet with its cut, which its
// length tells too, and those of figures of the caller's own wood in it. Held by
// TestAnswersAreNoLongerThanTold and TestAnswersOfManyLengthsAreNoLongerThanTold.
const (
	planBytes     = 10 << 10
	billetBytes   = 1600
	ownWoodsBytes = 1000
)

// Bulk is how many bytes the answer holds at most.
func (r *LogPlanRequest) Bulk() int {
	if r.Log == nil || r.Wanted == nil || r.Wanted.Thickness == nil || r.Log.Start == nil || r.Log.End == nil || r.Log.Length == nil {
		return planBytes
	}
	q := sawlog.Question{Log: r.Log.read(), Pattern: sawlog.Pattern(r.Pattern), Wanted: r.Wanted.read()}
	each := billetBytes
	if w := r.Log.Wood; w != nil && !w.IsSpelled() {
		each += ownWoodsBytes
	}
	return planBytes + each*min(sawlog.MostBillets, q.Most())
}
