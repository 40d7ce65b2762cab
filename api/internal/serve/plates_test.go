package serve_test

import (
	"net/http"
	"net/url"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/serve"
	"latewood/api/internal/shelf"
	"latewood/species"
)

func sourced(t *testing.T, s *serve.SourcedSize, what string) {
	t.Helper()
	if s == nil {
		return
	}
	assert.Equal(t, "mm", s.Unit, what)
	assert.NotEmpty(t, s.Source, what)
	assert.Contains(t, shelf.Mark("").Enum(), any(s.Checked), what)
}

func TestPlatesAreListedWithTheirSources(t *testing.T) {
	ids := walk(t, "/v1/part-sizes?limit=11", func(p serve.PlateSummary) string { return p.ID })
	require.Len(t, ids, len(asking.SharedService().Tables().Species.Plates()))
	for _, p := range asking.LookUp[serve.Page[serve.PlateSummary]](t, "/v1/part-sizes?limit=500").Items {
		for _, s := range []*serve.SourcedSize{&p.Length, &p.Width, &p.Rough, p.ThinEdge, &p.Final} {
			sourced(t, s, p.ID)
		}
		d := asking.LookUp[serve.PlateDetail](t, "/v1/part-sizes/"+p.ID)
		assert.Equal(t, p, d.PlateSummary)
		assert.Len(t, d.Marks, len(species.Marks()))
		found := asking.LookUp[serve.Page[serve.PlateSummary]](t, "/v1/part-sizes?limit=1&q="+url.QueryEscape(p.ID))
		require.NotEmpty(t, found.Items, p.ID)
		assert.Equal(t, p.ID, found.Items[0].ID)
	}
}

// The dreadnought top of the trade tables: 560 x 210 x 4.5 mm rough, 2.8 mm
// finished, 85 degrees wanted and 75 tolerated.
func TestPlateAsPublished(t *testing.T) {
	found := asking.LookUp[serve.Page[serve.PlateSummary]](t, "/v1/part-sizes?q=dreadnought+top")
	require.NotEmpty(t, found.Items)
	assert.Equal(t, "steel-string-dreadnought-top", found.Items[0].ID)
	assert.NotEmpty(t, found.Items[0].Matched)
	d := asking.LookUp[serve.PlateDetail](t, "/v1/part-sizes/steel-string-dreadnought-top")
	for _, row := range []struct {
		want float64
		size serve.SourcedSize
	}{{560, d.Length}, {210, d.Width}, {4.5, d.Rough}, {2.8, d.Final}} {
		assert.InDelta(t, row.want, row.size.Value, 1e-9)
	}
	require.NotNil(t, d.RingAngle)
	assert.InDelta(t, 85, *d.RingAngle.Wanted, 1e-9)
	assert.InDelta(t, 75, *d.RingAngle.Least, 1e-9)
	inch := asking.LookUp[serve.PlateDetail](t, "/v1/part-sizes/steel-string-dreadnought-top?report_in=inch")
	assert.Equal(t, "in", inch.Length.Unit)
	assert.InDelta(t, 560/25.4, inch.Length.Value, 5e-9, "to the nanometre")
}

func TestPlatesAreFiltered(t *testing.T) {
	all := asking.LookUp[serve.Page[serve.PlateSummary]](t, "/v1/part-sizes?limit=500")
	sum := 0
	for _, matching := range []string{"bookmatch", "none", "either"} {
		p := asking.LookUp[serve.Page[serve.PlateSummary]](t, "/v1/part-sizes?limit=500&match="+matching)
		sum += p.Total
		for _, one := range p.Items {
			assert.Equal(t, matching, one.Matching)
		}
	}
	assert.Equal(t, all.Total, sum)
	violin := asking.LookUp[serve.Page[serve.PlateSummary]](t, "/v1/part-sizes?instrument=Violin&match=bookmatch")
	require.NotEmpty(t, violin.Items)
	for _, one := range violin.Items {
		assert.Equal(t, "violin", one.Instrument)
		assert.Equal(t, "bookmatch", one.Matching)
	}
	none := asking.LookUp[serve.Page[serve.PlateSummary]](t, "/v1/part-sizes?q=violin+top&instrument=cello")
	assert.Empty(t, none.Items)
	assert.NotNil(t, none.Items)
}

func TestLossesOfTheShop(t *testing.T) {
	s := asking.SharedService().Tables().Species
	count := map[string]int{}
	ids := walk(t, "/v1/sawing-losses?limit=7", func(l serve.ShopLoss) string { return l.Kind + " " + l.ID })
	require.Len(t, ids, len(s.Saws())+len(s.Allowances())+len(s.EndTrims()))
	for _, l := range asking.LookUp[serve.Page[serve.ShopLoss]](t, "/v1/sawing-losses?limit=500").Items {
		count[l.Kind]++
		assert.True(t, l.Low != nil || l.Usual != nil || l.High != nil, l.ID)
		for _, size := range []*serve.SourcedSize{l.Low, l.Usual, l.High} {
			sourced(t, size, l.ID)
		}
		assert.NotEmpty(t, l.Per)
	}
	assert.Equal(t, map[string]int{"kerf": len(s.Saws()), "allowance": len(s.Allowances()), "end_trim": len(s.EndTrims())}, count)
	carbide := asking.LookUp[serve.Page[serve.ShopLoss]](t, "/v1/sawing-losses?kind=kerf&q=Carbide")
	require.Len(t, carbide.Items, 1)
	assert.InDelta(t, 1.3, carbide.Items[0].Low.Value, 1e-9)
	assert.InDelta(t, 1.6, carbide.Items[0].High.Value, 1e-9)
	assert.Empty(t, asking.LookUp[serve.Page[serve.ShopLoss]](t, "/v1/sawing-losses?kind=end_trim&q=carbide").Items)
}

func TestWrongLookUpsOfTheShop(t *testing.T) {
	for _, row := range []struct {
		target string
		status int
		name   string
		says   string
	}{
		{"/v1/part-sizes?match=booked", 400, "match", "bookmatch, none or either"},
		{"/v1/part-sizes?instrument=theremin", 400, "instrument", "violin"},
		{"/v1/part-sizes?report_in=cubits", 400, "report_in", "metric or inch"},
		{"/v1/part-sizes?limit=0", 400, "limit", "1 to 500"},
		{"/v1/part-sizes?offset=-1", 400, "offset", "0 to"},
		{"/v1/part-sizes?matched=bookmatch", 400, "matched", "no query parameter"},
		{"/v1/part-sizes?q=top&q=back", 400, "q", "more than once"},
		{"/v1/part-sizes/steel-string-dreadnought-topp", 404, "id", "steel-string-dreadnought-top"},
		{"/v1/part-sizes/classical-guitar-top?report_in=feet", 400, "report_in", "metric or inch"},
		{"/v1/part-sizes/classical-guitar-top?q=1", 400, "q", "no query parameter"},
		{"/v1/sawing-losses?kind=blade", 400, "kind", "kerf, allowance or end_trim"},
		{"/v1/sawing-losses?report_in=inches", 400, "report_in", "metric or inch"},
		{"/v1/sawing-losses?limit=many", 400, "limit", "whole number"},
	} {
		p := asking.ProblemOf(t, asking.Getting(row.target).Of(t, asking.SharedService()), row.status)
		require.Len(t, p.Errors, 1, row.target)
		assert.Equal(t, row.name, p.Errors[0].Parameter, row.target)
		assert.Contains(t, p.Errors[0].Detail, row.says, row.target)
	}
	assert.Equal(t, http.StatusNotFound, asking.Getting("/v1/sawing-losses/froe").Of(t, asking.SharedService()).Code)
}

func TestTagsOfTheShopsLookUps(t *testing.T) {
	tags := map[string]bool{}
	for _, target := range []string{"/v1/part-sizes", "/v1/part-sizes?report_in=inch", "/v1/part-sizes/classical-guitar-top", "/v1/sawing-losses", "/v1/sawing-losses?kind=kerf"} {
		tag := asking.Getting(target).Of(t, asking.SharedService()).Header().Get("ETag")
		require.Regexp(t, `^"[0-9a-f]{24}"$`, tag)
		assert.False(t, tags[tag], target)
		tags[tag] = true
		assert.Equal(t, http.StatusNotModified, asking.Getting(target, "If-None-Match", tag).Of(t, asking.SharedService()).Code)
	}
}

// The usual losses are those of the tables, and they have not changed: 0.8 mm a
// face, 0.5, 0.5 and 2 mm.
func TestUsualLossesComeFromTheTables(t *testing.T) {
	a := asking.AnswerTo[shelf.LeafYieldResult](t, "/v1/leaf-yield", `{"billet": {"length": "600 mm", "width": "220 mm", "thickness": "60 mm"}, "saw": {"kerf": "1.5 mm"},
		"part": {"length": "560 mm", "width": "210 mm", "final_thickness": "2.5 mm"}}`)
	wants := map[string]float64{"clean-up of a face": 0.8, "wander": 0.5, "flattening of a leaf": 0.5, "facing, both outside faces": 2}
	require.Len(t, a.Result.StandIns, len(wants))
	for _, s := range a.Result.StandIns {
		assert.InDelta(t, wants[s.Name], s.Value, 1e-9, s.Name)
		assert.NotEmpty(t, s.Source)
		assert.NotEmpty(t, s.Checked)
	}
	assert.InDelta(t, 5.1, a.Result.Leaf.Thickness.Value, 1e-9)
	given := asking.AnswerTo[shelf.LeafYieldResult](t, "/v1/leaf-yield", `{"billet": {"length": "600 mm", "width": "220 mm", "thickness": "60 mm", "facing_face_1": "1 mm", "facing_face_2": "1 mm"}, "saw": {"kerf": "1.5 mm"}, "part": {"length": "560 mm", "width": "210 mm", "sawn_thickness": "5.1 mm"}}`)
	assert.Empty(t, given.Result.StandIns, "nothing stood in")
	assert.Equal(t, a.Result.Leaves, given.Result.Leaves)
}
