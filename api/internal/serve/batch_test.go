package serve_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/moist"
	"latewood/api/internal/refuse"
	"latewood/api/internal/serve"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
	"latewood/woodphys/method"
)

func item1(route, id, request string) string {
	if id == "" {
		return fmt.Sprintf(`{"route": %q, "request": %s}`, route, request)
	}
	return fmt.Sprintf(`{"id": %q, "route": %q, "request": %s}`, id, route, request)
}

// batchAnswer is a BatchAnswer whose parts are still text.
type batchAnswer struct {
	Line    int             `json:"line"`
	ID      string          `json:"id"`
	Route   string          `json:"route"`
	Status  int             `json:"status"`
	Answer  json.RawMessage `json:"answer"`
	Problem json.RawMessage `json:"problem"`
	End     bool            `json:"ended"`
}

type batchAnswers struct {
	Items    []batchAnswer `json:"items"`
	Answered int           `json:"answered"`
	Refused  int           `json:"refused"`
}

func askBatch(t testing.TB, items ...string) batchAnswers {
	t.Helper()
	return asking.AnswerTo[batchAnswers](t, "/v1/batch", `{"items": [`+strings.Join(items, ", ")+`]}`).Result
}

// Every example of every other calculation, asked in one batch, gets to the byte what
// its route answers alone.
func TestBatchAnswersAsTheRoutesDo(t *testing.T) {
	asking.OneByOne(t)
	var items, alone []string
	for _, r := range asking.Calculations() {
		for i, body := range asking.ExampleBodies(t)[r.Path] {
			if r.ID == "runBatch" || r.Heavy && i > 0 {
				continue
			}
			items = append(items, item1(r.Path, fmt.Sprint(r.ID, i), string(body)))
			alone = append(alone, strings.TrimSpace(asking.Posting(r.Path, string(body)).Of(t, asking.SharedService()).Body.String()))
		}
	}
	require.GreaterOrEqual(t, len(items), 8)
	r := asking.Posting("/v1/batch", `{"items": [`+strings.Join(items, ", ")+`]}`).Of(t, asking.SharedService())
	require.Equal(t, http.StatusOK, r.Code)
	a := asking.Decoded[serve.Answer[batchAnswers]](t, r.Body.Bytes())
	require.Len(t, a.Result.Items, len(items))
	assert.Equal(t, len(items), a.Result.Answered)
	assert.Zero(t, a.Result.Refused)
	basis := map[string]bool{}
	for i, one := range a.Result.Items {
		assert.Equal(t, alone[i], string(one.Answer))
		for _, id := range asking.Decoded[serve.Answer[any]](t, one.Answer).Basis {
			basis[id] = true
		}
	}
	assert.Len(t, a.Basis, len(basis), "the basis of the batch is that of its items, each once")
	for _, id := range a.Basis {
		assert.True(t, basis[id], id)
	}
}

// A thousand items of several kinds, right and wrong, come back in their order,
// each with its own answer.
func TestBatchKeepsTheOrder(t *testing.T) {
	var items []string
	for i := range serve.MostItems {
		id := fmt.Sprint("n", i)
		switch i % 4 {
		case 0, 1:
			items = append(items, item1("/v1/movement", id, fmt.Sprintf(`{"wood": "maple-sugar", "size": "%d mm", "direction": "tangential", "from_condition": {"mc_pct": 9}, "to_condition": {"mc_pct": 6}}`, i+1)))
		case 2:
			items = append(items, item1("/v1/emc", id, `{"air": {"temperature": "20 C"}}`))
		case 3:
			items = append(items, item1("/v1/emc", id, asking.EMCBody))
		}
	}
	a := askBatch(t, items...)
	require.Len(t, a.Items, serve.MostItems)
	assert.Equal(t, 750, a.Answered)
	assert.Equal(t, 250, a.Refused)
	for i, one := range a.Items {
		require.Equal(t, fmt.Sprint("n", i), one.ID)
		switch i % 4 {
		case 0, 1:
			m := asking.Decoded[serve.Answer[moist.MovementResult]](t, one.Answer).Result
			// Wood Handbook eq. 13-1 with C_T 0.00353 of table 13-5.
			change := asking.FormOf(t, m.Forms, "coefficient").Change
			assert.InDelta(t, float64(i+1)*0.00353*-3, change.Value, halfStep(change))
		case 2:
			p := asking.Decoded[refuse.Problem](t, one.Problem)
			assert.Equal(t, one.Status, p.Status)
			require.Len(t, p.Errors, 1)
			assert.Equal(t, "/air", p.Errors[0].Pointer)
		case 3:
			assert.Equal(t, http.StatusOK, one.Status)
		}
	}
}

// One bad item never spoils the rest: each of these stands between two good ones.
func TestBadItemsStayAlone(t *testing.T) {
	good := item1("/v1/emc", "good", asking.EMCBody)
	for _, row := range []struct {
		name, item, id string
		status         int
		wants, says    string
	}{
		{"wrong request", item1("/v1/emc", "x", `{"wood": "mapel", "air": {"temperature": "20 C", "rh_pct": 50}}`), "x", 422, "/wood not_found", ""},
		{"null in the request", item1("/v1/emc", "x", `{"air": null}`), "x", 422, "/air null_value", "leave the member out"},
		{"member twice in the request", item1("/v1/emc", "x", `{"air": {"temperature": "20 C", "temperature": "21 C", "rh_pct": 50}}`), "x", 400, "/air/temperature duplicate_member", "given twice"},
		{"not UTF-8 in the request", item1("/v1/emc", "x", "{\"wood\": \"\xff\"}"), "x", 400, "/wood invalid_json", "not readable"},
		{"unknown member in the request", item1("/v1/emc", "x", `{"aire": 1}`), "x", 422, "/aire unknown_member", `did you mean "air"`},
		{"request that is a text", item1("/v1/emc", "x", `"x"`), "x", 422, " wrong_type", "must be an object"},
		{"no request", `{"id": "x", "route": "/v1/emc"}`, "x", 422, "/request missing", "request is needed"},
		{"request null", `{"id": "x", "route": "/v1/emc", "request": null}`, "x", 422, "/request null_value", ""},
		{"no route", `{"id": "x", "request": {}}`, "x", 422, "/route missing", "route is needed"},
		{"no such route", item1("/v1/weather", "x", "{}"), "x", 422, "/route not_a_choice", `not "/v1/weather"`},
		{"a batch in a batch", item1("/v1/batch", "x", `{"items": []}`), "x", 422, "/route not_a_choice", "other than a batch"},
		{"a look-up", item1("/v1/species", "x", "{}"), "x", 422, "/route not_a_choice", ""},
		{"route with a query", item1("/v1/seasoning?as=svg", "x", "{}"), "x", 422, "/route not_a_choice", ""},
		{"unknown member", `{"id": "x", "path": "/v1/emc", "request": {}}`, "x", 422, "/path unknown_member", `did you mean "route"`},
		{"member twice", `{"id": "x", "id": "y", "route": "/v1/emc", "request": {}}`, "y", 400, "/id duplicate_member", "given twice"},
		{"id that is a number", `{"id": 7, "route": "/v1/emc", "request": {}}`, "", 422, "/id wrong_type", "must be a text"},
		{"id empty", `{"id": "", "route": "/v1/emc", "request": ` + asking.EMCBody + `}`, "", 422, "/id empty_text", "leave the member out"},
		{"id too long", item1("/v1/emc", strings.Repeat("x", 101), asking.EMCBody), "", 422, "/id too_long", "at most 100 characters"},
		{"id not UTF-8", "{\"id\": \"\xff\", \"route\": \"/v1/emc\", \"request\": {}}", "\ufffd", 400, "/id invalid_json", "not readable"},
		{"null", "null", "", 422, " null_value", ""},
		{"text", `"x"`, "", 422, " wrong_type", "must be an object"},
		{"list", `[]`, "", 422, " wrong_type", "must be an object"},
	} {
		t.Run(row.name, func(t *testing.T) {
			a := askBatch(t, good, row.item, strings.Replace(good, "good", "good too", 1))
			require.Len(t, a.Items, 3)
			for _, i := range []int{0, 2} {
				assert.Equal(t, []string{"good", "", "good too"}[i], a.Items[i].ID)
				assert.Equal(t, http.StatusOK, a.Items[i].Status)
			}
			one := a.Items[1]
			assert.Equal(t, row.id, one.ID)
			p := asking.Decoded[refuse.Problem](t, one.Problem)
			assert.Equal(t, row.status, one.Status)
			assert.Equal(t, row.status, p.Status)
			assert.NotEmpty(t, p.Instance)
			require.NotEmpty(t, p.Errors)
			assert.Equal(t, row.wants, p.Errors[0].Pointer+" "+p.Errors[0].Code)
			assert.Contains(t, p.Detail, row.says)
			assert.NotRegexp(t, asking.Inside, strings.ReplaceAll(string(one.Problem), `"pointer":`, ""))

			// Pointers lead from the request, as of the route alone, or from an item that is no question.
			alone := asking.Posting("/v1/emc", requestIn(row.item)).Of(t, asking.SharedService())
			if one.Route == serve.NoRoute {
				assert.NotContains(t, row.name, " in the request")
			} else {
				assert.Equal(t, asking.Decoded[refuse.Problem](t, alone.Body.Bytes()).Errors, p.Errors)
			}

			// As a line it is told the same.
			lines := askLines(t, good, row.item, good)
			require.Len(t, lines, 3)
			q := asking.Decoded[refuse.Problem](t, lines[1].Problem)
			assert.Equal(t, row.wants, q.Errors[0].Pointer+" "+q.Errors[0].Code)
			assert.Equal(t, row.id, lines[1].ID)
		})
	}
}

// requestIn is the request of an item, as it stands.
func requestIn(item string) string {
	_, rest, _ := strings.Cut(item, `"request": `)
	return strings.TrimSuffix(rest, "}")
}

// Names that a plain reader would trip over come back whole.
func TestIDsComeBack(t *testing.T) {
	for _, id := range []string{`"a\"b"`, `"\u00e9"`, `"é"`, `"<b>&"`, `"` + strings.Repeat("é", 100) + `"`, `"\\"`} {
		a := askBatch(t, `{"id": `+id+`, "route": "/v1/emc", "request": `+asking.EMCBody+`}`)
		var want string
		require.NoError(t, json.Unmarshal([]byte(id), &want))
		assert.Equal(t, want, a.Items[0].ID)
		assert.Equal(t, http.StatusOK, a.Items[0].Status, string(a.Items[0].Problem))
	}
}

const weekOfDrying = `{"billet": {"wood": "maple-sugar", "thickness": "3 mm", "stacked_on": "2024-04-05", "start_condition": {"mc_pct": 20}}, "stays": [{"air": {"temperature": "20 C", "rh_pct": 45}}], "target_condition": {"mc_pct": 9}, "horizon_days": 7}`

func TestHeavyItemsOfABatchAreCounted(t *testing.T) {
	s := asking.FreshService(t, io.Discard)
	heavy := item1("/v1/seasoning", "", weekOfDrying)
	var items []string
	for range serve.MostHeavyItems + 2 {
		items = append(items, heavy, asking.EMCItem)
	}
	r := asking.BatchOf(strings.Join(items, ",")).Of(t, s)
	require.Equal(t, http.StatusOK, r.Code)
	a := asking.Decoded[serve.Answer[batchAnswers]](t, r.Body.Bytes()).Result
	assert.Equal(t, 2, a.Refused)
	for i, one := range a.Items {
		if i == 2*serve.MostHeavyItems || i == 2*serve.MostHeavyItems+2 {
			p := asking.Decoded[refuse.Problem](t, one.Problem)
			assert.Equal(t, http.StatusUnprocessableEntity, one.Status)
			assert.Equal(t, "too_much_work", p.Errors[0].Code)
			assert.Equal(t, "at most 20", p.Errors[0].Limit.String())
			continue
		}
		assert.Equal(t, http.StatusOK, one.Status, string(one.Problem))
	}
}

// A heavy item that finds all turns taken waits as long as the batch may take, and the
// light ones beside it are answered. The clock is that of the test.
func TestBusyItemsOfABatch(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s, err := api.New(serve.Config{Heavy: 1})
		require.NoError(t, err)
		began := time.Now()
		for _, row := range []struct {
			taken  time.Duration
			status int
		}{{serve.BatchTime / 2, 200}, {2 * serve.BatchTime, 503}} {
			giveBack := s.TakeTurns(row.taken)
			timer := time.AfterFunc(row.taken, giveBack)
			r := asking.BatchOf(item1("/v1/seasoning", "", weekOfDrying)).Of(t, s)
			require.Equal(t, http.StatusOK, r.Code)
			a := asking.Decoded[serve.Answer[batchAnswers]](t, r.Body.Bytes()).Result
			assert.Equal(t, row.status, a.Items[0].Status)
			if timer.Stop() {
				giveBack()
			}
		}
		assert.Equal(t, serve.BatchTime/2+serve.BatchTime, time.Since(began))
	})
}

// What is not begun when the time of a batch is over is told so.
func TestTimeOfABatch(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s, err := api.New(serve.Config{})
		require.NoError(t, err)
		s.Answers("/v1/slow", serve.Calculate(func(context.Context, *shelf.Tables, *moist.EMCRequest) (moist.EMCResult, method.Notes, error) {
			time.Sleep(serve.BatchTime / 4)
			return moist.EMCResult{}, method.Notes{}, nil
		}))
		var items []string
		for range 10 * serve.PieceItems {
			items = append(items, item1("/v1/slow", "", asking.EMCBody))
		}
		start := time.Now()
		r := asking.BatchOf(strings.Join(items, ",")).Of(t, s)
		assert.LessOrEqual(t, time.Since(start), serve.BatchTime+serve.BatchTime/4)
		a := asking.Decoded[serve.Answer[batchAnswers]](t, r.Body.Bytes()).Result
		require.Len(t, a.Items, len(items))
		assert.Equal(t, http.StatusOK, a.Items[0].Status)
		last := a.Items[len(items)-1]
		assert.Equal(t, http.StatusServiceUnavailable, last.Status)
		assert.Contains(t, asking.Decoded[refuse.Problem](t, last.Problem).Detail, "time of this batch is over")
	})
}

// A fault below an item is a problem of that item, with the stack in the log.
func TestPanicOfAnItem(t *testing.T) {
	var log bytes.Buffer
	s := asking.FreshService(t, &log)
	s.Answers("/v1/fault", serve.Calculate(func(context.Context, *shelf.Tables, *moist.EMCRequest) (moist.EMCResult, method.Notes, error) {
		panic("a fault for the test")
	}))
	r := asking.BatchOf(asking.EMCItem+","+item1("/v1/fault", "x", asking.EMCBody)+","+asking.EMCItem).Of(t, s)
	require.Equal(t, http.StatusOK, r.Code)
	a := asking.Decoded[serve.Answer[batchAnswers]](t, r.Body.Bytes()).Result
	assert.Equal(t, []int{200, 500, 200}, []int{a.Items[0].Status, a.Items[1].Status, a.Items[2].Status})
	assert.NotContains(t, r.Body.String(), "a fault for the test")
	assert.Contains(t, log.String(), "a fault for the test")
	assert.Contains(t, log.String(), "batch_test.go", "the stack is in the log")
}

// An answer that cannot be encoded is a problem of its item, not half an answer.
func TestItemThatCannotBeEncoded(t *testing.T) {
	s := asking.FreshService(t, io.Discard)
	s.Answers("/v1/nan", serve.Calculate(func(context.Context, *shelf.Tables, *moist.EMCRequest) (wire.Quantity, method.Notes, error) {
		zero := 0.0
		return wire.Quantity{Value: zero / zero}, method.Notes{}, nil
	}))
	r := asking.BatchOf(asking.EMCItem+","+item1("/v1/nan", "x", asking.EMCBody)+","+asking.EMCItem).Of(t, s)
	a := asking.Decoded[serve.Answer[batchAnswers]](t, r.Body.Bytes()).Result
	assert.Equal(t, []int{200, 500, 200}, []int{a.Items[0].Status, a.Items[1].Status, a.Items[2].Status})
}

// A batch can be answered line by line too.
func TestBatchAsLines(t *testing.T) {
	items := strings.TrimSuffix(strings.Repeat(asking.EMCItem+",", 100), ",")
	for _, a := range []asking.Asked{
		asking.Posting("/v1/batch", `{"items": [`+items+`]}`, "Accept", "application/x-ndjson"),
		asking.Posting("/v1/batch?as=ndjson", `{"items": [`+items+`]}`),
	} {
		r := a.Of(t, asking.SharedService())
		require.Equal(t, http.StatusOK, r.Code)
		assert.Equal(t, "application/x-ndjson", r.Header().Get("Content-Type"))
		lines := linesOf(t, r.Body.Bytes())
		require.Len(t, lines, 100)
		for _, one := range lines {
			assert.Equal(t, http.StatusOK, one.Status)
		}
	}
}

// halfStep is as much as a band of lengths is rounded by at most.
func halfStep(b wire.Band) float64 { return max((b.High-b.Low)/200, 0.0005) + 1e-9 }
