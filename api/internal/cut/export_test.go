package cut

// What the tests of this package see besides.
var (
	AboveLeft  = wholeFrame.aboveLeft
	AboveWidth = wholeFrame.aboveWidth
	PlanSheet  = wholeFrame.sheet
	PlanLabel  = wholeFrame.label
)
