package species

import (
	"fmt"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestFold(t *testing.T) {
	assert.Equal(t, "maple sugar", fold("  Maple,  SUGAR "))
	assert.Equal(t, "goncalo alves", fold("Gonçalo-Alves"))
	assert.Equal(t, "ohare", fold("O'Hare"))
	assert.Equal(t, "kobenhavn", fold("København"))
	assert.Equal(t, "zurich", fold("Zu\u0308rich"), "accent as a letter of its own")
	assert.Equal(t, "", fold("-- ,;"))
	assert.LessOrEqual(t, len(fold(strings.Repeat("ü", 1000))), longestQuery)
}

func TestSlips(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"", "", 0}, {"maple", "maple", 0}, {"mapel", "maple", 1}, {"male", "maple", 1}, {"mapple", "maple", 1}, {"nafle", "maple", 2},
		{"kitten", "sitting", 3}, // the classic example
		{"ca", "abc", 3},         // 2 if letters could be touched twice
		{"", "abc", 3}, {"abcdef", "badcfe", 3},
	} {
		assert.Equal(t, c.want, slips(c.a, c.b, 5), "%s %s", c.a, c.b)
		assert.Equal(t, c.want, slips(c.b, c.a, 5), "%s %s", c.b, c.a)
		assert.Equal(t, min(c.want, 2), slips(c.a, c.b, 1), "%s %s with limit 1", c.a, c.b)
	}
}

// The plain recurrence without early stops, as the reference for slips.
func slipsPlain(a, b string) int {
	d := make([][]int, len(a)+1)
	for i := range d {
		d[i] = make([]int, len(b)+1)
		d[i][0] = i
	}
	for j := range d[0] {
		d[0][j] = j
	}
	for i := 1; i <= len(a); i++ {
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			d[i][j] = min(d[i-1][j]+1, d[i][j-1]+1, d[i-1][j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d[i][j] = min(d[i][j], d[i-2][j-2]+1)
			}
		}
	}
	return d[len(a)][len(b)]
}

func TestSlipsAgainstPlainRecurrence(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.StringMatching("[a-d]{0,9}").Draw(t, "a")
		b := rapid.StringMatching("[a-d]{0,9}").Draw(t, "b")
		limit := rapid.IntRange(0, 5).Draw(t, "limit")
		want := min(slipsPlain(a, b), limit+1)
		if got := slips(a, b, limit); got != want {
			t.Fatalf("slips(%q, %q, %d) = %d, want %d", a, b, limit, got, want)
		}
		if tooFar(letterSet(a), letterSet(b), limit) && want <= limit {
			t.Fatalf("%q and %q are wrongly held to be more than %d apart", a, b, limit)
		}
	})
}

func TestFindWoods(t *testing.T) {
	for _, c := range []struct {
		query, want string
		kind        MatchKind
	}{
		{"maple-sugar", "maple-sugar", ExactID},
		{" Maple-Sugar ", "maple-sugar", ExactID},
		{"sugar maple", "maple-sugar", ExactName},
		{"Maple, sugar", "maple-sugar", ExactName},
		{"maple sugar", "maple-sugar", ExactName},
		{"yellowpoplar", "yellow-poplar", ExactName},
		{"picea SITCHENSIS", "spruce-sitka", ExactBotany},
		{"Honduran mahogany", "mahogany-true", ExactSynonym},
		{"East Indian rosewood", "rosewood-indian", ExactSynonym},
		{"rosewood, east indian", "rosewood-indian", ExactSynonym},
		{"Milicia excelsa", "iroko", ExactSynonym},
		{"sitka", "spruce-sitka", Prefix},
		{"Gonçalo", "goncalo-alves", Prefix},
		{"engelm spr", "spruce-engelmann", Words},
		{"mahogany african", "mahogany-african", ExactName},
		{"locust honey", "honeylocust", ExactSynonym},
		{"sugar mapel", "maple-sugar", Near},
		{"cocobollo", "cocobolo", Near},
		{"rosewod", "rosewood-indian", Near},
		{"Engelman spurce", "spruce-engelmann", Near},
		{"picea abeis", "spruce-norway", Near},
		{"bubingo", "bubinga", Near},
		{"walnutt", "walnut-black", Near},
		{"brasilian rosewood", "rosewood-brazilian", Near},
	} {
		found := tables(t).Find(c.query, 5)
		require.NotEmpty(t, found, c.query)
		assert.Equal(t, c.want, found[0].Wood.ID, c.query)
		assert.Equal(t, c.kind, found[0].Kind, "%s: %s", c.query, found[0].Kind)
		assert.Equal(t, c.kind == Near, found[0].Slips > 0, c.query)
		assert.NotEmpty(t, found[0].Name, c.query)
	}
	for _, q := range []string{"", " ", "--", "qqqqqqqq", "\xff\xfe"} {
		assert.Empty(t, tables(t).Find(q, 5), q)
	}
	assert.Empty(t, tables(t).Find("maple", 0))
	assert.Empty(t, tables(t).Find("maple", -1))
	assert.Len(t, tables(t).Find("maple", 3), 3)
}

func TestEveryWoodIsFoundByItsNames(t *testing.T) {
	all := tables(t)
	found := func(query, id string) bool {
		for _, m := range all.Find(query, 30) {
			if m.Wood.ID == id && m.Kind <= ExactSynonym {
				return true
			}
		}
		return false
	}
	for _, w := range all.Woods() {
		assert.Equal(t, w.ID, all.Find(w.ID, 1)[0].Wood.ID)
		assert.Equal(t, ExactID, all.Find(w.ID, 1)[0].Kind)
		assert.True(t, found(w.Common, w.ID), w.Common)
		assert.True(t, found(w.Botanical, w.ID), w.Botanical)
		for _, s := range w.Synonyms {
			assert.True(t, found(strings.ToUpper(s), w.ID), s)
		}
	}
}

func TestSuggest(t *testing.T) {
	all := tables(t)
	assert.Equal(t, "maple-sugar", all.Suggest("maple-sugr", 3)[0])
	assert.Equal(t, "spruce-sitka", all.Suggest("sitka-spruce", 1)[0])
	for _, id := range all.Suggest("oak-purple", 4) {
		assert.True(t, strings.HasPrefix(id, "oak-"), id)
	}
	assert.Len(t, all.Suggest("oak-purple", 4), 4)
	assert.Empty(t, all.Suggest("", 3))
	assert.Empty(t, all.Suggest("oak", 0))
	assert.Empty(t, all.Suggest("zzzzzzzzzz", 3))
	assert.Equal(t, "madison-wi", all.SuggestStations("madisn-wi", 2)[0])
}

// What begins as names do was meant so: no place is offered whose name only looks alike.
func TestNoFarSpellingBesideWhatBeginsSo(t *testing.T) {
	assert.Equal(t, []string{"gdansk-port-polnocny"}, tables(t).SuggestStations("Gdansk Po", 5))
	for _, id := range tables(t).SuggestStations("Launc", 5) {
		assert.True(t, strings.HasPrefix(id, "launceston"), id)
	}
	assert.NotEmpty(t, tables(t).SuggestStations("Laucneston", 5), "where none begins so, spellings are tried")
}

// A place that is printed with its airport or a part of the city is found by the city.
func TestPlacesAreFoundByTheirCity(t *testing.T) {
	all := tables(t)
	airports := 0
	for _, s := range all.Stations() {
		for _, end := range []string{" Airport", " Aero", " Aerodrome", " Intl"} {
			city, is := strings.CutSuffix(s.Name, end)
			if !is || s.Region != "" {
				continue
			}
			airports++
			found := all.FindStations(city+", "+s.Country, 2)
			require.NotEmpty(t, found, s.Name)
			assert.Equal(t, s.ID, found[0].Station.ID, city)
			assert.LessOrEqual(t, found[0].Kind, ExactSynonym, city)
		}
	}
	assert.Greater(t, airports, 20)
	others := map[string]string{}
	for _, s := range all.Stations() {
		for _, other := range s.OtherNames {
			name := fold(other)
			assert.Empty(t, others[name], "%s and %s are both called %s", others[name], s.ID, other)
			others[name] = s.ID
		}
	}
}

// A bare name and a near spelling of it offer the right genus, the likeliest first.
func TestBareNamesOfferTheRightGenus(t *testing.T) {
	for name, want := range map[string][]string{
		"oak": {"oak-white", "oak-northern-red"}, "OAK": {"oak-white", "oak-northern-red"}, "yew": {"yew-european", "yew-pacific"},
		"mahogony": {"mahogany-true", "mahogany-african"}, "wallnut": {"walnut-black", "walnut-european"}, "mapel": {"maple-sugar", "maple-red"},
	} {
		ids := tables(t).Suggest(name, 2)
		assert.Equal(t, want, ids, name)
	}
	for _, name := range tables(t).BareNames() {
		choices, shared := tables(t).BareName(name)
		assert.True(t, shared)
		assert.GreaterOrEqual(t, len(choices), 2, name)
	}
	for _, name := range []string{"maple", "walnut", "ebony", "mahogany", "cherry", "hickory", "poplar", "acacia", "sycamore", "lacewood", "tulipwood"} {
		_, shared := tables(t).BareName(name)
		assert.True(t, shared, name)
	}
	assert.Len(t, tables(t).OfGenus("acer"), 10)
	assert.Empty(t, tables(t).OfGenus("Nothing"))
}

func TestFindStations(t *testing.T) {
	for _, c := range []struct {
		query, want string
		kind        MatchKind
	}{
		{"portland-or", "portland-or", ExactID},
		{"Portland, Oregon", "portland-or", ExactName},
		{"Portland ME", "portland-me", ExactName},
		{"Zürich", "zurich", ExactName},
		{"København", "copenhagen", ExactSynonym},
		{"Denmark", "copenhagen", Words},
		{"Sault Sainte Marie", "sault-ste-marie-mi", ExactSynonym},
		{"st louis", "st-louis-mo", ExactName},
		{"Harrisburg PA", "middletown-harrisburg-pa", ExactSynonym},
		{"chicago", "chicago-il", ExactName},
		{"Madisson", "madison-wi", Near},
		{"Chigaco", "chicago-il", Near},
		{"Albuquerqe", "albuquerque-nm", Near},
		{"Málaga", "malaga", ExactName},
		{"Gdańsk Port Północny", "gdansk-port-polnocny", ExactName},
		{"Łódź", "lodz", ExactName},
		{"Málaga ES", "malaga", ExactSynonym},
		{"Oslo Norway", "oslo-fornebu", ExactSynonym},
		{"Norway Fornebu", "oslo-fornebu", Words},
		{"singapore", "singapore-changi", ExactSynonym},
		{"Wien", "vienna-schwechat", ExactSynonym},
		{"Cairns", "cairns-aero", ExactSynonym},
		{"Cairns, Australia", "cairns-aero", ExactSynonym},
		{"Aberdeen UK", "aberdeen-dyce", ExactSynonym},
		{"Aberdeen", "aberdeen-sd", ExactName},
	} {
		found := tables(t).FindStations(c.query, 5)
		require.NotEmpty(t, found, c.query)
		assert.Equal(t, c.want, found[0].Station.ID, c.query)
		assert.Equal(t, c.kind, found[0].Kind, "%s: %s", c.query, found[0].Kind)
	}
	for _, s := range tables(t).Stations() {
		assert.Equal(t, s.ID, tables(t).FindStations(s.ID, 1)[0].Station.ID)
		assert.LessOrEqual(t, tables(t).FindStations(s.Name, 1)[0].Kind, ExactSynonym, s.Name)
	}
}

// Any query gives sorted, distinct matches within the limit and does not panic.
func TestFindHoldsForAnyQuery(t *testing.T) {
	all := tables(t)
	rapid.Check(t, func(t *rapid.T) {
		query := rapid.OneOf(rapid.String(), rapid.StringMatching("[a-z ,-]{0,30}")).Draw(t, "query")
		limit := rapid.IntRange(-2, 400).Draw(t, "limit")
		seen := map[string]bool{}
		last := ExactID
		found := all.Find(query, limit)
		if len(found) > max(0, limit) {
			t.Fatalf("%d matches for limit %d", len(found), limit)
		}
		for _, m := range found {
			if seen[m.Wood.ID] || m.Kind < last {
				t.Fatalf("%s again or out of order", m.Wood.ID)
			}
			seen[m.Wood.ID], last = true, m.Kind
		}
		all.Suggest(query, limit)
		all.SuggestStations(query, limit)
	})
}

// One slip of the pen in a name of six letters or more still finds the wood.
func TestOneSlipIsForgiven(t *testing.T) {
	all := tables(t)
	woods := all.Woods()
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.SampledFrom(woods).Draw(t, "wood")
		text := []byte(fold(w.Common))
		if len(text) < 6 {
			return
		}
		i := rapid.IntRange(1, len(text)-2).Draw(t, "at")
		switch rapid.IntRange(0, 2).Draw(t, "slip") {
		case 0:
			text[i], text[i+1] = text[i+1], text[i]
		case 1:
			text = append(text[:i], text[i+1:]...)
		case 2:
			text[i] = 'q'
		}
		for _, m := range all.Find(string(text), 400) {
			if m.Wood == w {
				return
			}
		}
		for _, m := range all.Find(string(text), 400) {
			if m.Kind < Near {
				return // the slip has made another name
			}
		}
		t.Fatalf("%q does not find %s", text, w.ID)
	})
}

func TestFindFromManyGoroutines(t *testing.T) {
	all := tables(t)
	var group sync.WaitGroup
	for range 8 {
		group.Go(func() {
			for _, q := range []string{"maple", "sugar mapel", "Zürich"} {
				all.Find(q, 5)
				all.FindStations(q, 5)
				all.Suggest(q, 5)
			}
		})
	}
	group.Wait()
}

func TestMatchKindNames(t *testing.T) {
	assert.Equal(t, "id", ExactID.String())
	assert.Equal(t, "near", Near.String())
	assert.Equal(t, "unknown", MatchKind(99).String())
	assert.Equal(t, "unknown", MatchKind(-1).String())
}

func ExampleTables_Find() {
	tables, err := Default()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, m := range tables.Find("rosewod", 2) {
		fmt.Println(m.Wood.ID, m.Kind, m.Slips)
	}
	// Output:
	// rosewood-indian near 1
	// rosewood-brazilian near 1
}

func ExampleTables_Wood() {
	tables, err := Default()
	if err != nil {
		fmt.Println(err)
		return
	}
	wood, _ := tables.Wood("birch-gray")
	radial, known := wood.Radial.Get()
	fmt.Println(radial, known, wood.Radial.Checked)
	_, known = wood.Tangential.Get()
	fmt.Println(known)
	// Output:
	// 5.2 true read
	// false
}

func BenchmarkFind(b *testing.B) {
	all := tables(b)
	for _, query := range []string{"maple", "sugar maple", "Engelman spurce", "qqqqqqqq wwwww eeeee"} {
		b.Run(query, func(b *testing.B) {
			for b.Loop() {
				all.Find(query, 10)
			}
		})
	}
}

func BenchmarkFindStations(b *testing.B) {
	all := tables(b)
	for b.Loop() {
		all.FindStations("Madisson Wisconsin", 10)
	}
}
