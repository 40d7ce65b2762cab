package rack

import (
	"context"
	"html/template"
	"net/url"
	"strconv"
	"strings"

	"github.com/boombuler/barcode/qr"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
)

// Labels are to be stuck to wood.
type Labels struct {
	Labels []Label `json:"labels" required:"true" nullable:"false" description:"in order of the days of stacking, then of the ids"`
}

// Label says what a piece of wood is, and leads to what is known of it.
type Label struct {
	Named
	Thickness string `json:"thickness,omitempty" description:"as it was written"`
	StackedOn string `json:"stacked_on,omitempty" format:"date" description:"day on which it was put to dry"`
	URL       string `json:"url" required:"true" format:"uri" description:"of the page about the wood, also as a code on the label, in capitals where that makes it coarser; it opens without a token, and asks for one"`

	twin bool // another one is called so but for capitals
}

// Code is what the code on the label says.
func (l *Label) Code() string {
	if l.twin {
		return l.URL
	}
	return inCapitals(l.URL)
}

// mostLabels is how many labels are made at a time.
const mostLabels = 500

// TellLabels are the labels of the wood that is there, or of some of it.
func TellLabels(ctx context.Context, r *Rack, t *shelf.Tables, s *wire.Sent) (*Labels, error) {
	if err := r.named(ctx, t, s); err != nil {
		return nil, err
	}
	base := s.Base
	if asked := s.Asked["base"]; asked != "" {
		u, err := url.Parse(asked)
		if err != nil || u.Scheme != "http" && u.Scheme != "https" || u.Host == "" || u.RawQuery != "" || u.Fragment != "" {
			return nil, &wire.Refused{Why: wire.Unread, Parameter: "base", Code: "invalid_format", Detail: "base is an address such as https://shop.example"}
		}
		base = strings.TrimSuffix(asked, "/")
	}
	l := &Labels{Labels: []Label{}}
	err := r.seeing(ctx, func(v *view) error {
		for _, kind := range []store.Kind{store.Billet, store.Piece} {
			for _, record := range v.all(kind) {
				if v.ended(record.Key) || !wanted(s, record) || len(l.Labels) == mostLabels {
					continue
				}
				label, err := labelOf(record, base)
				if err != nil {
					return err
				}
				label.twin = len(v.alike(record.Key)) > 1
				l.Labels = append(l.Labels, label)
			}
		}
		return nil
	})
	return l, err
}

// wanted reports wood that labels were asked for.
func wanted(s *wire.Sent, r *store.Record) bool {
	asked := func(name, is string) bool { return s.Asked[name] == "" || s.Asked[name] == is }
	if billet := s.Asked["billet"]; billet != "" { // itself, and what was cut from it
		if r.Kind == store.Billet && r.ID != billet || r.Kind == store.Piece && r.Of != (store.Key{Kind: store.Billet, ID: billet}) {
			return false
		}
	}
	return asked("place", r.Place) && asked("species", r.Form)
}

// pagesOf are where the front page opens a piece of wood: short, so that the code is coarse.
var pagesOf = map[store.Kind]string{store.Billet: "/b/", store.Piece: "/p/"}

func labelOf(r *store.Record, base string) (Label, error) {
	sent, err := objectOf(r.Body)
	if err != nil {
		return Label{}, err
	}
	billet, err := objectOf(sent["billet"])
	return Label{Named: named(r), Thickness: textOf(billet["thickness"]), StackedOn: r.Day,
		URL: base + pagesOf[r.Kind] + r.ID}, err
}

// labelsPage are the labels to print.
var labelsPage = template.Must(template.New("labels").Funcs(template.FuncMap{"code": codeOf, "day": wire.PlainDate}).Parse(
	`<div class="labels">{{range .Labels}}<div class="label">{{code .Code}}<div><strong>{{.ID}}</strong>{{with .Name}}<br>{{.}}{{end}}
<br>{{.Wood}}{{with .Thickness}}, {{.}}{{end}}{{with .StackedOn}}<br>stacked {{day .}}{{end}}{{with .Place}}<br>{{.}}{{end}}</div></div>
{{else}}<p>There is no wood on the rack that labels could be printed of.</p>{{end}}</div>
`))

// Render gives the labels as a page to print.
func (l *Labels) Render(string) ([]byte, error) {
	var body strings.Builder
	if err := labelsPage.Execute(&body, l); err != nil {
		return nil, err
	}
	return wire.Paper("Labels of the rack", body.String()), nil
}

// inCapitals is an address in capitals, of which a code holds nearly twice as many, where it
// leads to the same page: the name of a host has no case, nor has the page of a piece of wood.
func inCapitals(address string) string {
	u, err := url.Parse(address)
	if err != nil || strings.Count(u.Path, "/") > 2 { // below a path of somebody else's
		return address
	}
	return strings.ToUpper(address)
}

// codeOf draws an address as a QR code (ISO/IEC 18004), of which a quarter may be dirty or
// worn, with the four empty modules around it that readers need.
func codeOf(address string) (template.HTML, error) {
	code, err := qr.Encode(address, qr.Q, qr.Auto)
	if err != nil {
		return "", err
	}
	const quiet = 4
	size := code.Bounds().Dx()
	var path strings.Builder
	for y := range size {
		for x := range size {
			if red, _, _, _ := code.At(x, y).RGBA(); red == 0 {
				path.WriteString("M" + strconv.Itoa(x+quiet) + " " + strconv.Itoa(y+quiet) + "h1v1h-1z")
			}
		}
	}
	all := strconv.Itoa(size + 2*quiet)
	return template.HTML(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ` + all + ` ` + all + //nolint:gosec // numbers alone
		`" role="img" aria-label="QR code"><path d="` + path.String() + `" fill="#000"/></svg>`), nil
}
