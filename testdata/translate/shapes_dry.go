package main

import "slices"

var dryShapes = []shape{
	{[]string{"moisture", "readiness"}, readingsByKind},
	{[]string{"moisture", "readiness"}, gravityIntoWood},
	{[]string{"readiness"}, historyDissolved},
	{[]string{"readiness"}, weightsAmongReadings},
	{[]string{"readiness", "seasoning", "resaw/timing"}, woodIntoBillet},
}

// readingKinds are the members that said how a reading was taken, and its kinds.
var readingKinds = map[string]string{
	"ovendry": "ovendry_sample", "running_weight": "running_weight", "pin_meter": "pin_meter",
	"pinless_meter": "pinless_meter", "size_and_weight": "size_and_weight", "stated": "stated",
}

// readingsByKind puts what stood below the name of a way of reading beside its kind.
func readingsByKind(top *node) {
	list := top.get("readings")
	if list == nil {
		return
	}
	for _, reading := range list.items {
		place := slices.IndexFunc(reading.members, func(m member) bool { return readingKinds[m.name] != "" && m.value.kind == '{' })
		if place < 0 {
			continue
		}
		way := reading.members[place]
		reading.members = slices.Delete(reading.members, place, place+1)
		reading.members = slices.Insert(reading.members, place, way.value.members...)
		reading.members = slices.Insert(reading.members, 0, member{"kind", plain(readingKinds[way.name])})
	}
}

// historyDissolved puts what was told of the history into the billet and beside it.
func historyDissolved(top *node) {
	place := top.index("history")
	if place < 0 || top.members[place].value.kind != '{' {
		return
	}
	history := top.take("history")
	billet := top.below("billet", 0)
	if place = min(place, len(top.members)); billet.kind != '{' {
		return
	}
	billet.put("stacked_on", history.take("stacked_on"))
	for old, now := range map[string]string{"start_mc_pct": "mc_pct", "start_mc_sd_points": "mc_sd_points"} {
		if value := history.take(old); value != nil {
			start := billet.below("start_condition", len(billet.members))
			start.put(now, value)
			slices.SortFunc(start.members, func(a, b member) int { return len(a.name) - len(b.name) })
		}
	}
	top.members = slices.Insert(top.members, place, history.members...)
}

// weightsAmongReadings makes one list of weights, of what was known on a day, and of the
// other readings.
func weightsAmongReadings(top *node) {
	all, place := &node{kind: '['}, -1
	take := func(name string) *node {
		if i := top.index(name); i >= 0 && (place < 0 || i < place) {
			place = i
		}
		return top.take(name)
	}
	of := func(one *node, marks ...member) {
		if one.kind == '{' {
			one.members = slices.Insert(one.members, 0, marks...)
		}
		all.items = append(all.items, one)
	}
	if weights := take("weights"); weights != nil {
		for _, w := range weights.items {
			of(w, member{"kind", plain("weight")})
		}
	}
	if board := take("sample_board_weights"); board != nil {
		for _, w := range board.items {
			of(w, member{"kind", plain("weight")}, member{"of", plain("sample_board")})
		}
	}
	if known := take("known_mc"); known != nil {
		of(known, member{"kind", plain("stated")})
	}
	if readings := take("readings"); readings != nil {
		all.items = append(all.items, readings.items...)
	}
	if place >= 0 {
		top.members = slices.Insert(top.members, min(place, len(top.members)), member{"readings", all})
	}
}

// gravityIntoWood moves the specific gravity that was told with a reading into the wood.
func gravityIntoWood(top *node) {
	list := top.get("readings")
	if list == nil {
		return
	}
	for _, reading := range list.items {
		if value := reading.take("specific_gravity"); value != nil && top.get("wood").get("specific_gravity") == nil {
			top.put("specific_gravity", value)
			intoWood(top, "specific_gravity")
		}
	}
}

// woodIntoBillet moves the wood into the billet.
func woodIntoBillet(top *node) {
	wood := top.take("wood")
	if wood == nil {
		return
	}
	if billet := top.below("billet", 0); billet.kind == '{' {
		billet.members = slices.Insert(billet.members, 0, member{"wood", wood})
	}
}
