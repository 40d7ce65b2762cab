package rack

import (
	"encoding/json"
	"html/template"
	"math"
	"strconv"
	"strings"

	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
)

// OverviewForms are those of the overview besides JSON.
var OverviewForms = []wire.Form{wire.TableForm, wire.DrawnForm, wire.PageForm}

// Render gives the overview as a table, a drawing or a page for print.
func (o *Overview) Render(name string) ([]byte, error) {
	switch name {
	case wire.TableForm.Name:
		return o.table(), nil
	case wire.DrawnForm.Name:
		return o.chart(), nil
	}
	return o.page()
}

// table is the overview as CSV (RFC 4180): a line for each piece of wood.
func (o *Overview) table() []byte {
	reads := map[string]*ReadNext{}
	for i := range o.Read {
		reads[o.Read[i].Kind+"/"+o.Read[i].ID] = &o.Read[i]
	}
	t := sheet{}
	t.line("kind", "id", "name", "species", "place", "as_of", "current", "mc_pct", "mc_low_pct", "mc_high_pct", "target_mc_pct",
		"resaw", "resaw_ready_on", "thickness", "thickness_ready_on", "glue", "glue_ready_on", "next_reading", "next_reading_on", "detail")
	for i := range o.Wood {
		w := &o.Wood[i]
		cells := []string{w.Kind, w.ID, w.Name, w.Wood, w.Place, w.AsOf, strconv.FormatBool(w.Current)}
		if w.MC != nil && w.Target != nil {
			cells = append(cells, decimal(w.MC.Value), decimal(w.MC.Low), decimal(w.MC.High), decimal(w.Target.Value))
		} else {
			cells = append(cells, "", "", "", "")
		}
		for _, step := range steps {
			cells = append(cells, w.step(step)...)
		}
		if next := reads[w.Kind+"/"+w.ID]; next != nil {
			cells = append(cells, next.Reading, next.Date)
		} else {
			cells = append(cells, "", "")
		}
		t.line(append(cells, w.Summary)...)
	}
	return t.text
}

// steps are those of the work, in their order.
var steps = []string{"resaw", "thickness", "glue"}

// step is the verdict on a step and when it is ready, as cells.
func (s *Standing) step(name string) []string {
	for i := range s.Verdicts {
		if v := &s.Verdicts[i]; v.Step == name {
			on := ""
			if v.ReadyOn != nil {
				on = v.ReadyOn.Value
			}
			return []string{v.Verdict, on}
		}
	}
	return []string{"", ""}
}

// sheet is a table that a spreadsheet takes. A text that it would run is quoted as JSON quotes it:
// it is shown with its quotes, and read again as the same text.
type sheet struct{ text []byte }

func (s *sheet) line(cells ...string) {
	for i, cell := range cells {
		if i > 0 {
			s.text = append(s.text, ',')
		}
		if !runs(cell) {
			s.text = append(s.text, wire.QuotedCell(cell)...)
			continue
		}
		text, _ := json.Marshal(cell) // of a text it gives no error
		s.text = append(s.text, wire.QuotedCell(string(text))...)
	}
	s.text = append(s.text, "\r\n"...)
}

// bandCells are value, low and high of a band as an answer writes them.
func bandCells(b *wire.Band) []string { return strings.Split(string(b.AppendCells(nil)), ",") }

// onScale is a mass with the digits that a scale shows of one as large: 10 g of 5 kg.
func onScale(value, large float64) string {
	digits := 2 - int(math.Floor(math.Log10(math.Max(large, 0.01)/2)))
	return strconv.FormatFloat(value, 'f', max(0, min(digits, 4)), 64)
}

func decimal(v float64) string { return quantity.FormatNumber(v, 1) }

// overviewPage is the overview for print.
var overviewPage = template.Must(template.New("overview").Funcs(template.FuncMap{
	"day":     wire.PlainDate,
	"words":   func(word string) string { return strings.ReplaceAll(word, "_", " ") },
	"verdict": func(word string) string { return strings.ReplaceAll(word, "_", " ") },
	"step": func(step string) string {
		return map[string]string{"resaw": "resaw", "thickness": "work to thickness", "glue": "glue"}[step]
	},
	"reading": func(kind string) string {
		return map[string]string{"weight": "weigh", "ovendry_sample": "dry a sample", "pin_meter": "read the core with pins"}[kind]
	},
	"band": func(b *wire.Band) string {
		if b == nil {
			return ""
		}
		cells := bandCells(b)
		if !strings.HasPrefix(b.Unit, "%") {
			return onScale(b.Low, b.High) + " to " + onScale(b.High, b.High) + " " + b.Unit
		}
		return cells[1] + " to " + cells[2] + " " + b.Unit
	},
	"dates": func(d *wire.DateBand) string {
		switch {
		case d == nil || d.Value == "":
			return ""
		case d.Low == "" || d.High == "" || d.Low == d.High:
			return "about " + wire.PlainDate(d.Value)
		}
		return "about " + wire.PlainDate(d.Value) + " (" + wire.PlainDate(d.Low) + " to " + wire.PlainDate(d.High) + ")"
	},
}).Parse(`{{define "of"}}<th scope="row">{{.ID}}{{with .Name}} <small>{{.}}</small>{{end}}</th><td>{{.Wood}}</td><td>{{.Place}}</td>{{end -}}
<h1>The rack on {{day .Progress.AsOf}}</h1>
<p>{{.Summary}}.</p>
{{with .Ready}}<h2>Ready now</h2>
<table><thead><tr><th>billet</th><th>wood</th><th>place</th><th>ready to</th></tr></thead><tbody>
{{range .}}<tr>{{template "of" .Named}}<td>{{step .Step}}</td></tr>
{{end}}</tbody></table>{{end}}
{{with .Next}}<h2>Ready next</h2>
<table><thead><tr><th>billet</th><th>wood</th><th>place</th><th>ready to</th><th>when</th></tr></thead><tbody>
{{range .}}<tr>{{template "of" .Named}}<td>{{step .Step}}</td><td>{{dates .ReadyOn}}</td></tr>
{{end}}</tbody></table>{{end}}
{{with .Read}}<h2>To read next</h2>
<table><thead><tr><th>billet</th><th>wood</th><th>place</th><th>what</th><th>when</th><th>to be expected</th><th>read</th></tr></thead><tbody>
{{range .}}<tr>{{template "of" .Named}}<td>{{reading .Reading}}</td><td>{{day .Date}}</td><td>{{band .Mass}}{{band .MC}}</td><td class="blank"></td></tr>
{{end}}</tbody></table>{{end}}
{{with .Look}}<h2>To look at again</h2>
<table><thead><tr><th>billet</th><th>wood</th><th>place</th><th>read on</th><th>what is wrong</th></tr></thead><tbody>
{{range .}}<tr>{{template "of" .Named}}<td>{{day .Date}}</td><td>{{.Detail}}{{with .Slip}}. {{.}}{{end}}</td></tr>
{{end}}</tbody></table>{{end}}
{{with .Open}}<h2>Not answered</h2>
<table><thead><tr><th>billet</th><th>wood</th><th>place</th><th>what is missing</th></tr></thead><tbody>
{{range .}}<tr>{{template "of" .Named}}<td>{{.Detail}}</td></tr>
{{end}}</tbody></table>{{end}}
<p><small>Bands hold 90 % of cases. What is ready by its moisture still has to be sound: look at it.</small></p>
`))

// page is the overview as a page to print.
func (o *Overview) page() ([]byte, error) {
	var body strings.Builder
	if err := overviewPage.Execute(&body, o); err != nil {
		return nil, err
	}
	return wire.Paper("The rack on "+wire.PlainDate(o.Progress.AsOf), body.String()), nil
}

// RenderShown draws it for a screen that has so many px for it.
func (o *Overview) RenderShown(width int) ([]byte, error) { return o.shownChart(width), nil }
