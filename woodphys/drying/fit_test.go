package drying

import (
	"bytes"
	"context"
	"encoding/csv"
	"flag"
	"fmt"
	"go/format"
	"math"
	"os"
	"sort"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/internal/expect"
	"latewood/woodphys/quantity"
	"latewood/woodphys/wood"
)

// go test ./woodphys/drying -run TestFitFactors -fit
//
// fits the wet-stage pace of every wood in testdata/drying/fit_inputs.csv and
// writes testdata/drying/factors.csv, species/data/drying_factors.csv,
// factor_regression.go and AGREEMENT.md. Without the flag the committed results are
// compared with a new fit of some woods.
var fitFlag = flag.Bool("fit", false, "fit the wet-stage paces and write the tables")

const (
	testdata    = "../../testdata/drying/"
	factorTable = "../../species/data/drying_factors.csv"
)

// saultSteMarie is Sault Ste. Marie MI, monthly means 1981-2010, NOAA NCEI
// Comparative Climatic Data 2018 (read), as in the station table.
func saultSteMarie() Normals {
	n := Normals{HasTemperature: true, RH: [12]float64{.765, .745, .72, .68, .655, .715, .74, .765, .78, .775, .795, .795}}
	for i, c := range []float64{-9.3, -8.0, -3.2, 4.6, 11.0, 15.6, 18.5, 18.1, 13.9, 7.6, 1.2, -5.4} {
		n.Temperature[i] = quantity.Celsius(c)
	}
	return n
}

// fitCase is a wood with its published span of days from green to 20 %MC.
type fitCase struct {
	wood, group, genus, place, source, checked, note string  // source: a key of the tables
	gravity, factor                                  float64 // factor: k of its group
	min, max                                         float64 // d
	job                                              Job
	months                                           [12]*Climate // stacked on the 15th
	solver                                           *Solver
}

// One method for all woods: 25.4 mm, from the moisture of the green stem to 20 %MC,
// stacked on the 15th of each month in a wide pile, with the drying factor of the group.
func fitCases(tb testing.TB) []*fitCase {
	tb.Helper()
	climates := map[string][12]*Climate{}
	for place, n := range map[string]Normals{"madison-wi": madison(), "sault-ste-marie-mi": saultSteMarie()} {
		start, all := 0.0, [12]*Climate{}
		for m, days := range daysOfMonth() {
			cl, err := Station(n, start+14)
			require.NoError(tb, err)
			all[m] = cl
			start += days
		}
		climates[place] = all
	}
	var cases []*fitCase
	for _, r := range expect.Named(tb, testdata+"fit_inputs.csv") {
		c := &fitCase{
			wood: r["wood"], group: r["group"], genus: r["genus"], place: r["place"], source: r["source_key"], checked: r["checked"], note: r["note"],
			gravity: expect.Number(tb, r["specific_gravity"]), factor: hardFactor, min: expect.Number(tb, r["min_days"]), max: expect.Number(tb, r["max_days"]),
			months: climates[r["place"]], solver: new(Solver),
		}
		tr, err := NewTransport(wood.Wood{SpecificGravity: wood.Published(c.gravity), FibreSaturation: quantity.Moisture(expect.Number(tb, r["fibre_saturation_pct"]) / 100)})
		require.NoError(tb, err)
		if c.group == "softwood" {
			c.factor = softFactor
		}
		c.job = Job{
			Factor: c.factor, Transport: tr, Thickness: quantity.Inch, Initial: quantity.Moisture(expect.Number(tb, r["initial_mc_pct"]) / 100), StopAt: 0.20,
			Phases: []Phase{{Length: 3 * yearDays * quantity.Day, Exposure: OpenStack()}}, Setting: Standard(),
		}
		cases = append(cases, c)
	}
	return cases
}

// days returns the days to 20 %MC for each stacking month; three years if never.
func (c *fitCase) days(tb testing.TB, k float64) [12]float64 {
	tb.Helper()
	var out [12]float64
	c.job.Pace = k
	for m := range out {
		c.job.Phases[0].Climate = c.months[m]
		course, err := c.solver.Run(context.Background(), &c.job)
		require.NoError(tb, err)
		out[m] = course.End.Days()
	}
	return out
}

func ends(days [12]float64) (low, mean, high float64) {
	low, high = days[0], days[0]
	for _, d := range days {
		low, high, mean = math.Min(low, d), math.Max(high, d), mean+d/12
	}
	return low, mean, high
}

func (c *fitCase) misfit(tb testing.TB, k float64) float64 {
	low, _, high := ends(c.days(tb, k))
	return math.Sqrt((math.Pow(math.Log(low/c.min), 2) + math.Pow(math.Log(high/c.max), 2)) / 2)
}

// fit returns the pace with the least misfit: the best of a coarse scan, then
// golden section.
func (c *fitCase) fit(tb testing.TB) (k, misfit float64) {
	tb.Helper()
	best, step := 0.0, math.Log(1.5)
	least := math.Inf(1)
	for x := math.Log(0.02); x < math.Log(4); x += step {
		if m := c.misfit(tb, math.Exp(x)); m < least {
			best, least = x, m
		}
	}
	const golden = 0.6180339887498949
	a, b := best-step, best+step
	for b-a > 0.004 {
		p, q := b-golden*(b-a), a+golden*(b-a)
		if c.misfit(tb, math.Exp(p)) < c.misfit(tb, math.Exp(q)) {
			b = q
		} else {
			a = p
		}
	}
	k = math.Exp((a + b) / 2)
	return k, c.misfit(tb, k)
}

type fitted struct {
	*fitCase
	k, misfit, low, mean, high, predicted, leftOut float64
}

// regress fits ln w = level + softwood and fills predicted and the leave-one-out
// predictions; withGravity adds a term in ln G, for comparison.
func regress(all []*fitted, withGravity bool) regression {
	var ata [3][3]float64
	var atb [3]float64
	row := func(f *fitted) [3]float64 {
		soft := 0.0
		if f.group == "softwood" {
			soft = 1
		}
		if !withGravity {
			return [3]float64{1, soft}
		}
		return [3]float64{1, soft, math.Log(f.gravity)}
	}
	for _, f := range all {
		x := row(f)
		for i := range 3 {
			for j := range 3 {
				ata[i][j] += x[i] * x[j]
			}
			atb[i] += x[i] * math.Log(f.k)
		}
	}
	if !withGravity {
		ata[2][2] = 1 // nothing to fit
	}
	inv := invert3(ata)
	var beta [3]float64
	for i := range 3 {
		for j := range 3 {
			beta[i] += inv[i][j] * atb[j]
		}
	}
	sum, ofGroup, woods := 0.0, map[string]float64{}, map[string]int{}
	for _, f := range all {
		x := row(f)
		guess, lever := 0.0, 0.0
		for i := range 3 {
			guess += beta[i] * x[i]
			for j := range 3 {
				lever += x[i] * inv[i][j] * x[j]
			}
		}
		left := (math.Log(f.k) - guess) / (1 - lever) // error when this wood is left out
		f.predicted, f.leftOut = math.Exp(guess), math.Exp(math.Log(f.k)-left)
		sum += left * left
		ofGroup[f.group] += left * left
		woods[f.group]++
	}
	apart := func(group string) float64 { return math.Sqrt(ofGroup[group] / float64(woods[group])) }
	return regression{beta[0], beta[1], math.Sqrt(sum / float64(len(all))), apart("hardwood"), apart("softwood"), woods["hardwood"], woods["softwood"]}
}

func invert3(m [3][3]float64) (out [3][3]float64) {
	minor := func(i, j int) float64 {
		a, b, c, d := (i+1)%3, (i+2)%3, (j+1)%3, (j+2)%3
		return m[a][c]*m[b][d] - m[a][d]*m[b][c]
	}
	det := m[0][0]*minor(0, 0) + m[0][1]*minor(0, 1) + m[0][2]*minor(0, 2)
	for i := range 3 {
		for j := range 3 {
			out[j][i] = minor(i, j) / det
		}
	}
	return out
}

func TestFitFactors(t *testing.T) {
	if testing.Short() {
		t.Skip("fits all woods")
	}
	cases := fitCases(t)
	require.Len(t, cases, 64)
	if *fitFlag {
		var all []*fitted
		for _, c := range cases {
			f := &fitted{fitCase: c}
			f.k, f.misfit = c.fit(t)
			f.low, f.mean, f.high = ends(c.days(t, f.k))
			all = append(all, f)
		}
		sort.Slice(all, func(i, j int) bool { return all[i].wood < all[j].wood })
		dense := regress(all, true)
		r := regress(all, false)
		writeFactors(t, all)
		writeTable(t, all)
		writeRegression(t, r)
		writeAgreement(t, all, r, dense)
		return
	}
	// committed table against a new fit of every sixteenth wood
	committed := committedPaces(t)
	require.Len(t, committed, 64)
	for i, c := range cases {
		if i%16 != 0 && c.wood != "maple-sugar" {
			continue
		}
		k, misfit := c.fit(t)
		f, err := FactorFor(&wood.Wood{Pace: committed[c.wood]})
		require.NoError(t, err)
		assert.Equal(t, Fitted, f.Wet.How)
		assert.InDelta(t, 1, f.Wet.Median/k, 0.01, "%s: make the table anew with -fit", c.wood)
		assert.InDelta(t, math.Max(paceSpread, misfit), f.Wet.SpreadLog, 0.01, c.wood)
	}
}

// committedPaces are the rows of the table, by their names.
func committedPaces(t *testing.T) map[string]wood.Pace {
	t.Helper()
	all := map[string]wood.Pace{}
	for _, r := range expect.Named(t, factorTable) {
		all[r["row"]] = wood.Pace{Factor: expect.Number(t, r["pace"]), Misfit: expect.Number(t, r["misfit_log"]), Place: r["place"], Recalled: r["span_checked"] != "read", Note: r["note"]}
	}
	return all
}

func writeFactors(t *testing.T, all []*fitted) {
	t.Helper()
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	rows := [][]string{{"wood", "group", "specific_gravity", "place", "published_min", "published_max", "pace", "misfit_log", "days_min", "days_mean", "days_max", "regression", "regression_left_out", "checked", "note"}}
	for _, f := range all {
		rows = append(rows, []string{
			f.wood, f.group, fmt.Sprint(f.gravity), f.place, fmt.Sprint(f.min), fmt.Sprint(f.max), fmt.Sprintf("%.3f", f.k), fmt.Sprintf("%.3f", f.misfit),
			fmt.Sprintf("%.0f", f.low), fmt.Sprintf("%.0f", f.mean), fmt.Sprintf("%.0f", f.high), fmt.Sprintf("%.3f", f.predicted), fmt.Sprintf("%.3f", f.leftOut), f.checked, f.note,
		})
	}
	require.NoError(t, w.WriteAll(rows))
	require.NoError(t, os.WriteFile(testdata+"factors.csv", b.Bytes(), 0o600))
}

func writeTable(t *testing.T, all []*fitted) {
	t.Helper()
	var b bytes.Buffer
	rows := [][]string{{"row", "pace", "misfit_log", "place", "min_days", "max_days", "span_source", "span_checked", "source", "checked", "note"}}
	for _, f := range all {
		rows = append(rows, []string{f.wood, fmt.Sprintf("%.3f", f.k), fmt.Sprintf("%.3f", f.misfit), f.place, fmt.Sprint(f.min), fmt.Sprint(f.max), f.source, f.checked, "drying-fit", "computed", f.note})
	}
	require.NoError(t, csv.NewWriter(&b).WriteAll(rows))
	require.NoError(t, os.WriteFile(factorTable, b.Bytes(), 0o600))
}

func writeRegression(t *testing.T, r regression) {
	t.Helper()
	text, err := format.Source(fmt.Appendf(nil, `// Code generated by go test ./woodphys/drying -run TestFitFactors -fit; DO NOT EDIT.

package drying

// paceRegression returns the regression over the fitted paces. Inputs and
// results: testdata/drying/fit_inputs.csv and factors.csv.
func paceRegression() regression {
	return regression{level: %.4f, softwood: %.4f, leaveOneOut: %.4f, hardError: %.4f, softError: %.4f, hards: %d, softs: %d}
}
`, r.level, r.softwood, r.leaveOneOut, r.hardError, r.softError, r.hards, r.softs))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile("factor_regression.go", text, 0o600))
}

func writeAgreement(t *testing.T, all []*fitted, r, dense regression) {
	t.Helper()
	var b bytes.Buffer
	overlap, inside, under, regOverlap, maple := 0, 0, 0, 0, math.NaN()
	ratios := []float64{}
	rows := bytes.Buffer{}
	for _, f := range all {
		lowRatio, highRatio := f.low/f.min, f.high/f.max
		miss := math.Max(math.Max(lowRatio, 1/lowRatio), math.Max(highRatio, 1/highRatio))
		ratios = append(ratios, miss)
		if f.wood == "maple-sugar" {
			maple = f.mean
		}
		if f.low <= f.max && f.high >= f.min {
			overlap++
		}
		if miss <= 1.25 {
			inside++
		}
		if f.low >= f.min && f.high <= f.max {
			under++
		}
		l, _, h := ends(f.days(t, f.leftOut))
		both := math.Max(0, math.Min(h, f.max)-math.Max(l, f.min)) / (math.Max(h, f.max) - math.Min(l, f.min))
		if both > 0.5 {
			regOverlap++
		}
		fmt.Fprintf(&rows, "| %s | %g-%g | %.0f-%.0f | %.0f | %.2f | %.2f | %.2f | %.3f | %.3f | %.0f-%.0f |\n", f.wood, f.min, f.max, f.low, f.high, f.mean, lowRatio, highRatio, miss, f.k, f.leftOut, l, h)
	}
	sort.Float64s(ratios)
	n := len(all)
	fmt.Fprintf(&b, `# Agreement of the drying model with published air-drying times

Made by `+"`go test ./woodphys/drying -run TestFitFactors -fit`"+`; do not edit.

What is compared: days from green to 20 %%MC for 25.4 mm boards, the fastest and the slowest of twelve stacking months (the 15th of each), against the published span. One wet-stage pace per wood was fitted to the two ends of its span, so this is agreement in-sample: two numbers and one constant. The drying factor below fibre saturation is that of the group and was not fitted to these spans; what it was held against stands in outside_test.go. It tests whether the model has the right spread over the seasons, not whether it foretells a wood it has not seen. The last two columns do that: the pace of the middle of its group, in which the wood was left out.

Assumed for all: Madison WI for the national spans, which give no place (sugar maple: Sault Ste. Marie MI for Upper Michigan); a wide pile with the air of the station; the moisture of the green stem, or the mean of heartwood and sapwood (0.8 of it for softwoods; a relative's where a wood has none); frost at three tenths. The spans are recalled from Air Drying of Lumber (AH-402) and were not re-read, except sugar maple in Upper Michigan (Peck 1957, 40-205 days, mean 90, read).

- %d of %d computed spans overlap the published ones; %d lie wholly within.
- %d of %d meet both ends within a ratio of 1.25; the worse end is off by a ratio of %.2f in the middle of the woods, %.2f at worst; the rest misses by the ratios below.
- Regression: ln w = %.3f %+.3f [softwood]; leave-one-out error %.3f of ln w, a ratio of %.2f (1 SD), %.3f over the broadleaved woods and %.3f over the conifers, which have a spread each; with a term in ln G it is %.3f, so density is left out. With the pace so estimated, %d of %d spans share more than half of their joint length with the published.
%s
- Not used in the fit: the mean over the stacking months of sugar maple in Upper Michigan, published 90 days (read), computed %.0f.

Woods of the south and west dried in other air than Madison's; a ratio above 1 at the slow end there is probably the northern winter. No pace was changed by hand.

| wood | published days | computed | mean | fast end | slow end | worse ratio | w | w left out | computed with it |
|---|---|---|---|---|---|---|---|---|---|
`, overlap, n, under, inside, n, ratios[n/2], ratios[n-1], r.level, r.softwood, r.leaveOneOut, math.Exp(r.leaveOneOut), r.hardError, r.softError, dense.leaveOneOut, regOverlap, n, aboutRelatives(pacesOf(all)), maple)
	b.Write(rows.Bytes())
	require.NoError(t, os.WriteFile("AGREEMENT.md", b.Bytes(), 0o600))
	t.Log(b.String())
}
