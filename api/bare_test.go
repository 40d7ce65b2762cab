package api

import (
	"bytes"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"testing"
	"time"

	"github.com/go-playground/validator/v10"
	"github.com/labstack/echo/v4"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// bareEcho answers the movement of the benchmarks with echo's own binder, the same
// validator, the same calculation and the same reply type, and with nothing else:
// no log, no request id, no limits, no strict decoding, no problems.
func bareEcho(t testing.TB) http.Handler {
	t.Helper()
	e := echo.New()
	e.HideBanner = true
	check := validator.New(validator.WithRequiredStructEnabled())
	type conditions struct {
		MC *float64 `json:"mc_pct" validate:"required,gte=0,lte=250"`
	}
	type request struct {
		Species   string      `json:"species" validate:"required,max=100"`
		Dimension *Quantity   `json:"dimension" validate:"required"`
		Direction string      `json:"direction" validate:"oneof=tangential radial longitudinal"`
		From      *conditions `json:"from" validate:"required"`
		To        *conditions `json:"to" validate:"required"`
	}
	s, err := New(Config{})
	require.NoError(t, err)
	e.POST("/v1/movement", func(c echo.Context) error {
		var r request
		if err := c.Bind(&r); err != nil {
			return err
		}
		if err := check.Struct(&r); err != nil {
			return err
		}
		inner := &MovementRequest{Species: r.Species, Direction: r.Direction, From: &Conditions{MC: r.From.MC}, To: &Conditions{MC: r.To.MC}}
		inner.Dimension = &Length{SI: 0.33, Unit: "mm"}
		result, notes, err := computeMovement(c.Request().Context(), s.tables, inner)
		if err != nil {
			return err
		}
		return c.JSON(http.StatusOK, envelope(s.tables, result, notes))
	})
	return e
}

// What is compared with the service must answer the same.
func TestBareEchoAnswersTheSame(t *testing.T) {
	request := httptest.NewRequest(http.MethodPost, "/v1/movement", bytes.NewReader(movementBody))
	request.Header.Set(echo.HeaderContentType, echo.MIMEApplicationJSON)
	bare := httptest.NewRecorder()
	bareEcho(t).ServeHTTP(bare, request)
	require.Equal(t, http.StatusOK, bare.Code, bare.Body.String())
	whole := posting("/v1/movement", string(movementBody)).of(t, sharedService())
	require.Equal(t, http.StatusOK, whole.Code)
	assert.JSONEq(t, whole.Body.String(), bare.Body.String())
}

// TestServeBare serves the bare handler for the comparison of testdata/load,
// until the process is ended:
//
//	LATEWOOD_BARE=127.0.0.1:18090 go test ./api -run TestServeBare -timeout 0
func TestServeBare(t *testing.T) {
	address := os.Getenv("LATEWOOD_BARE")
	if address == "" {
		t.Skip("set LATEWOOD_BARE to an address to serve the bare handler")
	}
	listener, err := net.Listen("tcp", address)
	require.NoError(t, err)
	server := &http.Server{Handler: bareEcho(t), ReadHeaderTimeout: ReadHeaderTimeout, ReadTimeout: ReadTimeout,
		WriteTimeout: WriteTimeout, IdleTimeout: IdleTimeout, MaxHeaderBytes: MaxHeaderBytes}
	_, _ = io.WriteString(os.Stderr, "bare handler on "+listener.Addr().String()+" at "+time.Now().Format(time.TimeOnly)+"\n")
	require.ErrorIs(t, server.Serve(listener), http.ErrServerClosed)
}
