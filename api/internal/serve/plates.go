package serve

import (
	"slices"
	"strings"

	"github.com/labstack/echo/v4"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// PlateSummary is a part of an instrument in the tables: a starting value and
// no standard.
type PlateSummary struct {
	ID         string       `json:"id" required:"true" description:"by which a plan names it (part_size)"`
	Instrument string       `json:"instrument" required:"true" description:"in words"`
	Part       string       `json:"part" required:"true" description:"in words"`
	Pieces     int          `json:"pieces_per_set" required:"true" description:"that make one part"`
	Length     SourcedSize  `json:"length" required:"true" description:"along the grain, oversize included"`
	Width      SourcedSize  `json:"width" required:"true" description:"of one piece, oversize included"`
	Rough      SourcedSize  `json:"rough_thickness" required:"true" description:"as sawn; of a wedge the thick edge of one piece after the centre cut"`
	ThinEdge   *SourcedSize `json:"far_thickness,omitempty" description:"of a wedge"`
	Final      SourcedSize  `json:"final_thickness" required:"true" description:"of the finished part, largest usual"`
	Quartered  bool         `json:"quartered_preferred" required:"true" description:"on the quarter is preferred"`
	Matching   string       `json:"match" required:"true" enum:"bookmatch,none,either" description:"whether the pieces are book-matched"`
	Matched    string       `json:"matched,omitempty" description:"the name that met the query"`
}

// PlateDetail is all that the tables hold of a part.
type PlateDetail struct {
	PlateSummary
	RingAngle   *RingAngleAsked `json:"ring_angle,omitempty" description:"where makers state one"`
	Note        string          `json:"note,omitempty" description:"what is odd about it"`
	Marks       []MarkMeaning   `json:"provenances" required:"true" nullable:"false" description:"what each checked mark means"`
	DataVersion string          `json:"data_version" required:"true" description:"of the embedded tables"`
}

// RingAngleAsked is the ring angle to the wide face that makers ask for.
type RingAngleAsked struct {
	Wanted  *float64   `json:"wanted_ring_angle_deg,omitempty" resolution:"as given" description:"this or steeper"`
	Least   *float64   `json:"min_ring_angle_deg,omitempty" resolution:"as given" description:"tolerated at one edge"`
	Source  string     `json:"source" required:"true" description:"author, title, table and page"`
	Checked shelf.Mark `json:"provenance" required:"true" description:"how far it was checked"`
}

// ListPlates answers GET /v1/part-sizes.
func ListPlates(d *Desk) echo.HandlerFunc {
	return func(c echo.Context) error {
		report, err := systemAsked(c)
		if err != nil {
			return err
		}
		matching, err := offered(c, "match", string(species.Bookmatched), string(species.Unmatched), string(species.EitherMatched))
		if err != nil {
			return err
		}
		instrument, err := instrumentAsked(c, d.tables.Species)
		if err != nil {
			return err
		}
		all := []PlateSummary{}
		keep := func(p *species.Plate, name string) {
			if (matching == "" || matching == string(p.Matched)) && (instrument == "" || strings.EqualFold(instrument, p.Instrument)) {
				all = append(all, plateSummary(p, name, report))
			}
		}
		if query := c.QueryParam("q"); query != "" {
			for _, m := range d.tables.Species.FindPlates(query, mostFound) {
				keep(m.Plate, m.Name)
			}
		} else {
			for _, p := range d.tables.Species.Plates() {
				keep(p, "")
			}
		}
		p, err := page(c, all, d.tables.Version)
		if err != nil {
			return err
		}
		return writeTable(c, p)
	}
}

// instrumentAsked checks the instrument against those of the tables.
func instrumentAsked(c echo.Context, t *species.Tables) (string, error) {
	wanted := c.QueryParam("instrument")
	if wanted == "" {
		return "", nil
	}
	var known []string
	for _, p := range t.Plates() {
		if strings.EqualFold(p.Instrument, wanted) {
			return wanted, nil
		}
		if !slices.Contains(known, p.Instrument) {
			known = append(known, p.Instrument)
		}
	}
	slices.Sort(known)
	return "", badParameter("instrument", "not_a_choice", "instrument is one of: "+strings.Join(known, "; "), method.OneOf(known...))
}

func plateSummary(p *species.Plate, matched string, report wire.Reporter) PlateSummary {
	return PlateSummary{
		ID: p.ID, Instrument: p.Instrument, Part: p.Part, Pieces: p.Pieces, Length: sourcedSize(report, p.Length), Width: sourcedSize(report, p.Width),
		Rough: sourcedSize(report, p.Rough), ThinEdge: optionalSize(report, p.ThinEdge), Final: sourcedSize(report, p.Final),
		Quartered: p.Quartered, Matching: string(p.Matched), Matched: matched,
	}
}

// GetPlate answers GET /v1/part-sizes/{id}.
func GetPlate(d *Desk) echo.HandlerFunc {
	return func(c echo.Context) error {
		p, ok := d.tables.Species.Plate(pathWord(c, "id"))
		if !ok {
			return unknownEntry("plate", pathWord(c, "id"), d.tables.Species.SuggestPlates(pathWord(c, "id"), 5), d.tables.NearestParts(pathWord(c, "id")))
		}
		report, err := systemAsked(c)
		if err != nil {
			return err
		}
		d := PlateDetail{PlateSummary: plateSummary(p, "", report), Note: p.Note, Marks: marks(), DataVersion: d.tables.Version}
		if a := p.RingAngle; a.Source != "" {
			d.RingAngle = &RingAngleAsked{Wanted: degreesOf(a.Wanted), Least: degreesOf(a.Least), Source: a.Source, Checked: shelf.MarkOf(a.Checked)}
		}
		return writeTable(c, d)
	}
}

func degreesOf(a species.Optional[quantity.Angle]) *float64 {
	angle, known := a.Get()
	if !known {
		return nil
	}
	degrees := angle.Degrees()
	return &degrees
}
