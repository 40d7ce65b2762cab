package serve_test

import (
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/serve"
)

// A country is named by its code or its name, and every place of it carries both.
func TestPlacesOfACountry(t *testing.T) {
	ask := func(country string) []serve.StationSummary {
		return asking.LookUp[serve.Page[serve.StationSummary]](t, "/v1/stations?limit=500&country="+country).Items
	}
	polish := ask("PL")
	require.Greater(t, len(polish), 50)
	assert.Equal(t, polish, ask("poland"))
	for _, p := range polish {
		assert.Equal(t, []string{"Poland", "PL"}, []string{p.Country, p.Code})
	}
	refused := asking.Getting("/v1/stations?country=XX").Of(t, asking.SharedService())
	assert.Equal(t, http.StatusBadRequest, refused.Code)
	assert.Contains(t, refused.Body.String(), "ISO 3166-1")
}
