package shelf

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Records come as loggers write them: in F, with a decimal comma, a clock of twelve hours, the day
// or the month first, as one row of them tells.
func TestRecordsOfLoggers(t *testing.T) {
	for name, c := range map[string]struct{ text, first, second string }{
		"month first":   {"Date,Temp_F,RH\n3/4/2025 1:05 PM,68,45\n3/25/2025 12:00 AM,68,45\n", "2025-03-04T13:05:00", "2025-03-25T00:00:00"},
		"day first":     {"Date;Temp (C);RH (%)\n03/04/2025 13:05;20,0;45,0\n25/04/2025 12:00:30;20,0;45,0\n", "2025-04-03T13:05:00", "2025-04-25T12:00:30"},
		"dots":          {"Zeit time\tTemp C\tRH\n3.4.2025\t20,0\t45\n4.4.2025\t20,0\t45\n", "2025-04-03", "2025-04-04"},
		"year first":    {"time,temperature (°F),humidity\n2025/4/3 01:00 PM,68,45\n2025-04-04 12:30 pm,68,45%\n", "2025-04-03T13:00:00", "2025-04-04T12:30:00"},
		"as of old":     {"time,temperature_c,rh_pct\n2025-04-03T10:00:00Z,20,45\n2025-04-04,20,45\n", "2025-04-03T10:00:00Z", "2025-04-04"},
		"either way":    {"time,temperature_c,rh_pct\n4/4/2025,20,45\n5/5/2025,20,45\n", "2025-04-04", "2025-05-05"},
		"none of these": {"time,temperature_c,rh_pct\n4/4/25,20,45\n13:00,20,45\n", "4/4/25", "13:00"},
	} {
		rows, err := ReadLog(c.text)
		require.NoError(t, err, name)
		require.Len(t, rows, 2, name)
		assert.Equal(t, []string{c.first, c.second}, []string{rows[0].Time, rows[1].Time}, name)
		assert.InDelta(t, 20, rows[0].Temperature.SI.Celsius(), 0.01, name)
		assert.InDelta(t, 45, *rows[0].RH, 0, name)
	}
	_, err := ReadLog("time,temperature_c,rh_pct\n3/4/2025,20,45\n4/5/2025,20,45\n")
	require.ErrorContains(t, err, "no row tells whether the day or the month stands first")
	assert.ErrorContains(t, err, "2025-04-03")
	_, err = ReadLog("time,temperature_c,rh_pct\n25/4/2025,20,45\n4/25/2025,20,45\n3/4/2025,20,45\n")
	require.Error(t, err, "both ways")
	_, err = ReadLog("time,temperature_c,rh_pct\n2025-04-03,\"20,0\",45\n")
	require.Error(t, err, "between commas there is no decimal comma")
}
