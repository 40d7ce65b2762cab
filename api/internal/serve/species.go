package serve

import (
	"github.com/labstack/echo/v4"

	"latewood/api/internal/shelf"
	"latewood/species"
)

// SpeciesSummary is a wood in a list.
type SpeciesSummary struct {
	ID        string `json:"id" required:"true" description:"by which requests name it"`
	Common    string `json:"common_name" required:"true" description:"the usual English name"`
	Botanical string `json:"botanical_name" required:"true" description:"genus and species"`
	Listing   string `json:"listing" required:"true" enum:"hardwood,softwood,imported" description:"hardwood, softwood, or imported, as the tables are ordered"`
	Kind      string `json:"kind" required:"true" enum:"species,group,genus" description:"one species, or a group or a genus that the tables hold as one"`
	Matched   string `json:"matched,omitempty" description:"the name that met the query"`
}

// SpeciesDetail is all that the tables hold of a wood.
type SpeciesDetail struct {
	ID            string         `json:"id" required:"true" description:"by which requests name it"`
	Common        string         `json:"common_name" required:"true" description:"the usual English name"`
	Botanical     string         `json:"botanical_name" required:"true" description:"genus and species"`
	Synonyms      []string       `json:"synonyms" required:"true" nullable:"false" description:"other names it is found by"`
	Listing       string         `json:"listing" required:"true" enum:"hardwood,softwood,imported" description:"hardwood, softwood, or imported, as the tables are ordered"`
	Kind          string         `json:"kind" required:"true" enum:"species,group,genus" description:"one species, or a group or a genus that the tables hold as one"`
	Values        []SpeciesValue `json:"values" required:"true" nullable:"false" description:"every published value with its source, and an estimate of what no source gives, marked so"`
	LowerEMC      bool           `json:"rich_in_extractives" required:"true" description:"settles 1 to 3 points lower in damp air"`
	DryingClass   string         `json:"drying_class,omitempty" enum:"refractory,moderate,easy" description:"how it takes drying: refractory, moderate or easy"`
	AirDryingDays []AirDrying    `json:"air_drying_days,omitempty" description:"green 25 mm boards to 20 % in the open, over places and seasons"`
	Cautions      []CautionNote  `json:"cautions" required:"true" nullable:"false" description:"reminders; the current lists, local codes and licensed practice decide"`
	Marks         []MarkMeaning  `json:"provenances" required:"true" nullable:"false" description:"what each checked mark means"`
	DataVersion   string         `json:"data_version" required:"true" description:"of the embedded tables"`
}

// SpeciesValue is one published value of a wood.
type SpeciesValue struct {
	shelf.Provenance
	Spread *float64 `json:"spread,omitempty" resolution:"0.00001" description:"half width of a 90 % band or as the source states it, same unit"`
	Low    *float64 `json:"low,omitempty" resolution:"as given" description:"end of its range where that is not even, same unit"`
	High   *float64 `json:"high,omitempty" resolution:"as given" description:"the other end, same unit"`
	AtMC   *float64 `json:"at_mc_pct,omitempty" resolution:"as given" description:"moisture content that it is printed at"`
	Trees  int      `json:"trees,omitempty" description:"that it is the mean of, where that is told"`
	Other  *Other   `json:"other,omitempty" description:"what another publication prints; only of a disputed figure"`
	Note   string   `json:"note,omitempty" description:"what is odd about it, or how it was estimated"`
}

// Other is the figure that another publication prints of the same thing.
type Other struct {
	Value   float64    `json:"value" required:"true" resolution:"as given" description:"same unit"`
	Source  string     `json:"source" required:"true" description:"author, title, table and page"`
	Checked shelf.Mark `json:"provenance" required:"true" description:"how far it was checked"`
}

// AirDrying is a published span of air-drying times.
type AirDrying struct {
	Class   string     `json:"class,omitempty" description:"of the boards, where the source tells them apart"`
	MinDays float64    `json:"min_days" required:"true" resolution:"as given" description:"the fastest, in days"`
	MaxDays float64    `json:"max_days" required:"true" resolution:"as given" description:"the slowest, in days"`
	Source  string     `json:"source" required:"true" description:"author, title, table and page"`
	Checked shelf.Mark `json:"provenance" required:"true" description:"how far it was checked"`
}

// CautionNote is a usual caution about a wood.
type CautionNote struct {
	Kind    string     `json:"kind" required:"true" enum:"dust,sensitiser,toxic,protected" description:"what it warns of"`
	Text    string     `json:"detail" required:"true" description:"the caution, for people"`
	Source  string     `json:"source" required:"true" description:"author, title, table and page"`
	Checked shelf.Mark `json:"provenance" required:"true" description:"how far it was checked"`
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
		listing, err := offered(c, "listing", string(species.Hardwood), string(species.Softwood), string(species.Imported))
		if err != nil {
			return err
		}
		if listing != "" {
			kept := all[:0]
			for _, w := range all {
				if w.Listing == listing {
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
	return SpeciesSummary{ID: w.ID, Common: w.Common, Botanical: w.Botanical, Listing: string(w.Group), Kind: string(w.Kind), Matched: matched}
}

// GetSpecies answers GET /v1/species/{id}.
func GetSpecies(d *Desk) echo.HandlerFunc {
	return func(c echo.Context) error {
		w, ok := d.tables.Species.Wood(pathWord(c, "id"))
		if !ok {
			return unknownEntry("species", pathWord(c, "id"), d.tables.Species.Suggest(pathWord(c, "id"), 5), d.tables.NearestWoods(pathWord(c, "id")))
		}
		return writeTable(c, speciesDetail(w, d.tables.Version))
	}
}

func speciesDetail(w *species.Wood, version string) SpeciesDetail {
	d := SpeciesDetail{
		ID: w.ID, Common: w.Common, Botanical: w.Botanical, Synonyms: append([]string{}, w.Synonyms...), Listing: string(w.Group), Kind: string(w.Kind),
		Values: []SpeciesValue{}, LowerEMC: w.LowerEMC.Applies, DryingClass: string(w.Drying.Class), Cautions: []CautionNote{}, Marks: marks(), DataVersion: version,
	}
	for name, v := range w.Figures() {
		number, known := v.Get()
		if !known {
			continue
		}
		value := SpeciesValue{Provenance: shelf.Provenance{Name: shelf.FigureName(name), Value: number, Unit: v.Unit, Source: v.Source, Checked: shelf.MarkOf(v.Checked)}, Note: v.Note}
		value.Spread, value.Low, value.High, value.AtMC = optional(v.Spread), optional(v.Low), optional(v.High), optional(v.AtMC)
		value.Trees = v.Trees
		if v.Other != nil {
			value.Other = &Other{v.Other.Number, v.Other.Source, shelf.MarkOf(v.Other.Checked)}
		}
		d.Values = append(d.Values, value)
	}
	for _, a := range w.AirDrying {
		d.AirDryingDays = append(d.AirDryingDays, AirDrying{a.Class, a.MinDays, a.MaxDays, a.Source, shelf.MarkOf(a.Checked)})
	}
	for _, c := range w.Cautions {
		d.Cautions = append(d.Cautions, CautionNote{string(c.Kind), c.Text, c.Source, shelf.MarkOf(c.Checked)})
	}
	return d
}
