package seasoning

// MouldPerDay is for tests.
var MouldPerDay = mouldPerDay
