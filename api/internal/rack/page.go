package rack

import "latewood/api/internal/rack/store"

// Page is a page of entries, or of the versions of one.
type Page struct {
	Items     []*Kept `json:"items"`
	Total     int     `json:"total"`
	Unchanged int     `json:"unchanged,omitempty"`
	next      int     // where the next page begins; 0: there is none
}

// Next is where the next page begins; 0 where there is none.
func (p *Page) Next() int { return p.next }

func pageOf(all []store.Record, total int) *Page {
	p := &Page{Items: []*Kept{}, Total: total}
	for i := range all {
		p.Items = append(p.Items, kept(&all[i]))
	}
	return p
}

// Render gives the page as a sheet, which can be read again.
func (p *Page) Render(string) ([]byte, error) { return sheetOf(p.Items) }

// PageOf is a page as the contract tells it.
type PageOf[T any] struct {
	Items     []T `json:"items" required:"true" nullable:"false" description:"of this page"`
	Total     int `json:"total" required:"true" description:"entries in all, with the filters given"`
	Unchanged int `json:"unchanged,omitempty" description:"of a weighing day: readings that were on the rack already, as they are. Left out: none"`
}
