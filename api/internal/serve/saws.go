package serve

import (
	"strings"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/wire"
	"latewood/species"
)

// Kinds of loss in the tables of the shop.
const (
	kerfLoss      = "kerf"
	allowanceLoss = "allowance"
	endTrimLoss   = "end_trim"
)

// ShopLoss is wood that is planned for and lost: the kerf of a kind of saw, an
// allowance of the bench, or what the ends of a billet lose to checks.
type ShopLoss struct {
	ID    string       `json:"id" required:"true" description:"by which a request names it"`
	Kind  string       `json:"kind" required:"true" enum:"kerf,allowance,end_trim" description:"of loss"`
	Name  string       `json:"name" required:"true" description:"for people"`
	Per   string       `json:"lost_from" required:"true" enum:"cut,end,face,both_faces,leaf,edge,side,pith" description:"what it is lost from"`
	Low   *SourcedSize `json:"low,omitempty" description:"or more, where it stands alone"`
	Usual *SourcedSize `json:"usual,omitempty" description:"what stands in where none is given"`
	High  *SourcedSize `json:"high,omitempty" description:"or less, where it stands alone"`
	Note  string       `json:"note,omitempty" description:"when it is more or less"`
}

func shopLoss(r wire.Reporter, id, kind, name, per, note string, s species.Span) ShopLoss {
	return ShopLoss{ID: id, Kind: kind, Name: name, Per: per, Low: optionalSize(r, s.Low), Usual: optionalSize(r, s.Usual), High: optionalSize(r, s.High), Note: note}
}

// ListSaws answers GET /v1/sawing-losses.
func ListSaws(d *Desk) echo.HandlerFunc {
	return func(c echo.Context) error {
		report, err := systemAsked(c)
		if err != nil {
			return err
		}
		kind, err := offered(c, "kind", kerfLoss, allowanceLoss, endTrimLoss)
		if err != nil {
			return err
		}
		all := []ShopLoss{}
		query := c.QueryParam("q")
		for _, l := range lossesOf(d.tables.Species, report) {
			if (kind == "" || kind == l.Kind) && l.named(query) {
				all = append(all, l)
			}
		}
		p, err := page(c, all, d.tables.Version)
		if err != nil {
			return err
		}
		return writeTable(c, p)
	}
}

// lossesOf are all of the tables: kerfs, allowances, end trims, each by id.
func lossesOf(t *species.Tables, report wire.Reporter) []ShopLoss {
	var all []ShopLoss
	for _, k := range t.Saws() {
		all = append(all, shopLoss(report, k.ID, kerfLoss, k.Name, "cut", k.Note, k.Kerf))
	}
	for _, a := range t.Allowances() {
		all = append(all, shopLoss(report, a.ID, allowanceLoss, a.Name, a.Per, a.Note, a.Loss))
	}
	for _, e := range t.EndTrims() {
		all = append(all, shopLoss(report, e.ID, endTrimLoss, e.Name, "end", e.Note, e.Each))
	}
	return all
}

// named says whether every word of the query stands in the name or the id.
func (l *ShopLoss) named(query string) bool {
	names := strings.ToLower(l.Name + " " + strings.ReplaceAll(l.ID, "_", " ") + " " + l.ID)
	for word := range strings.FieldsSeq(strings.ToLower(query)) {
		if !strings.Contains(names, word) {
			return false
		}
	}
	return true
}
