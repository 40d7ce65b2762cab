package serve

import (
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What the recommendation calls malformed is as none.
func TestTraceOf(t *testing.T) {
	const trace, span = "4bf92f3577b34da6a3ce929d0e0e4736", "00f067aa0ba902b7"
	for told, known := range map[string]bool{
		"00-" + trace + "-" + span + "-01":                    true,
		"01-" + trace + "-" + span + "-01-what-comes-later":   true,
		"00-" + trace + "-" + span + "-01-more":               false,
		"ff-" + trace + "-" + span + "-01":                    false,
		"00-00000000000000000000000000000000-" + span + "-01": false,
		"00-" + trace + "-0000000000000000-01":                false,
		"00-4BF92F3577B34DA6A3CE929D0E0E4736-" + span + "-01": false,
		"00-" + trace + "-" + span:                            false,
		"":                                                    false,
	} {
		id, parent := traceOf(http.Header{"Traceparent": {told}})
		if known {
			assert.Equal(t, []string{trace, span}, []string{id, parent}, told)
		} else {
			assert.Empty(t, id+parent, told)
		}
	}
	twice := "00-" + trace + "-" + span + "-01"
	id, _ := traceOf(http.Header{"Traceparent": {twice, twice}})
	assert.Empty(t, id)
}
