package api

import (
	"context"
	"errors"
	"net/http"
	"time"

	"latewood/api/internal/rack"
)

// DemoRack fills an empty rack with a shop of our own invention, as it would be on a day.
func DemoRack(_ context.Context, r *Rack, today time.Time) error {
	s, err := New(Config{Version: "demo", Rack: r})
	if err != nil {
		return err
	}
	return rack.Demo(today, func(path string, body []byte) ([]byte, error) {
		status, answer := s.Ask(http.MethodPost, path, "", body)
		if status != http.StatusOK {
			return nil, errors.New(path + ": " + string(answer))
		}
		return answer, nil
	})
}
