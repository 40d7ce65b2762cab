package mill

import (
	"errors"
	"math"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
	"latewood/woodphys/sawlog"
)

// fits refuses what contradicts the sizes of the log, with limits in the caller's units.
func (m *milling) fits(q *sawlog.Question) error {
	log, req := &q.Log, m.req
	var all []error
	refuse := func(member string, given *wire.Length, most quantity.Length, what string) {
		limit := method.LessThan(most.AtMost(given.Unit))
		all = append(all, &method.Error{Code: method.Contradictory, Input: member, Limit: limit, Detail: what + "; it must be " + limit.String()})
	}
	small := min(log.Start, log.End)
	if 2*log.Bark >= small {
		refuse("log/bark_thickness", req.Log.Bark, small/2, "the bark leaves no wood")
		return errors.Join(all...)
	}
	wood := small - 2*log.Bark
	if req.SapwoodOut && req.Log.Sapwood == nil {
		all = append(all, wire.Missing("log/sapwood_thickness", "sapwood_out needs the sapwood_thickness of the log"))
	}
	if req.SapwoodOut && 2*log.Sapwood >= wood {
		refuse("log/sapwood_thickness", req.Log.Sapwood, wood/2, "the sapwood leaves no heartwood at the small end")
	}
	for _, end := range []struct {
		member string
		given  *LogPoint
		share  float64
	}{{"log/pith", req.Log.Pith, 0}, {"log/end_pith", req.Log.EndPith, 1}} {
		place, radius := end.given.read(), log.WoodRadius(end.share)
		if end.given != nil && math.Hypot(float64(place.Y), float64(place.Z)) >= float64(radius) {
			limit := method.LessThan(radius.AtMost(m.report.LengthUnit))
			all = append(all, &method.Error{Code: method.Contradictory, Input: end.member, Limit: limit,
				Detail: "the pith lies outside the wood of that end; it must be " + limit.String() + " from the middle"})
		}
	}
	w := req.Wanted
	if w.ThinEdge != nil && w.ThinEdge.SI > w.Thickness.SI {
		limit := method.AtMost(w.Thickness.SI.AtMost(w.ThinEdge.Unit))
		all = append(all, &method.Error{Code: method.Contradictory, Input: "wanted/thin_edge", Limit: limit,
			Detail: "the thin edge is thicker than the thick one; it must be " + limit.String()})
	}
	if w.MaxWidth != nil && w.MaxWidth.SI < w.MinWidth.SI {
		limit := method.AtLeast(w.MinWidth.SI.AtLeast(w.MaxWidth.Unit))
		all = append(all, &method.Error{Code: method.Contradictory, Input: "wanted/max_width", Limit: limit,
			Detail: "the greatest width is less than the least; it must be " + limit.String()})
	}
	left := log.Length - 2*m.trim
	switch {
	case left <= 0:
		limit := method.LessThan((log.Length / 2).AtMost(m.report.LengthUnit))
		all = append(all, &method.Error{Code: method.Contradictory, Input: "wanted/end_trim", Limit: limit,
			Detail: "the trims of both ends leave nothing of the log; it must be " + limit.String()})
	case w.Length != nil && w.Length.SI > left+wire.ANanometre:
		limit := method.AtMost(left.AtMost(w.Length.Unit))
		all = append(all, &method.Error{Code: method.Contradictory, Input: "wanted/length", Limit: limit,
			Detail: "with the trims of both ends the log is too short for one billet; it must be " + limit.String()})
	}
	return errors.Join(all...)
}

// members are the members of a request that the chapter calls otherwise.
var members = map[string]string{ //nolint:gosec // sapwood is no password
	"length": "log/length", "start_diameter": "log/start_diameter", "end_diameter": "log/end_diameter",
	"bark_thickness": "log/bark_thickness", "sapwood_thickness": "log/sapwood_thickness", "sweep": "log/sweep",
	"pith": "log/pith", "end_pith": "log/end_pith", "kerf": "saw/kerf", "crosscut_kerf": "saw/crosscut_kerf",
	"thickness": "wanted/thickness", "thin_edge": "wanted/thin_edge", "min_width": "wanted/min_width", "max_width": "wanted/max_width",
	"billet_length": "wanted/length", "end_trim": "wanted/end_trim", "min_ring_angle_deg": "wanted/min_ring_angle_deg",
	"small_end_diameter": "log/end_diameter", "from_mc_pct": "log/condition", "to_mc_pct": "wanted/final_condition",
	"wood": "log/wood",
}

// member is the caller's name of an input of the chapter.
func member(input string) string {
	if renamed, known := members[input]; known {
		return renamed
	}
	return input
}
