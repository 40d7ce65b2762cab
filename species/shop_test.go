package species

import (
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func assertMM(t *testing.T, want float64, s Size, what string) {
	t.Helper()
	v, known := s.Get()
	assert.True(t, known, what)
	assert.InDelta(t, want, v.Millimetres(), 1e-9, what)
}

func plate(t *testing.T, id string) *Plate {
	t.Helper()
	p, ok := tables(t).Plate(id)
	require.True(t, ok, id)
	return p
}

func TestShopRowCounts(t *testing.T) {
	all := tables(t)
	assert.Len(t, all.Plates(), 90)
	assert.Len(t, all.Saws(), 12)
	assert.Len(t, all.Allowances(), 17)
	assert.Len(t, all.EndTrims(), 7)
	assert.True(t, slices.IsSortedFunc(all.Plates(), func(a, b *Plate) int { return strings.Compare(a.ID, b.ID) }))
	all.Plates()[0] = nil
	assert.NotNil(t, all.Plates()[0], "the slice is the caller's")
	for _, ok := range []bool{second(all.Plate("x")), second(all.Saw("")), second(all.Allowance("Facing")), second(all.EndTrim("sealed"))} {
		assert.False(t, ok)
	}
}

func second[T any](_ T, ok bool) bool { return ok }

// Sums were taken from the tables before they were brought into this form.
func TestShopSpotSums(t *testing.T) {
	for _, c := range []struct {
		file, column string
		count        int
		sum          float64
	}{
		{"plates", "pieces_per_set", 90, 158},
		{"plates", "length_mm", 90, 48775},
		{"plates", "width_mm", 90, 12504},
		{"plates", "rough_mm", 90, 1422.1},
		{"plates", "final_mm", 90, 892.4},
		{"plates", "thin_edge_mm", 13, 152},
	} {
		count, sum := column(t, c.file, c.column)
		assert.Equal(t, c.count, count, "%s %s", c.file, c.column)
		assert.InDelta(t, c.sum, sum, 1e-6, "%s %s", c.file, c.column)
	}
}

func TestEveryShopFigureIsSourced(t *testing.T) {
	all := tables(t)
	sourced := func(s Size, id string) {
		if !s.Known() {
			assert.Empty(t, s.Source, id)
			assert.Empty(t, s.Checked, id)
			return
		}
		assert.NotEmpty(t, s.Source, id)
		assert.NotEmpty(t, s.Checked.Meaning(), id)
	}
	for _, p := range all.Plates() {
		for _, s := range []Size{p.Length, p.Width, p.Rough, p.ThinEdge, p.Final} {
			sourced(s, p.ID)
		}
		rough, _ := p.Rough.Get()
		final, _ := p.Final.Get()
		length, _ := p.Length.Get()
		width, _ := p.Width.Get()
		assert.Greater(t, rough, final, p.ID)
		assert.Greater(t, length, width, p.ID)
		if thin, wedge := p.ThinEdge.Get(); wedge {
			assert.Greater(t, rough, thin, p.ID)
			assert.Greater(t, thin, final, "the thin edge still makes the plate: %s", p.ID)
		}
		assert.Equal(t, strings.Contains(p.Part, "wedge"), p.Wedge(), p.ID)
		assert.False(t, p.Pieces == 1 && p.Matched == Bookmatched, "one piece has no match: %s", p.ID)
		assert.Equal(t, p.RingAngle.Least.Known(), p.RingAngle.Source != "", p.ID)
		assert.Equal(t, p.Quartered && strings.HasPrefix(p.Part, "top"), p.RingAngle.Wanted.Known(), p.ID)
	}
	for _, s := range all.Saws() {
		eachSize(s.Kerf, func(v Size) { sourced(v, s.ID) })
		assert.True(t, s.Kerf.Usual.Known(), "every saw has a usual kerf: %s", s.ID)
	}
	for _, a := range all.Allowances() {
		eachSize(a.Loss, func(v Size) { sourced(v, a.ID) })
	}
	for _, e := range all.EndTrims() {
		eachSize(e.Each, func(v Size) { sourced(v, e.ID) })
	}
}

func eachSize(s Span, visit func(Size)) {
	visit(s.Low)
	visit(s.Usual)
	visit(s.High)
}

func TestShopSpotRows(t *testing.T) {
	all := tables(t)
	top := plate(t, "steel-string-dreadnought-top")
	assertMM(t, 560, top.Length, "length")
	assertMM(t, 210, top.Width, "width")
	assertMM(t, 4.5, top.Rough, "rough")
	assertMM(t, 2.8, top.Final, "final")
	assert.Equal(t, Practice, top.Length.Checked)
	assert.False(t, top.Wedge())
	assert.Equal(t, Bookmatched, top.Matched)
	least, known := top.RingAngle.Least.Get()
	assert.True(t, known)
	assert.InDelta(t, 75, least.Degrees(), 1e-9)

	// Thick and thin edges of the wedges.
	for id, edges := range map[string][2]float64{
		"violin-top": {22, 9}, "violin-back": {22, 9}, "viola-top": {24, 10}, "viola-back": {24, 10}, "cello-top": {38, 17}, "cello-back": {38, 17},
		"double-bass-top": {48, 24}, "archtop-guitar-top": {30, 10}, "archtop-guitar-back": {25, 8}, "mandolin-a-top": {24, 10}, "mandolin-a-back": {22, 9},
		"mandolin-f-top": {24, 10}, "mandolin-f-back": {22, 9},
	} {
		assertMM(t, edges[0], plate(t, id).Rough, id)
		assertMM(t, edges[1], plate(t, id).ThinEdge, id)
	}
	assert.Equal(t, Read, plate(t, "archtop-guitar-back").Rough.Checked)
	assert.Equal(t, Practice, plate(t, "archtop-guitar-back").Final.Checked)
	assert.Equal(t, EitherMatched, plate(t, "electric-guitar-body-two-piece").Matched)

	// Published inch sizes, rounded to the millimetre.
	for id, inches := range map[string][2]float64{"electric-guitar-body-one-piece": {19, 13.25}, "bass-body-one-piece": {22, 14}, "electric-guitar-wings": {19.5, 5.5}, "electric-guitar-neck-through": {38, 2.4}} {
		length, _ := plate(t, id).Length.Get()
		width, _ := plate(t, id).Width.Get()
		assert.InDelta(t, inches[0]*25.4, length.Millimetres(), 2.5, id)
		assert.InDelta(t, inches[1]*25.4, width.Millimetres(), 0.7, id)
	}

	mill, _ := all.Saw("mill_circular")
	assertMM(t, 7.1, mill.Kerf.Low, "mill")
	assertMM(t, 9.5, mill.Kerf.High, "mill")
	assert.InDelta(t, 9.0/32*25.4, 7.1, 0.05)
	assert.InDelta(t, 12.0/32*25.4, 9.5, 0.05)
	carbide, _ := all.Saw("bandsaw_carbide")
	assertMM(t, 1.45, carbide.Kerf.Usual, "carbide")
	full, _ := all.Saw("table_saw_full")
	assert.False(t, full.Kerf.Low.Known())
	froe, _ := all.Saw("froe")
	assertMM(t, 0, froe.Kerf.Usual, "froe")

	clean, _ := all.Allowance("cleanup_resaw")
	assertMM(t, 0.8, clean.Loss.Usual, "clean-up")
	assert.Equal(t, Read, clean.Loss.Usual.Checked)
	toMove, _ := all.Allowance("leaf_to_move")
	assertMM(t, 2, toMove.Loss.Low, "leaf to move")
	assert.False(t, toMove.Loss.High.Known())
	fresh, _ := all.EndTrim("sealed_fresh")
	assertMM(t, 17.5, fresh.Each.Usual, "sealed fresh")
	inner, _ := all.EndTrim("inner_checks")
	assertMM(t, 300, inner.Each.Low, "inner checks")
	assert.Equal(t, Read, inner.Each.Low.Checked)
}

// A plate is wide enough for half the widest bout, the seam and the outline:
// 397, 370, 208 and 440 mm, bout figures from memory.
func TestPlatesAreWideEnough(t *testing.T) {
	for _, c := range []struct {
		id            string
		bout, outline float64
	}{{"steel-string-dreadnought-top", 397, 6}, {"classical-guitar-top", 370, 5}, {"violin-top", 208, 6}, {"cello-top", 440, 8}} {
		width, _ := plate(t, c.id).Width.Get()
		assert.GreaterOrEqual(t, width.Millimetres(), c.bout/2+3+c.outline-0.5, c.id)
	}
}

func TestMidpoints(t *testing.T) {
	all := tables(t)
	var spans []Span
	for _, s := range all.Saws() {
		spans = append(spans, s.Kerf)
	}
	for _, a := range all.Allowances() {
		spans = append(spans, a.Loss)
	}
	for _, e := range all.EndTrims() {
		spans = append(spans, e.Each)
	}
	for _, s := range spans {
		if s.Usual.Checked != Computed {
			continue
		}
		low, _ := s.Low.Get()
		high, _ := s.High.Get()
		usual, _ := s.Usual.Get()
		assert.InDelta(t, float64(low+high)/2, float64(usual), 1e-9)
	}
}

func TestFindPlates(t *testing.T) {
	all := tables(t)
	for _, c := range []struct {
		query, want string
		kind        MatchKind
	}{
		{"violin-top", "violin-top", ExactID},
		{"dreadnought top", "steel-string-dreadnought-top", ExactName},
		{"Dreadnought  TOP", "steel-string-dreadnought-top", ExactName},
		{"classical guitar back", "classical-guitar-back", ExactName},
		{"violin top", "violin-top", ExactName},
		{"tenor ukulele sides", "ukulele-tenor-sides", ExactName},
		{"cello fingerboard", "cello-fingerboard", ExactName},
		{"mandolin sides", "mandolin-sides", ExactName},
		{"dreadnougt top", "steel-string-dreadnought-top", Near},
	} {
		found := all.FindPlates(c.query, 5)
		require.NotEmpty(t, found, c.query)
		assert.Equal(t, c.want, found[0].Plate.ID, c.query)
		assert.Equal(t, c.kind, found[0].Kind, "%s: %s", c.query, found[0].Kind)
		assert.NotEmpty(t, found[0].Name, c.query)
	}
	assert.Len(t, all.FindPlates("ukulele", 100), 15)
	assert.Empty(t, all.FindPlates("", 3))
	assert.Empty(t, all.FindPlates("zzzzzz", 3))
	assert.Equal(t, "violin-top", all.SuggestPlates("violin-tp", 1)[0])
	for _, p := range all.Plates() {
		assert.Equal(t, p.ID, all.FindPlates(p.ID, 1)[0].Plate.ID)
		found := all.FindPlates(p.Instrument+" "+p.Part, 1)
		assert.Equal(t, p.ID, found[0].Plate.ID)
	}
	rapid.Check(t, func(t *rapid.T) {
		limit := rapid.IntRange(-1, 100).Draw(t, "limit")
		found := all.FindPlates(rapid.String().Draw(t, "query"), limit)
		if len(found) > max(0, limit) {
			t.Fatalf("%d matches for limit %d", len(found), limit)
		}
	})
}

func TestBrokenShopDataIsRefused(t *testing.T) {
	for _, c := range []struct{ file, old, new, want string }{
		{"plates", "steel-string-dreadnought-top,\"steel-string guitar, dreadnought\",top,2,", "steel-string-dreadnought-top,\"steel-string guitar, dreadnought\",top,1.5,", "whole number"},
		{"plates", "classical-guitar-top,", "classical-guitar-back,", "classical-guitar-back stands twice"},
		{"plates", "4.5,,shop-practice,common-practice,2.8", "2.5,,shop-practice,common-practice,2.8", "not below the rough"},
		{"plates", "22,9,", "22,29,", "not thinner"},
		{"plates", "yes,bookmatch,85", "yse,bookmatch,85", "not yes or no"},
		{"plates", "yes,bookmatch,85", "yes,bokmatch,85", "unknown matching"},
		{"plates", "yes,bookmatch,85", "yes,bookmatch,95", "is no ring angle"},
		{"plates", "560,210,shop-practice", "0,210,shop-practice", "not above 0"},
		{"plates", "560,210,shop-practice", "560,210,shop-practise", "unknown source"},
		{"saws", "7.1,kerf-hallock", "17.1,kerf-hallock", "out of order"},
		{"saws", "7.1,kerf-hallock", "-7.1,kerf-hallock", "negative"},
		{"end_trims", "25,end-check-thread,read", ",end-check-thread,read", "all empty"},
	} {
		files := copyOfData(t)
		file := files["data/"+c.file+".csv"]
		require.Contains(t, string(file.Data), c.old)
		file.Data = []byte(strings.Replace(string(file.Data), c.old, c.new, 1))
		_, err := load(files)
		assert.ErrorContains(t, err, c.want)
	}
}

// The columns of the shop tables are explained.
func TestColumnsOfTheShopTablesAreDocumented(t *testing.T) {
	text, err := os.ReadFile("DATA.md")
	require.NoError(t, err)
	for _, file := range []string{"plates", "saws", "allowances", "end_trims"} {
		table, err := os.ReadFile("data/" + file + ".csv")
		require.NoError(t, err)
		head, _, _ := strings.Cut(string(table), "\n")
		for column := range strings.SplitSeq(strings.TrimSpace(head), ",") {
			if file != "plates" && (strings.HasSuffix(column, "_source") || strings.HasSuffix(column, "_checked")) {
				continue // of a span, explained as a whole
			}
			assert.Contains(t, string(text), "`"+column+"`", file)
		}
	}
}
