package rack

import (
	"time"

	"latewood/api/internal/rack/store"
)

// leftOut is a reading on the rack that no question can take beside the others, with the reason.
type leftOut struct{ reading, date, why string }

// usable are the readings of a piece of wood, in order of their days, that questions take. Those
// that cannot be are left out, so that the others are heard: what was kept before such days were
// refused, or before the day of stacking was changed. Of two weights of one day the one that was
// kept last counts.
func (c *composed) usable(all []*store.Record, today string) []*store.Record {
	tomorrow := dayAfter(today)
	var usable []*store.Record
	leave := func(r *store.Record, why string) { c.left = append(c.left, leftOut{r.ID, r.Day, why}) }
	weighed := map[bool]int{} // the last weight of the wood, and of a sample board beside it: its place, from 1
	for _, r := range all {
		switch {
		case r.Day > tomorrow:
			leave(r, "it is of a day to come and was left out; check the year")
			continue
		case r.Day < c.record.Day:
			leave(r, "it is from before the wood was stacked, "+c.record.Day+", and was left out; check the date, or stacked_on")
			continue
		case r.Day > today:
			c.ahead = r.Day
		}
		if r.Form == weightForm {
			of := aside(r.Body)
			if at := weighed[of]; at > 0 && usable[at-1].Day == r.Day {
				before := usable[at-1]
				if before.Sequence < r.Sequence {
					usable[at-1], before, r = r, r, before
				}
				leave(r, "another weight of that day, "+before.ID+", was kept after it; it was left out. Take one of them back")
				continue
			}
			weighed[of] = len(usable) + 1
		}
		usable = append(usable, r)
	}
	return usable
}

func dayAfter(day string) string {
	at, err := time.Parse(time.DateOnly, day)
	if err != nil {
		return day
	}
	return at.AddDate(0, 0, 1).Format(time.DateOnly)
}
