package rack

import (
	"context"
	"html/template"
	"slices"
	"strings"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/wire"
)

// Card is all that is known of one piece of wood: what a label leads to.
type Card struct {
	Standing Standing  `json:"standing" required:"true" description:"what the overview tells of it"`
	Next     *ReadNext `json:"next_reading,omitempty" description:"what to read next, and what to expect. Left out: nothing is worth reading, or not known"`
	Look     []Doubt   `json:"contradictions" required:"true" nullable:"false" description:"readings to look at again"`
	Open     string    `json:"unanswered,omitempty" description:"why nothing can be said of it"`
	Readings []Line    `json:"readings" required:"true" nullable:"false" description:"the newest first, at most 20"`
	Events   []Line    `json:"events" required:"true" nullable:"false" description:"the newest first, at most 20"`
}

// Line is an entry in a few words.
type Line struct {
	ID     string `json:"id" required:"true" description:"of the entry"`
	Date   string `json:"date,omitempty" format:"date" description:"of the entry"`
	Kind   string `json:"kind" required:"true" description:"of the reading or the event"`
	Figure string `json:"figure,omitempty" description:"as it was written: the mass, or the moisture content in percent"`
}

// mostLines are shown of readings and of events.
const mostLines = 20

// TellCard is what is known of the wood of the path.
func TellCard(kind store.Kind) func(context.Context, *Rack, *wire.Sent) (*Card, error) {
	return func(ctx context.Context, r *Rack, s *wire.Sent) (*Card, error) {
		key, err := r.onLabel(ctx, kind, s)
		if err != nil {
			return nil, err
		}
		c, err := r.compose(ctx, key)
		if err != nil {
			return nil, err
		}
		o, err := r.overview(ctx)
		if err != nil {
			return nil, err
		}
		card := &Card{Standing: Standing{Named: named(&c.record), Verdicts: []StepVerdict{}}, Look: []Doubt{}}
		is := func(n *Named) bool { return n.Kind == string(kind) && n.ID == key.ID }
		if i := slices.IndexFunc(o.Wood, func(w Standing) bool { return is(&w.Named) }); i >= 0 {
			card.Standing = o.Wood[i]
		}
		for i := range o.Read {
			if is(&o.Read[i].Named) {
				card.Next = &o.Read[i]
			}
		}
		for i := range o.Look {
			if is(&o.Look[i].Named) {
				card.Look = append(card.Look, o.Look[i])
			}
		}
		for i := range o.Open {
			if is(&o.Open[i].Named) {
				card.Open = o.Open[i].Detail
			}
		}
		return card, r.seeing(ctx, func(v *view) error { return card.lines(v, c.record.Key) })
	}
}

// onLabel is the entry of the path, whose id may have been read from a label in capitals: the
// one that is called so, else the only one that is but for its case.
func (r *Rack) onLabel(ctx context.Context, kind store.Kind, s *wire.Sent) (store.Key, error) {
	key, err := keyOf(kind, s)
	if err != nil {
		return key, err
	}
	var alike []string
	err = r.seeing(ctx, func(v *view) error {
		if v.now[key] == nil {
			alike = v.alike(key)
		}
		return nil
	})
	switch {
	case err != nil || len(alike) == 0:
	case len(alike) == 1:
		key.ID = alike[0]
	default:
		err = &wire.Refused{Why: wire.Conflict, Parameter: "id", Code: "conflict", Detail: "several are called so but for capitals: " + strings.Join(alike, ", ")}
	}
	return key, err
}

// lines are the last readings and events.
func (c *Card) lines(v *view, key store.Key) error {
	for kind, into := range map[store.Kind]*[]Line{store.Reading: &c.Readings, store.Event: &c.Events} {
		all, err := v.of(kind, key)
		if err != nil {
			return err
		}
		slices.Reverse(all)
		*into = []Line{}
		for _, r := range all[:min(len(all), mostLines)] {
			sent, err := objectOf(r.Body)
			if err != nil {
				return err
			}
			reading, err := objectOf(sent["reading"])
			if err != nil && sent["reading"] != nil {
				return err
			}
			*into = append(*into, Line{ID: r.ID, Date: r.Day, Kind: r.Form, Figure: figureOf(reading)})
		}
	}
	return nil
}

// figureOf is what was read, as it was written.
func figureOf(reading members) string {
	for _, name := range []string{"mass", "reading_mc_pct", "mc_pct", "ovendry_mass"} {
		text := reading[name]
		if text == nil {
			continue
		}
		if plain := textOf(text); plain != "" {
			return plain
		}
		if strings.HasPrefix(string(text), "{") { // a quantity in its parts
			parts, err := objectOf(text)
			if err != nil {
				return ""
			}
			return string(parts["value"]) + " " + textOf(parts["unit"])
		}
		return string(text) + " %"
	}
	return ""
}

// cardPage is the card to be read on a phone.
var cardPage = template.Must(template.Must(overviewPage.Clone()).New("card").Parse(`<h1>{{.Standing.ID}}{{with .Standing.Name}} <small>{{.}}</small>{{end}}</h1>
<p>{{.Standing.Wood}}{{with .Standing.Place}}, {{.}}{{end}}</p>
{{with .Standing.Summary}}<p><strong>{{.}}</strong></p>{{end}}
{{with .Open}}<p>Nothing can be said yet: {{.}}</p>{{end}}
{{with .Standing.Verdicts}}<table><thead><tr><th>ready to</th><th>verdict</th><th>when</th><th>why</th></tr></thead><tbody>
{{range .}}<tr><th scope="row">{{step .Step}}</th><td>{{verdict .Verdict}}</td><td>{{if eq .Verdict "ready"}}now{{else}}{{dates .ReadyOn}}{{end}}</td><td>{{.Detail}}</td></tr>
{{end}}</tbody></table>{{end}}
{{with .Next}}<h2>To read next</h2><p>{{reading .Reading}}, {{day .Date}}{{with .Mass}}; {{band .}} to be expected{{end}}{{with .MC}}; {{band .}} to be expected{{end}}</p>{{end}}
{{with .Look}}<h2>To look at again</h2><ul>{{range .}}<li>{{day .Date}}: {{.Detail}}{{with .Slip}}. {{.}}{{end}}</li>{{end}}</ul>{{end}}
{{with .Readings}}<h2>Readings</h2><table><tbody>{{range .}}<tr><th scope="row">{{day .Date}}</th><td>{{words .Kind}}</td><td>{{.Figure}}</td></tr>
{{end}}</tbody></table>{{end}}
{{with .Events}}<h2>What was done</h2><table><tbody>{{range .}}<tr><th scope="row">{{day .Date}}</th><td>{{words .Kind}}</td></tr>
{{end}}</tbody></table>{{end}}
`))

// Render gives the card as a page.
func (c *Card) Render(string) ([]byte, error) {
	var body strings.Builder
	if err := cardPage.Execute(&body, c); err != nil {
		return nil, err
	}
	return wire.Paper(c.Standing.title(), body.String()), nil
}
