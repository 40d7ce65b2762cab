package species

import "strings"

// CautionKind is what a caution is about.
type CautionKind string

// Kinds of caution.
const (
	Dust       CautionKind = "dust"       // dust hazard
	Sensitiser CautionKind = "sensitiser" // can cause allergy of skin or airways
	Toxic      CautionKind = "toxic"      // poisonous or caustic parts
	Protected  CautionKind = "protected"  // trade is or may be restricted
)

// Caution is a usual caution about a wood. It is a reminder and decides
// nothing: the current lists, local codes and licensed practice do.
type Caution struct {
	Kind    CautionKind
	Text    string
	Source  string
	Checked Checked
}

type cautionRule struct {
	match string // "*", or, folded, a genus, or a genus and species
	Caution
}

// Cautions returns the cautions that go by a botanical name: those for every
// wood, those of the genus and those of the species, the general first. Names
// joined by "and" or "or" or in brackets are all looked at. An empty or unknown name
// gives the general cautions only, which does not mean that the wood is safe.
//
// Source: each caution carries its own.
func (t *Tables) Cautions(botanical string) []Caution {
	var found []Caution
	names := botanicalNames(botanical)
	for i := range t.cautions {
		if t.cautions[i].applies(names) {
			found = append(found, t.cautions[i].Caution)
		}
	}
	return found
}

func (r *cautionRule) applies(names []string) bool {
	if r.match == "*" {
		return true
	}
	for _, name := range names {
		if rest, begins := strings.CutPrefix(name, r.match); begins && (rest == "" || rest[0] == ' ') {
			return true
		}
	}
	return false
}

var betweenNames = strings.NewReplacer("(", " and ", ")", "", ",", " and ", ";", " and ", " or ", " and ")

// botanicalNames splits "Intsia bijuga and I. palembanica" and "A b (C d)" into
// folded names, with an abbreviated genus written out.
func botanicalNames(text string) []string {
	text = betweenNames.Replace(text)
	var names []string
	genus := ""
	for part := range strings.SplitSeq(text, " and ") {
		name := fold(part)
		first, rest, _ := strings.Cut(name, " ")
		if len(first) == 1 && strings.HasPrefix(genus, first) {
			first = genus
		}
		if first == "" {
			continue
		}
		genus = first
		names = append(names, strings.TrimSpace(first+" "+rest))
	}
	return names
}
