package dry

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// readyOn says when a step is first ready: no date that is not kept, and of a step that is
// open today for which of the cases it stands.
func (h *history) readyOn(v *readiness.Verdict, d *readiness.ReadyDate) *ReadyOn {
	on := &ReadyOn{DateBand: h.stay.readyOn(d)}
	if d.Never < 1 {
		kept := d.Kept
		on.Kept = &kept
	}
	ready := v.Outcome == readiness.Ready
	if !ready && !d.Holds() {
		on.DateBand = wire.DateBand{NotReached: d.Never}
	}
	on.Detail = dateDetail(v, d, on.Value)
	return on
}

// dateDetail says what a date is worth.
func dateDetail(v *readiness.Verdict, d *readiness.ReadyDate, date string) string {
	share := func(p float64) string { return quantity.FormatNumber(100*p, 0) + " %" }
	kept := share(d.Kept) + " of the cases that come to be ready are so four weeks later as well"
	switch {
	case v.Outcome == readiness.Ready && !d.Holds():
		return "it is ready now and not for long: " + kept
	case v.Outcome == readiness.Ready:
		return "it is ready now"
	case d.Never >= 1:
		return "it is not ready within the forecast"
	case !d.Holds():
		return "no date is given, because it would not be kept: only " + kept
	case date == "":
		return "it is more likely not ready within the forecast than ready; " + share(1-d.Never) + " of the cases are on some day"
	case v.Outcome == readiness.CannotSay && d.Already > 0:
		return share(d.Already) + " of the cases are ready today already, which is too few to say so; the dates are those on which " +
			"5, 50 and 95 % have been"
	}
	return "the dates are those on which 5, 50 and 95 % of the cases have been ready for the first time; " + kept
}
