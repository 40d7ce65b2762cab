package dry_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/dry"
)

func kindsOf(list []dry.DryingDefect) []string {
	kinds := make([]string, 0, len(list))
	for i := range list {
		kinds = append(kinds, list[i].Kind)
	}
	return kinds
}

// Wet wood that is kept damp is told that it rots, also where it lies there already, for as long as
// it is wet; and where it never dries enough to be brought in it is not told to wait for that.
func TestWoodKeptDampIsToldThatItRots(t *testing.T) {
	maple := func(stacked, exposure string) dry.ReadinessResult {
		return readinessOf(t, `"wood": "sugar maple", "length": "2000 mm", "width": "200 mm", "thickness": "52 mm", "stacked_on": "`+stacked+`"`,
			"2026-11-29", `{"station": "columbus-oh", "exposure": "`+exposure+`"}`, "").Result
	}
	r := maple("2026-06-01", "wrapped")
	assert.Subset(t, kindsOf(r.Defects), []string{"mould", "decay"})
	assert.Contains(t, r.Summary, "kept so damp it may rot")
	for i := range r.Defects {
		assert.GreaterOrEqual(t, r.Defects[i].Date, "2026-11-29", "what is ahead")
	}
	advice := strings.Join(r.Advice, "; ")
	assert.Contains(t, advice, "let air reach every face")
	assert.Contains(t, advice, "stack it on stickers under cover where the air is drier")

	r = maple("2026-06-01", "small_stack")
	assert.NotContains(t, kindsOf(r.Defects), "decay")
	assert.NotContains(t, r.Summary, "rot")
	assert.NotContains(t, strings.Join(r.Advice, "; "), "stack it on stickers under cover where the air is drier")
}

// What is brought into the room is told the day of every step there, also of one that it would be
// ready for where it lies, but later.
func TestTheDaysInTheRoomAreThoseOfAllStepsThatWait(t *testing.T) {
	r := readinessOf(t, `"wood": "european oak", "length": "2000 mm", "width": "200 mm", "thickness": "27 mm", "stacked_on": "2025-11-01"`,
		"2026-11-29", `{"station": "zurich", "exposure": "open_stack"}`, "").Result
	require.NotEqual(t, "ready", r.Verdicts[0].Verdict)
	require.NotEmpty(t, r.Verdicts[0].ReadyOn.Value)
	require.Empty(t, r.Verdicts[1].ReadyOn.Value)
	assert.Regexp(t, "There it would be ready to resaw about .*, to thickness about .*, to glue about ", strings.Join(r.Advice, " "))
}

var hardly = regexp.MustCompile(`expected to remove \d % of the uncertainty of the verdict`)

// Advice and the next reading agree: where no reading tells much, none is said to settle it.
func TestAdviceAndNextReadingAgree(t *testing.T) {
	told, little := 0, 0
	const shed, room = `{"station": "columbus-oh", "exposure": "shed"`, `, "until": "2026-10-15"}, ` + benchRoom
	for today, indoors := range map[string]string{"2026-07-20": "}", "2026-12-01": "}", "2026-10-16": room, "2026-11-05": room, "2026-11-29": room, "2027-03-01": room} {
		for _, thick := range []string{"27 mm", "54 mm"} {
			r := readinessOf(t, `"wood": "walnut-black", "length": "2000 mm", "width": "200 mm", "thickness": "`+thick+`", "stacked_on": "2024-04-01"`,
				today, shed+indoors, "").Result
			sample := strings.Contains(strings.Join(r.Advice, "; "), "which does not settle it")
			if hardly.MatchString(r.Next.Detail) {
				little++
				assert.False(t, sample, "%s on %s: %s", thick, today, r.Next.Detail)
			} else if sample {
				told++
			}
		}
	}
	assert.Positive(t, told)
	assert.Positive(t, little)
}

// A piece that is too short to cut a sample from is not told to.
func TestNoSampleIsCutFromAShortPiece(t *testing.T) {
	next := func(length string) string {
		r := readinessOf(t, `"wood": "walnut-black", "length": "`+length+`", "width": "100 mm", "thickness": "30 mm", "stacked_on": "2026-05-01"`,
			"2026-11-29", `{"station": "columbus-oh", "exposure": "shed"}`, "").Result
		require.NotNil(t, r.Next)
		require.Equal(t, "ovendry_sample", r.Next.Kind)
		return r.Next.Detail
	}
	assert.Contains(t, next("1000 mm"), "cut and oven-dry a sample")
	assert.NotContains(t, next("120 mm"), "cut and")
	assert.Contains(t, next("120 mm"), "an offcut of the same board")
}
