package main

import (
	"math/big"
	"regexp"
	"slices"
	"strings"
)

var yearShapes = []shape{
	{[]string{"section"}, sectionShape},
	{[]string{"laminate"}, laminateShape},
	{[]string{"in-service", "movement-figures"}, assemblyShape},
}

// sectionShape gives the pith its place in the frame, and the profile its lengths.
func sectionShape(top *node) {
	thickness := top.get("thickness")
	if pith := top.get("pith"); pith != nil && pith.kind == '{' {
		at := &node{kind: '{'}
		at.put("y", sumOf(half(top.get("width")), pith.get("offset")))
		at.put("z", sumOf(thickness, pith.take("depth")))
		pith.take("offset")
		at.members = append(at.members, pith.members...)
		rings := &node{kind: '{', members: []member{{"pith", at}}}
		if old := top.get("rings"); old != nil && old.kind == '{' {
			top.take("pith")
			old.put("pith", at)
		} else {
			place := top.index("pith")
			top.members[place] = member{"rings", rings}
		}
	}
	if rings := top.get("rings"); rings.get("radius") != nil {
		rings.put("lean", plain("far"))
		rings.put("pith_side", plain("face_2"))
	}
	profile := top.get("profile")
	if profile == nil {
		return
	}
	for _, level := range profile.items {
		if i := level.index("depth"); i >= 0 {
			level.members[i] = member{"z", share(thickness, level.members[i].value)}
		}
	}
}

// laminateShape turns the panel over: its layers count from face 1, the top.
func laminateShape(top *node) {
	if layers := top.get("layers"); layers != nil {
		slices.Reverse(layers.items)
	}
}

// assemblyShape gives parts and pairs their ids, and finishes their figures.
func assemblyShape(top *node) {
	parts, pairs := top.get("parts").entries(), top.get("pairs").entries()
	names := make([]string, len(parts))
	for i, one := range parts {
		names[i], _ = one.get("name").string()
		ownResistance(one.get("finish"))
	}
	identify(parts)
	identify(pairs)
	for _, pair := range pairs {
		for _, side := range []string{"outer", "inner"} {
			part := pair.get(side).get("part")
			name, _ := part.string()
			if i := slices.Index(names, name); i >= 0 && part != nil {
				if id := parts[i].get("id"); id != nil {
					*part = *id
				}
			}
		}
	}
}

// ownResistance puts the caller's own resistance in the place of the name.
func ownResistance(finish *node) {
	for _, side := range []string{"outside", "inside"} {
		own := finish.get(side + "_resistance_s_per_m")
		if own == nil {
			continue
		}
		finish.take(side + "_resistance_s_per_m")
		finish.take(side)
		finish.put(side, &node{kind: '{', members: []member{{"resistance_s_per_m", own}}})
	}
}

var lengthText = regexp.MustCompile(`^(-?)([0-9. /]+?) ?([A-Za-z]+)$`)

// read is a quantity in either form: its number and its unit.
func read(n *node) (*big.Rat, string, bool) {
	if value, unit := n.get("value"), n.get("unit"); value != nil && value.kind == 'v' {
		v, good := new(big.Rat).SetString(string(value.text))
		name, is := unit.string()
		return v, name, good && is
	}
	text, is := n.string()
	parts := lengthText.FindStringSubmatch(text)
	if !is || parts == nil {
		return nil, "", false
	}
	sum := new(big.Rat)
	for _, word := range strings.Fields(parts[2]) {
		part, good := new(big.Rat).SetString(word)
		if !good {
			return nil, "", false
		}
		sum.Add(sum, part)
	}
	if parts[1] == "-" {
		sum.Neg(sum)
	}
	return sum, parts[3], true
}

// units are those of length that requests use, in millimetres.
var units = map[string]*big.Rat{"mm": big.NewRat(1, 1), "cm": big.NewRat(10, 1), "m": big.NewRat(1000, 1),
	"um": big.NewRat(1, 1000), "in": big.NewRat(127, 5), "ft": big.NewRat(1524, 5)}

func write(v *big.Rat, unit string) *node {
	text := v.FloatString(12)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return plain(text + " " + unit)
}

// half is half of a length; nil where it is none.
func half(n *node) *node { return share(n, &node{kind: 'v', text: []byte("0.5")}) }

// share is a part of a length; what stood there where it is none.
func share(of, part *node) *node {
	v, unit, is := read(of)
	if part == nil || part.kind != 'v' {
		return part
	}
	f, good := new(big.Rat).SetString(string(part.text))
	if !is || !good {
		return part
	}
	return write(v.Mul(v, f), unit)
}

// sumOf is the sum of two lengths, in the unit of the second; what stood there where
// they are none.
func sumOf(a, b *node) *node {
	one, oneUnit, first := read(a)
	two, twoUnit, second := read(b)
	if !first || !second || units[oneUnit] == nil || units[twoUnit] == nil {
		return b
	}
	one.Mul(one, new(big.Rat).Quo(units[oneUnit], units[twoUnit]))
	return write(one.Add(one, two), twoUnit)
}
