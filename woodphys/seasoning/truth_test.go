package seasoning_test

import (
	"fmt"
	"math"
	"os"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/species"
	"latewood/testdata/truth"
	"latewood/woodphys/drying"
	"latewood/woodphys/moisture"
	"latewood/woodphys/quantity"
	"latewood/woodphys/readiness"
	"latewood/woodphys/seasoning"
	"latewood/woodphys/sorption"
	"latewood/woodphys/wood"
)

// woodOf is a wood of the tables as the service takes it.
func woodOf(t testing.TB, id string) wood.Wood {
	t.Helper()
	tables, err := species.Default()
	require.NoError(t, err)
	row, ok := tables.Wood(id)
	require.True(t, ok, id)
	f := row.DryingFactor
	green := row.BestGreen()
	return wood.Wood{
		SpecificGravity: wood.Published(row.SpecificGravityGreen.Or(0.5)), FibreSaturation: quantity.Moisture(row.FibreSaturation.Or(30) / 100),
		Volumetric: wood.Published(row.Volumetric.Or(12) / 100),
		Green:      quantity.Moisture(green.Or(0) / 100), GreenSD: quantity.Moisture(green.Spread.Or(0) / quantity.Z90 / 100),
		Pace: wood.Pace{Factor: f.Factor.Or(0), Misfit: f.Misfit}, Listing: wood.Listing(row.Group), Group: wood.Group(row.Botany()), Ease: wood.Ease(row.Drying.Class),
	}
}

// judgedTruth is a billet of the generator as a maker would ask of it, with the answer.
func judgedTruth(t testing.TB, b *truth.Billet, readings []truth.Reading) (*readiness.HistoryAnswer, readiness.HistoryQuestion) {
	t.Helper()
	q := askedTruth(t, b, readings)
	a, err := readiness.JudgeHistory(t.Context(), &q)
	require.NoError(t, err)
	return a, q
}

// askedTruth is what a maker would ask of a billet of the generator.
func askedTruth(t testing.TB, b *truth.Billet, readings []truth.Reading) readiness.HistoryQuestion {
	t.Helper()
	normals := drying.Normals{HasTemperature: true}
	for i := range 12 {
		normals.Temperature[i], normals.RH[i] = quantity.Celsius(b.Place.C[i]), b.Place.RH[i]/100
	}
	outdoors, err := drying.Station(normals, b.StackedOnDay)
	require.NoError(t, err)
	exposure := drying.Shed()
	if b.Yard {
		exposure = drying.OpenStack()
	}
	w := woodOf(t, b.Wood.ID)
	mm := quantity.Millimetre
	piece := seasoning.Piece{Wood: w, Thickness: quantity.Length(b.ThicknessMM) * mm, RingAngle: drying.UsualRingAngle, Phases: []drying.Phase{
		{Length: quantity.Duration(b.Outdoors) * quantity.Day, Climate: outdoors, Exposure: exposure},
		{Length: quantity.Duration(b.Horizon-b.Outdoors) * quantity.Day, Climate: shop(t, 0.45), Exposure: drying.ClosedRoom()},
	}}
	piece.MayBeDry = true
	prior, err := piece.Setup()
	require.NoError(t, err)
	room := seasoning.Room{Temperature: quantity.Celsius(20), RelativeHumidity: 0.45}
	rest, err := room.For(0, 0, sorption.CurvesOf(&w)) // as the service asks where nothing is told of the start
	require.NoError(t, err)
	volume := quantity.Volume(b.ThicknessMM * b.WidthMM * b.LengthMM * 1e-9)
	body, err := readiness.GuessedBody("billet", volume, &w, rest.Moisture.Value)
	require.NoError(t, err)
	q := readiness.HistoryQuestion{Billet: readiness.Billet{Wood: w, Width: quantity.Length(b.WidthMM) * mm, Thickness: piece.Thickness}, Setup: prior.Setup,
		Today: quantity.Duration(b.Now) * quantity.Day, Target: rest.Moisture, Room: rest.Room}
	q.Setup.Bodies = []readiness.Body{body}
	bias, single := readiness.MeterBias(1.75 * quantity.PercentMC)
	q.Setup.Meters = []readiness.Meter{{BiasSD: bias}}
	for _, r := range readings {
		o := readiness.Observation{At: quantity.Duration(r.Day) * quantity.Day}
		switch r.Kind {
		case truth.Weight:
			o.Kind, o.Weighing = readiness.Weight, moisture.Weighing{Mass: quantity.Mass(r.Grams) * quantity.Gram, Resolution: quantity.Mass(r.Division) * quantity.Gram}
		case truth.Pin:
			o.Kind, o.MC, o.SD = readiness.Pin, quantity.Moisture(r.Pct/100), single
		case truth.Ovendry:
			o.Kind, o.MC, o.SD = readiness.Sample, quantity.Moisture(r.Pct/100), max(0.6*quantity.PercentMC, quantity.Moisture(0.015*r.Pct/100))
		}
		q.Observations = append(q.Observations, o)
	}
	return q
}

// truthScore is what an answer was worth.
type truthScore struct {
	mc, date   bool // held
	undated    bool // it may be ready on the day itself, and no date is told
	width      float64
	days       float64
	sentAside  bool
	ready      bool
	wrong      bool
	pit        float64 // where the truth lies in its band, as a probability
	sure       float64 // probability of the step
	is         bool    // whether it is ready
	now, later versus  // moisture content today and in two months
	due        versus  // days until the step is ready
	note       string
}

// versus is a score beside those of plain forecasts; NaN where there is none.
type versus struct{ score, stays, exponential float64 }

// truthReadings are how many readings a billet has.
func truthReadings() []int {
	if os.Getenv("LATEWOOD_TRUTHS") == "" {
		return []int{0, 8}
	}
	if os.Getenv("LATEWOOD_FEW") != "" {
		return []int{3, 8, 15}
	}
	return []int{0, 3, 8, 15}
}

const truthStep = readiness.Thickness

// ahead is how far ahead of today the moisture content is scored.
const ahead = 60

func scoreTruth(t testing.TB, b *truth.Billet, n int) truthScore {
	t.Helper()
	a, q := judgedTruth(t, b, b.Some(n))
	s := truthScore{sentAside: len(a.Posterior.Contradictions) > 0}
	y, band := b.MeanPct[b.Now], a.Now.Mean
	s.mc, s.width = y >= band.Low.Percent() && y <= band.High.Percent(), (band.High - band.Low).Percent()
	half := float64(band.High - band.Value)
	if y < band.Value.Percent() {
		half = float64(band.Value - band.Low)
	}
	s.pit = 0.5 * math.Erfc(-(y/100-float64(band.Value))/(half/quantity.Z90)/math.Sqrt2)
	limits := readiness.LimitsFor(truthStep, q.Billet.Thickness)
	due := readyTruth(b, limits)
	for i := range a.Verdicts {
		if a.Verdicts[i].Step != truthStep {
			continue
		}
		s.sure, s.is = a.Verdicts[i].Probability, due <= float64(b.Now)
		s.ready = a.Verdicts[i].Outcome == readiness.Ready
		s.wrong = s.ready && due > float64(b.Now)
		d := a.Dates[i]
		end := func(x readiness.Date) float64 {
			if !x.Within {
				return b.Horizon
			}
			return x.At.Days()
		}
		low, high := end(d.Low), end(d.High)
		if s.undated = d.Perhaps; !s.undated {
			s.date, s.days = due >= low-1 && due <= high+1, high-low
		}
		s.note = fmt.Sprintf("%s %.0f mm %d d: %.1f in %.1f..%.1f (%.1f); due %.0f in %.0f..%.0f; aside %d; k %.2f start %.0f of %.0f", b.Wood.ID, b.ThicknessMM, b.Now, y,
			band.Low.Percent(), band.High.Percent(), band.Value.Percent(), due, low, high, len(a.Posterior.Contradictions), a.Posterior.Factor.Value, a.Posterior.StartMC.Value.Percent(), b.StartPct)
	}
	s.ranked(t, b, a, &q, limits, n)
	return s
}

// ranked fills the scores of the answer and of the plain forecasts beside it, which are
// given its middle of today and its ovendry mass.
func (s *truthScore) ranked(t testing.TB, b *truth.Billet, a *readiness.HistoryAnswer, q *readiness.HistoryQuestion, limits readiness.Limits, n int) {
	t.Helper()
	today, rest := float64(b.Now), q.Target.Value.Percent()
	then, due := b.MeanPct[b.Now+ahead], readyTruth(b, limits)-today
	s.now = versus{levelScore(t, a.Posterior, today, b.MeanPct[b.Now]), math.NaN(), math.NaN()}
	s.later = versus{levelScore(t, a.Posterior, today+ahead, then), math.NaN(), math.NaN()}
	s.due = versus{dateScore(t, a.Posterior, q, limits, due), math.NaN(), math.NaN()}
	if n == 0 {
		return
	}
	above := limits.Above.Percent()
	now := a.Now.Mean.Value.Percent()
	s.later.stays = math.Abs(then - now)
	s.due.stays = due
	if math.Abs(now-rest) > above {
		s.due.stays = b.Horizon - today - due
	}
	line, ok := throughWeights(b.Some(n), a.Posterior.Ovendry[0].Value.Grams(), rest)
	if !ok {
		return
	}
	s.later.exponential = math.Abs(then - line.at(today+ahead))
	day := today
	for day < b.Horizon && math.Abs(line.at(day)-rest) > above {
		day++
	}
	s.due.exponential = math.Abs(day - today - due)
}

// readyTruth is the first day from now on that the true billet meets the limits; the
// horizon for never.
func readyTruth(b *truth.Billet, limits readiness.Limits) float64 {
	last := len(b.MeanPct) - 1
	for d := b.Now; d <= last; d++ {
		gap := (b.MeanPct[d] - b.RestPct) / 100
		if gap < -float64(limits.Below) || gap > float64(limits.Above) {
			continue
		}
		if limits.Gradient > 0 && math.Abs(b.GradientPct[d])/100 > float64(limits.Gradient) {
			continue
		}
		from, to := max(d-7, 0), min(d+7, last)
		moves := math.Abs(b.MeanPct[to]-b.MeanPct[from]) / 100 * 14 / float64(to-from)
		if limits.Trend > 0 && moves > float64(limits.Trend) {
			continue
		}
		return float64(d)
	}
	return b.Horizon
}

// truthRow sums scores up.
type truthRow struct {
	n, mc, date, dated, aside, ready, wrong int
	width, now, days, due                   float64
	pit                                     [5]int     // truths by fifths of what was foretold
	said, came                              [3]float64 // of the probability of being ready, by thirds of it: its sum, and how often it was
	asked                                   [3]int
	brier, base                             float64
}

func (r *truthRow) add(s truthScore) {
	r.n++
	r.pit[min(int(5*s.pit), 4)]++
	third := min(int(3*s.sure), 2)
	r.asked[third]++
	r.said[third] += s.sure
	is := 0.0
	if s.is {
		is = 1
	}
	r.came[third] += is
	r.brier += (s.sure - is) * (s.sure - is)
	r.base += is
	for _, c := range []struct {
		is bool
		to *int
	}{{s.mc, &r.mc}, {s.date, &r.date}, {!s.undated, &r.dated}, {s.sentAside, &r.aside}, {s.ready, &r.ready}, {s.wrong, &r.wrong}} {
		if c.is {
			*c.to++
		}
	}
	r.width, r.now, r.days, r.due = r.width+s.width, r.now+s.now.score, r.days+s.days, r.due+s.due.score
}

// calibrated tells how probabilities came true.
func (r *truthRow) calibrated(readings int) string {
	n := float64(r.n)
	text := fmt.Sprintf("| %d |", readings)
	for _, k := range r.pit {
		text += fmt.Sprintf(" %.0f", 100*float64(k)/n)
	}
	text += " |"
	for k, asked := range r.asked {
		if asked > 0 {
			text += fmt.Sprintf(" %.0f: %.0f (%d)", 100*r.said[k]/float64(asked), 100*r.came[k]/float64(asked), asked)
		}
	}
	often := r.base / n
	return text + fmt.Sprintf(" | %.3f | %.0f |\n", r.brier/n, 100*(1-r.brier/n/(often*(1-often))))
}

func (r *truthRow) line(f string, readings int) string {
	n := float64(r.n)
	return fmt.Sprintf("| %s | %d | %.0f | %.0f (%d) | %.1f | %d of %d | %.2f | %.2f | %.0f | %.1f |\n", f, readings, 100*float64(r.mc)/n,
		100*float64(r.date)/float64(max(r.dated, 1)), r.dated, 100*float64(r.aside)/n, r.wrong, r.ready, r.width/n, r.now/n,
		r.days/float64(max(r.dated, 1)), r.due/n)
}

// truthSeed is that of the billets: those that the uncertainties were chosen by, or others.
func truthSeed(t testing.TB) uint64 {
	t.Helper()
	seed := uint64(20)
	if text := os.Getenv("LATEWOOD_TRUTHS_SEED"); text != "" {
		_, err := fmt.Sscan(text, &seed)
		require.NoError(t, err)
	}
	return seed
}

// scoreAll scores billets with a number of readings, some at a time.
func scoreAll(t testing.TB, made []*truth.Billet, readings int) []truthScore {
	t.Helper()
	return ofEach(made, func(_ int, b *truth.Billet) truthScore { return scoreTruth(t, b, readings) })
}

// ofEach asks about billets, some at a time.
func ofEach[T any](made []*truth.Billet, ask func(i int, b *truth.Billet) T) []T {
	all := make([]T, len(made))
	var wait sync.WaitGroup
	turn := make(chan struct{}, 2)
	for i, b := range made {
		wait.Go(func() {
			turn <- struct{}{}
			defer func() { <-turn }()
			all[i] = ask(i, b)
		})
	}
	wait.Wait()
	return all
}

// A few billets of other truths.
func TestOtherTruths(t *testing.T) {
	if testing.Short() {
		t.Skip("dries many billets")
	}
	billets := 4
	if os.Getenv("LATEWOOD_TRUTHS") != "" {
		_, err := fmt.Sscan(os.Getenv("LATEWOOD_TRUTHS"), &billets)
		require.NoError(t, err)
	}
	var out strings.Builder
	all := tellTruths(t, truth.Families(), billets, truthSeed(t), &out)
	t.Logf("\n%s", out.String())
	if os.Getenv("LATEWOOD_SWEEP") == "1" {
		out.WriteString(truthsHeld)
		tellTruths(t, truth.Families(), billets, heldSeed, &out)
		text := fmt.Sprintf(truthsHead, billets) + out.String()
		require.NoError(t, os.WriteFile("TRUTHS.md", []byte(text), 0o600))
	}
	assert.Greater(t, float64(all.mc)/float64(all.n), 0.65)
	assert.Less(t, float64(all.aside)/float64(all.n), 0.10)
	assert.Greater(t, float64(all.date)/float64(all.dated), 0.75)
	assert.Greater(t, all.dated, all.n/2, "most are told a date")
}

// heldSeed is that of billets that nothing was chosen by, the first of four.
const heldSeed = 47

// blindSeeds are those of billets that nobody had seen when the numbers were settled, each
// the first of four; layersSeed is that of the fifth family, after 8390.
var blindSeeds = []uint64{6110, 7270}

const (
	layersSeed   = 9510
	blindBillets = 200
)

// The billets that nobody had seen, judged once with the settled numbers:
//
//	LATEWOOD_SWEEP=1 go test ./woodphys/seasoning -run TestBlindTruths -timeout 90m
func TestBlindTruths(t *testing.T) {
	if os.Getenv("LATEWOOD_SWEEP") != "1" {
		t.Skip("LATEWOOD_SWEEP=1 runs it; half an hour")
	}
	t.Setenv("LATEWOOD_TRUTHS", "1")
	var out strings.Builder
	out.WriteString(blindHead)
	for _, seed := range blindSeeds {
		fmt.Fprintf(&out, blindSeedHead, seed)
		out.WriteString(truthColumns)
		tellTruths(t, truth.Families(), blindBillets/len(truth.Families()), seed, &out)
	}
	require.NoError(t, os.WriteFile("BLIND.md", []byte(out.String()), 0o600))
}

// A family that shares nothing with the four, judged once:
//
//	LATEWOOD_SWEEP=1 go test ./woodphys/seasoning -run TestFifthFamily -timeout 60m
func TestFifthFamily(t *testing.T) {
	if os.Getenv("LATEWOOD_SWEEP") != "1" {
		t.Skip("LATEWOOD_SWEEP=1 runs it; some minutes")
	}
	t.Setenv("LATEWOOD_TRUTHS", "1")
	var out strings.Builder
	out.WriteString(layersHead)
	tellTruths(t, []truth.Family{truth.Layers}, blindBillets, layersSeed, &out)
	require.NoError(t, os.WriteFile("FIFTH.md", []byte(out.String()), 0o600))
}

const truthColumns = `
| family | readings | MC now held, % | ready date held, % (told) | aside, % | wrong ready | width, %MC | CRPS, %MC | width, d | CRPS, d |
|---|---|---|---|---|---|---|---|---|---|
`

const blindHead = `# What the bands hold of truths that nobody had seen

Written by ` + "`LATEWOOD_SWEEP=1 go test ./woodphys/seasoning -run TestBlindTruths -timeout 90m`" + `, once, after the numbers of the model had been settled; what came stands here whatever it is. The columns are those of TRUTHS.md.
`

const blindSeedHead = `
## Seed %d

50 billets of each of the four families.
`

const layersHead = `# What the bands hold of a fifth family of truths

Written by ` + "`LATEWOOD_SWEEP=1 go test ./woodphys/seasoning -run TestFifthFamily -timeout 60m`" + `, once, after the numbers of the model had been settled. The columns are those of TRUTHS.md.

200 billets (seed 9510) of a kind that shares nothing with the four but the table of woods (testdata/truth/layers.go): a board of two pools, skin and core, with free and bound water apart, that exchange by rates; a pile with a fan that is turned on and off; air that stays for days and jumps; a sorption loop in which the wood rests anywhere between two curves; weights by a spring balance that sticks and has a zero of its own.

It was run before with the seed 8390, by boards that took 21 days in a kiln where 6 are published, and four times too long in a room: of those MC was held in 68, 54, 66 and 76 % at 0, 3, 8 and 15 readings, dates in 16 to 20 %, and 43 of 76 verdicts "ready" were wrong, most of thick stock that dried for years. So wood that is three or four times slower than all that is published, while its wet stage is not, is beyond these bands. Then the levels of the family, not the model, were set to what is published (TestLayersMeetWhatIsPublished).

| family | readings | MC now held, % | ready date held, % (told) | aside, % | wrong ready | width, %MC | CRPS, %MC | width, d | CRPS, d |
|---|---|---|---|---|---|---|---|---|---|
`

// tellTruths judges billets of a seed and writes the tables.
func tellTruths(t *testing.T, families []truth.Family, billets int, seed uint64, out *strings.Builder) truthRow {
	t.Helper()
	var all truthRow
	rows := map[int]*truthRow{}
	var ranks skills
	for k, f := range families {
		made := truth.Make(f, billets, seed+uint64(k)) // other pieces in each family
		var prior []truthScore
		for _, n := range truthReadings() {
			var r truthRow
			if rows[n] == nil {
				rows[n] = new(truthRow)
			}
			scores := scoreAll(t, made, n)
			if n == 0 {
				prior = scores
			}
			for i, s := range scores {
				r.add(s)
				rows[n].add(s)
				all.add(s)
				if prior != nil {
					ranks.add(made[i], n, &prior[i], &scores[i])
				}
				if testing.Verbose() && os.Getenv("LATEWOOD_NOTES") != "" {
					t.Logf("%s %d: %s", f, n, s.note)
				}
			}
			out.WriteString(r.line(string(f), n))
		}
	}
	for _, n := range truthReadings() {
		out.WriteString(rows[n].line("all", n))
	}
	out.WriteString(truthsCalibrated)
	for _, n := range truthReadings() {
		out.WriteString(rows[n].calibrated(n))
	}
	out.WriteString(truthsSkill)
	out.WriteString(ranks.table())
	return all
}

const truthsCalibrated = `
PIT: truths in percent by the fifths of what was foretold of the moisture content, 20 each if it is calibrated (a ragged end means a band too narrow, a hump in the middle one too wide). Ready: the mean of the probabilities of the step below a third, up to two thirds and above, what came true of them in percent, and in how many verdicts. Brier: the mean square of what the probability missed by; skill: its gain on telling everybody the share of billets that are ready.

| readings | PIT | ready, told: came (verdicts) | Brier | skill, % |
|---|---|---|---|---|
`

const truthsSkill = `
Scores by readings, and of all answers with readings by the season of the answer and by thickness: CRPS of the moisture content today and in 60 days and of the days until the step is ready, each with its gain in percent on what was foretold of the same billet before any reading ("prior"), on "the weight stays" and on an exponential through the weighings down to where the wood is to rest. The last two are single values, whose score is their absolute error, and they are given the moisture content and the ovendry mass that the answer found.

| group | answers | now, %MC | on prior | in 60 d, %MC | on prior | on weight stays | on exponential | days | on prior | on weight stays | on exponential |
|---|---|---|---|---|---|---|---|---|---|---|---|
`

const truthsHeld = `
## Billets held back

The same with other seeds: other woods, places, laws and errors. No number was chosen by them, but they were looked at once, at a setting between the last two; so they are less blind than billets that nobody has seen.

| family | readings | MC now held, % | ready date held, % (told) | aside, % | wrong ready | width, %MC | CRPS, %MC | width, d | CRPS, d |
|---|---|---|---|---|---|---|---|---|---|
`

const truthsHead = `# What the bands hold of other truths

Written by ` + "`LATEWOOD_SWEEP=1 LATEWOOD_TRUTHS=%[1]d go test ./woodphys/seasoning -run TestOtherTruths -timeout 60m`" + `.

The truths come from testdata/truth, which shares no law, code or parameters with the chapters: diffusion that rises exponentially with free water of its own ("law"), a station and a shop that are off, with weather ("climate"), dates, scales, samples and a meter that are off and wood that was not green ("habits"), a receding front ("front"). Levels are those of published spans and kiln days. %[1]d billets of each family, always the same: a share of all has a standard error of 3 to 4 %%, one of a family of 6 to 8 %%. The dry date is that of the step "thickness".

"Held" counts truths inside the 90 %% band, dates among the billets that a band of days is told of: of what may be ready on the day itself none is; "aside" billets of which a reading was set aside although all are the maker's true ones; "wrong ready" verdicts "ready" before the limits are met. Widths are means. CRPS is the continuous ranked probability score, the integral of the squared difference between the probability foretold and what came, over the whole distribution of the answer: less is better. The uncertainties were chosen while looking at billets of the four families with the seeds 20 to 23, 47 to 50 and 300 to 303, the law by none. Billets that nobody had seen then, with the seeds 6110 to 6113 and 7270 to 7273, were judged once: BLIND.md; those of a fifth family: FIFTH.md.

Before the law had two regimes, and before the law and the stays were doubted, the same billets of the first table were told, with the same scores (measured once; the CRPS was larger than now under each of the four truths, with any number of readings):

| family | readings | MC now held, %% | ready date held, %% | aside, %% | wrong ready | width, %%MC | CRPS, %%MC | width, d | CRPS, d |
|---|---|---|---|---|---|---|---|---|---|
| all | 0 | 52 | 35 | 0.0 | 1 of 8 | 11.45 | 4.15 | 385 | 169.5 |
| all | 3 | 48 | 31 | 43.8 | 0 of 11 | 8.40 | 4.04 | 276 | 188.1 |
| all | 8 | 36 | 25 | 78.1 | 0 of 9 | 4.21 | 3.25 | 162 | 245.0 |
| all | 15 | 35 | 23 | 79.2 | 1 of 13 | 3.26 | 2.54 | 142 | 256.4 |

Each part of the uncertainty switched off in turn (36 billets of the families law, climate and habits, 3, 8 and 15 readings; mean widths before they were made narrower, and what was held then):

| without | width, %%MC | width, d | MC held, %% | date held, %% |
|---|---|---|---|---|
| nothing | 11.4, 5.3, 3.8 | 177, 168, 169 | 83, 86, 92 | 92, 97, 97 |
| common error of samples (3 %% of their moisture) | 11.4, 4.5, 2.6 | 176, 167, 159 | 83, 78, 89 | 92, 97, 92 |
| lasting discrepancy | 10.4, 5.2, 3.8 | 145, 137, 146 | 67, 78, 86 | 78, 86, 86 |
| error of the air of a stay | 10.8, 5.0, 3.7 | 158, 145, 145 | 72, 81, 86 | 81, 86, 83 |
| half of the spread of the drying factor | 11.0, 5.1, 3.7 | 154, 151, 146 | 78, 78, 81 | 92, 89, 89 |
| half of the spread of the pace | 11.5, 5.4, 3.8 | 182, 171, 167 | 83, 83, 83 | 89, 86, 89 |
| errors of the pace of single stays | 11.8, 5.2, 3.7 | 183, 177, 168 | 83, 83, 89 | 94, 94, 92 |
| most of the quick discrepancy | 11.4, 5.1, 3.5 | 223, 252, 231 | 75, 83, 89 | 83, 97, 97 |

So the samples made the bands of MC wide, and air, law and drying factor those of dates. Made narrower since: samples stray together by 2 %% of their moisture (3), the lasting discrepancy is 0.5 %%MC (0.6), the drying factor has a spread of 0.30 (0.35). The quick discrepancy rises with the slope of the sorption curve instead of being alike in damp and dry air.

With these, 400 billets (seeds 300 to 303) were held in 90, 80, 86 and 86 %% at 0, 3, 8 and 15 readings, with widths of 18.0, 9.0, 4.1 and 2.9 %%MC; true readings were set aside in 0, 3.0, 2.8 and 1.5 %%; in 36 and 77 of 400 answers with 8 and 15 readings the forecast had to be taken as less sure than told. Single failures showed why three readings held less than none: the two weights of a piece whose ovendry mass is guessed pin its moisture to the shape of the law, and where that errs they are surer than the forecast and no nearer (mean error with 3 readings as with none, 1.2 %%MC in a shop, at half the width); the factor of a stay in a cold yard was taken for that of dry wood in a warm shop; a shop told as 45 %%RH and really 40 or 52 was an event of 1.5 to 2 standard deviations; the days of readings counted as exact while thin wood loses 2 %%MC a day; samples cut near an end lay on one side. Readings were set aside on steep slopes (a day or a fast stay off), in damp winters, and where two weights outvoted a third. Now: days are unsure by a day; samples are ahead of the piece by 2 %% of what is above 8 %%MC and stray together by 3 %%; six tenths of the error of the factor are each stay's own; the air strays by 5 %%RH from its station (4) and by 6 %%RH in a room of which one figure is told; the lasting discrepancy is 0.6 %%MC (0.5), more in damp air, and 0.12 of what is above 8 %%MC (0.08); a weight against two others has to be off by 8 %%. By another outsider's truths the share of 0.12 became 0.16 (SIXTH.md).

Tried since and not kept (by the same judge; seeds 20 to 23, 500 to 503 and 700 to 703, 24 billets of each family, 288 in all; the last also with 900 to 903, 96, by which nothing was chosen), because the scores did not gain:

| setting | readings | MC held, %% | date held, %% | aside, %% | width, %%MC | CRPS, %%MC | width, d |
|---|---|---|---|---|---|---|---|
| as it is | 0 | 92.7 | 92.7 | 0.0 | 18.75 | 3.045 | 272 |
| as it is | 3 | 89.2 | 89.2 | 2.4 | 11.16 | 2.000 | 202 |
| no discrepancy on the day of stacking, and more with what is lost (0.15) and with time; the least gap of a wrong weight alike in wet wood and dry | 0 | 92.4 | 93.1 | 0.0 | 18.63 | 3.044 | 271 |
| the same | 3 | 87.2 | 88.5 | 2.8 | 10.56 | 2.082 | 199 |
| a wet-stage pace that is less where the factor is more, so that both do not count twice | 0 | 89.2 | 90.6 | 0.0 | 17.01 | 3.043 | 246 |
| the same, but not while contradictions are looked for | 3 | 88.2 | 89.2 | 2.4 | 10.88 | 2.092 | 199 |
| as it is, 900 to 903 | 0 | 90.6 | 92.7 | 0.0 | 21.77 | 3.410 | 311 |
| as it is, 900 to 903 | 3 | 90.6 | 92.7 | 0.0 | 10.72 | 1.685 | 226 |
| as it is, 900 to 903 | 8 | 92.7 | 90.6 | 2.1 | 5.29 | 0.813 | 198 |
| the pace as above, 900 to 903 | 0 | 87.5 | 92.7 | 0.0 | 19.59 | 3.431 | 281 |
| the pace as above, 900 to 903 | 3 | 90.6 | 91.7 | 0.0 | 10.61 | 1.711 | 223 |
| the pace as above, 900 to 903 | 8 | 91.7 | 91.7 | 2.1 | 5.29 | 0.825 | 197 |

The first also lets the start outvote a sample of the day of stacking. Without readings no part dominates: of 18.95 %%MC in the mean (500 to 503) the start makes 2.5 %%MC (with nine tenths of its spread taken away), errors of single stays 2.0, that it may not have been green 1.6, the factor 1.5, the pace 1.4, the air 0.9, the share of the lasting discrepancy 0.6, its steady part and the quick one 0.2 and 0.3.

What is said of a weight that is wrong: WRONG.md. By limits of the deviation and of the gap, before it was asked how many times likelier the readings are with it wrong, a wrong weight of 160 billets (500 to 503, 40 of each family) was named in 73, 88 and 95 %% at 4, 8 and 15 readings, where 2.5, 2.5 and 1.9 %% of the series named one before it was changed.

| family | readings | MC now held, %% | ready date held, %% (told) | aside, %% | wrong ready | width, %%MC | CRPS, %%MC | width, d | CRPS, d |
|---|---|---|---|---|---|---|---|---|---|
`
