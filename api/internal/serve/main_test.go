package serve_test

import (
	"testing"

	"go.uber.org/goleak"
)

// The tests leave no goroutine behind, nor does what they test.
func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }
