package api_test

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"latewood/api/internal/shelf"
	"latewood/woodphys/method"
)

const physicsDocument = "../woodphys/PHYSICS.md"

const physicsHead = `# The physics

Every equation the service uses, with its range, accuracy and source. Written from the registry of methods by ` + "`make contract`" + `; do not edit. The same rows are served at ` + "`GET /v1/methods`" + `, and the code refuses or warns by them: outside the limit a request is refused, between the fitted range and the limit the answer carries a warning.

How a source was verified: *read*, in the publication or a copy of it; *memory*, recalled from the named publication and not re-read; *derived*, by geometry, arithmetic or statistics; *common practice*, a fact of the trade without a published source.

What is left out of each chapter, and why, stands in its ` + "`doc.go`" + `. What is known to be weak stands in [UNKNOWN.md](UNKNOWN.md); how well the drying model meets published times in [drying/AGREEMENT.md](drying/AGREEMENT.md), and how often the bands of the readiness hold the truth in [readiness/COVERAGE.md](readiness/COVERAGE.md).
`

// The page on the physics is the registry, so it cannot say anything else than
// what the code does.
func TestPhysicsPageHasNotDrifted(t *testing.T) {
	tables, err := shelf.LoadTables()
	require.NoError(t, err)
	var b strings.Builder
	b.WriteString(physicsHead)
	chapter := ""
	for _, m := range tables.Methods {
		if m.Chapter != chapter {
			chapter = m.Chapter
			fmt.Fprintf(&b, "\n## %s\n", chapter)
		}
		writeMethod(&b, m)
	}
	if *update {
		require.NoError(t, os.WriteFile(physicsDocument, []byte(b.String()), 0o644))
		return
	}
	committed, err := os.ReadFile(physicsDocument)
	require.NoError(t, err)
	have := strings.Split(string(committed), "\n")
	for i, line := range strings.Split(b.String(), "\n") {
		if i >= len(have) || have[i] != line {
			t.Fatalf("the registry changed: run make contract; line %d of %s is now %q", i+1, physicsDocument, line)
		}
	}
	require.Len(t, have, strings.Count(b.String(), "\n")+1)
}

func writeMethod(b *strings.Builder, m *method.Method) {
	fmt.Fprintf(b, "\n### %s\n\n%s.\n\n    %s\n\n", m.ID, m.Summary, m.Equation)
	for _, in := range m.Inputs {
		unit := in.Unit
		if unit == "" || unit == "1" {
			unit = "no unit"
		}
		fmt.Fprintf(b, "- `%s` (%s): fitted %s, limit %s\n", in.Name, unit, rangeText(in.Fitted), rangeText(in.Limit))
	}
	fmt.Fprintf(b, "\nAccuracy: %s.\nSource (%s): %s.\n", m.Accuracy, m.Checked, m.Source)
}

func rangeText(r method.Range) string {
	end := func(v float64) string {
		if math.IsInf(v, 0) {
			return "open"
		}
		return fmt.Sprintf("%g", v)
	}
	return end(r.Low) + " to " + end(r.High)
}
