package species

import "math"

// ElasticMeans returns the mean of each stiffness ratio and of each Poisson's ratio
// with the stress along the stiffer direction, over the printed rows of the broadleaved
// woods (Hardwood) or of the conifers (Softwood): what stands in for a ratio that is
// not known of a wood. The standard deviation within a group is 20 to 50 % of the mean
// for stiffness, 10 to 20 % for Poisson's ratios. Any other group has none.
func (t *Tables) ElasticMeans(g Group) ElasticRatios { return t.elasticMeans[g] }

// meanDecimals is one digit more than the ratios are printed with.
const meanDecimals = 4

// loadElasticMeans takes the means of the printed rows, without those that lack the
// figure.
func (l *loader) loadElasticMeans() {
	mapped := l.rowTargets("elastic")
	sums := map[Group]*ratioSums{Hardwood: {}, Softwood: {}}
	l.each("elastic_ratios", func(r record) {
		row := r.need("row")
		w := l.tables.woodByID[row]
		if w == nil && len(mapped[row]) > 0 {
			w = mapped[row][0].wood
		}
		if w == nil {
			return // told where the rows are given to the woods
		}
		sum := sums[w.Botany()]
		for i, column := range []string{"et_el", "er_el", "glr_el", "glt_el", "grt_el", "nu_lr", "nu_lt", "nu_rt"} {
			if v, known := r.number(column).Get(); known {
				sum.total[i] += v
				sum.count[i]++
			}
		}
	})
	l.tables.elasticMeans = map[Group]ElasticRatios{}
	for g, sum := range sums {
		var e ElasticRatios
		for i, to := range []*Value{&e.ETEL, &e.EREL, &e.GLREL, &e.GLTEL, &e.GRTEL, &e.PoissonLR, &e.PoissonLT,
			&e.PoissonRT} {
			*to = sum.mean(i, string(g)+"s")
		}
		l.tables.elasticMeans[g] = e
	}
}

// ratioSums are the sums of eight ratios and the rows in each.
type ratioSums struct{ total, count [8]float64 }

func (s *ratioSums) mean(i int, of string) Value {
	if s.count[i] == 0 {
		return Value{Unit: UnitRatio}
	}
	grid := math.Pow10(meanDecimals)
	return Value{Optional: Known(math.Round(s.total[i]/s.count[i]*grid) / grid), Unit: UnitRatio, Source: "mean of the " +
		of + " of the table", Checked: Computed}
}
