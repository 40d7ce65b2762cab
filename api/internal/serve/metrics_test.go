package serve_test

import (
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/cut"
	"latewood/api/internal/moist"
	"latewood/api/internal/serve"
)

func TestMetrics(t *testing.T) {
	s := asking.FreshService(t, io.Discard)
	for range 3 {
		asking.Posting("/v1/emc", asking.EMCBody).Of(t, s)
	}
	asking.Posting("/v1/emc", "{}").Of(t, s)
	asking.Getting("/v1/species/teak").Of(t, s)
	asking.Getting("/v1/species/maple-sugar").Of(t, s)
	asking.Getting("/nowhere").Of(t, s)
	asking.Getting("/nowhere/else").Of(t, s)
	(asking.Asked{Verb: "BREW", Target: "/v1/emc"}).Of(t, s)
	asking.Posting("/v1/emc", strings.Repeat(" ", serve.CalculationBody+1)).Of(t, s)
	asking.BatchOf(asking.EMCItem+","+asking.EMCItem+","+`{"route": "/v1/emc", "request": {}}`).Of(t, s)
	asking.Posting("/v1/seasoning", weekOfDrying).Of(t, s)
	const dry = `{"wood": "maple-sugar", "size": "100 mm", "direction": "tangential", "from_condition": {"mc_pct": 25}, "to_condition": {"mc_pct": 8}}`
	warnings := 0.0
	for _, w := range asking.Decoded[serve.Answer[moist.MovementResult]](t, asking.Posting("/v1/movement", dry).Of(t, s).Body.Bytes()).Warnings {
		if w.Method == "" {
			warnings++
		}
	}
	require.NotZero(t, warnings)
	plan := asking.Decoded[serve.Answer[*cut.ResawPlanResult]](t, asking.Posting("/v1/resaw-plan", string(asking.ExampleBodies(t)["/v1/resaw-plan"][0])).Of(t, s).Body.Bytes())
	require.NotZero(t, plan.Result.Proof.Work)
	m := asking.MetricsOf(t, s)
	for series, want := range map[string]float64{
		`latewood_requests_total{method="POST",route="/v1/emc",status="2xx"}`:        3,
		`latewood_requests_total{method="POST",route="/v1/emc",status="4xx"}`:        2,
		`latewood_requests_total{method="GET",route="/v1/species/:id",status="2xx"}`: 2,
		`latewood_requests_total{method="GET",route="none",status="4xx"}`:            2,
		`latewood_request_seconds_count{method="POST",route="/v1/emc",status="2xx"}`: 3,
		`latewood_requests_in_flight`:                                                1, // the one that asks
		`latewood_refused_total{reason="content-too-large"}`:                         1,
		`latewood_batch_items_total{status="2xx"}`:                                   2,
		`latewood_batch_items_total{status="4xx"}`:                                   1,
		`latewood_heavy_seconds_count`:                                               2,
		`latewood_turn_wait_seconds_count`:                                           2,
		`latewood_turns_taken`:                                                       0,
	} {
		assert.InDelta(t, want, m[series], 0, series)
		assert.Contains(t, m, series)
	}
	for _, series := range []string{"go_goroutines", "process_open_fds"} {
		assert.Contains(t, m, series)
	}
	assert.GreaterOrEqual(t, m[`latewood_warnings_total{method=""}`], warnings)
	brewed := 0
	for series := range m {
		assert.NotContains(t, series, "nowhere", "a caller cannot make series")
		assert.NotContains(t, series, "teak")
		if strings.Contains(series, "BREW") {
			brewed++
		}
	}
	assert.Zero(t, brewed)

	assert.InDelta(t, 0, asking.MetricsOf(t, asking.FreshService(t, io.Discard))[`latewood_requests_total{method="POST",route="/v1/emc",status="2xx"}`], 0, "two services in one process do not mix")
}

func TestRefusalsAreCounted(t *testing.T) {
	s, token := asking.ExposedService(t, serve.Rate{PerSecond: 0.001, Burst: 100}, io.Discard)
	for range 103 {
		asking.Getting("/version").Of(t, s)
	}
	counted := map[string]float64{}
	for series, value := range asking.MetricsOf(t, s, "Authorization", "Bearer "+token) {
		if reason, is := strings.CutPrefix(series, `latewood_refused_total{reason="`); is {
			counted[strings.TrimSuffix(reason, `"}`)] = value
		}
	}
	assert.Equal(t, map[string]float64{"unauthorised": 100, "too-many-requests": 3}, counted)
}
