package cut

import (
	"math"
	"strconv"

	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/species"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// reading turns the words of a request for a plan into those of the chapters, and
// notes what stood in for what was not given.
type reading struct {
	t      *shelf.Tables
	report wire.Reporter
	usual  *shelf.StandIns
	notes  *method.Notes
}

// place names a member of the request.
func place(list string, i int) string { return list + "/" + strconv.Itoa(i) }

// standIn notes a figure of the tables that stood in, once.
func (r *reading) standIn(name string, size species.Size) {
	l, _ := size.Get()
	q := toNanometre(r.report, l)
	one := shelf.Provenance{Name: name, Value: q.Value, Unit: q.Unit, Source: size.Source,
		Checked: shelf.MarkOf(size.Checked)}
	for _, known := range r.usual.All {
		if known == one {
			return
		}
	}
	r.usual.All = append(r.usual.All, one)
}

// toNanometre shows a length to the nanometre, in which plans are made, without the
// dust of a conversion.
func toNanometre(report wire.Reporter, l quantity.Length) wire.Quantity {
	nm := math.Round(float64(l) * 1e9)
	if report.LengthUnit == "mm" {
		return wire.Quantity{Value: nm / 1e6, Unit: "mm"}
	}
	q := report.Length(quantity.Length(nm / 1e9))
	return wire.Quantity{Value: wire.Rounded(q.Value, 12), Unit: q.Unit}
}
