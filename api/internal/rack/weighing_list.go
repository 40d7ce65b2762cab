package rack

import (
	"cmp"
	"context"
	"html/template"
	"slices"
	"strconv"
	"strings"
	"time"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

// WeighingListForms are those of the list besides JSON.
var WeighingListForms = []wire.Form{wire.TableForm, wire.PageForm}

// WeighingList is what is taken to the rack on a weighing day.
type WeighingList struct {
	Date     string    `json:"date" required:"true" format:"date" description:"of the weighing"`
	Progress Progress  `json:"progress" required:"true" description:"how many of the answers that weights are expected by are to all that is kept"`
	Items    []ToWeigh `json:"items" required:"true" nullable:"false" description:"of this page, in the order in which the wood lies: by place, then by spot, then by id"`
	Total    int       `json:"total" required:"true" description:"pieces in all, with the filters given"`
}

// ToWeigh is a piece of wood that can be weighed.
type ToWeigh struct {
	Named
	Due   bool   `json:"due" required:"true" description:"by that day it is worth weighing"`
	DueOn string `json:"due_on,omitempty" format:"date" description:"from when on. Left out: another reading tells more, or none does, or it is not known"`
	Weighings
	Detail string     `json:"detail,omitempty" description:"why no weight can be expected"`
	Photo  *KeptPhoto `json:"photo,omitempty" description:"that there is one. Left out: there is none"`
}

// mostAhead is how far ahead a weighing day is looked at, in days. Own choice: as far as
// readiness foresees weights.
const mostAhead = 90

// TellWeighingList is the wood that lies somewhere, with what the scale will show.
func TellWeighingList(ctx context.Context, r *Rack, s *wire.Sent) (*WeighingList, error) {
	date, err := weighingDate(r.today(), s)
	if err != nil {
		return nil, err
	}
	if err := r.there(ctx, s); err != nil {
		return nil, err
	}
	l, err := r.looks(ctx)
	if err != nil {
		return nil, err
	}
	names, err := r.placeNames(ctx)
	if err != nil {
		return nil, err
	}
	list := &WeighingList{Date: date, Progress: l.progress, Items: []ToWeigh{}}
	for i := range l.wood {
		piece := toWeigh(&l.wood[i], &l.answers[i], date)
		piece.Photo = l.photos[l.wood[i].record.Key]
		if (s.Asked["place"] == "" || s.Asked["place"] == piece.Place) && (s.Asked["due"] != "true" || piece.Due) {
			list.Items = append(list.Items, piece)
		}
	}
	slices.SortStableFunc(list.Items, func(a, b ToWeigh) int {
		return cmp.Or(inNumbers(names[a.Place], names[b.Place]), inNumbers(a.Place, b.Place), inNumbers(a.Spot, b.Spot), inNumbers(a.ID, b.ID))
	})
	list.Total = len(list.Items)
	list.Items = paged(list.Items, s.Offset, s.Limit)
	return list, nil
}

// weighingDate is the day of the list.
func weighingDate(today string, s *wire.Sent) (string, error) {
	date := cmp.Or(s.Asked["date"], today)
	on, err := time.Parse(time.DateOnly, date)
	from, noToday := time.Parse(time.DateOnly, today)
	if err != nil || noToday != nil || on.Before(from) || on.After(from.AddDate(0, 0, mostAhead)) {
		last := from.AddDate(0, 0, mostAhead).Format(time.DateOnly)
		return "", &wire.Refused{Why: wire.Unread, Parameter: "date", Code: "out_of_range", Limit: method.Days(today, last),
			Detail: "date is a day from today, " + today + ", to " + strconv.Itoa(mostAhead) + " days ahead"}
	}
	return date, nil
}

// placeNames are what people call the places.
func (r *Rack) placeNames(ctx context.Context) (map[string]string, error) {
	names := map[string]string{}
	return names, r.seeing(ctx, func(v *view) error {
		for _, p := range v.all(store.Place) {
			names[p.ID] = p.Label
		}
		return nil
	})
}

func toWeigh(s *standing, answer *judged, date string) ToWeigh {
	w := ToWeigh{Named: named(&s.record), Weighings: s.weighings(answer, date)}
	if next := answer.Result.Next; next != nil && next.Kind == "weight" {
		w.DueOn, w.Due = next.Date, next.Date <= date
	}
	switch {
	case w.Mass != nil:
	case w.lighter != nil:
		w.Detail = "wood was taken off it since it was weighed: " + w.lighter.Form + ", " + wire.PlainDate(w.lighter.Day)
	case s.failed:
		w.Detail = faulty
	case s.found == nil:
		w.Detail = "it is being worked out"
	case s.found.Refused != "":
		w.Detail = s.found.Refused
	case w.Last == nil && w.Doubted == nil:
		w.Detail = "it was never weighed"
	default:
		w.Detail = "where it has lain is not known"
	}
	return w
}

// inNumbers orders texts as people do: numbers in them by their value, the rest whatever its
// case.
func inNumbers(a, b string) int {
	for a != "" && b != "" {
		digitsA, digitsB := leading(a), leading(b)
		if digitsA > 0 && digitsB > 0 {
			numberA, numberB := strings.TrimLeft(a[:digitsA], "0"), strings.TrimLeft(b[:digitsB], "0")
			if by := cmp.Or(cmp.Compare(len(numberA), len(numberB)), strings.Compare(numberA, numberB)); by != 0 {
				return by
			}
			a, b = a[digitsA:], b[digitsB:]
			continue
		}
		if by := strings.Compare(strings.ToLower(a[:1]), strings.ToLower(b[:1])); by != 0 {
			return by
		}
		a, b = a[1:], b[1:]
	}
	return cmp.Compare(len(a), len(b))
}

// leading is how many digits a text begins with.
func leading(text string) int { return len(text) - len(strings.TrimLeft(text, "0123456789")) }

// weighingPage is the list to print.
var weighingPage = template.Must(template.Must(overviewPage.Clone()).New("weighing").Parse(`<h1>To weigh on {{day .Date}}</h1>
<table><thead><tr><th>place</th><th>billet</th><th>wood</th><th>last weight</th><th>expected</th><th>weight</th></tr></thead><tbody>
{{range .Items}}<tr><td>{{.Place}}{{with .Spot}} {{.}}{{end}}</td><th scope="row">{{.ID}}{{with .Name}} <small>{{.}}</small>{{end}}</th><td>{{.Wood}}</td>` +
	`<td>{{with .Last}}{{.Mass.Text}} {{.Mass.Unit}}, {{day .Date}}{{end}}{{with .Doubted}} <small>set aside: {{.Mass.Text}} {{.Mass.Unit}}, {{day .Date}}</small>{{end}}</td><td>{{band .Mass}}</td><td class="blank"></td></tr>
{{end}}</tbody></table>
<p><small>Bands hold 90 % of cases. Zero the scale, and write down what it shows, also where it is not what was expected.</small></p>
`))

// Render gives the list as a table or as a page to print.
func (l *WeighingList) Render(name string) ([]byte, error) {
	if name == wire.TableForm.Name {
		return l.table(), nil
	}
	var body strings.Builder
	if err := weighingPage.Execute(&body, l); err != nil {
		return nil, err
	}
	return wire.Paper("To weigh on "+wire.PlainDate(l.Date), body.String()), nil
}

// table is the list as CSV (RFC 4180).
func (l *WeighingList) table() []byte {
	t := sheet{}
	t.line("place", "spot", "kind", "id", "name", "species", "due", "due_on", "last_weight", "last_weight_unit", "last_weight_on",
		"expected_mass", "expected_mass_low", "expected_mass_high", "expected_mass_unit", "detail", "doubted_weight", "doubted_weight_unit", "doubted_weight_on")
	for i := range l.Items {
		w := &l.Items[i]
		cells := []string{w.Place, w.Spot, w.Kind, w.ID, w.Name, w.Wood, strconv.FormatBool(w.Due), w.DueOn, "", "", "", "", "", "", "", w.Detail, "", "", ""}
		if w.Last != nil {
			cells[8], cells[9], cells[10] = w.Last.Mass.Text(), w.Last.Mass.Unit, w.Last.Date
		}
		if w.Doubted != nil {
			cells[16], cells[17], cells[18] = w.Doubted.Mass.Text(), w.Doubted.Mass.Unit, w.Doubted.Date
		}
		if m := w.Mass; m != nil {
			copy(cells[11:], append(bandCells(m), m.Unit))
		}
		t.line(cells...)
	}
	return t.text
}
