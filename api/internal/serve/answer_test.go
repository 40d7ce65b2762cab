package serve_test

import (
	"bytes"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/asking"
	"latewood/api/internal/moist"
	"latewood/api/internal/serve"
	"latewood/api/internal/wire"
)

// An answer whose wood was worded beforehand is to the byte what the encoder
// makes of it, for every wood of the tables and for the caller's own.
func TestWordedWoodIsEncodedAsAnyOther(t *testing.T) {
	s := asking.SharedService()
	worded := 0
	check := func(wood string) {
		body := fmt.Sprintf(`{%s, "size": "100 mm", "direction": "longitudinal", "from_condition": {"mc_pct": 25}, "to_condition": {"mc_pct": 8}}`, wood)
		answer, encode, err := s.Encoded(t.Context(), "/v1/movement", []byte(body))
		require.NoError(t, err, wood)
		whole, ok := answer.(*serve.Answer[moist.MovementResult])
		require.True(t, ok)
		if whole.Result.Wood.Encoded() != nil {
			worded++
		}
		var plain, ours bytes.Buffer
		ofPlain, ofOurs := wire.NewEncoder(&plain), wire.NewEncoder(&ours)
		require.NoError(t, ofPlain.Encode(answer))
		for range 2 { // the second shows that the first left the answer as it was
			ours.Reset()
			require.NoError(t, encode(&ours, ofOurs))
			assert.Equal(t, plain.String(), ours.String(), wood)
		}
	}
	for id := range s.Tables().Woods {
		check(fmt.Sprintf(`"wood": %q`, id))
	}
	assert.Equal(t, len(s.Tables().Woods), worded)
	check(`"wood": {"name": "a <wood> & \"more\"", "radial_shrinkage_pct": 4, "tangential_shrinkage_pct": 8}`)
	assert.Equal(t, len(s.Tables().Woods), worded)
}
