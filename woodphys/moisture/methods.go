package moisture

import "latewood/woodphys/method"

// Methods returns the registry rows of this chapter.
func Methods() []*method.Method {
	return []*method.Method{
		&ovendryRow, &basisRow, &runningRow, &targetRow, &pinRow, &pinlessRow,
		&densityRow, &gravityRow, &statedRow, &combineRow, &gradientRow, &trendRow,
	}
}
