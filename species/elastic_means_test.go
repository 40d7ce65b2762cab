package species

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The group means are those of the published table, to four decimals; GRT is known for
// 7 hardwoods only.
func TestElasticMeans(t *testing.T) {
	for group, want := range map[Group][8]float64{
		Hardwood: {0.0569, 0.1143, 0.0892, 0.0666, 0.0177, 0.3713, 0.4668, 0.7033},
		Softwood: {0.0574, 0.0963, 0.0824, 0.0771, 0.0092, 0.3525, 0.3651, 0.4259},
	} {
		e := tables(t).ElasticMeans(group)
		for i, v := range []Value{e.ETEL, e.EREL, e.GLREL, e.GLTEL, e.GRTEL, e.PoissonLR, e.PoissonLT, e.PoissonRT} {
			got, known := v.Get()
			require.True(t, known)
			assert.InDelta(t, want[i], got, 1e-12, "%s %d", group, i)
			assert.Equal(t, Computed, v.Checked)
			assert.NotEmpty(t, v.Source)
		}
	}
	assert.False(t, tables(t).ElasticMeans(Imported).ETEL.Known())
}
