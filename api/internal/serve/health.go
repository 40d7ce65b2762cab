package serve

import (
	"net/http"

	"github.com/labstack/echo/v4"
	"github.com/prometheus/client_golang/prometheus/promhttp"

	"latewood/api/internal/refuse"
)

// Health is the answer of the probes.
type Health struct {
	Status string `json:"status" required:"true" enum:"alive,ready" description:"alive: the program runs; ready: it takes requests"`
}

// Livez answers as long as the process runs.
func Livez(*Desk) echo.HandlerFunc {
	return func(c echo.Context) error { return writeJSON(c, Health{"alive"}) }
}

// Readyz answers 503 once the service is told to stop.
func Readyz(d *Desk) echo.HandlerFunc {
	return func(c echo.Context) error {
		if d.stopping.Err() != nil {
			p := refuse.New(http.StatusServiceUnavailable, "the service is stopping")
			p.RetryAfter = 5
			return p
		}
		return writeJSON(c, Health{"ready"})
	}
}

// Version says what is running.
type Version struct {
	Build    string `json:"build" required:"true" description:"version of the program"`
	Contract string `json:"contract" required:"true" description:"version of the OpenAPI document"`
	Data     string `json:"data" required:"true" description:"version of the embedded tables"`
}

// TellVersion answers GET /version.
func TellVersion(d *Desk) echo.HandlerFunc {
	return func(c echo.Context) error {
		return writeTable(c, Version{Build: d.version, Contract: ContractVersion, Data: d.tables.Version})
	}
}

// ProblemHelp explains a kind of problem.
func ProblemHelp(*Desk) echo.HandlerFunc {
	return func(c echo.Context) error {
		for _, k := range refuse.ProblemKinds {
			if k.Kind == pathWord(c, "kind") {
				return writeTable(c, k)
			}
		}
		return refuse.New(http.StatusNotFound, "there is no such kind of problem")
	}
}

// mostMetrics is how many are told the metrics at a time: each holds all of them.
const mostMetrics = 4

// Metrics serves the tally in the text format of Prometheus.
func Metrics(d *Desk) echo.HandlerFunc {
	all := promhttp.HandlerFor(d.tally.registry, promhttp.HandlerOpts{Registry: d.tally.registry, MaxRequestsInFlight: mostMetrics})
	return func(c echo.Context) error {
		leaveSeat(c)
		all.ServeHTTP(c.Response(), c.Request())
		return nil
	}
}
