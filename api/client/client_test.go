package client_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/client"
)

// served is the service itself, behind what a test puts before it.
func served(t *testing.T, before func(w http.ResponseWriter, r *http.Request) bool) *client.Client {
	t.Helper()
	service, err := api.New(api.Config{Version: "test"})
	require.NoError(t, err)
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if before == nil || !before(w, r) {
			service.ServeHTTP(w, r)
		}
	}))
	t.Cleanup(server.Close)
	return client.New(server.URL, client.Through(server.Client()))
}

// movementOf is a question whose answer is known.
func movementOf(size client.Amount) client.MovementRequest {
	return client.MovementRequest{
		Wood: client.Wood{Name: "maple-sugar"}, Size: size, Direction: "tangential",
		FromCondition: client.Condition{McPct: new(9.0)}, ToCondition: client.Condition{McPct: new(6.0)},
	}
}

func TestAnAnswerWithItsWarnings(t *testing.T) {
	c := served(t, nil)
	answer, err := c.CalculateMovement(t.Context(), movementOf(client.Of(330, "mm")))
	require.NoError(t, err)
	assert.InDelta(t, -3.47, answer.Result.Change.Value, 0.01)
	assert.Equal(t, "mm", answer.Result.Change.Unit)
	assert.NotEmpty(t, answer.Basis)
	assert.NotEmpty(t, answer.DataVersion)
	require.NotEmpty(t, answer.Warnings)
	assert.Equal(t, []string{"from_condition", "mc_sd_points"}, answer.Warnings[0].Pointer.Members())
	assert.Contains(t, string(answer.Raw), `"fibre_saturation_mc_pct"`)

	assert.Equal(t, "330 mm 13 in", fmt.Sprint(client.Of(330, "mm"), client.Text("13 in")))
	inches, err := c.CalculateMovement(t.Context(), movementOf(client.Text("13 in")), client.With("detail", "summary"))
	require.NoError(t, err)
	assert.Equal(t, "mm", inches.Result.ToSize.Unit)
	assert.Less(t, len(inches.Raw), len(answer.Raw))
	drawn, err := c.Rendered(t.Context(), "/v1/section-shape", "svg", json.RawMessage(example(t, "section-shape.flatsawn-board-after-drying")))
	require.NoError(t, err)
	assert.Contains(t, string(drawn.Bytes), "<svg")
	assert.Equal(t, "image/svg+xml", drawn.Media)
	_, err = c.CalculateSectionShape(t.Context(), client.SectionShapeRequest{Width: client.Of(200, "mm"), Thickness: client.Of(30, "mm"), Rings: client.Rings{AngleDeg: new(40.0)},
		Wood: client.Wood{Name: "maple-sugar"}, FromCondition: &client.Condition{McPct: new(9.0)}, ToCondition: &client.Condition{McPct: new(6.0)}}, client.With("as", "svg"))
	require.ErrorContains(t, err, "Rendered")
}

func example(t *testing.T, name string) []byte {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "examples", name+".json"))
	require.NoError(t, err)
	return text
}

func TestProblemsAreErrors(t *testing.T) {
	c := served(t, nil)
	wrong := movementOf(client.Text("330"))
	wrong.Wood.Name = "no such wood"
	_, err := c.CalculateMovement(t.Context(), wrong)
	var problem *client.Problem
	require.ErrorAs(t, err, &problem)
	assert.Equal(t, http.StatusUnprocessableEntity, problem.Status)
	require.NotNil(t, problem.At("/size"))
	assert.Equal(t, "invalid_quantity", problem.At("/size").Code)
	require.NotNil(t, problem.At("/wood"))
	assert.Nil(t, problem.At("/direction"))
	assert.Contains(t, err.Error(), problem.Detail)
	_, err = c.GetSpecies(t.Context(), "no/such wood")
	require.ErrorAs(t, err, &problem)
	assert.Equal(t, http.StatusNotFound, problem.Status)
	assert.Equal(t, []string{"a/b", "~", "0"}, client.Pointer("/a~1b/~0/0").Members())
}

// What may be gone the next time is asked again, twice, and what is wrong is not.
func TestAskedAgain(t *testing.T) {
	var asked atomic.Int64
	refuse := func(times int64, status int) func(w http.ResponseWriter, r *http.Request) bool {
		asked.Store(0)
		return func(w http.ResponseWriter, r *http.Request) bool {
			if asked.Add(1) > times {
				return false
			}
			_, _ = io.Copy(io.Discard, r.Body)
			w.Header().Set("Retry-After", "0")
			w.WriteHeader(status)
			return true
		}
	}
	for _, status := range []int{408, 429, 500, 502, 503} {
		c := served(t, refuse(2, status))
		_, err := c.CalculateMovement(t.Context(), movementOf(client.Of(330, "mm")))
		require.NoError(t, err, status)
		assert.EqualValues(t, 3, asked.Load())
		_, err = served(t, refuse(3, status)).ListSpecies(t.Context())
		require.Error(t, err, status)
		_, err = served(t, refuse(1, status)).CalculateMovement(t.Context(), movementOf(client.Of(330, "mm")), client.Retries(0))
		require.Error(t, err, status)
	}
	_, err := served(t, refuse(1, http.StatusForbidden)).ListSpecies(t.Context())
	require.Error(t, err)
	assert.EqualValues(t, 1, asked.Load())
	c := served(t, func(_ http.ResponseWriter, _ *http.Request) bool {
		if asked.Add(1) > 3 { // after the two above
			return false
		}
		panic(http.ErrAbortHandler)
	})
	asked.Store(2)
	_, err = c.ListSpecies(t.Context())
	require.NoError(t, err, "a connection that broke")
}

func TestHeldAnswers(t *testing.T) {
	c := served(t, nil)
	first, err := c.CalculateMovement(t.Context(), movementOf(client.Of(330, "mm")), client.Tagged(""))
	require.NoError(t, err)
	require.NotEmpty(t, first.Tag)
	assert.Equal(t, fmt.Sprintf("%v mm (%v to %v)", first.Result.Change.Value, first.Result.Change.Low, first.Result.Change.High), first.Result.Change.String())
	section := json.RawMessage(example(t, "section-shape.flatsawn-board-after-drying"))
	drawn, err := c.Rendered(t.Context(), "/v1/section-shape", "svg", section, client.Tagged(""))
	require.NoError(t, err)
	require.NotEmpty(t, drawn.Tag)
	_, err = c.Rendered(t.Context(), "/v1/section-shape", "svg", section, client.Tagged(drawn.Tag))
	require.ErrorIs(t, err, client.ErrHeld)
	_, err = c.CalculateMovement(t.Context(), movementOf(client.Of(330, "mm")), client.Tagged(first.Tag))
	require.ErrorIs(t, err, client.ErrHeld)
	other, err := c.CalculateMovement(t.Context(), movementOf(client.Of(331, "mm")), client.Tagged(first.Tag))
	require.NoError(t, err)
	assert.NotEqual(t, first.Tag, other.Tag)
}

// A stream is answered in its order, also where it breaks off on the way.
func TestStreams(t *testing.T) {
	const many = 300
	var items []client.Item
	for n := range many {
		items = append(items, client.Item{ID: strconv.Itoa(n), Route: "/v1/movement", Request: movementOf(client.Of(float64(100+n), "mm"))})
	}
	items[7].Request = map[string]any{"wood": "maple-sugar"}
	var asked atomic.Int64
	for name, before := range map[string]func(w http.ResponseWriter, r *http.Request) bool{
		"whole": nil,
		"by query": func(_ http.ResponseWriter, r *http.Request) bool {
			assert.Equal(t, "QUERY", r.Method)
			return false
		},
		"refused, then broken off": func(w http.ResponseWriter, _ *http.Request) bool {
			switch asked.Add(1) {
			case 1:
				w.Header().Set("Retry-After", "0")
				w.WriteHeader(http.StatusServiceUnavailable)
			case 2:
				_, _ = io.WriteString(w, `{"line": 1, "id": "0", "route": "/v1/movement", "status": 200, "answer": {"result": {}}}`+"\n")
			default:
				return false
			}
			return true
		},
	} {
		next := 0
		options := []client.Option{}
		if name == "by query" {
			options = append(options, client.ByQuery())
		}
		for item, err := range served(t, before).Stream(t.Context(), items, options...) {
			require.NoError(t, err, name)
			require.Equal(t, strconv.Itoa(next), item.ID, name)
			next++
			require.Equal(t, next, item.Line, name)
			answer, err := client.As[client.MovementResult](item)
			if item.ID == "7" {
				var problem *client.Problem
				require.ErrorAs(t, err, &problem)
				assert.NotNil(t, problem.At("/size"), "as of the route alone")
				continue
			}
			require.NoError(t, err)
			if next > 1 {
				assert.NotZero(t, answer.Result.Change.Value)
			}
		}
		assert.Equal(t, many, next, name)
	}
	for item, err := range served(t, nil).Stream(t.Context(), items) { // a caller that wants no more
		require.NoError(t, err)
		assert.Equal(t, "0", item.ID)
		break
	}
	gone := client.New("http://127.0.0.1:1", client.Retries(0))
	for _, err := range gone.Stream(t.Context(), items) {
		require.Error(t, err)
		assert.False(t, errors.Is(err, client.ErrHeld))
	}
}

// Each request of the demo and of the contract goes through the types of the client and
// comes out as it went in, and its answer is read without a member that the types do not
// know.
func TestTheTypesHoldEveryExample(t *testing.T) {
	if testing.Short() {
		t.Skip("asks every example")
	}
	c := served(t, nil)
	files, err := filepath.Glob("../examples/*.json")
	require.NoError(t, err)
	tried := 0
	for _, file := range files {
		body, err := os.ReadFile(file)
		require.NoError(t, err)
		route, _, _ := strings.Cut(filepath.Base(file), ".")
		through, is := throughs[route]
		if !is {
			// a batch has items of any route, and an operation of the rack, which stands under its
			// name in capitals and small letters, is no calculation of the clients
			require.True(t, route == "batch" || route != strings.ToLower(route), "no test of the types of %s", route)
			continue
		}
		tried++
		through(t, c, body)
	}
	assert.Greater(t, tried, 25)
}

var throughs = map[string]func(*testing.T, *client.Client, []byte){
	"air": through(func(c *client.Client) asks[client.AirRequest, client.AirResult] { return c.CalculateAir }),
	"assembly-movement": through(func(c *client.Client) asks[client.AssemblyMovementRequest, client.AssemblyMovementResult] {
		return c.CalculateAssemblyMovement
	}),
	"bookmatch": through(func(c *client.Client) asks[client.BookmatchRequest, client.BookmatchResult] { return c.MatchLeaves }),
	"emc":       through(func(c *client.Client) asks[client.EMCRequest, client.EMCResult] { return c.CalculateEmc }),
	"laminate":  through(func(c *client.Client) asks[client.LaminateRequest, client.LaminateResult] { return c.CalculateLaminate }),
	"leaf-yield": through(func(c *client.Client) asks[client.LeafYieldRequest, client.LeafYieldResult] {
		return c.CalculateLeafYield
	}),
	"log-plan":   through(func(c *client.Client) asks[client.LogPlanRequest, client.LogPlanResult] { return c.PlanLog }),
	"moisture":   through(func(c *client.Client) asks[client.MoistureRequest, client.MoistureResult] { return c.EstimateMoisture }),
	"movement":   through(func(c *client.Client) asks[client.MovementRequest, client.MovementResult] { return c.CalculateMovement }),
	"readiness":  through(func(c *client.Client) asks[client.ReadinessRequest, client.ReadinessResult] { return c.AssessReadiness }),
	"resaw-plan": through(func(c *client.Client) asks[client.ResawPlanRequest, client.ResawPlanResult] { return c.PlanResaw }),
	"resaw-timing": through(func(c *client.Client) asks[client.ResawTimingRequest, client.ResawTimingResult] {
		return c.CompareResawTiming
	}),
	"seasoning": through(func(c *client.Client) asks[client.SeasoningRequest, client.SeasoningResult] {
		return c.ForecastSeasoning
	}),
	"section-shape": through(func(c *client.Client) asks[client.SectionShapeRequest, client.SectionShapeResult] {
		return c.CalculateSectionShape
	}),
	"year-in-service": through(func(c *client.Client) asks[client.YearInServiceRequest, client.YearInServiceResult] {
		return c.SimulateYearInService
	}),
}

// The page of recipes prints each of them as it runs in CI.
func TestRecipesArePrintedAsTheyRun(t *testing.T) {
	page, err := os.ReadFile("../RECIPES.md")
	require.NoError(t, err)
	for _, file := range []string{"planner/main.go", "planner.ts", "sheet.sh", "rack.sh"} {
		text, err := os.ReadFile(filepath.Join("recipes", file))
		require.NoError(t, err)
		assert.Contains(t, string(page), "\n"+string(text)+"```\n", file)
	}
}

// What cannot be written is said at once, and nothing is waited for.
func TestStreamOfWhatCannotBeWritten(t *testing.T) {
	var told []error
	for _, err := range client.New("http://127.0.0.1:1").Stream(t.Context(), []client.Item{{Route: "/v1/emc", Request: math.NaN()}}) {
		told = append(told, err)
	}
	require.Len(t, told, 1)
	var value *json.UnsupportedValueError
	assert.ErrorAs(t, told[0], &value)
}
