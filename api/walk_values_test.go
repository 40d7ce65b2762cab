package api_test

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
)

// maker makes values from the schemas of the contract and from nothing else: it
// knows no type of this package.
type maker struct {
	*rand.Rand
	document map[string]any
	names    map[string][]string // known entries of the tables, by member
}

func (m *maker) chance(p float64) bool { return m.Float64() < p }

func one[T any](m *maker, from []T) T { return from[m.IntN(len(from))] }

// open follows references to the schema itself.
func (m *maker) open(schema any) map[string]any {
	s, ok := schema.(map[string]any)
	if !ok {
		return nil
	}
	ref, ok := s["$ref"].(string)
	if !ok {
		return s
	}
	at := any(m.document)
	for part := range strings.SplitSeq(strings.TrimPrefix(ref, "#/"), "/") {
		at = at.(map[string]any)[part] //nolint:forcetypeassert // a broken reference must fail the test
	}
	opened := m.open(at)
	for _, more := range []string{"required", "allOf"} { // beside the reference
		if own, has := s[more].([]any); has {
			is, _ := opened[more].([]any)
			opened = maps.Clone(opened)
			opened[more] = slices.Concat(is, own)
		}
	}
	return opened
}

// whole makes an object hold what goes together by its schema, and no more.
func (m *maker) whole(s, object map[string]any, deep int) map[string]any {
	properties := m.open(s["properties"])
	add := func(name string) {
		if _, has := object[name]; !has {
			object[name] = m.value(properties[name], name, max(deep, 1)-1)
		}
	}
	has := func(names []any) bool {
		return !slices.ContainsFunc(names, func(name any) bool { _, is := object[name.(string)]; return !is })
	}
	names := func(of any) []any { all, _ := m.open(of)["required"].([]any); return all }
	if ways, exactly := s["oneOf"].([]any); exactly {
		way := one(m, ways)
		for _, w := range ways {
			if has(names(w)) && m.chance(0.9) {
				way = w
			}
		}
		for _, w := range ways {
			for _, name := range names(w) {
				if !slices.Contains(names(way), name) {
					delete(object, name.(string)) //nolint:forcetypeassert // a name
				}
			}
		}
		for _, name := range names(way) {
			add(name.(string)) //nolint:forcetypeassert // a name
		}
	}
	all, _ := s["allOf"].([]any)
	for _, clause := range all {
		if ways, some := m.open(clause)["anyOf"].([]any); some && !slices.ContainsFunc(ways, func(w any) bool { return has(names(w)) }) {
			add(names(one(m, ways))[0].(string)) //nolint:forcetypeassert // a name
		}
	}
	for _, clause := range all {
		if never := names(m.open(clause)["not"]); len(never) > 0 && has(never) {
			delete(object, never[len(never)-1].(string)) //nolint:forcetypeassert // a name
		}
	}
	for name, needs := range m.open(s["dependentRequired"]) {
		if _, is := object[name]; is && !has(needs.([]any)) { //nolint:forcetypeassert // names
			delete(object, name)
		}
	}
	return object
}

// numberAt reads a keyword whose value is a number.
func numberAt(s map[string]any, key string, fallback float64) float64 {
	switch n := s[key].(type) {
	case float64:
		return n
	case fmt.Stringer: // json.Number
		if v, err := strconv.ParseFloat(n.String(), 64); err == nil {
			return v
		}
	}
	return fallback
}

// value makes a value that the schema allows. member is what it is called.
func (m *maker) value(schema any, member string, deep int) any {
	s := m.open(schema)
	if all, ok := s["enum"].([]any); ok {
		return one(m, all)
	}
	if all, ok := s["oneOf"].([]any); ok && s["properties"] == nil {
		if m.isQuantity(all) {
			return m.quantity(all)
		}
		return m.value(one(m, all), member, deep)
	}
	switch s["type"] {
	case "object":
		return m.object(s, deep)
	case "array":
		low, high := int(numberAt(s, "minItems", 0)), int(numberAt(s, "maxItems", 3))
		list := []any{}
		for range low + m.IntN(max(1, min(high-low, 3)+1)) {
			list = append(list, m.value(s["items"], member, deep-1))
		}
		return list
	case "boolean":
		return m.chance(0.5)
	case "integer":
		low, high := numberAt(s, "minimum", 0), numberAt(s, "maximum", 1000)
		return int(low) + m.IntN(int(min(high-low, 1000))+1)
	case "number":
		return m.within(s)
	case "string":
		return m.text(s, member)
	}
	return one(m, []any{true, 1.5, "x", map[string]any{}, []any{}})
}

// within draws a number in the bounds, now and then right at one of them.
func (m *maker) within(s map[string]any) float64 {
	low := numberAt(s, "minimum", numberAt(s, "exclusiveMinimum", -1000))
	high := numberAt(s, "maximum", numberAt(s, "exclusiveMaximum", max(low, 0)+1000))
	if _, closed := s["minimum"]; closed && m.chance(0.05) {
		return low
	}
	if _, closed := s["maximum"]; closed && m.chance(0.05) {
		return high
	}
	v := low + (high-low)*(1e-6+m.Float64()*(1-2e-6))
	if rounded := math.Round(v*100) / 100; rounded > low && rounded < high {
		return rounded
	}
	return v
}

func (m *maker) text(s map[string]any, member string) string {
	if s["format"] == "date" {
		return fmt.Sprintf("%d-%02d-%02d", 2019+m.IntN(9), 1+m.IntN(12), 1+m.IntN(28))
	}
	if known := m.names[member]; known != nil && m.chance(0.9) {
		return one(m, known)
	}
	if all, ok := s["examples"].([]any); ok && m.chance(0.9) {
		if text, ok := one(m, all).(string); ok {
			return text
		}
	}
	low, high := int(numberAt(s, "minLength", 0)), int(numberAt(s, "maxLength", 20))
	letters := []rune("abc XYZ 019 -,.;/_'\"\\<>&%é年\u0000\n\u202e")
	text := make([]rune, low+m.IntN(min(high-low, 30)+1))
	for i := range text {
		text[i] = one(m, letters)
	}
	return string(text)
}

// isQuantity tells a quantity from an object of one of several forms.
func (m *maker) isQuantity(forms []any) bool {
	return slices.ContainsFunc(forms, func(form any) bool {
		return m.open(m.open(m.open(m.open(form)["properties"])["unit"]))["enum"] != nil
	})
}

// formOf is the form that a good value is of.
func (m *maker) formOf(forms []any, value any) any {
	object, isObject := value.(map[string]any)
	for _, form := range forms {
		s := m.open(form)
		if !isObject {
			if s["type"] != "object" {
				return form
			}
			continue
		}
		properties := m.open(s["properties"])
		fits := s["type"] == "object"
		for name := range object {
			fits = fits && properties[name] != nil
		}
		if kinds, told := m.open(properties["kind"])["enum"].([]any); told {
			fits = fits && slices.Contains(kinds, object["kind"])
		}
		if fits {
			return form
		}
	}
	return forms[0]
}

// quantity writes a quantity in one of its forms.
func (m *maker) quantity(forms []any) any {
	for _, f := range forms {
		s := m.open(f)
		if s["type"] != "object" {
			continue
		}
		units, ok := m.open(m.open(s["properties"])["unit"])["enum"].([]any)
		if !ok {
			break
		}
		value, unit := math.Round(math.Pow(10, m.Float64()*4-1)*100)/100, one(m, units)
		if m.chance(0.5) {
			return map[string]any{"value": value, "unit": unit}
		}
		return fmt.Sprintf("%v %v", value, unit)
	}
	return m.value(one(m, forms), "", 0)
}

func (m *maker) object(s map[string]any, deep int) map[string]any {
	object := map[string]any{}
	properties := m.open(s["properties"])
	required, _ := s["required"].([]any)
	for _, name := range slices.Sorted(maps.Keys(properties)) {
		if slices.Contains(required, any(name)) || deep > 0 && m.chance(0.4) {
			object[name] = m.value(properties[name], name, deep-1)
		}
	}
	return m.whole(s, object, deep)
}

// vary makes a copy of a good value in which some members are made anew, left
// out or added, all as the schema allows.
func (m *maker) vary(schema, value any, member string) any {
	s := m.open(schema)
	forms, ok := s["oneOf"].([]any)
	ok = ok && s["properties"] == nil
	if ok && !m.isQuantity(forms) {
		if m.chance(0.05) {
			return m.value(s, member, 2)
		}
		return m.vary(m.formOf(forms, value), value, member)
	} else if ok {
		switch {
		case m.chance(0.02):
			return m.quantity(forms)
		case m.chance(0.2):
			return m.scaled(value)
		}
		return value
	}
	switch v := value.(type) {
	case map[string]any:
		copied := map[string]any{}
		properties := m.open(s["properties"])
		required, _ := s["required"].([]any)
		for _, name := range slices.Sorted(maps.Keys(v)) {
			if !slices.Contains(required, any(name)) && m.chance(0.02) {
				continue
			}
			copied[name] = m.vary(properties[name], v[name], name)
		}
		if len(properties) > 0 && m.chance(0.1) {
			name := one(m, slices.Sorted(maps.Keys(properties)))
			if _, has := copied[name]; !has {
				copied[name] = m.value(properties[name], name, 2)
			}
		}
		return m.whole(s, copied, 2)
	case []any:
		copied := []any{}
		for _, entry := range v {
			copied = append(copied, m.vary(s["items"], entry, member))
		}
		return copied
	}
	if m.chance(0.1) {
		return m.value(s, member, 1)
	}
	return value
}

// scaled changes the number of a quantity by up to a third.
func (m *maker) scaled(value any) any {
	by := math.Exp((m.Float64() - 0.5) * 0.6)
	switch v := value.(type) {
	case string:
		text, unit, ok := strings.Cut(v, " ")
		if n, err := strconv.ParseFloat(text, 64); ok && err == nil {
			return strconv.FormatFloat(math.Round(n*by*1000)/1000, 'f', -1, 64) + " " + unit
		}
	case map[string]any:
		return map[string]any{"value": math.Round(numberAt(v, "value", 1)*by*1000) / 1000, "unit": v["unit"]}
	}
	return value
}

// spoil makes a copy of a good value that the schema should refuse at one place.
func (m *maker) spoil(schema, value any) any {
	s := m.open(schema)
	if forms, ok := s["oneOf"].([]any); ok && s["properties"] == nil && !m.isQuantity(forms) {
		s = m.open(m.formOf(forms, value))
	}
	switch v := value.(type) {
	case map[string]any:
		if len(v) > 0 && (s["oneOf"] == nil || s["properties"] != nil) && m.chance(0.75) {
			copied := maps.Clone(v)
			name := one(m, slices.Sorted(maps.Keys(v)))
			copied[name] = m.spoil(m.open(s["properties"])[name], v[name])
			return copied
		}
		return m.spoilObject(s, v)
	case []any:
		if len(v) > 0 && m.chance(0.8) {
			copied := slices.Clone(v)
			i := m.IntN(len(v))
			copied[i] = m.spoil(s["items"], v[i])
			return copied
		}
		if most := numberAt(s, "maxItems", math.Inf(1)); most < 200 && len(v) > 0 && m.chance(0.5) {
			copied := []any{}
			for range int(most) + 1 {
				copied = append(copied, v[0])
			}
			return copied
		}
	}
	wrong := []any{nil, true, "", "no such choice", -1e9, 1e9, 1e300, []any{}, map[string]any{}, []any{nil}, map[string]any{"value": "1", "unit": "mm"}, strings.Repeat("x", 300)}
	if s["type"] == "number" || s["type"] == "integer" {
		wrong = append(wrong, numberAt(s, "minimum", 0)-0.001, numberAt(s, "maximum", 0)+0.001, "12", 0.5)
	}
	return one(m, wrong)
}

func (m *maker) spoilObject(s, v map[string]any) any {
	copied := maps.Clone(v)
	required, _ := s["required"].([]any)
	switch {
	case len(required) > 0 && m.chance(0.4):
		name, _ := one(m, required).(string)
		delete(copied, name)
	case m.chance(0.5):
		copied[one(m, []string{"no_such_member", "Species", "", "__proto__", "a/b~c"})] = 1
	default:
		return one(m, []any{nil, "x", 3, []any{copied}})
	}
	return copied
}
