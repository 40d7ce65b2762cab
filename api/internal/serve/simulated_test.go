package serve_test

import (
	"io"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/dry"
	"latewood/api/internal/serve"
	"latewood/api/internal/shelf"
	"latewood/woodphys/drying"
)

const figuresInRoom = `{"build_condition": {"mc_pct": 8}, "room": {"station": "madison-wi", "heated_to": "20 C"}, "parts": [{"name": "top", "wood": "spruce-sitka", "thickness": "3 mm", "width": "200 mm"}]}`

// simulatingRoutes are the routes that simulate, with a request and the member that
// is told when it is too much.
func simulatingRoutes(t *testing.T) map[string][2]string {
	examples := asking.ExampleBodies(t)
	return map[string][2]string{
		"/v1/seasoning":         {asking.ThreeYears, "/horizon_days"},
		"/v1/readiness":         {string(examples["/v1/readiness"][1]), "/horizon_days"},
		"/v1/resaw-timing":      {string(examples["/v1/resaw-timing"][0]), "/horizon_days"},
		"/v1/year-in-service":   {string(examples["/v1/year-in-service"][0]), "/room"},
		"/v1/assembly-movement": {figuresInRoom, "/room"},
	}
}

// A request whose simulations take more steps than they may is refused, by the
// name of a member, the limit and its unit; what it took is counted all the same.
func TestSimulationsAreBoundedAndCounted(t *testing.T) {
	const steps = "latewood_drying_steps_total"
	for path, row := range simulatingRoutes(t) {
		s := asking.FreshService(t, io.Discard)
		require.Equal(t, http.StatusOK, asking.Posting(path, row[0]).Of(t, s).Code, path)
		whole := asking.MetricsOf(t, s)[steps]
		assert.Greater(t, whole, 100.0, path)
		require.Equal(t, http.StatusOK, asking.Posting(path, row[0]).Of(t, s).Code, path)
		assert.InDelta(t, 2*whole, asking.MetricsOf(t, s)[steps], 0, "the same question takes the same steps")

		s = asking.FreshService(t, io.Discard)
		for _, most := range []int{1, 100, int(whole) - 1} {
			before := asking.MetricsOf(t, s)[steps]
			s.SetMostSimulated(most)
			p := asking.ProblemOf(t, asking.Posting(path, row[0]).Of(t, s), http.StatusUnprocessableEntity)
			require.Len(t, p.Errors, 1, path)
			e := p.Errors[0]
			assert.Equal(t, row[1], e.Pointer, path)
			assert.Equal(t, "too_much_work", e.Code, path)
			assert.Regexp(t, `^at most [0-9]+ time steps$`, e.Limit.String(), path)
			assert.Contains(t, e.Detail, "time steps", path)
			assert.InDelta(t, before+float64(most), asking.MetricsOf(t, s)[steps], 0, "refused work is counted too")
		}
		s.SetMostSimulated(int(whole))
		assert.Equal(t, http.StatusOK, asking.Posting(path, row[0]).Of(t, s).Code, path)
	}
	s := asking.FreshService(t, io.Discard)
	asking.Posting("/v1/emc", asking.EMCBody).Of(t, s)
	assert.Zero(t, asking.MetricsOf(t, s)[steps])
}

// Every route that simulates, and no other, tells the budget.
func TestLimitsTellTheBudgetOfSimulations(t *testing.T) {
	simulates := simulatingRoutes(t)
	for _, l := range asking.LookUp[serve.Limits](t, "/v1/limits").Routes {
		told := map[string]int{}
		for _, b := range l.Budgets {
			if strings.Contains(b.Of, "simulation") {
				told[b.Of] = b.Most
			}
		}
		want := map[string]int{}
		if _, is := simulates[l.Route]; is {
			want = map[string]int{"one simulation of drying": drying.UsualMaxSteps, "all simulations of drying together": shelf.MostSimulated}
		}
		assert.Equal(t, want, told, l.Route)
	}
}

// Stock of 1 to 2 mm is forecast; of other thicknesses only those are told that can be
// simulated. The fast end of a wide band of one's own stays within the model.
func TestThinStockAndFastFactor(t *testing.T) {
	r := asking.AnswerTo[*dry.SeasoningResult](t, "/v1/seasoning", `{"billet": {"wood": "maple-sugar", "thickness": "1 mm", "stacked_on": "2024-04-05"}, "stays": [{"air": {"temperature": "20 C", "rh_pct": 45}}], "target_condition": {"mc_pct": 9}, "horizon_days": 30}`).Result
	require.Len(t, r.ByThickness, 5)
	assert.InDelta(t, 0.5, r.ByThickness[0].Thickness.Value, 1e-9)
	fast := asking.AnswerTo[*dry.SeasoningResult](t, "/v1/seasoning", `{"billet": {"wood": {"species": "oak-white", "drying_factor": {"value": 10, "sd_ratio": 4}}, "thickness": "25 mm", "stacked_on": "2024-04-05"}, "stays": [{"air": {"temperature": "20 C", "rh_pct": 45}}], "target_condition": {"mc_pct": 9}, "horizon_days": 30}`).Result
	require.NotNil(t, fast.Checks)
	assert.Greater(t, fast.Factor.High, 20.0)
}
