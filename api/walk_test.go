package api_test

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"hash/fnv"
	"io"
	"maps"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/contract"
	"latewood/api/internal/refuse"
	"latewood/api/internal/serve"
)

// mostUnsaid is the share of requests that meet the schema and may be refused for what it
// could have said.
const mostUnsaid = 0.05

// Requests of the walk in all; LATEWOOD_SWEEP=1 walks the long way (make walk).
const (
	shortWalk = 1600
	patience  = 400 // requests at most until one reaches a calculation that is hard to reach by chance
	longWalk  = 50_000
)

// walker asks the service what the contract says may be asked, and some of what it
// says may not, and holds every reply against the contract.
type walker struct {
	*held
	*maker
	service *serve.Service
	schemas map[string]*jsonschema.Schema
	counts  map[string]int
}

// operation is one entry of the contract, as a stranger reads it.
type operation struct {
	verb, path string
	spec       map[string]any
}

func (o operation) at(more ...string) []string {
	key := strings.ToLower(o.verb)
	switch {
	case o.verb == serve.MethodQuery && more[0] == "requestBody":
		key = "post"
	case o.verb == serve.MethodQuery:
		key = contract.QueryKey
	}
	return append([]string{"paths", o.path, key}, more...)
}

// trip is one request with what the contract says of it.
type trip struct {
	operation
	target, body string
	entry        string // in the path
	headers      []string
	mayRefuse    bool // the contract cannot say all: also a right request may be refused
	mustRefuse   bool
}

// seedOf is a seed of an operation of its own, which no other one moves.
func seedOf(name string) uint64 {
	sum := fnv.New64a()
	_, _ = sum.Write([]byte(name)) // never fails
	return sum.Sum64()
}

// The contract holds from outside: whatever it allows is answered with a result
// or a problem in the form it promises, whatever it forbids is refused, and
// nothing is a failure of the service. The requests are drawn from the schemas
// with a fixed seed.
func TestWalk(t *testing.T) {
	total := shortWalk
	if asking.UnderRace {
		total /= 4 // it is one caller, who was heard without the detector
	}
	if os.Getenv("LATEWOOD_SWEEP") != "" {
		total = longWalk
	}
	if asked := os.Getenv("LATEWOOD_WALK"); asked != "" {
		var err error
		total, err = strconv.Atoi(asked)
		require.NoError(t, err)
	}
	service, err := api.New(serve.Config{Version: "test", Rate: serve.Rate{PerSecond: 1e9, Burst: 1e9}, Rack: asking.Rack()})
	require.NoError(t, err)
	c := loadContract(t)
	all := operationsOf(c)
	require.Greater(t, len(all), 20)
	names := knownNames(t)
	sum := map[string]int{}
	for _, o := range all {
		t.Run(o.verb+" "+o.path, func(t *testing.T) {
			w := &walker{
				held: c, service: walked(t, o, service), schemas: map[string]*jsonschema.Schema{}, counts: map[string]int{},
				maker: &maker{rand.New(rand.NewPCG(20260314, seedOf(o.verb+o.path))), c.document, names},
			}
			start := time.Now()
			overviewOf(t, w.service)
			// A calculation has more to walk than a look-up.
			share := total / len(all) / 2
			if o.spec["requestBody"] != nil {
				share *= 3
			}
			asks := o.spec["requestBody"] != nil
			for n := 0; n < share || asks && n < patience && (w.counts["allowed 200"] == 0 || w.counts["forbidden 422"] == 0); n++ {
				w.once(t, o)
				if t.Failed() {
					break // the first failure tells enough
				}
			}
			t.Logf("%v in %v", w.counts, time.Since(start).Round(time.Millisecond))
			if asks {
				assert.NotZero(t, w.counts["allowed 200"], "no request reached the calculation")
				// A picture has no members, and what changes some of them is told of none.
				if contract.Dig(o.spec, "requestBody", "content")["application/json"] != nil {
					assert.NotZero(t, w.counts["forbidden 422"], "no request was refused for its members")
				}
			}
			for outcome, n := range w.counts {
				sum[outcome] += n
			}
		})
	}
	t.Logf("in all: %v", sum)
	met := sum["allowed 200"] + sum["allowed 422"]
	assert.LessOrEqual(t, float64(sum["unsaid"]), mostUnsaid*float64(met), "of %d requests that meet the schema", met)
}

func operationsOf(c *held) []operation {
	var all []operation
	paths := contract.Dig(c.document, "paths")
	for _, path := range slices.Sorted(maps.Keys(paths)) {
		item := contract.Dig(paths, path)
		for _, verb := range slices.Sorted(maps.Keys(item)) {
			spec := contract.Dig(item, verb)
			if verb == contract.QueryKey { // what it refers to stands with POST
				verb, spec = serve.MethodQuery, maps.Clone(spec)
				spec["requestBody"], spec["x-limits"] = contract.Dig(item, "post")["requestBody"], contract.Dig(item, "post")["x-limits"]
			}
			all = append(all, operation{strings.ToUpper(verb), path, spec})
		}
	}
	return all
}

// knownNames asks the tables for their entries, as a shop tool would.
func knownNames(t *testing.T) map[string][]string {
	t.Helper()
	ids := func(path string) (all []string) {
		var page struct {
			Items []struct {
				ID string `json:"id"`
			} `json:"items"`
		}
		reply := asking.Getting(path).Of(t, asking.SharedService())
		require.NoError(t, json.Unmarshal(reply.Body.Bytes(), &page))
		for _, item := range page.Items {
			all = append(all, item.ID)
		}
		require.NotEmpty(t, all)
		return all
	}
	return map[string][]string{
		"species":   ids("/v1/species?limit=500"),
		"station":   ids("/v1/stations?limit=500"),
		"part_size": ids("/v1/part-sizes?limit=500"),
		"route":     {"/v1/movement", "/v1/emc", "/v1/air", "/v1/leaf-yield", "/v1/readiness", "/v1/batch", "/v1/nothing"},
	}
}

// once makes one request and follows it.
func (w *walker) once(t *testing.T, o operation) {
	p := trip{operation: o, target: o.path}
	w.fillPath(&p)
	w.fillQuery(&p)
	w.fillHeaders(&p)
	if o.spec["requestBody"] != nil {
		w.fillBody(t, &p)
	}
	switch {
	case w.chance(0.03) && !strings.Contains(p.target, "as="): // as= stands in place of the header
		p.headers = append(p.headers, "Accept", one(w.maker, []string{"video/mp4", "text/x-nothing;q=0.5", "*/*;q=0"}))
		p.mustRefuse = true
	case w.chance(0.02):
		p.verb, p.mustRefuse = one(w.maker, w.otherVerbs(o)), true
	case w.chance(0.3):
		offers := slices.Sorted(maps.Keys(contract.Dig(o.spec, "responses", "200", "content")))
		p.headers = append(p.headers, "Accept", one(w.maker, append(offers, "*/*", "")))
	}
	reply := w.send(t, p)
	kind := "allowed "
	if p.mustRefuse {
		kind = "forbidden "
		assert.True(t, reply.Code >= 400 && reply.Code < 500 || refusedWithin(p, reply), "the contract forbids it, the service answers %d\n%s %s\n%s\n%s", reply.Code, p.verb, p.target, p.headers, p.body)
	} else if !p.mayRefuse {
		assert.Equal(t, http.StatusOK, reply.Code, "%s %s\n%s\n%s", p.verb, p.target, p.body, reply.Body)
	}
	w.counts[kind+strconv.Itoa(reply.Code)]++
	// A merge patch is any object: what it makes of the whole is checked, not said.
	if !p.mustRefuse && p.body != "" && o.verb != http.MethodPatch && reply.Code == http.StatusUnprocessableEntity && sayable(reply.Body.String()) {
		w.counts["unsaid"]++
		if os.Getenv("LATEWOOD_UNSAID") != "" {
			t.Logf("unsaid: %s\n%s", p.body, reply.Body)
		}
	}
	w.hold(t, p, reply)
	if o.spec["requestBody"] != nil && reply.Code == http.StatusOK && reply.Header().Get("Content-Type") == "application/json" {
		asking.Fine(t, reply.Body.Bytes())
	}
	if tag := reply.Header().Get("ETag"); tag != "" && (o.verb == http.MethodGet || o.verb == serve.MethodQuery) && p.verb == o.verb && reply.Code == http.StatusOK {
		p.headers = append(p.headers, "If-None-Match", tag)
		again := w.send(t, p)
		assert.Equal(t, http.StatusNotModified, again.Code)
		w.hold(t, p, again)
	}
}

// sayable reports that a request was refused for something a schema can say: a member
// that is missing or unknown, of the wrong type or form. Limits of quantities in any unit,
// names of the tables and what lies between two values are beyond it.
func sayable(problem string) bool {
	for _, code := range []string{"missing", "unknown_member", "wrong_type", "invalid_format", "not_a_choice", "too_few_items",
		"too_many_items", "too_short", "too_long", "empty_text", "null_value"} {
		if strings.Contains(problem, `"code":"`+code+`"`) {
			return true
		}
	}
	return strings.Contains(problem, " goes with ") || strings.Contains(problem, "only one of ") || strings.Contains(problem, ", not both")
}

// refusedWithin reports that some items of a batch were refused, each on its own;
// the batch is then answered all the same.
func refusedWithin(p trip, reply *httptest.ResponseRecorder) bool {
	return p.path == "/v1/batch" && strings.Contains(reply.Body.String(), `"/problems/`)
}

// send asks, and asks again while the service is busy.
func (w *walker) send(t *testing.T, p trip) *httptest.ResponseRecorder {
	t.Helper()
	for range 5 {
		request, err := http.NewRequest(p.verb, p.target, strings.NewReader(p.body))
		require.NoError(t, err)
		if p.body != "" {
			request.Header.Set("Content-Type", "application/json")
		}
		for i := 0; i < len(p.headers); i += 2 {
			request.Header.Set(p.headers[i], p.headers[i+1])
		}
		asking.WriteDown(t, p.verb, p.target, p.headers, p.body)
		recorder := httptest.NewRecorder()
		w.service.ServeHTTP(recorder, request)
		if recorder.Code != http.StatusServiceUnavailable {
			return recorder
		}
		w.counts["busy"]++
	}
	require.Fail(t, "busy five times", "%s %s\n%s", p.verb, p.target, p.body)
	return nil
}

func (w *walker) fillPath(p *trip) {
	known := map[string][]string{"/v1/species/{id}": w.names["species"], "/v1/stations/{id}": w.names["station"], "/v1/part-sizes/{id}": w.names["part_size"], "/problems/{kind}": {"invalid", "busy"}}
	before, after, has := strings.Cut(p.path, "{")
	if !has {
		return
	}
	if kept, is := strings.CutPrefix(before, "/v1/rack/"); is {
		kind := strings.TrimSuffix(kept, "s/")
		known[p.path] = []string{kind + "-1", kind + "-2", kind + "-3", kind + "-4", kind + "-5"}
		// It was removed or changed before, or has no photo.
		p.mayRefuse = p.mayRefuse || p.verb != http.MethodGet || strings.HasSuffix(p.path, "/photo")
	}
	_, after, _ = strings.Cut(after, "}")
	name := one(w.maker, known[p.path])
	if w.chance(0.3) {
		name, p.mayRefuse = w.text(map[string]any{"minLength": 1.0, "maxLength": 100.0}, ""), true
	}
	p.entry, p.target = name, before+url.PathEscape(name)+after
}

// walked is the service that an operation is asked of: one with a whole rack, where the
// others have changed it.
func walked(t *testing.T, o operation, shared *serve.Service) *serve.Service {
	if !strings.HasPrefix(o.path, "/v1/rack/") {
		return shared
	}
	own, err := api.New(serve.Config{Version: "test", Rate: serve.Rate{PerSecond: 1e9, Burst: 1e9}, Rack: asking.Rack()})
	require.NoError(t, err)
	return own
}

// otherVerbs are methods that the path does not answer.
func (w *walker) otherVerbs(o operation) (all []string) {
	for _, verb := range []string{"PUT", "DELETE", "PATCH", "TRACE"} {
		if contract.Dig(w.held.document, "paths", o.path)[strings.ToLower(verb)] == nil {
			all = append(all, verb)
		}
	}
	return all
}

// fillHeaders draws the headers of a request about what is kept: mostly the version that
// is there, now and then one that is not, none, or a key that was used before.
func (w *walker) fillHeaders(p *trip) {
	parameters, _ := p.spec["parameters"].([]any)
	for _, entry := range parameters {
		parameter := w.open(entry)
		switch {
		case parameter["in"] != "header":
		case parameter["name"] == "If-Match" && w.chance(0.1):
			p.mustRefuse = true
		case parameter["name"] == "If-Match":
			p.headers, p.mayRefuse = append(p.headers, "If-Match", one(w.maker, []string{"*", "*", "*", `"0123456789abcdef01234567"`})), true
		case parameter["name"] == "Idempotency-Key" && w.chance(0.3):
			p.headers, p.mayRefuse = append(p.headers, "Idempotency-Key", one(w.maker, []string{"k1", "k2", "k3", "no key"})), true
		}
	}
}

// fillQuery draws some of the query parameters, now and then a wrong one.
func (w *walker) fillQuery(p *trip) {
	query := url.Values{}
	parameters, _ := p.spec["parameters"].([]any)
	for _, entry := range parameters {
		parameter := w.open(entry)
		name, _ := parameter["name"].(string)
		if parameter["in"] != "query" || w.chance(0.7) {
			continue
		}
		schema := w.open(parameter["schema"])
		switch {
		case schema["type"] == "integer" && w.chance(0.3):
			query.Set(name, one(w.maker, []string{"-1", "1.5", "x", "1e3", "99999999999", "null"}))
			p.mustRefuse = true
		case schema["enum"] != nil && w.chance(0.2):
			query.Set(name, "no such choice")
			p.mustRefuse = true
		default:
			query.Set(name, fmt.Sprint(w.value(schema, name, 0)))
			p.mayRefuse = p.mayRefuse || schema["enum"] == nil && schema["type"] == "string"
		}
	}
	if w.chance(0.05) {
		query.Set(one(w.maker, []string{"no_such", "Limit", "q[]"}), "1")
		p.mustRefuse = true
	}
	if len(query) > 0 {
		p.target += "?" + query.Encode()
	}
}

// fillBody draws a request: an example varied, or one made from the schema alone;
// some of them spoilt.
func (w *walker) fillBody(t *testing.T, p *trip) {
	media := slices.Sorted(maps.Keys(contract.Dig(p.spec, "requestBody", "content")))[0]
	if media != "application/json" {
		p.headers = append(p.headers, "Content-Type", media)
	}
	if strings.HasPrefix(media, "image/") {
		w.fillPicture(p)
		return
	}
	content := contract.Dig(p.spec, "requestBody", "content", media)
	schema := content["schema"]
	examples := contract.Dig(content, "examples")
	value := contract.Dig(examples, one(w.maker, slices.Sorted(maps.Keys(examples))))["value"]
	switch {
	case w.chance(0.25):
		value = w.value(schema, "", 3)
	case w.chance(0.8):
		value = w.vary(schema, value, "")
	}
	if entry, is := value.(map[string]any); is && p.verb == http.MethodPut {
		entry["id"] = p.entry
	}
	if w.chance(0.35) {
		value = w.spoil(schema, value)
	}
	text, err := json.Marshal(value)
	require.NoError(t, err)
	p.body, p.mayRefuse = string(text), true
	instance, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	require.NoError(t, err)
	if w.compiled(t, p.at("requestBody", "content", media, "schema")...).Validate(instance) != nil {
		p.mustRefuse = true
	}
	switch w.IntN(100) {
	case 0:
		p.body, p.mustRefuse = one(w.maker, []string{p.body + "x", "{" + p.body, `"\ud800"`, "[", "null", `{"a": 1, "a": 2}`, p.body + p.body, "\xff\xfe"}), true
	case 1:
		p.headers, p.mustRefuse = append(p.headers, "Content-Type", "text/plain"), true
	case 2:
		limit := int(numberAt(contract.Dig(p.spec, "x-limits"), "body_bytes", 0))
		require.NotZero(t, limit)
		p.body, p.mustRefuse = p.body+strings.Repeat(" ", limit), true
	}
}

// fillPicture sends a picture, or something that is none.
func (w *walker) fillPicture(p *trip) {
	p.body, p.mayRefuse = asking.Pixel, true
	p.headers = append(p.headers, "Content-Type", "image/png")
	if w.chance(0.3) {
		p.body, p.mustRefuse = one(w.maker, []string{"{}", "<svg/>", asking.Pixel[:40], "GIF89a"}), true
	}
}

// compiled is the schema at a place of the contract.
func (w *walker) compiled(t *testing.T, parts ...string) *jsonschema.Schema {
	t.Helper()
	for i, part := range parts {
		parts[i] = strings.NewReplacer("~", "~0", "/", "~1", "{", "%7B", "}", "%7D").Replace(part)
	}
	place := "openapi.json#/" + strings.Join(parts, "/")
	if schema := w.schemas[place]; schema != nil {
		return schema
	}
	schema, err := w.compiler.Compile(place)
	require.NoError(t, err, place)
	w.schemas[place] = schema
	return schema
}

// hold holds a reply against the contract: its status, its media type, its body
// and its headers.
func (w *walker) hold(t *testing.T, p trip, reply *httptest.ResponseRecorder) {
	t.Helper()
	told := fmt.Sprintf("%s %s %s\n%s\n%d\n%.2000s", p.verb, p.target, p.headers, p.body, reply.Code, reply.Body)
	require.Less(t, reply.Code, 500, told)
	status := strconv.Itoa(reply.Code)
	if reply.Code >= 400 {
		require.Contains(t, p.spec["x-problem-statuses"], any(json.Number(status)), "the contract does not know this status\n%s", told)
		status = "default"
	}
	entry := w.open(contract.Dig(p.spec, "responses")[status])
	require.NotNil(t, entry, "the contract does not know this status\n%s", told)
	place := p.at("responses", status)
	if ref, ok := contract.Dig(p.spec, "responses", status)["$ref"].(string); ok {
		place = strings.Split(strings.TrimPrefix(ref, "#/"), "/")
	}
	w.holdHeaders(t, p, entry, reply, told)
	media, _, _ := strings.Cut(reply.Header().Get("Content-Type"), ";")
	if reply.Code == http.StatusNotModified {
		require.Zero(t, reply.Body.Len(), told)
		return
	}
	require.Contains(t, contract.Dig(entry, "content"), media, told)
	schema := w.compiled(t, append(slices.Clone(place), "content", media, "schema")...)
	var instance any = reply.Body.String()
	if strings.HasSuffix(media, "json") && !strings.HasSuffix(media, "ndjson") {
		parsed, err := jsonschema.UnmarshalJSON(bytes.NewReader(reply.Body.Bytes()))
		require.NoError(t, err, told)
		instance = parsed
	}
	require.NoError(t, schema.Validate(instance), told)
	if reply.Code >= 400 {
		holdErrors(t, reply, told)
	}
	if reply.Code == http.StatusOK && media == "application/json" && strings.HasPrefix(p.body, "{") && p.path != "/v1/batch" {
		holdPointers(t, p.path, p.body, reply.Body.Bytes())
	}
	if media == "image/svg+xml" {
		decoder := xml.NewDecoder(reply.Body)
		for {
			if _, err := decoder.Token(); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				require.NoError(t, err, told)
			}
		}
	}
}

// holdErrors holds what a refusal says to what its status and its codes promise.
func holdErrors(t *testing.T, reply *httptest.ResponseRecorder, told string) {
	t.Helper()
	var p refuse.Problem
	require.NoError(t, json.Unmarshal(reply.Body.Bytes(), &p), told)
	if asking.PointsOut(reply.Code) {
		require.NotEmpty(t, p.Errors, told)
	}
	for i := range p.Errors {
		require.Empty(t, asking.Lacks(&p.Errors[i]), told)
	}
}

// alwaysThere are the headers that every reply of this walk carries if the
// contract names them for it; the others depend on how the service is set up.
var alwaysThere = []string{"X-Request-Id", "RateLimit", "RateLimit-Policy", "ETag", "Allow", "Retry-After"}

// ofStatuses are the headers of the one reply for problems that belong to some of them.
var ofStatuses = map[string][]int{
	"Allow": {http.StatusMethodNotAllowed}, "Retry-After": {http.StatusTooManyRequests, http.StatusServiceUnavailable},
	"WWW-Authenticate": {http.StatusUnauthorized},
}

func (w *walker) holdHeaders(t *testing.T, p trip, entry map[string]any, reply *httptest.ResponseRecorder, told string) {
	t.Helper()
	headers := contract.Dig(entry, "headers")
	for _, name := range slices.Sorted(maps.Keys(headers)) {
		value := reply.Header().Get(name)
		if only, some := ofStatuses[name]; some && !slices.Contains(only, reply.Code) {
			require.Empty(t, value, "%s\n%s", name, told)
			continue
		}
		if value == "" {
			require.True(t, !slices.Contains(alwaysThere, name) || forProbes(p.path) && strings.HasPrefix(name, "RateLimit"), "the contract promises the header %s\n%s", name, told)
			continue
		}
		schema := w.open(w.open(headers[name])["schema"])
		if pattern, ok := schema["pattern"].(string); ok {
			require.Regexp(t, regexp.MustCompile(pattern), value, name+"\n"+told)
		}
	}
	for _, name := range []string{"Retry-After", "WWW-Authenticate", "ETag", "Ratelimit", "Accept-Query"} {
		if reply.Header().Get(name) != "" {
			require.True(t, slices.ContainsFunc(slices.Collect(maps.Keys(headers)), func(h string) bool { return strings.EqualFold(h, name) }), "the contract does not know the header %s\n%s", name, told)
		}
	}
}

// forProbes says that the path is asked by those who watch over the process, at no
// price.
func forProbes(path string) bool {
	return slices.ContainsFunc(api.Routes, func(r serve.Route) bool { return r.Path == path && r.Open == serve.ToProbes })
}
