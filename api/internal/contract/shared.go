package contract

import (
	"fmt"
	"strings"
)

// sharedEnums are the names of the lists of words that stand in several places, so that a
// generated client has one type for each.
var sharedEnums = map[string]string{
	"metric inch": "UnitSystem", "near far": "Edge", "bark pith": "EdgeInTree", "bookmatch slip_match wrong_way": "Opening",
	"thickness width length": "Dimension", "bookmatch none either": "PartMatch", "unknown drying wetting": "Sorption",
	"ready not_ready cannot_say": "Verdict", "bookmatch slip_match none": "SetMatch", "low moderate high": "Risk",
	"hardwood softwood imported": "Listing", "hardwood softwood": "WoodGroup", "resaw thickness glue": "WorkStep", "kerf allowance end_trim": "LossKind",
	"bare wax oil thin_lacquer lacquer varnish shellac epoxy impermeable": "FinishName", "json svg csv": "FormWithTable",
	"json svg": "FormDrawn", "billet piece": "RackWood", "sealed_fresh sealed_late bare": "EndSeal", "tangential radial longitudinal": "GrainDirection",
	"species group genus": "SpeciesKind", "near middle far": "WidthPlace", "weight ovendry_sample pin_meter": "NextReadingKind",
	"inward straight outward": "ProngTurn", "full summary": "DetailAsked",
}

// shareEnums puts one schema in place of each list of words that has a name.
func shareEnums(document map[string]any) error {
	schemas := Dig(document, "components", "schemas")
	shared := map[string]any{}
	shareIn(document["paths"], shared)
	shareIn(document["components"], shared)
	for name, schema := range shared {
		if _, taken := schemas[name]; taken {
			return fmt.Errorf("the name %s of a list of words is taken", name)
		}
		schemas[name] = schema
	}
	return nil
}

func shareIn(node any, shared map[string]any) {
	switch n := node.(type) {
	case []any:
		for _, one := range n {
			shareIn(one, shared)
		}
	case map[string]any:
		if name := sharedName(n); name != "" {
			shared[name] = map[string]any{"type": "string", "enum": n["enum"]}
			delete(n, "type")
			delete(n, "enum")
			n["$ref"] = "#/components/schemas/" + name
			return
		}
		for key, child := range n {
			if key != "examples" && key != "example" {
				shareIn(child, shared)
			}
		}
	}
}

// sharedName is the name of the list of words that a schema is; empty for any other.
func sharedName(schema map[string]any) string { return sharedEnums[strings.Join(wordsOf(schema), " ")] }

// wordsOf are the words of which a schema takes one; nil for any other schema.
func wordsOf(schema map[string]any) []string {
	if schema["type"] != "string" {
		return nil
	}
	texts, plain := schema["enum"].([]string)
	if plain {
		return texts
	}
	words, _ := schema["enum"].([]any)
	for _, word := range words {
		texts = append(texts, fmt.Sprint(word))
	}
	return texts
}
