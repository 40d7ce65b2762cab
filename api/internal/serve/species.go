package serve

import (
	"strings"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/shelf"
	"latewood/species"
)

// SpeciesSummary is a wood in a list.
type SpeciesSummary struct {
	ID        string `json:"id" required:"true"`
	Common    string `json:"common" required:"true"`
	Botanical string `json:"botanical" required:"true"`
	Group     string `json:"group" required:"true" enum:"hardwood,softwood,imported"`
	Kind      string `json:"kind" required:"true" enum:"species,group,genus"`
	Matched   string `json:"matched,omitempty" description:"the name that met the query"`
}

// SpeciesDetail is all that the tables hold of a wood.
type SpeciesDetail struct {
	ID            string         `json:"id" required:"true"`
	Common        string         `json:"common" required:"true"`
	Botanical     string         `json:"botanical" required:"true"`
	Synonyms      []string       `json:"synonyms" required:"true" nullable:"false"`
	Group         string         `json:"group" required:"true"`
	Kind          string         `json:"kind" required:"true"`
	Values        []SpeciesValue `json:"values" required:"true" nullable:"false" description:"every published value with its source, and an estimate of what no source gives, marked so"`
	LowerEMC      bool           `json:"rich_in_extractives" required:"true" description:"settles 1 to 3 points lower in damp air"`
	DryingClass   string         `json:"drying_class,omitempty" enum:"refractory,moderate,easy"`
	AirDryingDays []AirDrying    `json:"air_drying_days,omitempty" description:"green 25 mm boards to 20 % in the open, over places and seasons"`
	Cautions      []CautionNote  `json:"cautions" required:"true" nullable:"false" description:"reminders; the current lists, local codes and licensed practice decide"`
	Marks         []MarkMeaning  `json:"marks" required:"true" nullable:"false" description:"what each checked mark means"`
	DataVersion   string         `json:"data_version" required:"true"`
}

// SpeciesValue is one published value of a wood.
type SpeciesValue struct {
	shelf.Provenance
	Spread *float64 `json:"spread,omitempty" description:"half width of a 90 % band or as the source states it, same unit"`
	Low    *float64 `json:"low,omitempty" description:"end of its range where that is not even, same unit"`
	High   *float64 `json:"high,omitempty"`
	AtMC   *float64 `json:"at_mc_pct,omitempty" description:"moisture content that it is printed at"`
	Trees  int      `json:"trees,omitempty" description:"that it is the mean of, where that is told"`
	Other  *Other   `json:"other,omitempty" description:"what another publication prints; only of a disputed figure"`
	Note   string   `json:"note,omitempty" description:"what is odd about it, or how it was estimated"`
}

// Other is the figure that another publication prints of the same thing.
type Other struct {
	Value   float64 `json:"value" required:"true" description:"same unit"`
	Source  string  `json:"source" required:"true"`
	Checked string  `json:"checked" required:"true"`
}

// AirDrying is a published span of air-drying times.
type AirDrying struct {
	Class   string  `json:"class,omitempty"`
	MinDays float64 `json:"min_days" required:"true"`
	MaxDays float64 `json:"max_days" required:"true"`
	Source  string  `json:"source" required:"true"`
	Checked string  `json:"checked" required:"true"`
}

// CautionNote is a usual caution about a wood.
type CautionNote struct {
	Kind    string `json:"kind" required:"true" enum:"dust,sensitiser,toxic,protected"`
	Text    string `json:"text" required:"true"`
	Source  string `json:"source" required:"true"`
	Checked string `json:"checked" required:"true"`
}

// ListSpecies answers GET /v1/species.
func ListSpecies(d *Desk) echo.HandlerFunc {
	return func(c echo.Context) error {
		var all []SpeciesSummary
		if query := c.QueryParam("q"); query != "" {
			for _, m := range d.tables.Species.Find(query, mostFound) {
				all = append(all, summary(m.Wood, m.Name))
			}
		} else {
			for _, w := range d.tables.Species.Woods() {
				all = append(all, summary(w, ""))
			}
		}
		if group := c.QueryParam("group"); group != "" {
			switch species.Group(strings.ToLower(group)) {
			case species.Hardwood, species.Softwood, species.Imported:
			default:
				const offered = "hardwood, softwood or imported"
				return badParameter("group", "not_a_choice", "group is "+offered, offered)
			}
			kept := all[:0]
			for _, w := range all {
				if strings.EqualFold(w.Group, group) {
					kept = append(kept, w)
				}
			}
			all = kept
		}
		p, err := page(c, all, d.tables.Version)
		if err != nil {
			return err
		}
		return writeTable(c, p)
	}
}

func optional(v species.Optional[float64]) *float64 {
	number, known := v.Get()
	if !known {
		return nil
	}
	return &number
}

func summary(w *species.Wood, matched string) SpeciesSummary {
	return SpeciesSummary{ID: w.ID, Common: w.Common, Botanical: w.Botanical, Group: string(w.Group), Kind: string(w.Kind), Matched: matched}
}

// GetSpecies answers GET /v1/species/{id}.
func GetSpecies(d *Desk) echo.HandlerFunc {
	return func(c echo.Context) error {
		w, ok := d.tables.Species.Wood(pathWord(c, "id"))
		if !ok {
			return unknownEntry("species", pathWord(c, "id"), d.tables.Species.Suggest(pathWord(c, "id"), 5))
		}
		return writeTable(c, speciesDetail(w, d.tables.Version))
	}
}

func speciesDetail(w *species.Wood, version string) SpeciesDetail {
	d := SpeciesDetail{
		ID: w.ID, Common: w.Common, Botanical: w.Botanical, Synonyms: append([]string{}, w.Synonyms...), Group: string(w.Group), Kind: string(w.Kind),
		Values: []SpeciesValue{}, LowerEMC: w.LowerEMC.Applies, DryingClass: string(w.Drying.Class), Cautions: []CautionNote{}, Marks: marks(), DataVersion: version,
	}
	for name, v := range w.Figures() {
		number, known := v.Get()
		if !known {
			continue
		}
		value := SpeciesValue{Provenance: shelf.Provenance{Name: name, Value: number, Unit: v.Unit, Source: v.Source, Checked: string(v.Checked)}, Note: v.Note}
		value.Spread, value.Low, value.High, value.AtMC = optional(v.Spread), optional(v.Low), optional(v.High), optional(v.AtMC)
		value.Trees = v.Trees
		if v.Other != nil {
			value.Other = &Other{v.Other.Number, v.Other.Source, string(v.Other.Checked)}
		}
		d.Values = append(d.Values, value)
	}
	for _, a := range w.AirDrying {
		d.AirDryingDays = append(d.AirDryingDays, AirDrying{a.Class, a.MinDays, a.MaxDays, a.Source, string(a.Checked)})
	}
	for _, c := range w.Cautions {
		d.Cautions = append(d.Cautions, CautionNote{string(c.Kind), c.Text, c.Source, string(c.Checked)})
	}
	return d
}
