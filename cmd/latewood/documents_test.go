package main

import (
	"encoding/csv"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/openapi"
)

const top = "../../"

// documents are all texts for people in the project, by their path from the top.
func documents(t *testing.T) map[string]string {
	t.Helper()
	found := map[string]string{}
	require.NoError(t, filepath.WalkDir(top, func(path string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if name := entry.Name(); entry.IsDir() && path != top && (strings.HasPrefix(name, ".") || name == "node_modules" || name == "bin") {
			return fs.SkipDir
		}
		if strings.HasSuffix(path, ".md") {
			text, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			found[filepath.ToSlash(strings.TrimPrefix(path, top))] = string(text)
		}
		return nil
	}))
	require.Greater(t, len(found), 10)
	return found
}

// What a document names is there: the files it links, the targets of make, the tests
// and benchmarks that a command of it runs, the flags of the program, and its routes.
func TestDocumentsNameWhatIsThere(t *testing.T) {
	makefile, err := os.ReadFile(top + "Makefile")
	require.NoError(t, err)
	tests := testNames(t)
	for document, text := range documents(t) {
		all := func(pattern string) [][]string { return regexp.MustCompile(pattern).FindAllStringSubmatch(text, -1) }
		for _, link := range all(`\]\(([^)#:\s]+)\)`) {
			assert.FileExists(t, filepath.Join(top, filepath.Dir(document), link[1]), document)
		}
		for _, target := range all("`make ([a-z-]+)") {
			assert.Regexp(t, `(?m)^`+target[1]+`:`, string(makefile), document)
		}
		for _, command := range all("go test ([^`\n]+)") {
			for _, name := range regexp.MustCompile(`-(?:run|bench|fuzz) '?\^?([A-Za-z]+)`).FindAllStringSubmatch(command[1], -1) {
				assert.True(t, name[1] == "xxx" || strings.Contains(tests, name[1]), "%s: no test %s", document, name[1])
			}
		}
		for _, flag := range all("`(?:latewood [^`]*)?(--[a-z-]+)") {
			assert.True(t, flag[1] == "--help" || strings.Contains(usage, "  "+flag[1]+" "), "%s: no flag %s", document, flag[1])
		}
		for _, route := range all("(?:GET|POST) (/[a-z0-9/{}-]+)") {
			assert.Regexp(t, `(?m)^  `+regexp.QuoteMeta(route[1])+`:$`, string(openapi.YAML()), document)
		}
	}
}

// testNames are the lines of all tests, benchmarks and fuzz targets of the project.
func testNames(t *testing.T) string {
	t.Helper()
	var names strings.Builder
	require.NoError(t, filepath.WalkDir(top, func(path string, _ fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, "_test.go") {
			return err
		}
		text, err := os.ReadFile(path)
		for _, line := range regexp.MustCompile(`(?m)^func (Test|Benchmark|Fuzz).*`).FindAllString(string(text), -1) {
			names.WriteString(line + "\n")
		}
		return err
	}))
	return names.String()
}

// rowsOf counts the rows of a table below its header.
func rowsOf(t *testing.T, file string) int {
	t.Helper()
	f, err := os.Open(filepath.Join(top, "species", "data", file))
	require.NoError(t, err)
	defer f.Close() //nolint:errcheck // only read
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	return len(rows) - 1
}

// Counts of what the tables hold are those of the tables, wherever a document tells them.
func TestDocumentsCountWhatIsThere(t *testing.T) {
	all := documents(t)
	told := 0
	for _, row := range regexp.MustCompile(`(?m)^\| ([a-z_]+\.csv) \| (\d+) \|`).FindAllStringSubmatch(all["species/DATA.md"], -1) {
		assert.Equal(t, strconv.Itoa(rowsOf(t, row[1])), row[2], "species/DATA.md: rows of %s", row[1])
		told++
	}
	files, err := filepath.Glob(filepath.Join(top, "species", "data", "*.csv"))
	require.NoError(t, err)
	assert.Len(t, files, told, "species/DATA.md tells the rows of every table")
	for _, one := range []struct{ document, words, file string }{
		{"README.md", `shrinkage of (\d+) woods`, "shrinkage.csv"},
		{"README.md", `dimensional change coefficients of (\d+)`, "coefficients.csv"},
		{"README.md", `density of (\d+)`, "specific_gravity.csv"},
		{"README.md", `green moisture of (\d+)`, "green_moisture.csv"},
		{"README.md", `stiffness ratios of (\d+)`, "elastic_ratios.csv"},
		{"README.md", `monthly air of (\d+) places`, "stations.csv"},
	} {
		found := regexp.MustCompile(one.words).FindStringSubmatch(all[one.document])
		if assert.NotEmpty(t, found, "%s says %q", one.document, one.words) {
			assert.Equal(t, strconv.Itoa(rowsOf(t, one.file)), found[1], "%s: rows of %s", one.document, one.file)
		}
	}
}
