package species

import (
	"encoding/csv"
	"io/fs"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func tables(t testing.TB) *Tables {
	t.Helper()
	found, err := Default()
	require.NoError(t, err)
	return found
}

func wood(t testing.TB, id string) *Wood {
	t.Helper()
	w, ok := tables(t).Wood(id)
	require.True(t, ok, id)
	return w
}

// Rows of every file, without the head.
func TestRowCounts(t *testing.T) {
	want := map[string]int{
		"air_drying_times": 64, "allowances": 17, "anomalies": 382, "bare_names": 249, "cautions": 115,
		"climate_monthly": 8148, "coefficients": 129, "disputed": 71, "drying_class": 127, "drying_factors": 64,
		"elastic_ratios": 35, "end_trims": 7, "fibre_saturation": 125, "green_moisture": 68, "group_rows": 59,
		"handbook_emc": 49, "lower_emc": 19, "partial_shrinkage": 79, "plates": 90, "recall": 10,
		"safe_daily_loss": 24, "saws": 12, "shrinkage": 583, "sources": 108, "specific_gravity": 611,
		"station_coordinates": 680, "stations": 680, "swelling": 122, "synonyms": 1048, "woods": 636,
	}
	names, err := fs.Glob(embedded, "data/*.csv")
	require.NoError(t, err)
	require.Len(t, names, len(want))
	for _, name := range names {
		file, err := embedded.Open(name)
		require.NoError(t, err)
		rows, err := csv.NewReader(file).ReadAll()
		require.NoError(t, err, name)
		assert.Equal(t, want[strings.TrimSuffix(strings.TrimPrefix(name, "data/"), ".csv")], len(rows)-1, name)
	}
}

// column returns count and sum of the filled cells of a column of a file.
func column(t *testing.T, file, name string) (count int, sum float64) {
	t.Helper()
	l := &loader{files: embedded, tables: &Tables{}}
	l.each(file, func(r record) {
		if v, known := r.number(name).Get(); known {
			count++
			sum += v
		}
	})
	require.Empty(t, l.problems)
	return count, sum
}

// Counts and sums were taken from the tables before they were brought into this
// form, by a separate script.
func TestSpotSums(t *testing.T) {
	for _, c := range []struct {
		file, column string
		count        int
		sum          float64
	}{
		{"shrinkage", "radial_pct", 581, 2541.55},
		{"shrinkage", "tangential_pct", 580, 4566.98},
		{"shrinkage", "volumetric_pct", 466, 5933.23},
		{"coefficients", "radial_per_pct", 129, 0.1958},
		{"coefficients", "tangential_per_pct", 129, 0.36322},
		{"green_moisture", "heartwood_pct", 66, 4746},
		{"green_moisture", "sapwood_pct", 63, 6968},
		{"specific_gravity", "sg_green", 456, 261.752},
		{"specific_gravity", "sg_12", 269, 153.083},
		{"specific_gravity", "moe_mpa", 494, 6093391},
		{"elastic_ratios", "et_el", 34, 1.944},
		{"elastic_ratios", "er_el", 34, 3.544},
		{"elastic_ratios", "glr_el", 34, 2.904},
		{"elastic_ratios", "glt_el", 33, 2.396},
		{"elastic_ratios", "grt_el", 26, 0.299},
		{"elastic_ratios", "nu_lr", 35, 12.638},
		{"elastic_ratios", "nu_lt", 35, 14.406},
		{"elastic_ratios", "nu_rt", 34, 18.641},
		{"elastic_ratios", "nu_tr", 35, 11.922},
		{"elastic_ratios", "nu_rl", 19, 0.954},
		{"elastic_ratios", "nu_tl", 19, 0.6},
		{"air_drying_times", "min_days", 64, 3435},
		{"air_drying_times", "max_days", 64, 11785},
		{"drying_factors", "pace", 64, 24.464},
		{"drying_factors", "misfit_log", 64, 5.724},
		{"drying_factors", "min_days", 64, 3425},
		{"drying_factors", "max_days", 64, 11790},
		{"climate_monthly", "temp_c", 8148, 114323.6},
		{"climate_monthly", "rh_pct", 8148, 576541.3},
		{"climate_monthly", "rh_am_pct", 8004, 644325},
		{"climate_monthly", "rh_pm_pct", 8004, 471720},
		{"climate_monthly", "emc_pct", 8148, 118904.6},
	} {
		count, sum := column(t, c.file, c.column)
		assert.Equal(t, c.count, count, "%s %s", c.file, c.column)
		assert.InEpsilon(t, c.sum, sum, 1e-9, "%s %s: %.9g", c.file, c.column, sum) // rounding of the sums only
	}
	total := 0.0
	for _, month := range []string{"jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"} {
		count, sum := column(t, "handbook_emc", month)
		assert.Equal(t, 49, count)
		total += sum
	}
	assert.InDelta(t, 7292.3, total, 1e-6)
}

func TestEveryKnownValueHasSourceAndMark(t *testing.T) {
	known := 0
	for _, w := range tables(t).Woods() {
		assert.NotEmpty(t, w.NameFrom, w.ID)
		assert.NotEmpty(t, w.NameMark.Meaning(), w.ID)
		names := map[string]bool{}
		for name, v := range w.Values() {
			assert.False(t, names[name], name)
			names[name] = true
			assert.NotEmpty(t, v.Unit, "%s %s", w.ID, name)
			if !v.Known() {
				assert.Empty(t, v.Source, "%s %s", w.ID, name)
				assert.Empty(t, v.Checked, "%s %s", w.ID, name)
				assert.Empty(t, v.Note, "%s %s", w.ID, name)
				continue
			}
			known++
			number, _ := v.Get()
			assert.Positive(t, number, "%s %s", w.ID, name)
			assert.NotEmpty(t, v.Source, "%s %s", w.ID, name)
			assert.NotEmpty(t, v.Checked.Meaning(), "%s %s", w.ID, name)
		}
		for _, d := range w.AirDrying {
			assert.Less(t, d.MinDays, d.MaxDays, w.ID)
			assert.NotEmpty(t, d.Source, w.ID)
			assert.NotEmpty(t, d.Checked, w.ID)
		}
		if w.Drying.Class != "" {
			assert.NotEmpty(t, w.Drying.Source, w.ID)
			assert.NotEmpty(t, w.Drying.Checked, w.ID)
		}
		assert.Equal(t, w.LowerEMC.Applies, w.LowerEMC.Source != "", w.ID)
		require.NotEmpty(t, w.Cautions, w.ID)
		assert.Equal(t, Dust, w.Cautions[0].Kind, w.ID)
		for _, c := range w.Cautions {
			assert.NotEmpty(t, c.Source, w.ID)
			assert.NotEmpty(t, c.Checked, w.ID)
		}
	}
	assert.Greater(t, known, 2000)
}

func TestEverySourceIsUsed(t *testing.T) {
	used := map[string]bool{}
	names, err := fs.Glob(embedded, "data/*.csv")
	require.NoError(t, err)
	for _, name := range names {
		if name == "data/sources.csv" {
			continue
		}
		file, err := embedded.Open(name)
		require.NoError(t, err)
		rows, err := csv.NewReader(file).ReadAll()
		require.NoError(t, err)
		for i, head := range rows[0] {
			if head != "source" && !strings.HasSuffix(head, "_source") {
				continue
			}
			for _, row := range rows[1:] {
				used[row[i]] = true
			}
		}
	}
	for id := range tables(t).sources {
		assert.True(t, used[id], "source %s is cited nowhere", id)
	}
}

func TestUnknownIsNotZero(t *testing.T) {
	gray := wood(t, "birch-gray")
	_, known := gray.Tangential.Get()
	assert.False(t, known, "the copy has no tangential figure for gray birch")
	assert.True(t, math.IsNaN(gray.Tangential.Or(math.NaN())))
	radial, known := gray.Radial.Get()
	assert.True(t, known)
	assert.InDelta(t, 5.2, radial, 0)
}

func TestOrderAndLookUp(t *testing.T) {
	all := tables(t)
	woods := all.Woods()
	assert.True(t, slices.IsSortedFunc(woods, func(a, b *Wood) int { return strings.Compare(a.ID, b.ID) }))
	woods[0] = nil
	assert.NotNil(t, all.Woods()[0], "the slice is the caller's")
	_, ok := all.Wood("Maple-sugar")
	assert.False(t, ok, "ids are case-sensitive")
	_, ok = all.Wood("")
	assert.False(t, ok)
}

func TestDataVersion(t *testing.T) {
	assert.Regexp(t, "^[0-9a-f]{12}$", tables(t).DataVersion())
	again, err := Load()
	require.NoError(t, err)
	assert.Equal(t, tables(t).DataVersion(), again.DataVersion())
	changed := copyOfData(t)
	changed["data/woods.csv"].Data = append(changed["data/woods.csv"].Data, '\n')
	version, err := dataVersion(changed)
	require.NoError(t, err)
	assert.NotEqual(t, again.DataVersion(), version)
}

func copyOfData(t *testing.T) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	names, err := fs.Glob(embedded, "data/*.csv")
	require.NoError(t, err)
	for _, name := range names {
		content, err := fs.ReadFile(embedded, name)
		require.NoError(t, err)
		files[name] = &fstest.MapFile{Data: content}
	}
	return files
}

func TestBrokenDataIsRefused(t *testing.T) {
	for _, c := range []struct{ file, old, new, want string }{
		{"shrinkage", "alder-red,4.4,", "alder-red,4.4x,", `shrinkage.csv:2: radial_pct: "4.4x" is not a number`},
		{"shrinkage", "alder-red,4.4,", "alder-red,NaN,", `"NaN" is not a number`},
		{"shrinkage", "alder-red,", "alder-rd,", `unknown wood "alder-rd"`},
		{"shrinkage", "4.4,wh-4-3,read-agreeing", "4.4,,read-agreeing", "radial_source is empty"},
		{"shrinkage", "4.4,wh-4-3,read-agreeing", "4.4,wh-4-3,seen", `unknown mark "seen"`},
		{"shrinkage", "4.4,wh-4-3,read-agreeing", "4.4,wh-4-9,read-agreeing", `unknown source "wh-4-9"`},
		{"woods", "hardwood", "softword", "unknown group"},
		{"climate_monthly", "aberdeen-sd,2,", "aberdeen-sd,1,", "stands twice"},
		{"climate_monthly", "aberdeen-sd,2,", "aberdeen-sd,13,", "is no month"},
		{"climate_monthly", ",75.0,78,", ",175.0,78,", "is no relative humidity"},
		{"station_coordinates", "45.4,", "95.4,", "latitude must be"},
		{"green_moisture", "aspen,", "aspn,", "row aspn goes to no wood"},
		{"group_rows", "green_moisture,aspen,", "green_moisture,aspn,", "has no row aspn"},
		{"anomalies", ",volumetric,", ",volume,", "has no value volume"},
		{"cautions", "*,dust", "*,dusty", "unknown kind of caution"},
		{"drying_factors", "alder-red,0.721,", "alder-red,0,", "must be above 0"},
		{"drying_factors", ",20,180,", ",200,180,", "is no span of days"},
		{"drying_factors", "drying-fit,computed", ",computed", "source is empty"},
		{"drying_factors", ",ah402,memory", ",ah402,", "span_checked is empty"},
		{"drying_factors", "pine-sugar-sinker,", "pine-sugar-sunk,", "row pine-sugar-sunk goes to no wood"},
		{"group_rows", "drying_factor,pine-sugar-light,", "drying_factor,pine-sugar-sinker,", "row pine-sugar-light goes to no wood"},
		{"group_rows", "drying_factor,sweetgum-heartwood,sweetgum,", "drying_factor,sweetgum-heartwood,tanoak,", "tanoak has a drying factor already"},
	} {
		files := copyOfData(t)
		file := files["data/"+c.file+".csv"]
		text := string(file.Data)
		require.Contains(t, text, c.old)
		file.Data = []byte(strings.Replace(text, c.old, c.new, 1))
		_, err := load(files)
		assert.ErrorContains(t, err, c.want)
	}
	files := copyOfData(t)
	delete(files, "data/coefficients.csv")
	_, err := load(files)
	assert.ErrorIs(t, err, fs.ErrNotExist)
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		if _, err := Load(); err != nil {
			b.Fatal(err)
		}
	}
}
