package serve_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"maps"
	"net/http"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/go-json-experiment/json/jsontext"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/api/internal/asking"
	"latewood/api/internal/cut"
	"latewood/api/internal/dry"
	"latewood/api/internal/mill"
	"latewood/api/internal/moist"
	"latewood/api/internal/refuse"
	"latewood/api/internal/serve"
	"latewood/api/internal/shape"
	"latewood/api/internal/wire"
	"latewood/api/internal/year"
)

// reading tries a body as one type of request.
type reading struct {
	of     reflect.Type
	decode func([]byte) error
}

func readingOf[T any]() reading {
	return reading{reflect.TypeFor[T](), func(b []byte) error { _, err := serve.Decode[T](b); return err }}
}

// readings try a body as every type of request.
var readings = map[string]reading{
	"/v1/resaw-plan":        readingOf[cut.ResawPlanRequest](),
	"/v1/air":               readingOf[moist.AirRequest](),
	"/v1/bookmatch":         readingOf[cut.BookmatchRequest](),
	"/v1/emc":               readingOf[moist.EMCRequest](),
	"/v1/year-in-service":   readingOf[year.YearInServiceRequest](),
	"/v1/assembly-movement": readingOf[year.AssemblyMovementRequest](),
	"/v1/moisture":          readingOf[moist.MoistureRequest](),
	"/v1/movement":          readingOf[moist.MovementRequest](),
	"/v1/section-shape":     readingOf[shape.SectionShapeRequest](),
	"/v1/laminate":          readingOf[shape.LaminateRequest](),
	"/v1/readiness":         readingOf[dry.ReadinessRequest](),
	"/v1/log-plan":          readingOf[mill.LogPlanRequest](),
	"/v1/leaf-yield":        readingOf[cut.LeafYieldRequest](),
	"/v1/resaw-timing":      readingOf[dry.ResawTimingRequest](),
	"/v1/seasoning":         readingOf[dry.SeasoningRequest](),
	"/v1/batch":             {reflect.TypeFor[serve.BatchRequest](), func(b []byte) error { return asking.SharedService().SplitBatch(b) }},
}

// wholeProblem requires that a decoding error is a problem a caller can read.
func wholeProblem(t testing.TB, err error) {
	t.Helper()
	var p *refuse.Problem
	require.True(t, errors.As(err, &p), "%T %v", err, err)
	assert.Contains(t, []int{http.StatusBadRequest, http.StatusUnprocessableEntity}, p.Status)
	assert.NotEmpty(t, p.Detail)
	assert.LessOrEqual(t, len(p.Errors), serve.MaxFieldErrors)
	if p.Status == http.StatusUnprocessableEntity {
		assert.NotEmpty(t, p.Errors)
	}
	seen := map[string]bool{}
	for _, e := range p.Errors {
		assert.NotEmpty(t, e.Code)
		assert.NotEmpty(t, e.Detail)
		assert.True(t, jsontext.Pointer(e.Pointer).IsValid(), e.Pointer)
		assert.False(t, seen[e.Pointer], "told twice: "+e.Pointer)
		seen[e.Pointer] = true
	}
}

func FuzzDecode(f *testing.F) {
	for _, r := range asking.Calculations() {
		require.Contains(f, readings, r.Path)
	}
	for _, w := range asking.WrongRequests {
		if len(w.Body) < 1000 {
			f.Add([]byte(w.Body))
		}
	}
	for _, bodies := range asking.ExampleBodies(f) {
		for _, body := range bodies {
			f.Add(body)
		}
	}
	f.Fuzz(func(t *testing.T, body []byte) {
		for _, try := range readings {
			if err := try.decode(body); err != nil {
				wholeProblem(t, err)
			}
		}
	})
}

// Every example decodes as its own type, so that the seeds reach the code
// behind the first check.
func TestExamplesDecode(t *testing.T) {
	bodies := asking.ExampleBodies(t)
	for path, try := range readings {
		require.NotEmpty(t, bodies[path], "no example for "+path)
		for _, body := range bodies[path] {
			assert.NoError(t, try.decode(body), string(body))
		}
	}
}

// oddities are put in the place of the members of good requests.
var oddities = []string{
	`0`, `-1`, `1e-300`, `1e300`, `1e999`, `100`, `250`, `60`, `30`, `0.5`, `10000`, `true`, `null`, `""`, `"x"`, `[]`, `{}`, `[null]`,
	`"0 mm"`, `"1 um"`, `"0.5 mm"`, `"3 mm"`, `"60 mm"`, `"5 m"`, `"20 m"`, `"100 m"`, `"1e300 m"`, `"-3 in"`, `"9 km"`, `{"value": 1e-9, "unit": "mm"}`,
	`"-40 C"`, `"-20 C"`, `"0 C"`, `"0.01 C"`, `"70 C"`, `"100 C"`, `"212 F"`, `"-459.67 F"`, `"300 hPa"`, `"1100 hPa"`, `"9000 m"`,
	`"1 g"`, `"1000 kg"`, `"5000 kg"`, `"0.001 g"`, `"0 kg"`, `"2026-02-30"`, `"0001-01-01"`, `"2025-10-04"`, `"9999-12-31"`,
	`"teak"`, `"hard maple"`, `"balsa"`, `"to"`, `"radial"`, `"longitudinal"`, `"wetting"`, `"inch"`,
}

// strange draws a changed copy of a JSON value: members put out, left out or
// moved to where they do not belong.
func strange(t *rapid.T, v any, deep int) any {
	if rapid.IntRange(0, 5+3*max(deep, -1)).Draw(t, "here") == 0 {
		return json.RawMessage(rapid.SampledFrom(oddities).Draw(t, "odd"))
	}
	switch v := v.(type) {
	case map[string]any:
		out := map[string]any{}
		for _, name := range slices.Sorted(maps.Keys(v)) {
			switch rapid.IntRange(0, 12).Draw(t, "member") {
			case 0: // left out
			default:
				out[name] = strange(t, v[name], deep-1)
			}
		}
		return out
	case []any:
		out := []any{}
		for _, one := range v {
			for range rapid.SampledFrom([]int{1, 1, 1, 1, 0, 2}).Draw(t, "times") {
				out = append(out, strange(t, one, deep-1))
			}
		}
		return out
	}
	return v
}

// Slightly draws a copy of a JSON value with one or two of its members put out or
// left out, so that requests reach the calculation behind the checks.
func slightly(t *rapid.T, v any) any {
	for range rapid.IntRange(1, 2).Draw(t, "changes") {
		v = changedOnce(t, v)
	}
	return v
}

func changedOnce(t *rapid.T, v any) any {
	if rapid.IntRange(0, 9).Draw(t, "here") > 0 {
		switch v := v.(type) {
		case map[string]any:
			if len(v) == 0 {
				break
			}
			out := maps.Clone(v)
			name := rapid.SampledFrom(slices.Sorted(maps.Keys(v))).Draw(t, "name")
			if rapid.IntRange(0, 6).Draw(t, "out") == 0 {
				delete(out, name)
			} else {
				out[name] = changedOnce(t, v[name])
			}
			return out
		case []any:
			if len(v) == 0 {
				break
			}
			out := slices.Clone(v)
			i := rapid.IntRange(0, len(v)-1).Draw(t, "entry")
			out[i] = changedOnce(t, v[i])
			return out
		}
	}
	return json.RawMessage(rapid.SampledFrom(oddities).Draw(t, "odd"))
}

// pointsInto reports whether pointer leads to a member that requests of the
// type have.
func pointsInto(root reflect.Type, pointer string) bool {
	at := jsontext.Pointer(pointer)
	if at == "" || !at.IsValid() {
		return at == ""
	}
	if at.LastToken() != "" && strings.Trim(at.LastToken(), "0123456789") == "" {
		return pointsInto(root, string(at.Parent())) && membersAt(root, at.Parent()) == nil
	}
	return slices.Contains(membersAt(root, at.Parent()), at.LastToken())
}

// Whatever stands in a request, the answer is a result or a problem that points
// at members of that request; never a failure of the service, and never a
// number that is not finite, which could not be encoded.
func TestStrangeRequestsAreAnswered(t *testing.T) {
	asking.OneByOne(t)
	bodies := asking.ExampleBodies(t)
	for _, r := range asking.Calculations() {
		t.Run(r.ID, func(t *testing.T) {
			require.Contains(t, readings, r.Path, "a new type of request goes there")
			var parsed []any
			for _, body := range bodies[r.Path] {
				var v any
				require.NoError(t, json.Unmarshal(body, &v))
				parsed = append(parsed, v)
			}
			for _, q := range asking.SameUsual {
				if q.Path == r.Path {
					var v any
					require.NoError(t, json.Unmarshal([]byte(q.Inch), &v))
					parsed = append(parsed, v)
				}
			}
			answered := 0
			rapid.Check(t, func(rt *rapid.T) {
				v := rapid.SampledFrom(parsed).Draw(rt, "example")
				if rapid.Bool().Draw(rt, "slightly") {
					v = slightly(rt, v)
				} else {
					v = strange(rt, v, 3)
				}
				changed, err := json.Marshal(v)
				require.NoError(rt, err)
				reply := asking.Posting(r.Path, string(changed)).Of(t, asking.SharedService())
				if reply.Code == http.StatusOK {
					answered++
					return
				}
				require.Equal(rt, http.StatusUnprocessableEntity, reply.Code, "%s\n%s", changed, reply.Body)
				var p refuse.Problem
				require.NoError(rt, json.NewDecoder(bytes.NewReader(reply.Body.Bytes())).Decode(&p))
				require.NotEmpty(rt, p.Errors)
				for _, e := range p.Errors {
					if e.Code != "unknown_member" {
						require.True(rt, pointsInto(readings[r.Path].of, e.Pointer), "%s\n%s", e.Pointer, changed)
					}
					require.NotRegexp(rt, asking.Inside, e.Detail)
				}
			})
			t.Logf("%d of the changed requests were answered", answered)
			for _, v := range parsed { // unchanged, each reaches the calculation
				same, err := json.Marshal(v)
				require.NoError(t, err)
				assert.Equal(t, http.StatusOK, asking.Posting(r.Path, string(same)).Of(t, asking.SharedService()).Code, "%s", same)
			}
		})
	}
}

// The helper of the test above is not blind.
func TestPointsInto(t *testing.T) {
	root := reflect.TypeFor[dry.ReadinessRequest]()
	for _, p := range []string{"", "/billet/wood", "/billet/length", "/readings/0", "/readings/12/depth", "/readings/3/mass/unit", "/readings/3/date", "/step_limits", "/target_condition/air/rh_pct", "/billet/length/unit"} {
		assert.True(t, pointsInto(root, p), p)
	}
	for _, p := range []string{"/wood_id", "/billet/0", "/readings/pin_meter", "/readings/0/masses", "/part/allowances//wood", "/heart_edge", "/readings/0/mass/division", "/target_condition/rh_pct", "billet"} {
		assert.False(t, pointsInto(root, p), p)
	}
}

// membersAt lists the member names of the object found at pointer in a request
// of type root, of all the forms it may have; nil if there is none.
func membersAt(root reflect.Type, at jsontext.Pointer) []string {
	types := []reflect.Type{root}
	for token := range at.Tokens() {
		var below []reflect.Type
		for _, t := range opened(types) {
			if t.Kind() == reflect.Slice || t.Kind() == reflect.Array {
				below = append(below, t.Elem())
			} else if t.Kind() == reflect.Struct {
				if field, ok := wire.FieldNamed(t, token); ok {
					below = append(below, field.Type)
				}
			}
		}
		types = below
	}
	var names []string
	for _, t := range opened(types) {
		switch t {
		case reflect.TypeFor[wire.Length](), reflect.TypeFor[wire.Temperature](), reflect.TypeFor[wire.Mass](), reflect.TypeFor[wire.Pressure]():
			return []string{"value", "unit"}
		}
		if t.Kind() == reflect.Struct {
			for field := range wire.Members(t) {
				names = append(names, wire.MemberName(field))
			}
		}
	}
	return names
}

// opened are types without their pointers, and the forms in place of what has several.
func opened(types []reflect.Type) (all []reflect.Type) {
	for _, t := range types {
		for t.Kind() == reflect.Pointer {
			t = t.Elem()
		}
		if forms := wire.FormsOf(t); forms != nil {
			all = append(all, forms...)
		} else {
			all = append(all, t)
		}
	}
	return all
}
