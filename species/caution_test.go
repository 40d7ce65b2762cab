package species

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func kinds(cautions []Caution) map[CautionKind]int {
	found := map[CautionKind]int{}
	for _, c := range cautions {
		found[c.Kind]++
	}
	return found
}

func TestCautionsOfWoods(t *testing.T) {
	for _, c := range []struct {
		id   string
		want map[CautionKind]int
	}{
		{"spruce-sitka", map[CautionKind]int{Dust: 1}},
		{"oak-white", map[CautionKind]int{Dust: 2}},
		{"cedar-western-redcedar", map[CautionKind]int{Dust: 1, Sensitiser: 1}},
		{"cedar-northern-white", map[CautionKind]int{Dust: 1}},
		{"cocobolo", map[CautionKind]int{Dust: 1, Sensitiser: 1, Protected: 1}},
		{"rosewood-brazilian", map[CautionKind]int{Dust: 1, Sensitiser: 1, Protected: 2}},
		{"iroko", map[CautionKind]int{Dust: 1, Sensitiser: 1}},
		{"mahogany-true", map[CautionKind]int{Dust: 2, Protected: 1}},
		{"mahogany-african", map[CautionKind]int{Dust: 1, Sensitiser: 1, Protected: 1}},
		{"bubinga", map[CautionKind]int{Dust: 1, Sensitiser: 1, Protected: 1}},
		{"ovangkol", map[CautionKind]int{Dust: 1, Sensitiser: 1}},
		{"primavera", map[CautionKind]int{Dust: 1, Protected: 1}},
		{"hura", map[CautionKind]int{Dust: 1, Toxic: 1}},
	} {
		assert.Equal(t, c.want, kinds(wood(t, c.id).Cautions), c.id)
	}
}

func TestCautionsByBotanicalName(t *testing.T) {
	all := tables(t)
	assert.Equal(t, map[CautionKind]int{Dust: 1, Sensitiser: 1, Toxic: 1}, kinds(all.Cautions("Taxus baccata")))
	assert.Equal(t, map[CautionKind]int{Dust: 1, Sensitiser: 1}, kinds(all.Cautions("tieghemella heckelii")))
	assert.Equal(t, all.Cautions("Dalbergia nigra"), all.Cautions("  DALBERGIA  Nigra "))
	assert.Equal(t, kinds(all.Cautions("Milicia excelsa")), kinds(all.Cautions("Chlorophora excelsa and C. regia")))
	assert.Equal(t, kinds(all.Cautions("Caesalpinia echinata")), kinds(all.Cautions("Paubrasilia echinata")))
	// a genus whose name merely begins alike is another genus
	assert.Equal(t, map[CautionKind]int{Dust: 1}, kinds(all.Cautions("Taxusia baccata")))
	for _, nothing := range []string{"", " ", "()", "and", ",,,", "x"} {
		assert.Equal(t, map[CautionKind]int{Dust: 1}, kinds(all.Cautions(nothing)), nothing)
	}
}

func TestBotanicalNames(t *testing.T) {
	assert.Equal(t, []string{"intsia bijuga", "intsia palembanica"}, botanicalNames("Intsia bijuga and I. palembanica"))
	assert.Equal(t, []string{"callitropsis nootkatensis", "chamaecyparis nootkatensis"}, botanicalNames("Callitropsis nootkatensis (Chamaecyparis nootkatensis)"))
	assert.Equal(t, []string{"diospyros spp"}, botanicalNames("Diospyros spp."))
}
