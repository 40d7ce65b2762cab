package rack

import (
	"context"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"

	"latewood/api/internal/wire"
)

// CalendarForm is a calendar (RFC 5545).
var CalendarForm = wire.Form{Name: "ics", Media: "text/calendar"}

// Calendar is what is to be read, and what will be ready, on its days.
type Calendar struct {
	Days []CalendarDay `json:"days" required:"true" nullable:"false" description:"in order of time"`
	made time.Time
}

// CalendarDay is something on a day.
type CalendarDay struct {
	Named
	What   string `json:"what" required:"true" enum:"read,ready" description:"a reading to take, or a step of the work that it is ready for in half of the cases"`
	Date   string `json:"date" required:"true" format:"date" description:"the day"`
	Title  string `json:"summary" required:"true" description:"in a few words"`
	Detail string `json:"detail" required:"true" description:"what is to be expected"`
}

// TellCalendar is what the overview tells of the days to come.
func TellCalendar(ctx context.Context, r *Rack, _ *wire.Sent) (*Calendar, error) {
	o, err := r.overview(ctx)
	if err != nil {
		return nil, err
	}
	c := &Calendar{Days: []CalendarDay{}, made: r.now().UTC()}
	for i := range o.Read {
		n := &o.Read[i]
		words := map[string]string{"weight": "weigh ", "ovendry_sample": "dry a sample of ", "pin_meter": "read the core of "}[n.Reading]
		c.Days = append(c.Days, CalendarDay{Named: n.Named, What: "read", Date: n.Date, Title: words + n.title(), Detail: n.Detail})
	}
	for i := range o.Next {
		n := &o.Next[i]
		detail := n.Detail
		if n.ReadyOn.Low != "" && n.ReadyOn.High != "" {
			detail = "90 % of the cases: " + wire.PlainDate(n.ReadyOn.Low) + " to " + wire.PlainDate(n.ReadyOn.High) + ". " + detail
		}
		words := map[string]string{"resaw": " about ready to resaw", "thickness": " about ready to work to thickness", "glue": " about ready to glue"}[n.Step]
		c.Days = append(c.Days, CalendarDay{Named: n.Named, What: "ready", Date: n.ReadyOn.Value, Title: n.title() + words, Detail: detail})
	}
	inTime(c.Days, func(d *CalendarDay) string { return d.Date })
	return c, nil
}

// title is what people call a piece of wood.
func (n *Named) title() string {
	if n.Name == "" {
		return n.ID
	}
	return n.ID + " (" + n.Name + ")"
}

// Render gives the calendar as calendars take it.
func (c *Calendar) Render(string) ([]byte, error) {
	cal := ics.NewCalendarFor("latewood")
	cal.SetMethod(ics.MethodPublish)
	cal.SetName("the rack")
	for i := range c.Days {
		d := &c.Days[i]
		day, err := time.Parse(time.DateOnly, d.Date)
		if err != nil {
			return nil, err
		}
		// The id stays the same when the day moves: then the calendar moves it too.
		event := cal.AddEvent(strings.Join([]string{d.What, d.Kind, d.ID}, "-") + "@latewood")
		event.SetDtStampTime(c.made)
		event.SetAllDayStartAt(day)
		event.SetAllDayEndAt(day.AddDate(0, 0, 1))
		event.SetSummary(d.Title)
		event.SetDescription(d.Detail)
		event.SetTimeTransparency(ics.TransparencyTransparent)
	}
	return []byte(cal.Serialize(ics.WithNewLineWindows)), nil //nolint:misspell // the library calls it so
}
