package shelf

import (
	"bytes"
	"encoding/csv"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/wire"
	"latewood/woodphys/method"
	"latewood/woodphys/quantity"
)

// A record of air as CSV is read or refused; what was read can be written and
// read again.
func FuzzLog(f *testing.F) {
	for _, text := range []string{
		"time,temperature_c,rh_pct\n2026-03-01,12.5,71\n2026-03-02,13,69.5\n",
		"time, temperature_c, rh_pct\r\n2026-03-01T14:00:00Z, -5, 100\r\n",
		"time,temperature_c,rh_pct\n\"2026-03-01\",\"1e1\",\"0x1p4\"\n",
		"time,temperature_c,rh_pct\n2026-03-01,NaN,50\n",
		"time,temperature_c,rh_pct\n2026-03-01,20,+Inf\n",
		"time,temperature_c,rh_pct\n2026-03-01,20\n", "time,temperature_c,rh_pct\n\"", "time;temperature_c;rh_pct\n", "", "\ufefftime,temperature_c,rh_pct\n",
		"\"time,temperature_c,rh_pct\"\n0", // one cell that reads like three
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		rows, err := ReadLog(text)
		if err != nil {
			domain, ok := wire.AsDomain(err)
			require.True(t, ok, "%T %v", err, err)
			assert.Equal(t, "log_csv", domain.Input)
			assert.NotEmpty(t, domain.Detail)
			assert.Contains(t, []method.Code{method.OutOfRange, method.TooMuchWork}, domain.Code)
			return
		}
		require.LessOrEqual(t, len(rows), MostLogRows)
		var again bytes.Buffer
		writer := csv.NewWriter(&again)
		require.NoError(t, writer.Write(strings.Split(logHeader, ",")))
		for _, row := range rows {
			require.True(t, quantity.Finite(row.Temperature.SI.Kelvin()), text)
			require.True(t, *row.RH >= 0 && *row.RH <= 100, text)
			require.NoError(t, writer.Write([]string{row.Time, strconv.FormatFloat(row.Temperature.SI.Celsius(), 'g', -1, 64), strconv.FormatFloat(*row.RH, 'g', -1, 64)}))
		}
		writer.Flush()
		back, err := ReadLog(again.String())
		require.NoError(t, err, again.String())
		require.Len(t, back, len(rows))
		for i := range rows {
			// Kelvin and back costs a few units in the last place.
			assert.InDelta(t, rows[i].Temperature.SI.Kelvin(), back[i].Temperature.SI.Kelvin(), 1e-9*max(1, rows[i].Temperature.SI.Kelvin()))
			assert.Equal(t, *rows[i].RH, *back[i].RH)
			// A line break inside a quoted cell is read as a line feed, however written.
			assert.Equal(t, strings.ReplaceAll(rows[i].Time, "\r\n", "\n"), back[i].Time)
		}
	})
}

// A record as loggers write it is read whatever its columns are called and stand.
func TestHeadersOfLoggers(t *testing.T) {
	for _, text := range []string{
		"time,temperature_c,rh_pct\n2026-03-01 14:00,20,45\n",
		"time,temperature_f,rh_pct\n2026-03-01 14:00,68,45\n",
		"#;Date/Time;Temperature (\u00b0F);Relative Humidity (%);Dew Point (\u00b0F)\n1;2026-03-01 14:00:00;68.0;45.0;46\n",
		"\ufeffNo.,Timestamp,RH (%),Temp (\u00b0C),Battery (V)\r\n1,2026/03/01 14:00,45%,20,3.1\r\n",
		"Date\tT [C]\tH [%]\n2026-03-01T14:00\t20\t45\n",
	} {
		rows, err := ReadLog(text)
		require.NoError(t, err, text)
		require.Len(t, rows, 1, text)
		assert.InDelta(t, 20, rows[0].Temperature.SI.Celsius(), 1e-9, text)
		assert.InDelta(t, 45, *rows[0].RH, 0, text)
		at, err := ParseTime(rows[0].Time)
		require.NoError(t, err, text)
		assert.Equal(t, 14, at.Hour())
	}
}
