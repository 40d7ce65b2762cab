package api

import (
	"net/http"

	"github.com/labstack/echo/v4"
)

// Health is the answer of the probes.
type Health struct {
	Status string `json:"status" required:"true"`
}

func livez(*Service) echo.HandlerFunc {
	return func(c echo.Context) error { return writeJSON(c, Health{"alive"}) }
}

func readyz(s *Service) echo.HandlerFunc {
	return func(c echo.Context) error {
		if s.stopping.Err() != nil {
			p := newProblem(http.StatusServiceUnavailable, "the service is stopping")
			p.retryAfter = 5
			return p
		}
		return writeJSON(c, Health{"ready"})
	}
}

// Version says what is running.
type Version struct {
	Build    string `json:"build" required:"true"`
	Contract string `json:"contract" required:"true" description:"version of the OpenAPI document"`
	Data     string `json:"data" required:"true" description:"version of the embedded tables"`
}

func version(s *Service) echo.HandlerFunc {
	return func(c echo.Context) error {
		return writeTable(c, Version{Build: s.version, Contract: ContractVersion, Data: s.tables.version})
	}
}

func problemHelp(*Service) echo.HandlerFunc {
	return func(c echo.Context) error {
		for _, k := range problemKinds {
			if k.Kind == pathWord(c, "kind") {
				return writeTable(c, k)
			}
		}
		return newProblem(http.StatusNotFound, "there is no such kind of problem")
	}
}
