package serve

import (
	"github.com/labstack/echo/v4"
)

// TellLimits answers GET /v1/limits.
func TellLimits(d *Desk) echo.HandlerFunc {
	return func(c echo.Context) error {
		l := Limits{
			Routes: d.limits,
			Heavy:  HeavyLimits{d.seats.turns.Places, queueWait.Seconds(), 1, d.mostWork.Seconds()},
			Batch:  BatchLimits{mostItems, mostHeavyItems, batchTime.Seconds()},
			Stream: StreamLimits{mostStreams, mostLine, streamPause.Seconds(), streamTime.Seconds()},
			Client: ClientLimits{ReadHeaderTimeout.Seconds(), MaxHeaderBytes, ReadTimeout.Seconds(), WriteTimeout.Seconds(), MaxConnections},
		}
		if d.limiter != nil {
			l.Rate = &RateLimits{d.limiter.PerSecond, d.limiter.Burst, itemsPerUnit}
		}
		return writeTable(c, l)
	}
}
