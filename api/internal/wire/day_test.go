package wire_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

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
