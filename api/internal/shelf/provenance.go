package shelf

// WoodUsed says which wood an answer is about and where its figures come from.
type WoodUsed struct {
	ID        string       `json:"id,omitempty" description:"in the tables; left out for your own wood"`
	Common    string       `json:"common_name" required:"true" description:"the usual English name, or the one you gave it"`
	Botanical string       `json:"botanical_name,omitempty" description:"genus and species"`
	Figures   []Provenance `json:"figures" nullable:"false" detail:"full" description:"the published values the answer used. Left out with ?detail=summary"`

	text []byte // all this as JSON, where it is known beforehand
}

// Encoded is all of it as JSON, where that is known beforehand.
func (u *WoodUsed) Encoded() []byte { return u.text }

// Provenance is a published value with its source and how far it was checked.
type Provenance struct {
	Name    string  `json:"name" required:"true" description:"of the figure, as GET /v1/species/{id} names it"`
	Value   float64 `json:"value" required:"true" resolution:"as given" description:"in its unit"`
	Unit    string  `json:"unit,omitempty" description:"none for a pure number"`
	Source  string  `json:"source" required:"true" description:"author, title, table and page"`
	Checked Mark    `json:"provenance" required:"true" description:"read: seen in the publication; memory: recalled, not re-read; GET /v1/species/{id} explains the marks"`
}
