package serve_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"latewood/api/internal/asking"
	"latewood/api/internal/wire"
)

// BenchmarkEncode encodes a year of parts, which is mostly numbers: as answers are, and as
// encoding/json does with all digits.
func BenchmarkEncode(b *testing.B) {
	s := asking.SharedService()
	answer, _, err := s.Encoded(b.Context(), "/v1/year-in-service", asking.ExampleBodies(b)["/v1/year-in-service"][0])
	if err != nil {
		b.Fatal(err)
	}
	var out bytes.Buffer
	b.Run("answer", func(b *testing.B) {
		encoder := wire.NewEncoder(&out)
		for b.Loop() {
			out.Reset()
			if err := encoder.Encode(answer); err != nil {
				b.Fatal(err)
			}
		}
		b.ReportMetric(float64(out.Len()), "bytes")
	})
	b.Run("all digits", func(b *testing.B) {
		encoder := json.NewEncoder(&out)
		for b.Loop() {
			out.Reset()
			if err := encoder.Encode(answer); err != nil {
				b.Fatal(err)
			}
		}
		b.ReportMetric(float64(out.Len()), "bytes")
	})
}
