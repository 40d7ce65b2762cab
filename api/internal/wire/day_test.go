package wire_test

import (
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/wire"
)

func TestDaysMeant(t *testing.T) {
	for text, want := range map[string]string{
		"3/4/2026":   "3/4/2026 may be 3 April 2026 (2026-04-03) or 4 March 2026 (2026-03-04)",
		"03-04-2026": "03-04-2026 may be 3 April 2026 (2026-04-03) or 4 March 2026 (2026-03-04)",
		"14.3.2026":  "14.3.2026 may be 14 March 2026 (2026-03-14)",
		"3.4.2026":   "3.4.2026 may be 3 April 2026 (2026-04-03)",
		"3/14/2026":  "3/14/2026 may be 14 March 2026 (2026-03-14)",
		"5/5/2026":   "5/5/2026 may be 5 May 2026 (2026-05-05)",
		"31.2.2026":  "", "3.14.2026": "", "2026-03-14": "", "3/4-2026": "", "soon": "", "3/4/26": "", "": "",
	} {
		assert.Equal(t, want, wire.DaysMeant(text), text)
	}
}

func FuzzDaysMeant(f *testing.F) {
	for _, text := range []string{"3/4/2026", "14.3.2026", "99/99/9999", "0/0/0000", "3/4"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if said := wire.DaysMeant(text); said != "" {
			assert.Contains(t, said, text+" may be ")
		}
	})
}

// The same table is read by the page.
func TestReadDay(t *testing.T) {
	text, err := os.ReadFile("../../../testdata/written/days.csv")
	require.NoError(t, err)
	read := 0
	for line := range strings.SplitSeq(string(text), "\n") {
		cells := strings.Split(line, ";")
		if strings.HasPrefix(line, "#") || len(cells) != 3 || cells[0] == "text" || cells[1] != "" {
			continue
		}
		day, is := wire.ReadDay(cells[0])
		assert.Equal(t, !strings.HasPrefix(cells[2], "!"), is, cells[0])
		if is {
			assert.Equal(t, cells[2], day, cells[0])
		}
		read++
	}
	assert.Greater(t, read, 15)
	for _, none := range []string{"", "14", "14.3", "3/4/2026", "31.2.2026", "14.3.26", "14.3/2026", "soon", "0 Mar 2026", "14 Marsch 2026", "99999-01-01", strings.Repeat("1", 50)} {
		_, is := wire.ReadDay(none)
		assert.False(t, is, none)
	}
}

func FuzzReadDay(f *testing.F) {
	for _, text := range []string{"2026-03-14", "14.3.2026", "3/14/2026", "3/4/2026", "14 Mar 2026", "March 14, 2026", "14. 3. 2026", "14-Mar-2026", "2026/3/14", "5/5/2026"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		day, is := wire.ReadDay(text)
		if !is {
			return
		}
		_, err := time.Parse(time.DateOnly, day)
		require.NoError(t, err, text)
		again, is := wire.ReadDay(day)
		require.True(t, is)
		require.Equal(t, day, again)
		if meant := wire.DaysMeant(text); strings.Contains(meant, " or ") {
			t.Fatalf("%q may be two days and was read as %s", text, day)
		}
	})
}
