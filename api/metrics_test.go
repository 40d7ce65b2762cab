package api

import (
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestMetrics(t *testing.T) {
	s := freshService(t, io.Discard)
	for range 3 {
		posting("/v1/emc", emcBody).of(t, s)
	}
	posting("/v1/emc", "{}").of(t, s)
	getting("/v1/species/teak").of(t, s)
	getting("/v1/species/maple-sugar").of(t, s)
	getting("/nowhere").of(t, s)
	getting("/nowhere/else").of(t, s)
	(asked{verb: "BREW", target: "/v1/emc"}).of(t, s)
	posting("/v1/emc", strings.Repeat(" ", calculationBody+1)).of(t, s)
	batchOf(emcItem+","+emcItem+","+`{"route": "/v1/emc", "request": {}}`).of(t, s)
	posting("/v1/seasoning", weekOfDrying).of(t, s)
	const dry = `{"species": "maple-sugar", "dimension": "100 mm", "direction": "tangential", "from": {"mc_pct": 25}, "to": {"mc_pct": 8}}`
	warnings := 0.0
	for _, w := range decoded[Answer[MovementResult]](t, posting("/v1/movement", dry).of(t, s).Body.Bytes()).Warnings {
		if w.Method == "" {
			warnings++
		}
	}
	require.NotZero(t, warnings)
	plan := decoded[Answer[*ResawResult]](t, posting("/v1/resaw", string(exampleBodies(t)["/v1/resaw"][0])).of(t, s).Body.Bytes())
	require.NotZero(t, plan.Result.Proof.Work)
	m := metricsOf(t, s)
	for series, want := range map[string]float64{
		`latewood_requests_total{method="POST",route="/v1/emc",status="2xx"}`:        3,
		`latewood_requests_total{method="POST",route="/v1/emc",status="4xx"}`:        2,
		`latewood_requests_total{method="GET",route="/v1/species/:id",status="2xx"}`: 2,
		`latewood_requests_total{method="GET",route="none",status="4xx"}`:            2,
		`latewood_request_seconds_count{method="POST",route="/v1/emc",status="2xx"}`: 3,
		`latewood_requests_in_flight`:                                                1, // the one that asks
		`latewood_refused_total{reason="too-large"}`:                                 1,
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

	assert.InDelta(t, 0, metricsOf(t, freshService(t, io.Discard))[`latewood_requests_total{method="POST",route="/v1/emc",status="2xx"}`], 0, "two services in one process do not mix")
}

func TestRefusalsAreCounted(t *testing.T) {
	s, _ := exposedService(t, Rate{PerSecond: 0.001, Burst: 100}, io.Discard)
	for range 103 {
		getting("/version").of(t, s)
	}
	families, err := s.tally.registry.Gather()
	require.NoError(t, err)
	counted := map[string]float64{}
	for _, f := range families {
		if f.GetName() == "latewood_refused_total" {
			for _, one := range f.GetMetric() {
				counted[one.GetLabel()[0].GetValue()] = one.GetCounter().GetValue()
			}
		}
	}
	assert.Equal(t, map[string]float64{"unauthorised": 100, "too-many-requests": 3}, counted)
}
