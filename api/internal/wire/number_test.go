package wire_test

import (
	"bytes"
	"encoding/json"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/api/internal/wire"
	"latewood/woodphys/quantity"
)

func encoded(t interface {
	require.TestingT
	Helper()
}, v any) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, wire.NewEncoder(&out).Encode(v))
	return strings.TrimSuffix(out.String(), "\n")
}

// A band is told to the power of ten below a hundredth of its width, all three to one
// place; a value without a band to the resolution of its unit.
func TestNumbersAreToldAsTheirBandMeans(t *testing.T) {
	for _, row := range []struct {
		of   any
		want string
	}{
		{wire.Band{Value: -3.5948, Low: -4.9961, High: -2.1934, Unit: "mm"}, `{"value":-3.59,"low":-5,"high":-2.19,"unit":"mm"}`},
		{wire.Band{Value: 12.8499, Low: 8.123, High: 28.999999999999996, Unit: "%MC"}, `{"value":12.8,"low":8.1,"high":29,"unit":"%MC"}`},
		{wire.Band{Value: 12345, Low: 2345, High: 22345, Unit: "MPa"}, `{"value":12300,"low":2300,"high":22300,"unit":"MPa"}`},
		{wire.Band{Value: 7.99999, Low: 7.99999, High: 7.99999, Unit: "%MC"}, `{"value":8,"low":8,"high":8,"unit":"%MC"}`},
		{wire.Band{Value: -1.6e-17, Low: -1.7e-17, High: 0, Unit: "mm"}, `{"value":0,"low":0,"high":0,"unit":"mm"}`},
		{wire.Quantity{Value: 299.9996, Unit: "mm"}, `{"value":300,"unit":"mm"}`},
		{wire.Quantity{Value: -0.0001, Unit: "mm"}, `{"value":0,"unit":"mm"}`},
		{wire.ReportIn(wire.InchLB).Length(0.1234567), `{"value":4.8605,"unit":"in"}`},
		{wire.ReportIn(wire.InchLB).Cut(0.000396875), `{"value":0.015625,"unit":"in"}`},
		{wire.ReportIn(wire.Metric).Cut(0.000396875), `{"value":0.396875,"unit":"mm"}`},
		{wire.Quantity{Value: 28.999999999999996, Unit: "C"}, `{"value":29,"unit":"C"}`},
		{wire.Range{Low: 150.00049, High: 299.9999, Unit: "mm"}, `{"low":150,"high":300,"unit":"mm"}`},
	} {
		assert.Equal(t, row.want, encoded(t, row.of))
	}
}

// Rounding moves no value out of its band, moves it by half a step at most, and leaves no
// minus before zero and no exponent.
func TestRoundingKeepsTheOrder(t *testing.T) {
	units := []string{"mm", "in", "%MC", "MPa", "1/m", "1", "points/day"}
	rapid.Check(t, func(t *rapid.T) {
		size := math.Pow(10, rapid.Float64Range(-9, 6).Draw(t, "size"))
		middle := rapid.Float64Range(-1, 1).Draw(t, "middle") * 100 * size
		b := wire.Band{Value: middle, Low: middle - rapid.Float64Range(0, 1).Draw(t, "low")*size,
			High: middle + rapid.Float64Range(0, 1).Draw(t, "high")*size, Unit: rapid.SampledFrom(units).Draw(t, "unit")}
		text := encoded(t, b)
		var told wire.Band
		require.NoError(t, json.Unmarshal([]byte(text), &told))
		assert.LessOrEqual(t, told.Low, told.Value, text)
		assert.LessOrEqual(t, told.Value, told.High, text)
		finest, err := strconv.ParseFloat(wire.Resolutions()[b.Unit], 64)
		require.NoError(t, err)
		step := max((b.High-b.Low)/100, finest)
		for _, pair := range [][2]float64{{b.Low, told.Low}, {b.Value, told.Value}, {b.High, told.High}} {
			assert.LessOrEqual(t, math.Abs(pair[0]-pair[1]), 0.5*step*(1+1e-9)+1e-12*math.Abs(pair[0]), text)
		}
		assert.NotContains(t, strings.ReplaceAll(text, `"`+b.Unit+`"`, ""), "-0,")
		assert.NotContains(t, strings.ToLower(strings.ReplaceAll(text, `"`+b.Unit, "")), "e+")
	})
}

// A number of a length that was cut is found again from inches, to the nanometre.
func TestCutsComeBackFromInches(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		nm := rapid.Int64Range(0, 5_000_000_000).Draw(t, "nm")
		for _, in := range []string{wire.Metric, wire.InchLB} {
			q := wire.ReportIn(in).Cut(quantity.Length(float64(nm) * 1e-9))
			back, err := quantity.LengthOf(q.Told(), q.Unit)
			require.NoError(t, err)
			assert.Equal(t, nm, int64(math.Round(float64(back)*1e9)), q.Text())
		}
	})
}

// All but the numbers is as encoding/json has it.
func TestEncoderWritesWhatOthersDo(t *testing.T) {
	type inner struct {
		Text string `json:"text,omitempty"`
		Flag bool   `json:"flag"`
	}
	type outer struct {
		inner
		Name    string           `json:"name"`
		Left    *inner           `json:"left,omitempty"`
		Zero    inner            `json:"zero,omitzero"`
		List    []int            `json:"list"`
		Raw     json.RawMessage  `json:"raw"`
		Any     any              `json:"any"`
		Map     map[string]int   `json:"map"`
		Days    *float64         `json:"wide_days"`
		Shares  []float64        `json:"at_least_probability"`
		Nested  []map[string]any `json:"nested,omitempty"`
		Unnamed int
		hidden  int
		Skipped int `json:"-"`
	}
	for _, v := range []any{
		outer{}, nil, "a <b> & \"c\" \x01 é", []any{1, "x", nil, true},
		outer{inner: inner{Text: "a\nb"}, Name: "\xff", Left: &inner{Flag: true}, List: []int{1, 2}, Raw: json.RawMessage(`{"a":1}`),
			Any: map[string]string{"k": "<v>"}, Map: map[string]int{"b": 1, "a": 2}, Days: new(2.5), Shares: []float64{0.5, 1}, hidden: 1},
	} {
		var plain bytes.Buffer
		other := json.NewEncoder(&plain)
		other.SetEscapeHTML(false)
		require.NoError(t, other.Encode(v))
		assert.JSONEq(t, plain.String(), encoded(t, v))
	}
	var out bytes.Buffer
	require.Error(t, wire.NewEncoder(&out).Encode([]any{"half", math.NaN()}))
	assert.Zero(t, out.Len(), "all or nothing")
}
