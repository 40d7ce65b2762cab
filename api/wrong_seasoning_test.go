package api

// seasoningWith is a right request but for what a row puts into it.
func seasoningWith(storage, rest string) asked {
	return posting("/v1/seasoning", `{"species": "maple-sugar", "thickness": "50 mm", "stacked_on": "2024-04-01", "storage": [`+storage+`]`+rest+`}`)
}

const (
	okStay   = `{"station": "madison-wi"}`
	okTarget = `, "target_pct": 12`
)

var wrongSeasoning = []wrong{
	{"nothing given: seasoning", posting("/v1/seasoning", `{}`), 422, []string{"/thickness missing", "/stacked_on missing", "/storage missing"}, "thickness is needed"},
}
