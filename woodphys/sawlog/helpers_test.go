package sawlog_test

import (
	"errors"

	"latewood/woodphys/method"
)

// inputOf is the input that an error speaks of.
func inputOf(err error) string {
	var domain *method.Error
	if !errors.As(err, &domain) {
		return ""
	}
	return domain.Input
}
