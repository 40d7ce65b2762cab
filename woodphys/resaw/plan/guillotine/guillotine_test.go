package guillotine_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/woodphys/resaw/plan/guillotine"
)

func free(int64) error { return nil }

// What can be cut over some places is worth no more than over all of them, and that no more
// than what a relaxed grid and a table promise.
func TestPlansAreNoBetterThanBounds(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	cut := 0
	for range 200 {
		size := func(low, high int) guillotine.NM { return guillotine.NM(low + r.IntN(high-low+1)) }
		roomX, roomY, kerfX, kerfY := size(10, 24), size(8, 16), size(0, 2), size(0, 2)
		lengths, widths := []guillotine.NM{3, 5, 8}, []guillotine.NM{2, 4, 7}
		worth := map[[2]guillotine.NM]int64{}
		var items []guillotine.Item
		for _, l := range lengths {
			for _, w := range widths {
				worth[[2]guillotine.NM{l, w}] = l * w * int64(5+r.IntN(6))
				items = append(items, guillotine.Item{Length: l, Width: w, Worth: worth[[2]guillotine.NM{l, w}]})
			}
		}
		best := func(int, int) guillotine.Corner {
			out := make([]int64, 9)
			for i, l := range lengths {
				for j, w := range widths {
					out[3*i+j] = worth[[2]guillotine.NM{l, w}]
					if i > 0 {
						out[3*i+j] = max(out[3*i+j], out[3*i+j-3])
					}
					if j > 0 {
						out[3*i+j] = max(out[3*i+j], out[3*i+j-1])
					}
				}
			}
			return guillotine.Corner{Best: out}
		}
		solved := func(relaxed bool, every guillotine.NM) int64 {
			axis := func(room, kerf guillotine.NM) guillotine.Axis {
				a := guillotine.Axis{Kerf: kerf}
				for v := guillotine.NM(0); v < room+kerf; v += every {
					a.At = append(a.At, v)
				}
				a.At = append(a.At, room+kerf)
				return a
			}
			g := guillotine.Grid{X: axis(roomX, kerfX), Y: axis(roomY, kerfY), Lengths: lengths, Widths: widths,
				Relaxed: relaxed, Corner: best}
			require.True(t, !relaxed || g.Narrow(3, 2))
			v, err := g.Solve(free)
			require.NoError(t, err)
			if root := g.Best(); root != nil {
				assert.Equal(t, v, root.Worth)
				require.NoError(t, g.Outside(free))
				assert.Zero(t, g.Rest(g.Whole()))
			}
			return v
		}
		all := solved(false, 1)
		assert.LessOrEqual(t, solved(false, 2), all)
		assert.GreaterOrEqual(t, solved(true, 2), all)
		assert.Equal(t, all, solved(true, 1), "places so fine that a stretch is one place")
		table := guillotine.NewTable(guillotine.Axes{RoomX: roomX, RoomY: roomY, KerfX: kerfX, KerfY: kerfY}, lengths, widths, 30, 20, &guillotine.Room{})
		require.True(t, table.Fine(3, 2))
		bound, err := table.Solve(items, nil, free)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, bound, all)
		if all > 0 {
			cut++
		}
	}
	assert.Greater(t, cut, 150)
}
