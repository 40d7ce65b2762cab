package serve_test

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

	"latewood/api"
	"latewood/api/internal/asking"
	"latewood/api/internal/moist"
	"latewood/api/internal/serve"
	"latewood/api/internal/shelf"
	"latewood/api/internal/wire"
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
		Wood      string         `json:"wood" validate:"required,max=100"`
		Size      *wire.Quantity `json:"size" validate:"required"`
		Direction string         `json:"direction" validate:"oneof=tangential radial longitudinal"`
		From      *conditions    `json:"from_condition" validate:"required"`
		To        *conditions    `json:"to_condition" validate:"required"`
	}
	s, err := api.New(serve.Config{})
	require.NoError(t, err)
	e.POST("/v1/movement", func(c echo.Context) error {
		var r request
		if err := c.Bind(&r); err != nil {
			return err
		}
		if err := check.Struct(&r); err != nil {
			return err
		}
		inner := &moist.MovementRequest{Wood: &shelf.WoodAsked{Species: r.Wood}, Direction: r.Direction, From: stated(r.From.MC), To: stated(r.To.MC)}
		inner.Size = &wire.Length{SI: 0.33, Unit: "mm"}
		result, notes, err := moist.ComputeMovement(c.Request().Context(), s.Tables(), inner)
		if err != nil {
			return err
		}
		return serve.WriteJSON(c, serve.EnvelopeOf(s.Tables(), inner, result, notes))
	})
	return e
}

func stated(mc *float64) *shelf.Condition {
	return &shelf.Condition{OneOf: wire.OneOf{Form: &shelf.MoistureCondition{MC: mc}}}
}

// What is compared with the service must answer the same.
func TestBareEchoAnswersTheSame(t *testing.T) {
	request := httptest.NewRequest(http.MethodPost, "/v1/movement", bytes.NewReader(movementBody))
	request.Header.Set(echo.HeaderContentType, echo.MIMEApplicationJSON)
	bare := httptest.NewRecorder()
	bareEcho(t).ServeHTTP(bare, request)
	require.Equal(t, http.StatusOK, bare.Code, bare.Body.String())
	whole := asking.Posting("/v1/movement", string(movementBody)).Of(t, asking.SharedService())
	require.Equal(t, http.StatusOK, whole.Code)
	assert.JSONEq(t, whole.Body.String(), bare.Body.String())
}

// TestServeBare serves the bare handler for the comparison of testdata/load,
// until the process is ended:
//
//	LATEWOOD_BARE=127.0.0.1:18090 go test ./api/internal/serve -run TestServeBare -timeout 0
func TestServeBare(t *testing.T) {
	address := os.Getenv("LATEWOOD_BARE")
	if address == "" {
		t.Skip("set LATEWOOD_BARE to an address to serve the bare handler")
	}
	listener, err := net.Listen("tcp", address)
	require.NoError(t, err)
	server := &http.Server{Handler: bareEcho(t), ReadHeaderTimeout: serve.ReadHeaderTimeout, ReadTimeout: serve.ReadTimeout,
		WriteTimeout: serve.WriteTimeout, IdleTimeout: serve.IdleTimeout, MaxHeaderBytes: serve.MaxHeaderBytes}
	_, _ = io.WriteString(os.Stderr, "bare handler on "+listener.Addr().String()+" at "+time.Now().Format(time.TimeOnly)+"\n")
	require.ErrorIs(t, server.Serve(listener), http.ErrServerClosed)
}
