package shelf

import (
	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// Saw is one saw with the habits that go with it.
type Saw struct {
	ID           string       `json:"id,omitempty" validate:"omitempty,id" description:"yours, by which the answer calls the saw. Left out: its position in the list, such as \"1\""`
	Name         string       `json:"name,omitempty" validate:"max=100" description:"for people; given back as it is"`
	Kerf         *wire.Length `json:"kerf,omitempty" validate:"omitempty,gte=0,lte=0.02" description:"width of wood that the resaw cut turns to dust; make one cut in scrap and measure it. Left out: that of usual_kerf"`
	UsualKerf    string       `json:"usual_kerf,omitempty" validate:"max=40" enum:"bandsaw_carbide,bandsaw_thin,bandsaw_wide,frame_saw_gang,frame_saw_hand,froe,mill_band,mill_circular,portable_band,rip_saw_hand,table_saw_full,table_saw_thin" description:"kind of saw: id of a kerf of GET /v1/sawing-losses?kind=kerf, whose usual value stands in for kerf"`
	RipKerf      *wire.Length `json:"rip_kerf,omitempty" validate:"omitempty,gte=0,lte=0.02" description:"of the cut along the grain that parts widths. Left out: the kerf of the resaw cut"`
	CrosscutKerf *wire.Length `json:"crosscut_kerf,omitempty" validate:"omitempty,gte=0,lte=0.02" description:"of the cut across the grain. Left out: the kerf of the resaw cut"`
	Wander       *wire.Length `json:"wander,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"of the blade, allowed for in every leaf. Left out: 0.5 mm"`
	CleanupShow  *wire.Length `json:"cleanup_show,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"taken off the face of a leaf that shows; in a match it moves the halves apart, so take what you can from the back. Left out: 0.8 mm, of a face split with a froe 4.5 mm"`
	CleanupBack  *wire.Length `json:"cleanup_back,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"taken off the other face of a leaf. Left out: the same as cleanup_show; a match, which it does not change, counts none"`
	Reface       *wire.Length `json:"reface,omitempty" validate:"omitempty,gte=0,lte=0.05" description:"planed off the billet after every cut. Left out: nothing"`
	Face2Rough   bool         `json:"face_2_rough,omitempty" default:"false" description:"face 2 is not finished by the facing, so that every leaf needs a cut of its own"`
	MaxCutHeight *wire.Length `json:"max_cut_height,omitempty" validate:"omitempty,gt=0,lte=2" description:"widest piece it can resaw. Left out: any"`
}

// SawRead is a saw in SI, with the usual figures in place of those not given.
type SawRead struct {
	Row                 *species.SawKind // that usual_kerf names; nil for none
	Kerf, Rip, Crosscut quantity.Length
	Wander              quantity.Length
	CleanupShow         quantity.Length
	CleanupBack         quantity.Length
}

// Kerfs takes the kerfs, as given or of the table. Errors point below the saw.
func (s *Saw) Kerfs(bench *Bench) (SawRead, error) {
	var out SawRead
	if s.UsualKerf == "" && s.Kerf == nil {
		return out, wire.Missing("kerf", "give kerf, or usual_kerf, the id of a saw of the table")
	}
	row, err := bench.Tables.usualKerf(s.UsualKerf)
	if err != nil {
		return out, err
	}
	out.Row = row
	if s.Kerf != nil {
		out.Kerf = s.Kerf.SI
	} else {
		usual, known := out.Row.Kerf.Usual.Get()
		if !known {
			usual, _ = out.Row.Kerf.High.Get()
		}
		out.Kerf = usual
		bench.Usual.Note("kerf, "+NameIn(bench.Usual.Report, out.Row.Name), out.Row.Kerf.Usual)
	}
	out.Rip, out.Crosscut = LengthOr(s.RipKerf, out.Kerf), LengthOr(s.CrosscutKerf, out.Kerf)
	return out, nil
}

// Habits adds the clean-up and the wander of the saw, found at a place such as saws/0, as
// given or usual. What has no kerf by the table is split, and leaves rougher faces.
func (s *Saw) Habits(bench *Bench, at string, out *SawRead) {
	l := &bench.Tables.Losses
	usual, name := l.Cleanup, "clean-up of a face"
	if out.Splits() {
		usual, name = l.Split, "clean-up of a split face"
	}
	cleanup, _ := usual.Get()
	wander, _ := l.Wander.Get()
	if out.CleanupShow = LengthOr(s.CleanupShow, cleanup); s.CleanupShow == nil {
		bench.Usual.Note(name, usual)
	}
	out.CleanupBack = LengthOr(s.CleanupBack, out.CleanupShow)
	if out.Wander = LengthOr(s.Wander, wander); s.Wander == nil {
		bench.Usual.Note("wander", l.Wander)
	}
	if words := UsualWords(bench.Usual.Report, CleanupLoss(s.CleanupShow, s.CleanupBack, usual),
		UsualLoss{s.Wander, l.Wander, "wander"}); words != "" {
		bench.Notes.Warn(method.Warning{Code: method.DefaultUsed, Input: at, Detail: words})
	}
}

// Splits reports that the kind of saw is none, but splits.
func (r *SawRead) Splits() bool {
	if r.Row == nil {
		return false
	}
	kerf, known := r.Row.Kerf.Usual.Get()
	return known && kerf == 0
}

// TellOtherCuts warns, of a saw found at a place, that the kerf of the resaw cut stands in for
// that of rips and crosscuts, whichever of them the question makes; one
// that rips is taken to resaw too. What splits is told by TellSplit.
func (s *Saw) TellOtherCuts(bench *Bench, at string, read *SawRead, rips, crosscuts bool) {
	resaws := rips
	rips, crosscuts = rips && s.RipKerf == nil, crosscuts && s.CrosscutKerf == nil
	if read.Splits() || !rips && !crosscuts {
		return
	}
	cuts, members, lies := "rips and crosscuts take", "rip_kerf and crosscut_kerf", at+"/rip_kerf"
	switch {
	case !crosscuts:
		cuts, members = "rips take", "rip_kerf"
	case !rips:
		cuts, members, lies = "crosscuts take", "crosscut_kerf", at+"/crosscut_kerf"
	}
	detail := cuts + " the kerf of the resaw cut, " + read.Kerf.Format(bench.Usual.Report.LengthUnit) + "; give " +
		members + " of the saw that makes them"
	if resaws {
		detail += "; a max_kerf told is that of the resaw cut, with these as they are"
	}
	bench.Notes.Warn(method.Warning{Code: method.DefaultUsed, Input: lies, Detail: detail})
}

// TellSplit warns of what splitting takes, of a saw found at a place.
func (s *Saw) TellSplit(bench *Bench, at string, read *SawRead) {
	if !read.Splits() {
		return
	}
	detail := "splitting takes no kerf, but leaves rough faces"
	if s.CleanupShow == nil {
		detail += ": each face that has no clean-up of its own loses " + Spoken(bench.Usual.Report, bench.Tables.Losses.Split)
	}
	if s.RipKerf == nil || s.CrosscutKerf == nil {
		detail += "; rips and crosscuts without a kerf of their own are counted as taking nothing, give " +
			"rip_kerf and crosscut_kerf of the saw that makes them"
	}
	bench.Notes.Warn(method.Warning{Code: method.DefaultUsed, Input: at, Detail: detail})
}
