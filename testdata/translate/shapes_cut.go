package main

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
)

var (
	sawing = []string{"yield", "resaw/timing", "readiness"}

	cutShapes = []shape{
		{sawing, trimsBothSides},
		{sawing, facesTheBillet},
		{sawing, func(top *node) { top.get("part").dropEmpty("allowances") }},
		{[]string{"resaw"}, planShape},
		{[]string{"bookmatch"}, func(top *node) {
			top.dropEmpty("cleanup")
			rings := top.get("billet").get("rings")
			pithSide(rings)
			leansByItsAngle(rings)
		}},
	}
)

// trimsBothSides gives both ends and both edges of the billet the trim of each.
func trimsBothSides(top *node) {
	billet := top.get("billet")
	for _, t := range [][3]string{{"end_trim", "start", "end"}, {"edge_trim", "near", "far"}} {
		if size := billet.take(t[0]); size != nil {
			trim := billet.below("trim", len(billet.members))
			trim.put(t[1], size)
			trim.put(t[2], size.copy())
		}
	}
}

// facesTheBillet gives each face of the billet half of what the saw took off both.
func facesTheBillet(top *node) {
	facing := top.get("saw").take("facing")
	if facing == nil {
		return
	}
	billet := top.below("billet", 0)
	half := facing.half()
	billet.put("facing_face_1", half)
	billet.put("facing_face_2", half.copy())
}

// planShape turns what a plan says of its lists.
func planShape(top *node) {
	wood := top.take("wood")
	billets := top.get("billets").entries()
	for _, b := range billets {
		own := b.take("wood")
		if own == nil && wood != nil {
			own = wood.copy()
		}
		if own != nil && b.kind == '{' {
			b.members = slices.Insert(b.members, b.index("name")+1, member{"wood", own})
		}
		pithSide(b.get("rings"))
	}
	for _, p := range top.get("parts").entries() {
		sawnAt := p.take("sawn_at_pct")
		for _, b := range billets {
			if sawnAt != nil && b.kind == '{' && b.get("condition") == nil {
				b.below("condition", len(b.members)).put("mc_pct", sawnAt.copy())
			}
		}
	}
	for _, list := range []string{"billets", "saws", "parts"} {
		identify(top.get(list).entries())
	}
	if fault := top.get("variation").take("hidden_fault_pct"); fault != nil {
		top.get("variation").put("hidden_fault_probability", fault.scaled(0.01))
	}
	if template := top.get("template_billet"); template != nil {
		n, err := strconv.Atoi(string(template.text))
		id := strconv.Itoa(n)
		if err == nil && n >= 1 && n <= len(billets) {
			if own, is := billets[n-1].get("id").string(); is {
				id = own
			}
		}
		if err == nil {
			*template = *plain(id)
		}
	}
}

// pithSide says on which side the pith lies.
func pithSide(rings *node) {
	if before := rings.take("pith_before_face_1"); before != nil && string(before.text) != "false" {
		rings.put("pith_side", plain("face_1"))
	}
}

// leansByItsAngle makes the one reading that a lean goes with the angle of all.
func leansByItsAngle(rings *node) {
	readings := rings.get("readings").entries()
	if rings.get("lean") == nil || len(readings) != 1 || readings[0].get("angle_deg") == nil {
		return
	}
	rings.put("angle_deg", readings[0].get("angle_deg"))
	rings.take("readings")
}

var notOfAnID = regexp.MustCompile(`[^A-Za-z0-9._-]+`)

// identify gives entries that have a name an id, and leaves the name where it is another.
func identify(all []*node) {
	taken := map[string]bool{}
	for _, one := range all {
		name, is := one.get("name").string()
		id := strings.TrimLeft(notOfAnID.ReplaceAllString(name, "-"), "._-")
		if !is || id == "" {
			continue
		}
		id = strings.TrimRight(id, "-")
		if taken[id] && id != name { // two names of one id; two of one name stay wrong
			id += "-2"
		}
		taken[id] = true
		at := one.index("name")
		if id == name {
			one.members[at].name = "id"
			continue
		}
		one.members = slices.Insert(one.members, at, member{"id", plain(id)})
	}
}

// entries are the items of a list; none where it is none.
func (n *node) entries() []*node {
	if n == nil {
		return nil
	}
	return n.items
}

// dropEmpty removes a member that is an object without members.
func (n *node) dropEmpty(name string) {
	if is := n.get(name); is != nil && is.kind == '{' && len(is.members) == 0 {
		n.take(name)
	}
}

// copy is a node that shares nothing with the first.
func (n *node) copy() *node {
	made, err := parse(n.line(nil))
	if err != nil { // of a node that was parsed
		return n
	}
	return made
}

var quantityText = regexp.MustCompile(`^([0-9]*\.?[0-9]+(?: [0-9]+/[0-9]+)?|[0-9]+/[0-9]+)( ?[a-z]+)$`)

// half of a quantity in either form; one that cannot be read stays as it is.
func (n *node) half() *node {
	if value := n.get("value"); value != nil {
		made := n.copy()
		*made.get("value") = *value.scaled(0.5)
		return made
	}
	text, _ := n.string()
	parts := quantityText.FindStringSubmatch(text)
	if parts == nil {
		return n.copy()
	}
	sum := 0.0
	for one := range strings.FieldsSeq(parts[1]) {
		over, under, broken := strings.Cut(one, "/")
		value, _ := strconv.ParseFloat(over, 64)
		if broken {
			by, _ := strconv.ParseFloat(under, 64)
			value /= by
		}
		sum += value
	}
	return plain(strconv.FormatFloat(sum/2, 'g', -1, 64) + parts[2])
}

// scaled is a number times a factor; what is no number stays as it is.
func (n *node) scaled(by float64) *node {
	value, err := strconv.ParseFloat(string(n.text), 64)
	if err != nil {
		return n
	}
	if by < 1 { // a division is exact where the product is not
		return &node{kind: 'v', text: strconv.AppendFloat(nil, value/(1/by), 'g', -1, 64)}
	}
	return &node{kind: 'v', text: strconv.AppendFloat(nil, value*by, 'g', -1, 64)}
}
