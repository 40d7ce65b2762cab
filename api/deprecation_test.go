package api_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"latewood/api"
	"latewood/api/internal/serve"
)

// Whoever uses a route is told of its end a year before, and of a path that is there.
func TestNoticeOfAnEnd(t *testing.T) {
	paths := map[string]bool{}
	for i := range api.Routes {
		paths[api.Routes[i].Path] = true
	}
	for i := range api.Routes {
		if d := api.Routes[i].Deprecated; d != nil {
			assert.GreaterOrEqual(t, d.Gone.Sub(d.Since), serve.ShortestNotice, api.Routes[i].Path)
			assert.True(t, paths[d.Instead], d.Instead)
		}
	}
	assert.NotEmpty(t, paths)
}
