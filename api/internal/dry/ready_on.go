package dry

import (
	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
)

// readyOn says when a step is ready, or why there is no day for it.
func (h *history) readyOn(v *readiness.Verdict, d *readiness.ReadyDate) *ReadyOn {
	on := &ReadyOn{DateBand: h.stay.readyOn(d)}
	on.Detail = dateDetail(v, d, &on.DateBand)
	return on
}

// likeliest says when most cases are there.
func likeliest(on *wire.DateBand) string {
	if on.From == on.Until {
		return " on " + wire.PlainDate(on.From)
	}
	return " between " + wire.PlainDate(on.From) + " and " + wire.PlainDate(on.Until)
}

func percent(share float64) string { return quantity.FormatNumber(100*share, 0) + " %" }

// dateDetail says what a date is worth.
func dateDetail(v *readiness.Verdict, d *readiness.ReadyDate, on *wire.DateBand) string {
	kept := percent(d.Kept) + " of the cases that are ready then still are four weeks later"
	switch {
	case v.Outcome == readiness.Ready && !d.Holds():
		return "it is ready now and not for long: " + kept
	case v.Outcome == readiness.Ready:
		return "it is ready now"
	case d.Perhaps:
		return "it may be ready today: " + percent(d.Already) + " of the cases are, which is too few to say so; a reading settles it" + orWait(d, on)
	case on.Undated != "":
		return whyUndated(on, d)
	}
	text := "on that day half of the cases are ready; " + kept
	if v.Outcome == readiness.CannotSay && d.Already > 0.005 {
		text = percent(d.Already) + " of the cases are ready today already, which is too few to say so; " + text
	}
	if d.High.Within {
		return text
	}
	text += ". There is no late date: "
	if d.MostlyOnce() {
		return text + "on no one day are many more than " + percent(d.Likeliest.Share) + " of the cases ready; a reading settles more"
	}
	return text + percent(d.Never) + " of the cases are ready on no day of the forecast"
}

// orWait says from when on it is ready without a reading, of what may be ready today; empty where
// waiting alone does not settle it.
func orWait(d *readiness.ReadyDate, on *wire.DateBand) string {
	l := &d.Likeliest
	if !d.EverSure() || l.Before > 0.9*l.Share { // it is as likely today as ever; own choice
		return ""
	}
	return ", or waiting does: from " + wire.PlainDate(on.From) + " on " + percent(l.Share) + " of the cases are"
}

// whyUndated says why there is no day.
func whyUndated(on *wire.DateBand, d *readiness.ReadyDate) string {
	share := percent(d.Likeliest.Share)
	when := likeliest(on)
	if d.Likeliest.Share >= 0.5 {
		return "no date is given, because it would not be kept: at most " + share + " of the cases are ready" + when + ", and only " +
			percent(d.Kept) + " of those that come to be so still are four weeks later"
	}
	switch readiness.Undated(on.Undated) {
	case readiness.UndatedPassing:
		return "no date is given: it is ready only in passing, if at all. On no day are half of the cases; the most, " + share + ", are" + when
	case readiness.UndatedUnsure:
		return "no date is given: on no day are half of the cases within the limits, " + share + " at most," + when + ", because what is known of the " +
			"wood and the air leaves its level open; a reading settles that"
	case readiness.UndatedLater:
		return "more likely not ready within the forecast than ready: at its end " + share + " of the cases are, and more and more"
	case readiness.UndatedNever:
	}
	if d.Never >= 1 || d.Likeliest.Share < 0.005 {
		return "it is not ready within the forecast"
	}
	return "it is hardly ready on any day of the forecast: " + share + " of the cases are at most" + when
}
