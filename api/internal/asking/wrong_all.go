package asking

import (
	"slices"
)

// WrongRequests also seed the fuzzing of the decoder.
var WrongRequests = slices.Concat(wrongAnywhere, wrongInService, wrongSection, wrongLaminate, wrongBookmatch, wrongTiming, wrongResaw, wrongLog, wrongSeasoning, wrongHistory, wrongBatches, wrongTogether, wrongRack)
