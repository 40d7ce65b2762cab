package api

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
	Status  int             `json:"status"`
	Answer  json.RawMessage `json:"answer"`
	Problem json.RawMessage `json:"problem"`
	End     bool            `json:"end"`
}

type batchAnswers struct {
	Items    []batchAnswer `json:"items"`
	Answered int           `json:"answered"`
	Refused  int           `json:"refused"`
}

func askBatch(t testing.TB, items ...string) batchAnswers {
	t.Helper()
	return answerTo[batchAnswers](t, "/v1/batch", `{"items": [`+strings.Join(items, ", ")+`]}`).Result
}

// Every example of every other calculation, asked in one batch, gets to the byte what
// its route answers alone.
func TestBatchAnswersAsTheRoutesDo(t *testing.T) {
	var items, alone []string
	for _, r := range calculationRoutes() {
		for i, body := range exampleBodies(t)[r.path] {
			if r.id == "batch" || r.heavy && i > 0 {
				continue
			}
			items = append(items, item1(r.path, fmt.Sprint(r.id, i), string(body)))
			alone = append(alone, strings.TrimSpace(posting(r.path, string(body)).of(t, sharedService()).Body.String()))
		}
	}
	require.GreaterOrEqual(t, len(items), 8)
	r := posting("/v1/batch", `{"items": [`+strings.Join(items, ", ")+`]}`).of(t, sharedService())
	require.Equal(t, http.StatusOK, r.Code)
	a := decoded[Answer[batchAnswers]](t, r.Body.Bytes())
	require.Len(t, a.Result.Items, len(items))
	assert.Equal(t, len(items), a.Result.Answered)
	assert.Zero(t, a.Result.Refused)
	basis := map[string]bool{}
	for i, one := range a.Result.Items {
		assert.Equal(t, alone[i], string(one.Answer))
		for _, id := range decoded[Answer[any]](t, one.Answer).Basis {
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
	for i := range mostItems {
		id := fmt.Sprint("n", i)
		switch i % 4 {
		case 0, 1:
			items = append(items, item1("/v1/movement", id, fmt.Sprintf(`{"species": "maple-sugar", "dimension": "%d mm", "direction": "tangential", "from": {"mc_pct": 9}, "to": {"mc_pct": 6}}`, i+1)))
		case 2:
			items = append(items, item1("/v1/emc", id, `{"air": {"dry_bulb": "20 C"}}`))
		case 3:
			items = append(items, item1("/v1/emc", id, emcBody))
		}
	}
	a := askBatch(t, items...)
	require.Len(t, a.Items, mostItems)
	assert.Equal(t, 750, a.Answered)
	assert.Equal(t, 250, a.Refused)
	for i, one := range a.Items {
		require.Equal(t, fmt.Sprint("n", i), one.ID)
		switch i % 4 {
		case 0, 1:
			m := decoded[Answer[MovementResult]](t, one.Answer).Result
			// Wood Handbook eq. 13-1 with C_T 0.00353 of table 13-5.
			assert.InDelta(t, float64(i+1)*0.00353*-3, m.Change.Value, 1e-9)
		case 2:
			p := decoded[Problem](t, one.Problem)
			assert.Equal(t, one.Status, p.Status)
			require.Len(t, p.Errors, 1)
			assert.Equal(t, fmt.Sprintf("/items/%d/request/air", i), p.Errors[0].Pointer)
		case 3:
			assert.Equal(t, http.StatusOK, one.Status)
		}
	}
}

// One bad item never spoils the rest: each of these stands between two good ones.
func TestBadItemsStayAlone(t *testing.T) {
	good := item1("/v1/emc", "good", emcBody)
	for _, row := range []struct {
		name, item, id string
		status         int
		wants, says    string
	}{
		{"wrong request", item1("/v1/emc", "x", `{"species": "mapel", "air": {"dry_bulb": "20 C", "rh_pct": 50}}`), "x", 422, "/items/1/request/species unknown", ""},
		{"null in the request", item1("/v1/emc", "x", `{"air": null}`), "x", 422, "/items/1/request/air null", "leave the member out"},
		{"member twice in the request", item1("/v1/emc", "x", `{"air": {"dry_bulb": "20 C", "dry_bulb": "21 C", "rh_pct": 50}}`), "x", 400, "/items/1/request/air/dry_bulb duplicate_member", "given twice"},
		{"not UTF-8 in the request", item1("/v1/emc", "x", "{\"species\": \"\xff\"}"), "x", 400, "/items/1/request/species syntax", "not readable"},
		{"unknown member in the request", item1("/v1/emc", "x", `{"aire": 1}`), "x", 422, "/items/1/request/aire unknown_member", `did you mean "air"`},
		{"request that is a text", item1("/v1/emc", "x", `"x"`), "x", 422, "/items/1/request wrong_type", "must be an object"},
		{"no request", `{"id": "x", "route": "/v1/emc"}`, "x", 422, "/items/1/request missing", "request is needed"},
		{"request null", `{"id": "x", "route": "/v1/emc", "request": null}`, "x", 422, "/items/1/request null", ""},
		{"no route", `{"id": "x", "request": {}}`, "x", 422, "/items/1/route missing", "route is needed"},
		{"no such route", item1("/v1/weather", "x", "{}"), "x", 422, "/items/1/route not_offered", `not "/v1/weather"`},
		{"a batch in a batch", item1("/v1/batch", "x", `{"items": []}`), "x", 422, "/items/1/route not_offered", "other than a batch"},
		{"a look-up", item1("/v1/species", "x", "{}"), "x", 422, "/items/1/route not_offered", ""},
		{"route with a query", item1("/v1/seasoning?as=svg", "x", "{}"), "x", 422, "/items/1/route not_offered", ""},
		{"unknown member", `{"id": "x", "path": "/v1/emc", "request": {}}`, "x", 422, "/items/1/path unknown_member", `did you mean "route"`},
		{"member twice", `{"id": "x", "id": "y", "route": "/v1/emc", "request": {}}`, "y", 400, "/items/1/id duplicate_member", "given twice"},
		{"id that is a number", `{"id": 7, "route": "/v1/emc", "request": {}}`, "", 422, "/items/1/id wrong_type", "must be a text"},
		{"id empty", `{"id": "", "route": "/v1/emc", "request": ` + emcBody + `}`, "", 422, "/items/1/id empty", "leave the member out"},
		{"id too long", item1("/v1/emc", strings.Repeat("x", 101), emcBody), "", 422, "/items/1/id out_of_range", "at most 100 characters"},
		{"id not UTF-8", "{\"id\": \"\xff\", \"route\": \"/v1/emc\", \"request\": {}}", "\ufffd", 400, "/items/1/id syntax", "not readable"},
		{"null", "null", "", 422, "/items/1 null", ""},
		{"text", `"x"`, "", 422, "/items/1 wrong_type", "must be an object"},
		{"list", `[]`, "", 422, "/items/1 wrong_type", "must be an object"},
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
			p := decoded[Problem](t, one.Problem)
			assert.Equal(t, row.status, one.Status)
			assert.Equal(t, row.status, p.Status)
			assert.NotEmpty(t, p.Instance)
			require.NotEmpty(t, p.Errors)
			assert.Equal(t, row.wants, p.Errors[0].Pointer+" "+p.Errors[0].Code)
			assert.Contains(t, p.Detail, row.says)
			assert.NotRegexp(t, inside, strings.ReplaceAll(string(one.Problem), `"pointer":`, ""))

			// As a line it is told the same, but that the pointers begin at the line.
			lines := askLines(t, good, row.item, good)
			require.Len(t, lines, 3)
			q := decoded[Problem](t, lines[1].Problem)
			assert.Equal(t, strings.TrimPrefix(row.wants, "/items/1"), q.Errors[0].Pointer+" "+q.Errors[0].Code)
			assert.Equal(t, row.id, lines[1].ID)
		})
	}
}

// Names that a plain reader would trip over come back whole.
func TestIDsComeBack(t *testing.T) {
	for _, id := range []string{`"a\"b"`, `"\u00e9"`, `"é"`, `"<b>&"`, `"` + strings.Repeat("é", 100) + `"`, `"\\"`} {
		a := askBatch(t, `{"id": `+id+`, "route": "/v1/emc", "request": `+emcBody+`}`)
		var want string
		require.NoError(t, json.Unmarshal([]byte(id), &want))
		assert.Equal(t, want, a.Items[0].ID)
		assert.Equal(t, http.StatusOK, a.Items[0].Status, string(a.Items[0].Problem))
	}
}

const weekOfDrying = `{"species": "maple-sugar", "thickness": "3 mm", "stacked_on": "2024-04-05", "start_mc_pct": 20, "storage": [{"air": {"dry_bulb": "20 C", "rh_pct": 45}}], "target_pct": 9, "horizon_days": 7}`

func TestHeavyItemsOfABatchAreCounted(t *testing.T) {
	s := freshService(t, io.Discard)
	heavy := item1("/v1/seasoning", "", weekOfDrying)
	var items []string
	for range mostHeavyItems + 2 {
		items = append(items, heavy, emcItem)
	}
	r := batchOf(strings.Join(items, ",")).of(t, s)
	require.Equal(t, http.StatusOK, r.Code)
	a := decoded[Answer[batchAnswers]](t, r.Body.Bytes()).Result
	assert.Equal(t, 2, a.Refused)
	for i, one := range a.Items {
		if i == 2*mostHeavyItems || i == 2*mostHeavyItems+2 {
			p := decoded[Problem](t, one.Problem)
			assert.Equal(t, http.StatusUnprocessableEntity, one.Status)
			assert.Equal(t, "too_much_work", p.Errors[0].Code)
			assert.Equal(t, "at most 20", p.Errors[0].Limit)
			continue
		}
		assert.Equal(t, http.StatusOK, one.Status, string(one.Problem))
	}
}

// A heavy item that finds all turns taken is told to come back, and the light ones
// beside it are answered. The clock is that of the test.
func TestBusyItemsOfABatch(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s, err := New(Config{Heavy: 1})
		require.NoError(t, err)
		giveBack, err := s.turns.take(t.Context())
		require.NoError(t, err)
		r := batchOf(item1("/v1/seasoning", "", weekOfDrying)+","+emcItem).of(t, s)
		giveBack()
		require.Equal(t, http.StatusOK, r.Code)
		a := decoded[Answer[batchAnswers]](t, r.Body.Bytes()).Result
		assert.Equal(t, http.StatusServiceUnavailable, a.Items[0].Status)
		assert.Equal(t, http.StatusOK, a.Items[1].Status)
	})
}

// What is not begun when the time of a batch is over is told so.
func TestTimeOfABatch(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s, err := New(Config{})
		require.NoError(t, err)
		s.works["/v1/slow"] = calculate(func(context.Context, *tables, *EMCRequest) (EMCResult, method.Notes, error) {
			time.Sleep(batchTime / 4)
			return EMCResult{}, method.Notes{}, nil
		})
		var items []string
		for range 10 * pieceItems {
			items = append(items, item1("/v1/slow", "", emcBody))
		}
		start := time.Now()
		r := batchOf(strings.Join(items, ",")).of(t, s)
		assert.LessOrEqual(t, time.Since(start), batchTime+batchTime/4)
		a := decoded[Answer[batchAnswers]](t, r.Body.Bytes()).Result
		require.Len(t, a.Items, len(items))
		assert.Equal(t, http.StatusOK, a.Items[0].Status)
		last := a.Items[len(items)-1]
		assert.Equal(t, http.StatusServiceUnavailable, last.Status)
		assert.Contains(t, decoded[Problem](t, last.Problem).Detail, "time of this batch is over")
	})
}

// A fault below an item is a problem of that item, with the stack in the log.
func TestPanicOfAnItem(t *testing.T) {
	var log bytes.Buffer
	s := freshService(t, &log)
	s.works["/v1/fault"] = calculate(func(context.Context, *tables, *EMCRequest) (EMCResult, method.Notes, error) {
		panic("a fault for the test")
	})
	r := batchOf(emcItem+","+item1("/v1/fault", "x", emcBody)+","+emcItem).of(t, s)
	require.Equal(t, http.StatusOK, r.Code)
	a := decoded[Answer[batchAnswers]](t, r.Body.Bytes()).Result
	assert.Equal(t, []int{200, 500, 200}, []int{a.Items[0].Status, a.Items[1].Status, a.Items[2].Status})
	assert.NotContains(t, r.Body.String(), "a fault for the test")
	assert.Contains(t, log.String(), "a fault for the test")
	assert.Contains(t, log.String(), "batch_test.go", "the stack is in the log")
}

// An answer that cannot be encoded is a problem of its item, not half an answer.
func TestItemThatCannotBeEncoded(t *testing.T) {
	s := freshService(t, io.Discard)
	s.works["/v1/nan"] = calculate(func(context.Context, *tables, *EMCRequest) (Quantity, method.Notes, error) {
		zero := 0.0
		return Quantity{Value: zero / zero}, method.Notes{}, nil
	})
	r := batchOf(emcItem+","+item1("/v1/nan", "x", emcBody)+","+emcItem).of(t, s)
	a := decoded[Answer[batchAnswers]](t, r.Body.Bytes()).Result
	assert.Equal(t, []int{200, 500, 200}, []int{a.Items[0].Status, a.Items[1].Status, a.Items[2].Status})
}

// A batch can be answered line by line too.
func TestBatchAsLines(t *testing.T) {
	items := strings.TrimSuffix(strings.Repeat(emcItem+",", 100), ",")
	for _, a := range []asked{
		posting("/v1/batch", `{"items": [`+items+`]}`, "Accept", "application/x-ndjson"),
		posting("/v1/batch?as=ndjson", `{"items": [`+items+`]}`),
	} {
		r := a.of(t, sharedService())
		require.Equal(t, http.StatusOK, r.Code)
		assert.Equal(t, "application/x-ndjson", r.Header().Get("Content-Type"))
		lines := linesOf(t, r.Body.Bytes())
		require.Len(t, lines, 100)
		for _, one := range lines {
			assert.Equal(t, http.StatusOK, one.Status)
		}
	}
}
