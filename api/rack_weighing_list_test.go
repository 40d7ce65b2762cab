package api_test

import (
	"fmt"
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/rack"
	"latewood/api/internal/serve"
	"latewood/api/internal/wire"
)

func weighingList(t *testing.T, s *serve.Service, query string) rack.WeighingList {
	t.Helper()
	_, body := right(t, s, asking.Getting("/v1/rack/weighing-list?wait_seconds=20&"+query))
	return asking.Decoded[rack.WeighingList](t, []byte(body))
}

func idsOf(l *rack.WeighingList) []string {
	var ids []string
	for i := range l.Items {
		ids = append(ids, l.Items[i].ID)
	}
	return ids
}

// The wood is listed in the order in which it lies, with what it weighed last and what the
// scale will show.
func TestWeighingList(t *testing.T) {
	s, _ := shop(t, 2)
	right(t, s, asking.Posting("/v1/rack/places", `{"id": "attic", "name": "an attic"}`))
	for n, spot := range []string{"B-2", "b-10", "A-3"} {
		right(t, s, asking.Posting("/v1/rack/billets", fmt.Sprintf(`{"id": "a-%d", "place": "attic", "spot": %q, "billet": {"wood": "walnut-black", "thickness": "52 mm"}}`, n, spot)))
	}
	right(t, s, asking.Posting("/v1/rack/readings", `{"id": "in-grams", "billet": "w-2", "reading": {"kind": "weight", "date": "2026-03-15", "mass": "7930 g"}}`))
	l := weighingList(t, s, "")
	assert.Equal(t, []string{"a-2", "a-0", "a-1", "w-1", "w-2"}, idsOf(&l))
	assert.Equal(t, "2026-03-20", l.Date)
	assert.Equal(t, 5, l.Total)
	assert.Nil(t, l.Items[0].Last)
	assert.Contains(t, l.Items[0].Detail, "target_condition")

	one := &l.Items[3]
	require.NotNil(t, one.Last)
	assert.Equal(t, rack.LastWeight{ID: "w-1-7", Date: "2026-03-14", Mass: wire.Quantity{Value: 7.74, Unit: "kg"}}, *one.Last)
	require.NotNil(t, one.Mass)
	assert.InDelta(t, 7.74, one.Mass.Value, 0.05)
	assert.Less(t, one.Mass.High-one.Mass.Low, 0.2)
	assert.Less(t, one.Plausible.Low, one.Mass.Low)
	assert.Empty(t, one.Detail)
	assert.Equal(t, "g", l.Items[4].Mass.Unit, "as its scale shows it")
	assert.InDelta(t, 7930, l.Items[4].Mass.Value, 50)

	later := weighingList(t, s, "date=2026-06-10&place=shed")
	assert.Equal(t, []string{"w-1", "w-2"}, idsOf(&later))
	assert.Greater(t, later.Items[0].Mass.High-later.Items[0].Mass.Low, one.Mass.High-one.Mass.Low, "further ahead is less sure")
	page := weighingList(t, s, "limit=1&offset=3")
	assert.Equal(t, []string{"w-1"}, idsOf(&page))
	assert.Equal(t, 5, page.Total)

	// What was planed since it was weighed weighs what nobody knows.
	right(t, s, asking.Posting("/v1/rack/events", `{"id": "planed", "billet": "w-1", "event": {"kind": "planed", "date": "2026-03-16"}}`))
	l = weighingList(t, s, "place=shed")
	assert.Nil(t, l.Items[0].Mass)
	assert.NotNil(t, l.Items[0].Last)
	assert.Contains(t, l.Items[0].Detail, "planed, 16 March 2026")

	// A sample board beside the wood is not the wood.
	right(t, s, asking.Posting("/v1/rack/readings", `{"id": "board", "billet": "w-2", "reading": {"kind": "weight", "of": "sample_board", "date": "2026-03-18", "mass": "1.4 kg"}}`))
	l = weighingList(t, s, "place=shed")
	assert.Equal(t, "in-grams", l.Items[1].Last.ID)

	_, table := right(t, s, asking.Getting("/v1/rack/weighing-list", "Accept", "text/csv"))
	assert.Contains(t, table, "attic,A-3,billet,a-2")
	_, paper := right(t, s, asking.Getting("/v1/rack/weighing-list", "Accept", "text/html"))
	assert.Contains(t, paper, "7930 g, 15 March 2026")
	for _, query := range []string{"date=2026-03-19", "date=2026-07-01", "date=soon"} {
		r := asking.Getting("/v1/rack/weighing-list?"+query).Of(t, s)
		assert.Equal(t, http.StatusBadRequest, r.Code, query)
	}
}

// An overview of many pieces comes in pages, each list of it alike.
func TestOverviewComesInPages(t *testing.T) {
	s, _ := shop(t, 5)
	whole := overviewOf(t, s)
	assert.Equal(t, 5, whole.Totals.Wood)
	_, body := right(t, s, asking.Getting("/v1/rack/overview?limit=2&offset=2"))
	page := asking.Decoded[rack.Overview](t, []byte(body))
	assert.Equal(t, whole.Wood[2:4], page.Wood)
	assert.Equal(t, whole.Read[2:4], page.Read)
	assert.Equal(t, whole.Totals, page.Totals)
	assert.Equal(t, whole.Summary, page.Summary)
}

// Wood that has lain for longer than a forecast looks ahead is judged all the same.
func TestOldWoodIsJudged(t *testing.T) {
	s, _ := shop(t, 0)
	for id, day := range map[string]string{"six-years": "2020-03-01", "ten-years": "2016-04-01", "twenty-years": "2006-03-01"} {
		right(t, s, asking.Posting("/v1/rack/billets", fmt.Sprintf(`{"id": %q, "place": "shed", "target": "harp", "billet": {"wood": "walnut-black", "length": "1250 mm", "width": "260 mm", "thickness": "52 mm", "rings": {"angle_deg": 70}, "stacked_on": %q}}`, id, day)))
		for n, date := range []string{"2025-09-01", "2026-03-01"} {
			right(t, s, asking.Posting("/v1/rack/readings", fmt.Sprintf(`{"id": "%s-%d", "billet": %q, "reading": {"kind": "weight", "date": %q, "mass": "10.4 kg"}}`, id, n, id, date)))
		}
		right(t, s, asking.Posting("/v1/rack/billets/"+id+"/readiness", `{}`))
	}
	o := overviewOf(t, s)
	assert.Empty(t, o.Open)
	expected := map[string]bool{}
	for i := range o.Wood {
		expected[o.Wood[i].ID] = o.Wood[i].Mass != nil
	}
	assert.Equal(t, map[string]bool{"six-years": true, "ten-years": true, "twenty-years": true}, expected)
}
