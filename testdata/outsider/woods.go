package main

// wood has what the anchors need. Spans: green to 20 %, 1 inch, Air Drying of Lumber
// (USDA AH-402, 1971, and FPL-GTR-117, 1999), table of air-drying times, from memory.
// Green moisture: Wood Handbook FPL-GTR-190, table 4-1, between heartwood and sapwood;
// softwoods of which much is heartwood, by stem averages. Specific gravity, green
// volume: table 5-3.
type wood struct {
	id          string
	hardwood    bool
	soon, late  float64 // days
	green, grav float64 // %; 1
	rates       map[string]float64
}

func woods() []*wood {
	return []*wood{
		{id: "walnut-black", hardwood: true, soon: 70, late: 200, green: 82, grav: 0.51},
		{id: "maple-sugar", hardwood: true, soon: 50, late: 200, green: 69, grav: 0.56},
		{id: "oak-northern-red", hardwood: true, soon: 70, late: 200, green: 75, grav: 0.56},
		{id: "oak-white", hardwood: true, soon: 80, late: 250, green: 71, grav: 0.60},
		{id: "cherry-black", hardwood: true, soon: 70, late: 200, green: 58, grav: 0.47},
		{id: "ash-white", hardwood: true, soon: 60, late: 200, green: 45, grav: 0.55},
		{id: "birch-yellow", hardwood: true, soon: 70, late: 200, green: 73, grav: 0.55},
		{id: "beech-american", hardwood: true, soon: 70, late: 200, green: 64, grav: 0.56},
		{id: "yellow-poplar", hardwood: true, soon: 40, late: 150, green: 95, grav: 0.40},
		{id: "spruce-sitka", soon: 40, late: 150, green: 75, grav: 0.37},
		{id: "spruce-engelmann", soon: 20, late: 120, green: 90, grav: 0.33},
		{id: "pine-ponderosa", soon: 15, late: 150, green: 95, grav: 0.38},
	}
}
