package api_test

import (
	"net/http"
	"net/http/httptest"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/refuse"
	"latewood/api/internal/serve"
)

// methodsAsked are all methods that a path may be asked with.
var methodsAsked = []string{http.MethodGet, http.MethodHead, http.MethodPost, http.MethodPut, http.MethodPatch, http.MethodDelete, serve.MethodQuery, "BREW"}

// ruled is a service with tokens and a rack, of which every route is asked wrongly.
type ruled struct {
	*serve.Service
	token string
}

// targetOf is a path of a route that leads somewhere.
func targetOf(path string) string {
	one, all := "x", strings.Split(strings.TrimPrefix(path, "/v1/rack/"), "/")[0]
	if strings.HasPrefix(path, "/v1/rack/") {
		one = strings.TrimSuffix(all, "s") + "-5"
	}
	return strings.NewReplacer(":id", one, ":kind", "invalid", ":name", "guide", "*", "index.html").Replace(path)
}

// ask asks a route with the headers that it needs, and those given, which come last.
func (s *ruled) ask(t *testing.T, r *serve.Route, method, body string, headers ...string) *httptest.ResponseRecorder {
	t.Helper()
	request := httptest.NewRequestWithContext(t.Context(), method, targetOf(r.Path), strings.NewReader(body))
	request.Header.Set("Authorization", "Bearer "+s.token)
	request.Header.Set("If-Match", "*")
	for i := 0; i+1 < len(headers); i += 2 {
		request.Header.Set(headers[i], headers[i+1])
	}
	recorder := httptest.NewRecorder()
	s.ServeHTTP(recorder, request)
	return recorder
}

// pointed is where the errors of a problem point, with their codes.
func pointed(p *refuse.Problem) (all []string) {
	for _, e := range p.Errors {
		all = append(all, "?"+e.Parameter+e.Pointer+" "+e.Code)
	}
	return all
}

// Every route answers what is wrong with a request by one rule, with a problem in one form: who
// asks comes first, then what the path answers, the form of the answer, the length and the form of
// the body, then what is in it.
func TestEveryRouteRefusesByOneRule(t *testing.T) {
	asking.OneByOne(t)
	token, line, err := serve.NewToken("bench")
	require.NoError(t, err)
	keys, err := serve.ParseKeys(line + " all\n")
	require.NoError(t, err)
	service, err := api.New(serve.Config{Version: "test", Keys: keys, Licences: []byte("licences"), Rack: asking.Rack()})
	require.NoError(t, err)
	s := &ruled{service, token}
	methods := map[string][]string{}
	for i := range api.Routes {
		r := &api.Routes[i]
		methods[r.Path] = append(methods[r.Path], r.Methods()...)
	}
	for i := range api.Routes {
		r := &api.Routes[i]
		for _, method := range r.Methods() {
			s.refuses(t, r, method)
		}
		for _, method := range methodsAsked {
			if !slices.Contains(methods[r.Path], method) {
				s.answersNot(t, r, method, methods[r.Path])
			}
		}
	}
}

// refuses asks a route wrongly in each way.
func (s *ruled) refuses(t *testing.T, r *serve.Route, method string) {
	t.Helper()
	at := method + " " + r.Path
	if reply := s.ask(t, r, method, "", "Authorization", "Bearer "+s.token+"x"); r.Open == serve.ToCallers {
		p := asking.ProblemOf(t, reply, http.StatusUnauthorized)
		assert.Empty(t, p.Errors, at)
		assert.NotEmpty(t, reply.Header().Get("WWW-Authenticate"), at)
	} else {
		assert.NotEqual(t, http.StatusUnauthorized, reply.Code, "%s is open", at)
	}
	if !r.Asset {
		p := asking.ProblemOf(t, s.ask(t, r, method, "", "Accept", "image/x-none"), http.StatusNotAcceptable)
		assert.Equal(t, []string{"?Accept not_a_choice"}, pointed(&p), at)
		assert.Equal(t, p.Offers, p.Errors[0].Limit.Choices, at)
	}
	p := asking.ProblemOf(t, s.ask(t, r, method, strings.Repeat(" ", int(r.BodyLimit())+1), "Content-Type", mediaOf(r)), http.StatusRequestEntityTooLarge)
	assert.Equal(t, []string{"? too_long"}, pointed(&p), at)
	assert.Equal(t, "at most "+strconv.FormatInt(r.BodyLimit(), 10)+" bytes", p.Errors[0].Limit.String(), at)
	p = asking.ProblemOf(t, s.ask(t, r, method, "{}", "Content-Encoding", "gzip", "Content-Type", mediaOf(r)), http.StatusUnsupportedMediaType)
	assert.Equal(t, []string{"?Content-Encoding not_a_choice"}, pointed(&p), at)
	if r.Request == nil && r.Takes == nil {
		return
	}
	for _, media := range []string{"text/xml", "application/json; charset=latin1", ""} {
		p = asking.ProblemOf(t, s.ask(t, r, method, "<a/>", "Content-Type", media), http.StatusUnsupportedMediaType)
		assert.Equal(t, []string{"?Content-Type not_a_choice"}, pointed(&p), at+media)
		assert.NotEmpty(t, p.Offers, at)
	}
	if r.Uploads() {
		return
	}
	for _, none := range []string{"", " \n"} {
		p = asking.ProblemOf(t, s.ask(t, r, method, none, "Content-Type", mediaOf(r)), http.StatusBadRequest)
		assert.Equal(t, []string{"? missing"}, pointed(&p), at)
	}
	p = asking.ProblemOf(t, s.ask(t, r, method, `{"a": `, "Content-Type", mediaOf(r)), http.StatusBadRequest)
	assert.Contains(t, pointed(&p)[0], " invalid_json", at)
	p = asking.ProblemOf(t, s.ask(t, r, method, `{"no_such_member": 1}`, "Content-Type", mediaOf(r)), http.StatusUnprocessableEntity)
	assert.Contains(t, pointed(&p), "?/no_such_member unknown_member", at)
	p = asking.ProblemOf(t, s.ask(t, r, method, `[]`, "Content-Type", mediaOf(r)), http.StatusUnprocessableEntity)
	assert.Equal(t, "? wrong_type", pointed(&p)[0], at)
}

// mediaOf is the media type that a route takes.
func mediaOf(r *serve.Route) string {
	if r.Takes != nil {
		return r.Takes[0]
	}
	return "application/json"
}

// answersNot asks a path with a method that it does not answer.
func (s *ruled) answersNot(t *testing.T, r *serve.Route, method string, has []string) {
	t.Helper()
	reply := s.ask(t, r, method, "")
	if method == http.MethodHead { // without a body: nobody could read a problem
		return
	}
	has = append(slices.Clone(has), http.MethodOptions)
	p := asking.ProblemOf(t, reply, http.StatusMethodNotAllowed)
	assert.ElementsMatch(t, has, strings.Split(reply.Header().Get("Allow"), ", "), r.Path)
	assert.ElementsMatch(t, has, p.Offers, "%s %s", method, r.Path)
}
