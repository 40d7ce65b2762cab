package cut

// What the tests of this package see besides.
const (
	AboveLeft  = aboveLeft
	AboveWidth = aboveWidth
	PlanLabel  = planLabel
	PlanSheet  = planSheet
)
