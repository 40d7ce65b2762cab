package api

import (
	"bytes"
	"io"
	"net/http"
	"net/http/httptest"
	"testing"

	"github.com/labstack/echo/v4"
	"github.com/stretchr/testify/require"
)

// quiet is a writer of replies that keeps nothing.
type quiet struct{ header http.Header }

func (q *quiet) Header() http.Header { return q.header }

func (q *quiet) Write(b []byte) (int, error) { return len(b), nil }

func (q *quiet) WriteHeader(int) {}

func post(b *testing.B, handler http.Handler, path string, body []byte, headers ...string) {
	b.Helper()
	recorder := httptest.NewRecorder()
	request := httptest.NewRequest(http.MethodPost, path, bytes.NewReader(body))
	request.Header.Set(echo.HeaderContentType, echo.MIMEApplicationJSON)
	for i := 0; i < len(headers); i += 2 {
		request.Header.Set(headers[i], headers[i+1])
	}
	handler.ServeHTTP(recorder, request)
	require.Equal(b, http.StatusOK, recorder.Code, recorder.Body.String())
	reader := bytes.NewReader(body)
	b.ReportAllocs()
	b.ResetTimer()
	for b.Loop() {
		reader.Reset(body)
		request.Body = io.NopCloser(reader)
		handler.ServeHTTP(&quiet{http.Header{}}, request)
	}
}

const emcBody = `{"air": {"dry_bulb": "20 C", "rh_pct": 50}}`

// threeYears is a forecast over three years without a reading.
const threeYears = `{"species": "maple-sugar", "thickness": "58 mm", "ring_angle_deg": 80, "stacked_on": "2023-03-15", "horizon_days": 1095,
	"storage": [{"station": "madison-wi", "until": "2024-10-01", "exposure": "shed"}, {"air": {"dry_bulb": "20 C", "rh_pct": 45}}], "build_room": {"dry_bulb": "20 C", "rh_pct": 45}}`
