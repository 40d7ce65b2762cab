package species

import (
	"cmp"
	"flag"
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var writeAgreement = flag.Bool("write", false, "write species/AGREEMENT.md anew")

// compared is a wood with a measured movement for one point of moisture and those that
// follow from its total shrinkage, spread over the general and over its own fibre saturation.
type compared struct {
	id, direction          string
	measured, general, own float64
	saturation             Value
}

func (c *compared) ratio(of float64) float64 { return of / c.measured }

// far reports a ratio of 1.3 and more, up or down.
func far(ratio float64) bool { return math.Abs(math.Log(ratio)) >= math.Log(1.3) }

func pairs(t *testing.T, figures func(*Wood) map[string][2]Value, keep func(swelling Value) bool) []compared {
	t.Helper()
	general := figure(t, tables(t).GeneralFibreSaturation())
	var all []compared
	for _, w := range tables(t).Woods() {
		for direction, v := range figures(w) {
			swelling, haveSwelling := v[0].Get()
			total, haveTotal := v[1].Get()
			if haveSwelling && haveTotal && keep(v[0]) {
				all = append(all, compared{w.ID, direction, swelling, total / general, total / figure(t, w.FibreSaturation), w.FibreSaturation})
			}
		}
	}
	slices.SortFunc(all, func(a, b compared) int { return cmp.Or(cmp.Compare(a.id, b.id), cmp.Compare(a.direction, b.direction)) })
	return all
}

func table(b *strings.Builder, all []compared) (farGeneral, farOwn int) {
	b.WriteString("| wood | direction | measured | S/30 | ratio | own FSP | S/FSP | ratio |\n|---|---|---|---|---|---|---|---|\n")
	for i := range all {
		c := &all[i]
		own := "general"
		if saturation, _ := c.saturation.Get(); saturation != 30 || c.saturation.Trees > 0 {
			own = strconv.FormatFloat(saturation, 'f', 1, 64)
		}
		fmt.Fprintf(b, "| %s | %s | %.3f | %.3f | %.2f | %s | %.3f | %.2f |\n", c.id, c.direction, c.measured, c.general, c.ratio(c.general), own, c.own, c.ratio(c.own))
		if far(c.ratio(c.general)) {
			farGeneral++
		}
		if far(c.ratio(c.own)) {
			farOwn++
		}
	}
	return farGeneral, farOwn
}

// agreement is the text of AGREEMENT.md and the counts that the test holds.
func agreement(t *testing.T) (text string, counts map[string][3]int) {
	t.Helper()
	var b strings.Builder
	counts = map[string][3]int{}
	b.WriteString("# How the tables agree with measurements\n\nWritten by `go test ./species -run TestAgreement -write`; do not edit. " +
		"Movement in % for one point of moisture. S is the total shrinkage of the tables, FSP the fibre saturation of the wood in them.\n\n")
	b.WriteString("## Volumetric swelling of the collection (Vieilledent and others 2018)\n\n" +
		"The column S/30 leaves out the fibre saturation, which for most of these woods comes from the same trees.\n\n")
	volumetric := pairs(t, func(w *Wood) map[string][2]Value {
		return map[string][2]Value{"volume": {w.SwellingVolumetric, w.Volumetric}}
	}, func(v Value) bool { return strings.Contains(v.Source, "Vieilledent") })
	f, own := table(&b, volumetric)
	counts["volumetric"] = [3]int{len(volumetric), f, own}
	fmt.Fprintf(&b, "\n%d woods; %d stand 1.3 times or more apart with 30, %d with the fibre saturation of the tables.\n\n", len(volumetric), f, own)
	b.WriteString("## Differential shrinkage (DIN 68100)\n\n")
	din := pairs(t, func(w *Wood) map[string][2]Value {
		return map[string][2]Value{"radial": {w.SwellingRadial, w.Radial}, "tangential": {w.SwellingTangential, w.Tangential}}
	}, func(v Value) bool { return strings.HasPrefix(v.Source, "DIN 68100") })
	f, own = table(&b, din)
	counts["din"] = [3]int{len(din), f, own}
	fmt.Fprintf(&b, "\n%d figures; %d stand 1.3 times or more apart with 30, %d with the fibre saturation of the tables. Total shrinkage is spread over "+
		"all points below fibre saturation; in the range of use wood moves more for a point than that.\n\n", len(din), f, own)
	b.WriteString(placesCompared(t))
	return b.String(), counts
}

// placesCompared tells how places that two sources have agree, over the months.
func placesCompared(t *testing.T) string {
	t.Helper()
	var b strings.Builder
	b.WriteString("## Places that two sources have\n\nMean of the other source minus ours over twelve months, from `testdata/stations_compared.csv`: " +
		"ours are mostly from the same kind of files.\n\n| place | other | temperature, K | humidity, points | EMC, points | EMC of hours over EMC of means, points |\n|---|---|---|---|---|---|\n")
	sums := map[[2]string][4]float64{}
	for _, r := range listed(t, "stations_compared.csv") {
		key := [2]string{r["station"], r["other"]}
		s := sums[key]
		number := func(name string) float64 {
			v, err := strconv.ParseFloat(r[name], 64)
			require.NoError(t, err)
			return v
		}
		s[0] += (number("other_temp_c") - number("temp_c")) / 12
		s[1] += (number("other_rh_pct") - number("rh_pct")) / 12
		s[2] += (number("other_emc_pct") - number("emc_pct")) / 12
		s[3] += (number("other_emc_of_hours_pct") - number("other_emc_pct")) / 12
		sums[key] = s
	}
	var keys [][2]string
	for key := range sums {
		keys = append(keys, key)
	}
	slices.SortFunc(keys, func(a, b [2]string) int { return cmp.Compare(a[0], b[0]) })
	for _, key := range keys {
		s := sums[key]
		fmt.Fprintf(&b, "| %s | %s | %+.1f | %+.1f | %+.1f | %+.1f |\n", key[0], key[1], s[0], s[1], s[2], s[3])
	}
	sum, n, most := 0.0, 0.0, 0.0
	for _, s := range tables(t).Stations() {
		for i := range s.Months {
			if means, known := s.Months[i].EMCOfMeans.Get(); known {
				emc, _ := s.Months[i].EMC.Get()
				sum, n, most = sum+(emc-means).Percent(), n+1, math.Max(most, (emc-means).Percent())
			}
		}
	}
	fmt.Fprintf(&b, "\nOver the %.0f months of places with hourly air the mean EMC of the hours lies %.1f points above the EMC of the means, %.1f at most.\n", n, sum/n, most)
	return b.String()
}

// The agreement stands in AGREEMENT.md as it is; measured fibre saturation brings the
// movement of the volume nearer.
func TestAgreement(t *testing.T) {
	text, counts := agreement(t)
	if *writeAgreement {
		require.NoError(t, os.WriteFile("AGREEMENT.md", []byte(text), 0o644))
	}
	there, err := os.ReadFile("AGREEMENT.md")
	require.NoError(t, err)
	assert.Equal(t, string(there), text, "run go test ./species -run TestAgreement -write")
	assert.GreaterOrEqual(t, counts["volumetric"][0], 60)
	assert.Less(t, counts["volumetric"][2], counts["volumetric"][1], "own fibre saturation is nearer than 30")
	assert.GreaterOrEqual(t, counts["din"][0], 30)
}
