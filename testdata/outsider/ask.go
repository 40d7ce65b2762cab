package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"time"
)

func (b *billet) request(readings []reading) map[string]any {
	var entries, steps []any
	for _, x := range readings {
		entries = append(entries, x.entry)
	}
	for _, step := range []string{"resaw", "thickness", "glue"} {
		steps = append(steps, map[string]any{"step": step, "max_above_mc_points": limits[step],
			"max_below_mc_points": below, "max_gradient_mc_points": 0, "max_trend_mc_points": 0, "max_mass_change_pct_per_day": 0})
	}
	out := map[string]any{"billet": b.told, "stays": b.stays, "as_of": date(b.stacked.AddDate(0, 0, b.asOf)),
		"target_condition": map[string]any{"mc_pct": b.target}, "step_limits": steps, "horizon_days": horizon}
	if len(entries) > 0 {
		out["readings"] = entries
		out["scale_division"] = map[string]any{"value": b.division * 1000, "unit": "g"}
	}
	return out
}

type band struct {
	Value float64 `json:"value"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
}

type answer struct {
	Result struct {
		Moisture struct {
			MC *band `json:"mc"`
		} `json:"moisture"`
		Verdicts []struct {
			Step    string  `json:"step"`
			Verdict string  `json:"verdict"`
			Chance  float64 `json:"probability"`
			ReadyOn struct {
				Value   string  `json:"value"`
				Low     string  `json:"low"`
				High    string  `json:"high"`
				Undated string  `json:"undated"`
				From    string  `json:"likeliest_from"`
				Until   string  `json:"likeliest_until"`
				Never   float64 `json:"not_reached_probability"`
			} `json:"ready_on"`
		} `json:"verdicts"`
		Rejected []struct {
			Pointer   string `json:"pointer"`
			Detail    string `json:"detail"`
			Undecided bool   `json:"undecided"`
		} `json:"rejected_readings"`
		Calibration json.RawMessage `json:"calibration"`
	} `json:"result"`
}

var client = &http.Client{Timeout: 2 * time.Minute}

func ask(base string, request map[string]any) (answer, error) {
	body, err := json.Marshal(request)
	if err != nil {
		return answer{}, err
	}
	for {
		reply, err := client.Post(base+"/v1/readiness?detail=summary", "application/json", bytes.NewReader(body)) //nolint:noctx // a tool of the bench
		if err != nil {
			return answer{}, err
		}
		text, err := io.ReadAll(reply.Body)
		reply.Body.Close() //nolint:errcheck,gosec // read to its end
		if err != nil {
			return answer{}, err
		}
		switch reply.StatusCode {
		case http.StatusOK:
			var out answer
			return out, json.Unmarshal(text, &out)
		case http.StatusTooManyRequests, http.StatusServiceUnavailable:
			time.Sleep(2 * time.Second)
		default:
			return answer{}, fmt.Errorf("%s: %s", reply.Status, text)
		}
	}
}
