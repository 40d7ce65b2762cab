package asking

import (
	"slices"
)

// WrongRequests also seed the fuzzing of the decoder.
var WrongRequests = slices.Concat(wrongAnywhere, wrongInService, wrongSection, wrongLaminate, wrongBookmatch, wrongTiming, wrongResaw, wrongResawLimits, wrongLog, wrongLogLimits, wrongSeasoning, wrongHistory, wrongBatches, wrongTogether, wrongRack)
