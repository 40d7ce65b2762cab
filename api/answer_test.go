package api

import (
	"bytes"
	"encoding/json"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// An answer whose wood was worded beforehand is to the byte what the encoder
// makes of it, for every wood of the tables and for the caller's own.
func TestWordedWoodIsEncodedAsAnyOther(t *testing.T) {
	s := sharedService()
	worded := 0
	check := func(wood string) {
		body := fmt.Sprintf(`{%s, "dimension": "100 mm", "direction": "longitudinal", "from": {"mc_pct": 25}, "to": {"mc_pct": 8}}`, wood)
		task, err := s.works["/v1/movement"].read([]byte(body))
		require.NoError(t, err)
		answer, err := task.run(t.Context(), s.tables)
		require.NoError(t, err, wood)
		whole, ok := answer.(*Answer[MovementResult])
		require.True(t, ok)
		if whole.Result.Wood.text != nil {
			worded++
		}
		var plain, ours bytes.Buffer
		ofPlain, ofOurs := json.NewEncoder(&plain), json.NewEncoder(&ours)
		ofPlain.SetEscapeHTML(false)
		ofOurs.SetEscapeHTML(false)
		require.NoError(t, ofPlain.Encode(answer))
		for range 2 { // the second shows that the first left the answer as it was
			ours.Reset()
			require.NoError(t, answer.encode(&ours, ofOurs))
			assert.Equal(t, plain.String(), ours.String(), wood)
		}
	}
	for id := range s.tables.woods {
		check(fmt.Sprintf(`"species": %q`, id))
	}
	assert.Equal(t, len(s.tables.woods), worded)
	check(`"wood": {"name": "a <wood> & \"more\"", "radial_shrinkage_pct": 4, "tangential_shrinkage_pct": 8}`)
	assert.Equal(t, len(s.tables.woods), worded)
}
