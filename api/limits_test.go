package api_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"reflect"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/contract"
	"latewood/api/internal/refuse"
	"latewood/api/internal/serve"
	"latewood/api/internal/wire"
)

// What /v1/limits says of a body holds to the byte.
func TestLimitsOfBodiesHold(t *testing.T) {
	seen := map[string]bool{}
	for _, l := range asking.LookUp[serve.Limits](t, "/v1/limits").Routes {
		seen[l.Method+" "+l.Route] = true
		path := strings.NewReplacer("{id}", "teak", "{kind}", "invalid").Replace(l.Route)
		ask := func(bytes int64) int {
			return (asking.Asked{Verb: l.Method, Target: path, Body: strings.Repeat(" ", int(bytes)), Headers: nil}).Of(t, asking.SharedService()).Code
		}
		assert.NotEqual(t, http.StatusRequestEntityTooLarge, ask(l.BodyBytes), path)
		assert.Equal(t, http.StatusRequestEntityTooLarge, ask(l.BodyBytes+1), path)
	}
	for i := range api.Routes {
		assert.Equal(t, !api.Routes[i].Asset, seen[api.Routes[i].Method+" "+serve.ContractPath(api.Routes[i].Path)], api.Routes[i].Path)
	}
}

// nested puts a list of n entries at a pointer; - is the first index.
func nested(pointer, entry string, n int) string {
	list := "[" + strings.TrimSuffix(strings.Repeat(entry+",", n), ",") + "]"
	tokens := strings.Split(strings.TrimPrefix(pointer, "/"), "/")
	for i := len(tokens) - 1; i >= 0; i-- {
		if tokens[i] == "-" {
			list = "[" + list + "]"
		} else {
			list = fmt.Sprintf("{%q: %s}", tokens[i], list)
		}
	}
	return list
}

// What it says of a list holds to the entry.
func TestLimitsOfListsHold(t *testing.T) {
	asking.OneByOne(t)
	lists := 0
	for _, l := range asking.LookUp[serve.Limits](t, "/v1/limits").Routes {
		for _, list := range l.Lists {
			lists++
			told := func(n int) bool {
				for _, entry := range []string{"{}", "1", `"x"`} { // one of them is of the right kind
					target := strings.Replace(l.Route, "{id}", "billet-2", 1)
					r := (asking.Asked{Verb: l.Method, Target: target, Body: nested(list.Member, entry, n)}).Of(t, asking.SharedService())
					p := asking.Decoded[refuse.Problem](t, r.Body.Bytes())
					for _, e := range p.Errors {
						if e.Pointer == strings.ReplaceAll(list.Member, "/-", "/0") && e.Limit.String() == "at most "+strconv.Itoa(list.Most)+" entries" {
							return true
						}
					}
				}
				return false
			}
			if l.Route == "/v1/batch" { // whose entries are judged one by one
				assert.Equal(t, http.StatusOK, asking.Posting(l.Route, nested(list.Member, "{}", list.Most)).Of(t, asking.SharedService()).Code)
			} else {
				assert.False(t, told(list.Most), l.Route+list.Member)
			}
			assert.True(t, told(list.Most+1), l.Route+list.Member)
		}
	}
	assert.GreaterOrEqual(t, lists, 10)
}

// limited matches the rules of a list with a most.
var limited = regexp.MustCompile(`^(required,|omitempty,|min=\d+,)*max=\d+`)

// Every list of every request has a limit, so that no body can hold a list that
// is only bounded by its bytes.
func TestEveryListIsLimited(t *testing.T) {
	var walk func(t reflect.Type, at string, deep int) []string
	walk = func(t reflect.Type, at string, deep int) (open []string) {
		for t.Kind() == reflect.Pointer {
			t = t.Elem()
		}
		if t.Kind() == reflect.Slice && t.Elem().Kind() != reflect.Uint8 {
			return walk(t.Elem(), at+"/-", deep)
		}
		if t.Kind() != reflect.Struct || deep > 6 {
			return nil
		}
		for _, form := range wire.FormsOf(t) {
			open = append(open, walk(form, at, deep+1)...)
		}
		for i := range t.NumField() {
			f := t.Field(i)
			inner := f.Type
			for inner.Kind() == reflect.Pointer {
				inner = inner.Elem()
			}
			if inner.Kind() == reflect.Slice && inner.Elem().Kind() != reflect.Uint8 && wire.MemberName(f) != "" && !limited.MatchString(f.Tag.Get("validate")) {
				open = append(open, at+"/"+wire.MemberName(f))
			}
			open = append(open, walk(f.Type, at+"/"+wire.MemberName(f), deep+1)...)
		}
		return open
	}
	for i := range api.Routes {
		if r := &api.Routes[i]; r.Request != nil {
			assert.Empty(t, walk(reflect.TypeOf(r.Request), "", 0), r.Path)
		}
	}
}

func TestLimitsSayWhatIsSet(t *testing.T) {
	l := asking.LookUp[serve.Limits](t, "/v1/limits")
	assert.Equal(t, max(1, runtime.GOMAXPROCS(0)-1), l.Heavy.AtOnce)
	assert.Nil(t, l.Rate)
	assert.Equal(t, 1000, l.Batch.Items)
	s := asking.RatedService(t, serve.Rate{PerSecond: 2.5, Burst: 1})
	r := asking.Getting("/v1/limits").Of(t, s)
	rated := asking.Decoded[serve.Limits](t, r.Body.Bytes())
	require.NotNil(t, rated.Rate)
	assert.Equal(t, serve.RateLimits{PerSecond: 2.5, Burst: serve.MinBurst, ItemsPerUnit: 10}, *rated.Rate, "a bucket too small for a batch is made larger")
	assert.Contains(t, r.Header().Get("RateLimit-Policy"), "q="+strconv.Itoa(serve.MinBurst)+`;qu="units";w=40`)

	// Every budget stands in the contract beside its route, as every limit does.
	document := loadContract(t).document
	for _, route := range l.Routes {
		text, err := json.Marshal(contract.Dig(document, "paths", route.Route, strings.ToLower(route.Method))["x-limits"])
		require.NoError(t, err)
		told := asking.Decoded[serve.RouteLimits](t, text)
		route.Method, route.Route = "", ""
		assert.Equal(t, route, told)
	}
	for path := range api.Budgets {
		assert.True(t, slices.ContainsFunc(asking.Calculations(), func(c asking.Calculation) bool { return c.Path == path }), "budget of a path that is none: "+path)
	}
}
