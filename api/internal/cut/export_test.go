package cut

// What the tests of this package see besides.
var (
	AboveLeft  = screenFrame.aboveLeft
	AboveWidth = screenFrame.aboveWidth
	PlanSheet  = screenFrame.sheet
)

// PlanLabel is the size of labels.
const PlanLabel = planLabel
