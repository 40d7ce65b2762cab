package main

import (
	"errors"
	"flag"
	"os"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

var draw = flag.Bool("draw", false, "write the drawings of the README anew")

// drawings are the pictures the README shows, with the request of each.
var drawings = map[string][]string{
	"octave-mandolin.svg": {"ask", "--accept", "image/svg+xml", "assembly-movement", "../../testdata/demo/instrument/octave-mandolin.json"},
	"walnut-plank.svg":    {"ask", "--accept", "image/svg+xml", "resaw-plan", "../../testdata/demo/plank/walnut-plank.json"},
	"black-walnut.svg":    {"ask", "--accept", "image/svg+xml", "readiness", "../../testdata/demo/rack/b-black-walnut.json"},
}

// Every drawing the README shows is the one the service draws today: the same
// elements, every number within half a unit of the drawing.
func TestReadmeDrawings(t *testing.T) {
	number := regexp.MustCompile(`-?\d+(\.\d+)?`)
	for drawing, words := range drawings {
		t.Run(drawing, func(t *testing.T) {
			file := "../../testdata/demo/drawings/" + drawing
			status, out, failed := run(t, "", words...)
			require.Equal(t, exitOK, status, out+failed)
			if *draw {
				require.NoError(t, os.WriteFile(file, []byte(out), 0o644))
				return
			}
			committed, err := os.ReadFile(file)
			require.NoError(t, err)
			require.Equal(t, number.ReplaceAllString(string(committed), "#"), number.ReplaceAllString(out, "#"), "run make drawings")
			was, is := number.FindAllString(string(committed), -1), number.FindAllString(out, -1)
			for i := range was {
				a, errA := strconv.ParseFloat(was[i], 64)
				b, errB := strconv.ParseFloat(is[i], 64)
				require.NoError(t, errors.Join(errA, errB))
				require.InDelta(t, a, b, 0.5, "run make drawings")
			}
		})
	}
}
