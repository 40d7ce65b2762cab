package shelf

// WoodUsed says which wood an answer is about and where its figures come from.
type WoodUsed struct {
	ID        string       `json:"id,omitempty"`
	Common    string       `json:"common" required:"true"`
	Botanical string       `json:"botanical,omitempty"`
	Figures   []Provenance `json:"figures" required:"true" nullable:"false" description:"the published values the answer used"`

	text []byte // all this as JSON, where it is known beforehand
}

// Encoded is all of it as JSON, where that is known beforehand.
func (u *WoodUsed) Encoded() []byte { return u.text }

// Provenance is a published value with its source and how far it was checked.
type Provenance struct {
	Name    string  `json:"name" required:"true"`
	Value   float64 `json:"value" required:"true"`
	Unit    string  `json:"unit,omitempty"`
	Source  string  `json:"source" required:"true"`
	Checked string  `json:"checked" required:"true" description:"read: seen in the publication; memory: recalled, not re-read; GET /v1/species/{id} explains the marks"`
}
