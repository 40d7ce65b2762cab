package dry_test

import (
	"encoding/json"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/dry"
	"latewood/api/internal/shelf"
)

// billet is a request about a billet with a history, in parts that a test changes.
type billet map[string]any

// rackBillet reads a billet of the demo.
func rackBillet(t testing.TB, name string) billet {
	t.Helper()
	text, err := os.ReadFile("../../../testdata/demo/rack/" + name)
	require.NoError(t, err)
	b := billet{}
	require.NoError(t, json.Unmarshal(text, &b))
	return b
}

// with is a copy with a member changed; a nil value leaves it out.
func (b billet) with(name string, value any) billet {
	c := maps.Clone(b)
	if c[name] = value; value == nil {
		delete(c, name)
	}
	return c
}

// asOf is a copy for another day.
func (b billet) asOf(date string) billet {
	history, _ := b["history"].(map[string]any)
	history = maps.Clone(history)
	history["as_of"] = date
	return b.with("history", history)
}

func (b billet) list(name string) []any {
	list, _ := b[name].([]any)
	return slices.Clone(list)
}

// until are the entries of a list up to a day.
func (b billet) until(name, date string) []any {
	return slices.DeleteFunc(b.list(name), func(entry any) bool { return entryDate(entry) > date })
}

func entryDate(entry any) string {
	members, _ := entry.(map[string]any)
	date, _ := members["date"].(string)
	return date
}

// reweighed is a dated weight in kg with another factor on it.
func reweighed(t testing.TB, entry any, factor float64) any {
	t.Helper()
	members, _ := entry.(map[string]any)
	text, _ := members["mass"].(string)
	mass := asking.NumberIn(t, strings.TrimSuffix(text, " kg"))
	return map[string]any{"date": members["date"], "mass": strconv.FormatFloat(mass*factor, 'f', 3, 64) + " kg"}
}

func (b billet) ask(t testing.TB) dry.ReadinessResult {
	t.Helper()
	body, err := json.Marshal(b)
	require.NoError(t, err)
	return asking.AnswerTo[dry.ReadinessResult](t, "/v1/readiness", string(body)).Result
}

func verdicts(r *dry.ReadinessResult) map[string]string {
	said := map[string]string{}
	for _, s := range r.Steps {
		said[s.Step] = s.Verdict
	}
	return said
}

// The wrong weight of the rack is found, named, explained, and counts for nothing:
// the answer is that of the billet never weighed that day.
func TestWrongWeightIsFound(t *testing.T) {
	b := rackBillet(t, "b-black-walnut.json")
	r := b.ask(t)
	require.Len(t, r.SetAside, 1)
	found := r.SetAside[0]
	assert.Equal(t, "/weights/4", found.Pointer)
	assert.Equal(t, "2026-01-04", found.Date)
	assert.False(t, found.Undecided)
	assert.Contains(t, found.Slip, "swapped")
	assert.Contains(t, found.Detail, "12.02 kg does not fit", "in the unit it was written in")
	assert.Contains(t, found.Slip, "10.22 for 12.02")

	without := b.with("weights", slices.Delete(b.list("weights"), 4, 5)).ask(t)
	assert.Empty(t, without.SetAside)
	assert.InDelta(t, without.Moisture.MC.ValuePct, r.Moisture.MC.ValuePct, 0.1)
	assert.InEpsilon(t, without.Learned.Factor.Median, r.Learned.Factor.Median, 0.05)
	assert.Equal(t, verdicts(&without), verdicts(&r))
}

// Whichever weight is off by a tenth is the one that is set aside, but for the first: of
// how wet it was when stacked nothing else speaks.
func TestAnyWrongWeightIsFound(t *testing.T) {
	if asking.UnderRace {
		t.Skip("one goroutine and many forecasts")
	}
	b := rackBillet(t, "g-bigleaf-maple.json")
	sound := b.ask(t)
	require.Empty(t, sound.SetAside, "the sound series raises no alarm")
	for i := range b.list("weights") {
		if i == 0 {
			continue
		}
		factor := []float64{1.1, 0.9}[i%2]
		weights := b.list("weights")
		weights[i] = reweighed(t, weights[i], factor)
		r := b.with("weights", weights).ask(t)
		require.Len(t, r.SetAside, 1, "%d %g", i, factor)
		assert.Equal(t, "/weights/"+strconv.Itoa(i), r.SetAside[0].Pointer)
		assert.Equal(t, entryDate(weights[i]), r.SetAside[0].Date)
		assert.InDelta(t, sound.Moisture.MC.ValuePct, r.Moisture.MC.ValuePct, 0.6, "%d %g", i, factor)
	}
}

// The order of readings does not matter but for the pointers.
func TestOrderOfReadingsDoesNotMatter(t *testing.T) {
	b := rackBillet(t, "b-black-walnut.json")
	readings := b.list("readings")
	require.Len(t, readings, 3)
	forward := b.ask(t)
	slices.Reverse(readings)
	backward := b.with("readings", readings).ask(t)
	assert.InDelta(t, forward.Moisture.MC.ValuePct, backward.Moisture.MC.ValuePct, 1e-6)
	assert.InDelta(t, forward.Moisture.SDPct, backward.Moisture.SDPct, 1e-6)
	assert.InDelta(t, forward.Learned.Factor.Median, backward.Learned.Factor.Median, 1e-7)
	assert.Equal(t, verdicts(&forward), verdicts(&backward))
	assert.Equal(t, forward.SetAside, backward.SetAside, "the weights kept their places")
	for i := range forward.Steps {
		assert.Equal(t, forward.Steps[i].ReadyOn.Middle, backward.Steps[i].ReadyOn.Middle)
	}
}

// Readings narrow the band: none, the first weights, all of them, and an ovendry
// sample on top.
func TestMoreReadingsNarrowTheBand(t *testing.T) {
	if asking.UnderRace {
		t.Skip("one goroutine and many forecasts")
	}
	b := rackBillet(t, "g-bigleaf-maple.json")
	spread := func(b billet) (float64, float64) {
		r := b.ask(t)
		return r.Moisture.MC.HighPct - r.Moisture.MC.LowPct, r.Learned.Factor.High / r.Learned.Factor.Low
	}
	bare := b.with("weights", nil).with("readings", nil)
	none, factorNone := spread(bare)
	weighed, factorWeighed := spread(b.with("readings", nil))
	all, _ := spread(b)
	sampled, _ := spread(b.with("known_mc", map[string]any{"date": "2026-03-14", "mc_pct": 9.6, "sd_pct": 0.2}))
	assert.Less(t, weighed, none, "eight weights tell")
	assert.Less(t, factorWeighed, factorNone, "and narrow the pace")
	assert.Less(t, all, weighed*1.05, "a meter of 3 points tells little more")
	assert.Less(t, sampled, 0.7*all, "a sample tells most")
	assert.Less(t, sampled, 1.3)

	// Of the day in the past nothing is learned from what was read later.
	early := b.asOf("2024-06-08").with("weights", b.until("weights", "2024-06-08")).with("readings", b.until("readings", "2024-06-08"))
	r := early.ask(t)
	assert.Equal(t, 2, r.Learned.ReadingsUsed)
}

// The same billet goes from not ready to ready as the days go by.
func TestDaysMoveTheVerdict(t *testing.T) {
	if asking.UnderRace {
		t.Skip("one goroutine and many forecasts")
	}
	b := rackBillet(t, "g-bigleaf-maple.json")
	rank := map[string]int{"not_ready": 0, "cannot_say": 1, "ready": 2}
	moisture, reached := 1000.0, -1
	seen := map[string]bool{}
	for _, day := range []string{"2024-06-08", "2025-06-07", "2026-01-10", "2026-04-25"} {
		r := b.asOf(day).with("weights", b.until("weights", day)).with("readings", b.until("readings", day)).ask(t)
		assert.Less(t, r.Moisture.MC.ValuePct, moisture+0.3, day)
		moisture = r.Moisture.MC.ValuePct
		said := verdicts(&r)
		now := rank[said["resaw"]] + rank[said["thickness"]] + rank[said["glue"]]
		assert.GreaterOrEqual(t, now, reached, day)
		reached = now
		seen[said["thickness"]] = true
		for _, s := range r.Steps {
			require.NotNil(t, s.ReadyOn)
			if s.ReadyOn.Early != "" {
				assert.GreaterOrEqual(t, s.ReadyOn.Early, day, "no step was ready in the past")
			}
			if s.ReadyOn.Middle != "" {
				assert.GreaterOrEqual(t, s.ReadyOn.Middle, s.ReadyOn.Early)
			}
			assert.True(t, s.ReadyOn.Never >= 0 && s.ReadyOn.Never <= 1+1e-9)
		}
	}
	assert.True(t, seen["not_ready"] && seen["ready"], "%v", seen)
}

// What to read next lies ahead, says what to expect and what it would mean.
func TestNextReading(t *testing.T) {
	if asking.UnderRace {
		t.Skip("one goroutine and many forecasts")
	}
	for _, name := range []string{"b-black-walnut.json", "g-bigleaf-maple.json", "h-white-oak.json", "i-western-redcedar.json"} {
		b := rackBillet(t, name)
		r := b.ask(t)
		n := r.Next
		require.NotNil(t, n, name)
		assert.GreaterOrEqual(t, n.Date, "2026-03-14", name)
		assert.Contains(t, []string{"weigh", "ovendry_sample", "pin_reading_at_the_core"}, n.What)
		assert.NotEmpty(t, n.Why)
		assert.NotEmpty(t, n.IfAbove)
		assert.NotEmpty(t, n.IfBelow)
		switch {
		case n.ExpectMass != nil:
			assert.Nil(t, n.ExpectMC)
			assert.Equal(t, "weigh", n.What)
			assert.Less(t, n.ExpectMass.Low, n.ExpectMass.Value)
			assert.Less(t, n.ExpectMass.Value, n.ExpectMass.High)
		default:
			require.NotNil(t, n.ExpectMC)
			assert.Less(t, n.ExpectMC.LowPct, n.ExpectMC.ValuePct)
			assert.Less(t, n.ExpectMC.ValuePct, n.ExpectMC.HighPct)
			if n.Date == "2026-03-14" {
				assert.InDelta(t, r.Moisture.MC.ValuePct, n.ExpectMC.ValuePct, 0.1*r.Moisture.MC.ValuePct, name)
			}
		}
	}
}

// The redcedar that lies outdoors is past the reach of any date, the oak is years
// away, and what was learned of each holds its truth in a wide band: a check of the
// simulated truth of the demo, not of a published figure.
func TestRackIsLearnedRight(t *testing.T) {
	if asking.UnderRace {
		t.Skip("one goroutine and many forecasts")
	}
	for i := range dry.Truths {
		tr := &dry.Truths[i]
		text, err := os.ReadFile(tr.File)
		require.NoError(t, err)
		r := asking.AnswerTo[dry.ReadinessResult](t, "/v1/readiness", string(text)).Result
		require.NotNil(t, r.Learned.Ovendry)
		half := (r.Learned.Ovendry.High - r.Learned.Ovendry.Low) / 2
		assert.InDelta(t, tr.Ovendry, r.Learned.Ovendry.Value, 2*half, tr.File)
		assert.Greater(t, tr.Factor, r.Learned.Factor.Low/1.3, tr.File)
		assert.Less(t, tr.Factor, r.Learned.Factor.High*1.3, tr.File)
		spread := func(f shelf.FactorUsed) float64 { return f.High / f.Low }
		assert.Less(t, spread(r.Learned.Factor), spread(r.Learned.FactorBefore), "readings narrow the pace: "+tr.File)
	}
	cedar := rackBillet(t, "i-western-redcedar.json").ask(t)
	for _, s := range cedar.Steps {
		if s.Step == "resaw" { // a dry late summer brings it within three points
			continue
		}
		assert.Greater(t, s.ReadyOn.Never, 0.9, s.Step)
	}
}

// A board that dries beside the billet tells of the billet, though not as much as
// the billet itself.
func TestSampleBoardTells(t *testing.T) {
	if asking.UnderRace {
		t.Skip("one goroutine and many forecasts")
	}
	b := rackBillet(t, "g-bigleaf-maple.json").with("readings", nil)
	spread := func(b billet) float64 {
		r := b.ask(t)
		return r.Moisture.MC.HighPct - r.Moisture.MC.LowPct
	}
	own := spread(b)
	board := spread(b.with("sample_board_weights", b["weights"]).with("weights", nil))
	none := spread(b.with("weights", nil))
	assert.Less(t, own, 1.05*board)
	assert.Less(t, board, 1.05*none, "which tells little more than nothing")
}
