package contract

import (
	"slices"
	"strings"
)

// GrowsKey marks a list of words that may grow in answers while the first number of the
// version stays. Every list of an answer has it but those that are closed.
const GrowsKey = "x-extensible"

// closed are lists of words that are whole by their nature: nothing lies beside both edges of
// a board, and a verdict is yes, no or neither.
var closed = []string{
	"near far", "near middle far", "bark pith", "bark pith none", "first second either", "thickness width length", "thickness width",
	"tangential radial longitudinal", "unknown drying wetting", "low moderate high", "ready not_ready cannot_say", "metric inch",
	"core_wetter shell_wetter unknown", "shell core", "face_1 face_2 near far", "start end near far face_1", "json svg", "json svg csv",
	"inward straight outward", "together apart", "from to", "as_given if_quartersawn if_flatsawn",
}

// markGrowing marks the lists of words of answers that may grow.
func markGrowing(document map[string]any) {
	EachListOfAnswers(document, func(_ string, words []string, schema map[string]any) {
		if !slices.Contains(closed, strings.Join(words, " ")) {
			schema[GrowsKey] = true
		}
	})
}

// EachListOfAnswers calls visit with each list of two words and more that an answer may hold
// one of: where its schema stands, its words, and the schema.
func EachListOfAnswers(document map[string]any, visit func(at string, words []string, schema map[string]any)) {
	look := &looking{document: document, seen: map[string]bool{}, visit: visit}
	for path, item := range Dig(document, "paths") {
		operations, is := item.(map[string]any)
		if !is {
			continue
		}
		for verb, operation := range operations {
			if o, is := operation.(map[string]any); is {
				look.at("/paths/"+path+"/"+verb, o["responses"])
			}
		}
	}
	look.at("/components/responses", Dig(document, "components")["responses"])
}

// looking is a walk over what answers hold.
type looking struct {
	document map[string]any
	seen     map[string]bool
	visit    func(at string, words []string, schema map[string]any)
}

func (l *looking) at(place string, node any) {
	switch n := node.(type) {
	case []any:
		for _, one := range n {
			l.at(place, one)
		}
	case map[string]any:
		if words := wordsOf(n); len(words) > 1 {
			l.visit(place, words, n)
		}
		if to, is := n["$ref"].(string); is {
			name, isSchema := strings.CutPrefix(to, "#/components/schemas/")
			if isSchema && !l.seen[name] {
				l.seen[name] = true
				l.at("/components/schemas/"+name, Dig(l.document, "components", "schemas")[name])
			}
		}
		for name, child := range n {
			if name != "examples" && name != "example" && name != "headers" {
				l.at(place+"/"+name, child)
			}
		}
	}
}
