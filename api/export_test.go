package api

// What the tests of this package see besides.
var (
	Routes      = routes
	LimitsOfAll = limitsOfAll
	LimitsOf    = limitsOf
	Budgets     = budgets
)
