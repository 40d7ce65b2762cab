package readiness

import "latewood/woodphys/method"

// Methods returns the rows of this chapter.
func Methods() []*method.Method {
	return []*method.Method{&judgeRow, &learnRow, &discrepancyRow, &contradictionRow, &jointRow, &readyDateRow, &nextRow, &possibleRow}
}
