package serve_test

import (
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
)

// unread is a caller who takes nothing of an answer until he is let go.
type unread struct {
	header http.Header
	begun  func()
	let    chan struct{}
}

func (u *unread) Header() http.Header { return u.header }
func (u *unread) WriteHeader(int)     {}
func (u *unread) Write(p []byte) (int, error) {
	u.begun()
	<-u.let
	return len(p), nil
}

// Callers who never read what they are answered, right or refused, keep no place from
// others.
func TestCallersWhoNeverReadKeepNoPlace(t *testing.T) {
	for target, body := range map[string]string{
		"/v1/emc": asking.EMCBody, "/v1/air": `{}`, "/v1/movement": `{"nothing": 1}`, "/v1/species": "", "/v1/species/none": "",
		"/metrics": "", "/docs/": "", "/openapi.json": "", "/v1/seasoning": `{}`, "/v1/batch": `{"items": [{"route": "/v1/emc", "request": ` + asking.EMCBody + `}]}`,
	} {
		s := asking.FreshService(t, io.Discard)
		let := make(chan struct{})
		var callers, begun sync.WaitGroup
		n := 60
		if target == "/metrics" {
			n = 2 // so many are shown at a time
		}
		for range n {
			begun.Add(1)
			callers.Go(func() {
				request := httptest.NewRequest(http.MethodGet, target, http.NoBody)
				if body != "" {
					request = posted(target, body)
				}
				s.ServeHTTP(&unread{header: http.Header{}, begun: sync.OnceFunc(begun.Done), let: let}, request)
			})
		}
		begun.Wait()
		held := s.Held()
		assert.Zero(t, held["light places"], target)
		assert.Zero(t, held["turns"], target)
		done := make(chan int, 1)
		go func() { done <- asking.Posting("/v1/emc", strings.TrimSpace(asking.EMCBody)).Of(t, s).Code }()
		select {
		case code := <-done:
			assert.Equal(t, http.StatusOK, code, target)
		case <-time.After(20 * time.Second):
			require.Fail(t, "a light question waits for callers who never read", target)
		}
		close(let)
		callers.Wait()
		for name, bytes := range s.Held() {
			assert.Zero(t, bytes, target+" "+name)
		}
	}
}

// One caller who takes nothing of many short answers leaves room for those of others.
func TestShortAnswersLeaveRoomToOthers(t *testing.T) {
	s := asking.FreshService(t, io.Discard)
	stack, err := os.ReadFile("../../examples/bookmatch.stack-with-the-pith.json")
	require.NoError(t, err)
	ask := func(from string) *http.Request {
		request := posted("/v1/bookmatch", string(stack))
		request.RemoteAddr = from + ":1234"
		return request
	}
	let := make(chan struct{})
	var callers, begun sync.WaitGroup
	for range 200 { // of some 60 KB each: more than there is room for
		begun.Add(1)
		callers.Go(func() {
			s.ServeHTTP(&unread{header: http.Header{}, begun: sync.OnceFunc(begun.Done), let: let}, ask("192.0.2.1"))
		})
	}
	begun.Wait()
	for from, status := range map[string]int{"192.0.2.1": http.StatusServiceUnavailable, "192.0.2.2": http.StatusOK} {
		reply := httptest.NewRecorder()
		s.ServeHTTP(reply, ask(from))
		assert.Equal(t, status, reply.Code, from)
	}
	close(let)
	callers.Wait()
	for name, bytes := range s.Held() {
		assert.Zero(t, bytes, name)
	}
}
