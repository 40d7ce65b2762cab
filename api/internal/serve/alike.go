package serve

import (
	"regexp"
	"strconv"
	"strings"

	"latewood/woodphys/method"
)

// once are the warnings without those that say again what one before them says of the same place:
// in the same words by another method, or that the same quantity lies outside of what something
// was fitted to.
func once(warnings []method.Warning) []method.Warning {
	type cause struct{ code, place, subject, detail string }
	seen := make(map[cause]bool, len(warnings))
	told := make([]method.Warning, 0, len(warnings))
	for i := range warnings {
		w := &warnings[i]
		one := cause{string(w.Code), w.Input, w.Subject, w.Detail}
		if w.Code == method.OutsideFitted {
			one.detail = numbersIn.ReplaceAllString(w.Detail, "")
		}
		if !seen[one] {
			seen[one] = true
			told = append(told, *w)
		}
	}
	return told
}

// fewAlike is how many warnings that say the same of different places stand by themselves. With
// more of them what matters is hard to find among them.
const fewAlike = 2

// numbersIn are the numbers of a sentence.
var numbersIn = regexp.MustCompile(`[0-9]+(\.[0-9]+)?`)

// alike folds warnings that say the same of many places into the first of them, with the places
// of the others.
func alike(warnings []method.Warning) []method.Warning {
	warnings = once(warnings)
	if len(warnings) <= fewAlike {
		return warnings
	}
	type kind struct{ code, method, place, detail string }
	kinds := make([]kind, len(warnings))
	count := make(map[kind]int, len(warnings))
	for i := range warnings {
		w := &warnings[i]
		detail := w.Detail
		if w.Subject != "" {
			detail = strings.ReplaceAll(detail, w.Subject, "")
		}
		kinds[i] = kind{string(w.Code), w.Method, withoutNumbers(w.Input), numbersIn.ReplaceAllString(detail, "")}
		if w.Input != "" && w.Code != method.Caution { // of what may do harm each place is told
			count[kinds[i]]++
		}
	}
	first := make(map[kind]int, len(count))
	told := make([]method.Warning, 0, len(warnings))
	for i, w := range warnings {
		at, seen := first[kinds[i]]
		switch {
		case count[kinds[i]] <= fewAlike:
			told = append(told, w)
		case !seen:
			first[kinds[i]] = len(told)
			w.Detail += "; and " + strconv.Itoa(count[kinds[i]]-1) + " more like it"
			w.Also = &method.Pointers{}
			told = append(told, w)
		default:
			*told[at].Also = append(*told[at].Also, w.Input)
		}
	}
	return told
}
