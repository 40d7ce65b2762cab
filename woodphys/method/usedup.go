package method

import (
	"context"
	"errors"
)

// ErrUsedUp is the cause of a context that ended because the work took all that it may:
// who can, answers with the best that was found so far.
var ErrUsedUp = errors.New("the work took all that it may")

// IsUsedUp returns whether ctx ended because the work took all that it may, and not
// because nobody waits for the answer any more.
//
// Errors: none.
// Accuracy: exact.
// Source: own convention.
func IsUsedUp(ctx context.Context) bool { return errors.Is(context.Cause(ctx), ErrUsedUp) }
