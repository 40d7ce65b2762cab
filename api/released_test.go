package api_test

import (
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v3"

	"latewood/api/internal/contract"
	"latewood/openapi"
)

// closedLists are the lists of words of answers that must not grow, by where they stand.
func closedLists(t *testing.T, text []byte) map[string][]string {
	t.Helper()
	var document map[string]any
	require.NoError(t, yaml.Unmarshal(text, &document))
	all := map[string][]string{}
	contract.EachListOfAnswers(document, func(at string, words []string, schema map[string]any) {
		if schema[contract.GrowsKey] != true {
			all[at] = words
		}
	})
	return all
}

// grown are the closed lists that have a word more than they had.
func grown(released, now map[string][]string) (all []string) {
	for at, had := range released {
		if slices.ContainsFunc(now[at], func(word string) bool { return !slices.Contains(had, word) }) {
			all = append(all, at)
		}
	}
	return all
}

// What a release says is whole has no word more while the first number stays; other lists
// may grow (.ci/oasdiff.levels), so oasdiff does not look at them.
func TestClosedListsDoNotGrow(t *testing.T) {
	now := closedLists(t, openapi.YAML())
	require.Greater(t, len(now), 10)
	const verdict = "/components/schemas/Verdict"
	require.Contains(t, now, verdict)
	assert.Equal(t, []string{verdict}, grown(map[string][]string{verdict: now[verdict][1:], "/gone": {"x"}}, now))
	if released, err := os.ReadFile("../openapi/released.yaml"); err == nil {
		assert.Empty(t, grown(closedLists(t, released), now))
	}
}
