package species

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// listed returns the rows of a list of testdata by the names of its columns.
func listed(t *testing.T, file string) []map[string]string {
	t.Helper()
	f, err := os.Open("testdata/" + file)
	require.NoError(t, err)
	defer f.Close() //nolint:errcheck // only read
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	out := make([]map[string]string, 0, len(rows)-1)
	for _, row := range rows[1:] {
		named := map[string]string{}
		for i, head := range rows[0] {
			named[head] = row[i]
		}
		out = append(out, named)
	}
	return out
}

// cells returns the cells of the files that the lists speak of, by file, row and column.
func cells(t *testing.T) map[[3]string]string {
	t.Helper()
	found := map[[3]string]string{}
	for _, file := range []string{"shrinkage", "coefficients", "specific_gravity", "green_moisture", "elastic_ratios"} {
		l := &loader{files: embedded, tables: &Tables{}}
		l.each(file, func(r record) {
			key := "row"
			if _, byWood := r.columns["wood"]; byWood {
				key = "wood"
			}
			row := r.text(key)
			for column := range r.columns {
				found[[3]string{file + ".csv", row, column}] = r.text(column)
			}
		})
		require.Empty(t, l.problems)
	}
	return found
}

// marked returns the column of the mark that goes with a column of figures.
func marked(file, column string) string {
	switch file {
	case "elastic_ratios.csv":
		return "checked"
	case "specific_gravity.csv":
		return map[string]string{"sg_green": "sg_green_checked", "sg_12": "sg_12_checked", "moe_mpa": "moe_checked"}[column]
	}
	for i := range column {
		if column[i] == '_' {
			return column[:i] + "_checked"
		}
	}
	return ""
}

// Every figure that was found again in print stands in the tables as printed, and its
// mark is no weaker than what was found.
func TestConfirmedValuesHold(t *testing.T) {
	there, all := cells(t), listed(t, "confirmed.csv")
	assert.Len(t, all, 1047)
	for _, c := range all {
		what := c["file"] + " " + c["row"] + " " + c["column"]
		got, err := strconv.ParseFloat(there[[3]string{c["file"], c["row"], c["column"]}], 64)
		require.NoError(t, err, what)
		want, err := strconv.ParseFloat(c["value"], 64)
		require.NoError(t, err, what)
		assert.InDelta(t, want, got, 0, "%s: %s prints it otherwise", what, c["publication"])
		if c["file"] != "elastic_ratios.csv" && c["finds"] != "0" {
			mark := Checked(there[[3]string{c["file"], c["row"], marked(c["file"], c["column"])}])
			assert.True(t, mark.SeenInPrint(), "%s is marked %q, and was seen", what, mark)
		}
	}
}

// What is printed otherwise was corrected, or is told as disputed with both figures.
func TestContradictedValuesAreToldOrCorrected(t *testing.T) {
	there, all := cells(t), listed(t, "contradicted.csv")
	assert.Len(t, all, 12)
	slots := map[string]string{"radial_pct": "radial", "tangential_pct": "tangential", "volumetric_pct": "volumetric",
		"sg_green": "specific_gravity_green", "moe_mpa": "modulus_of_elasticity_12"}
	for _, c := range all {
		what := c["row"] + " " + c["column"]
		got := there[[3]string{c["file"], c["row"], c["column"]}]
		switch c["outcome"] {
		case "corrected":
			assert.Equal(t, c["printed"], got, what)
		case "disputed":
			v := wood(t, c["row"]).slot(slots[c["column"]])
			require.NotNil(t, v, what)
			assert.Equal(t, Disputed, v.Checked, what)
			require.NotNil(t, v.Other, what)
			assert.NotEmpty(t, v.Other.Source, what)
			assert.Contains(t, []string{strconv.FormatFloat(v.Other.Number, 'f', -1, 64), strconv.FormatFloat(figure(t, *v), 'f', -1, 64)},
				trimmed(c["printed"]), what)
			assert.NotEqual(t, v.Other.Number, figure(t, *v), what) //nolint:testifylint // two printed figures, not equal
		default:
			t.Errorf("%s: outcome %q", what, c["outcome"])
		}
	}
}

func trimmed(number string) string {
	v, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return number
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// How good recall was is counted from the lists.
func TestRecallIsCounted(t *testing.T) {
	checked, differed := 0, 0
	for _, r := range tables(t).Recall() {
		checked, differed = checked+r.Checked, differed+r.Differed
	}
	recalled := 0
	for _, file := range []string{"confirmed.csv", "contradicted.csv"} {
		for _, c := range listed(t, file) {
			if c["was"] == "memory" {
				recalled++
			}
		}
	}
	assert.Equal(t, recalled, checked)
	assert.Equal(t, 10, differed)
}
