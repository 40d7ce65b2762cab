package asking

import "testing"

// OneByOne says that a test asks one question after the other, and many of them: the race
// detector has nothing to find there and makes it ten times as long, so it is left out.
func OneByOne(t *testing.T) {
	t.Helper()
	if UnderRace {
		t.Skip("one goroutine and many forecasts")
	}
}
