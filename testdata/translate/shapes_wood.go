package main

var woodShapes = []shape{
	{[]string{"seasoning", "resaw/timing", "readiness"}, func(top *node) { intoWood(top, "drying_factor") }},
	{[]string{"in-service", "movement-figures"}, func(top *node) { eachOf(top, "parts", "drying_factor") }},
	{[]string{"laminate"}, func(top *node) { eachOf(top, "layers", "modulus_of_elasticity", "group") }},
}

func eachOf(top *node, list string, names ...string) {
	if all := top.get(list); all != nil {
		for _, one := range all.items {
			intoWood(one, names...)
		}
	}
}

// intoWood moves members of an object into its wood, which is given beside them or in the
// billet; a wood that is a name becomes an object.
func intoWood(at *node, names ...string) {
	for _, name := range names {
		value := at.take(name)
		if value == nil {
			continue
		}
		holder := at
		if billet := at.get("billet"); billet.get("wood") != nil {
			holder = billet
		}
		wood := holder.below("wood", len(holder.members))
		if _, named := wood.string(); named {
			text := &node{kind: 'v', text: wood.text}
			*wood = node{kind: '{'}
			wood.put("species", text)
		}
		wood.put(name, value)
	}
}
