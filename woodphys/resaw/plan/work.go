package plan

import (
	"context"
	"errors"

	"latewood/woodphys/method"
)

// errBudget says that the work budget is used up. It never leaves the package.
var errBudget = errors.New("work budget used up")

// work counts steps. A step is one comparison of a dynamic program or what takes as
// long, some 20 ns.
type work struct {
	ctx        context.Context //nolint:containedctx // lives for one call of MakePlan
	done, most int64
	asked      int64
}

// spend counts n steps.
func (w *work) spend(n int64) error {
	w.done += n
	if w.done > w.most {
		return errBudget
	}
	if w.done-w.asked > 1<<16 {
		w.asked = w.done
		if w.ctx.Err() != nil {
			return &method.Error{Code: method.Stopped, Input: "plan", Detail: "the plan was stopped before it was done"}
		}
	}
	return nil
}
