package api

import (
	"encoding/json"
	"fmt"
	"net/http"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What /v1/limits says of a body holds to the byte.
func TestLimitsOfBodiesHold(t *testing.T) {
	seen := map[string]bool{}
	for _, l := range lookUp[Limits](t, "/v1/limits").Routes {
		seen[l.Method+" "+l.Route] = true
		path := strings.NewReplacer("{id}", "teak", "{kind}", "invalid").Replace(l.Route)
		ask := func(bytes int64) int {
			return (asked{l.Method, path, strings.Repeat(" ", int(bytes)), nil}).of(t, sharedService()).Code
		}
		assert.NotEqual(t, http.StatusRequestEntityTooLarge, ask(l.BodyBytes), path)
		assert.Equal(t, http.StatusRequestEntityTooLarge, ask(l.BodyBytes+1), path)
	}
	for i := range routes {
		assert.Equal(t, !routes[i].asset, seen[routes[i].method+" "+contractPath(routes[i].path)], routes[i].path)
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
	lists := 0
	for _, l := range lookUp[Limits](t, "/v1/limits").Routes {
		for _, list := range l.Lists {
			lists++
			told := func(n int) bool {
				for _, entry := range []string{"{}", "1", `"x"`} { // one of them is of the right kind
					r := posting(l.Route, nested(list.Member, entry, n)).of(t, sharedService())
					p := decoded[Problem](t, r.Body.Bytes())
					for _, e := range p.Errors {
						if e.Pointer == strings.ReplaceAll(list.Member, "/-", "/0") && e.Limit == "at most "+strconv.Itoa(list.Most)+" entries" {
							return true
						}
					}
				}
				return false
			}
			if l.Route == "/v1/batch" { // whose entries are judged one by one
				assert.Equal(t, http.StatusOK, posting(l.Route, nested(list.Member, "{}", list.Most)).of(t, sharedService()).Code)
			} else {
				assert.False(t, told(list.Most), l.Route+list.Member)
			}
			assert.True(t, told(list.Most+1), l.Route+list.Member)
		}
	}
	assert.GreaterOrEqual(t, lists, 10)
}

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
		for i := range t.NumField() {
			f := t.Field(i)
			inner := f.Type
			for inner.Kind() == reflect.Pointer {
				inner = inner.Elem()
			}
			if inner.Kind() == reflect.Slice && inner.Elem().Kind() != reflect.Uint8 && memberName(f) != "" && mostEntries(f.Tag.Get("validate")) == 0 {
				open = append(open, at+"/"+memberName(f))
			}
			open = append(open, walk(f.Type, at+"/"+memberName(f), deep+1)...)
		}
		return open
	}
	for _, r := range calculationRoutes() {
		assert.Empty(t, walk(reflect.TypeOf(r.request), "", 0), r.path)
	}
}

func TestLimitsSayWhatIsSet(t *testing.T) {
	l := lookUp[Limits](t, "/v1/limits")
	assert.Equal(t, cap(sharedService().turns), l.Heavy.AtOnce)
	assert.Nil(t, l.Rate)
	assert.Equal(t, mostItems, l.Batch.Items)
	s := ratedService(t, Rate{PerSecond: 2.5, Burst: 1})
	r := getting("/v1/limits").of(t, s)
	rated := decoded[Limits](t, r.Body.Bytes())
	require.NotNil(t, rated.Rate)
	assert.Equal(t, RateLimits{2.5, MinBurst, itemsPerUnit}, *rated.Rate, "a bucket too small for a batch is made larger")
	assert.Contains(t, r.Header().Get("RateLimit-Policy"), "q="+strconv.Itoa(MinBurst)+";w=40")

	// Every budget stands in the contract beside its route, as every limit does.
	document := loadContract(t).document
	for _, route := range l.Routes {
		text, err := json.Marshal(dig(document, "paths", route.Route, strings.ToLower(route.Method))["x-limits"])
		require.NoError(t, err)
		told := decoded[RouteLimits](t, text)
		route.Method, route.Route = "", ""
		assert.Equal(t, route, told)
	}
	for path := range budgets {
		assert.NotNil(t, sharedService().works[path], "budget of a path that is none: "+path)
	}
}
