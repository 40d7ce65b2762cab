package plan

import (
	"context"
	"errors"

	"latewood/woodphys/method"
)

// errBudget says that the work budget is used up: its steps, its memory or the time that
// the context allows. It never leaves the package.
var errBudget = errors.New("work budget used up")

// work counts what a search takes. A step is one comparison of a dynamic program or what
// takes as long, some 50 ns. Memory is reckoned where lists grow, so that it is the same
// on every machine.
type work struct {
	ctx        context.Context //nolint:containedctx // lives for one call of MakePlan
	done, most int64
	asked      int64
	held       memory
	room       int64 // bytes that may be held; 0: no limit
	peak       int64 // the most that was held
	late       bool  // the time was used up
	grid       int64 // bytes of the grid that all billets are laid on in turn
	tables     int64 // and of what their tables are solved in
}

// memory is what a search holds, in bytes: boards stay for longer than the lists that are
// made on them.
type memory struct{ boards, lists int64 }

// What one more entry of a list takes, in bytes, with the room that a slice or a map
// that grows has to spare.
const (
	nodeBytes    = 40
	nextBytes    = 10
	arcBytes     = 40
	sectionBytes = 90
	variantBytes = 150
	optionBytes  = 70
	labelBytes   = 160
	columnBytes  = 500
	mergedBytes  = 130
	indexBytes   = 100 // of a map by counts
	pointerBytes = 20
)

// spend counts n steps.
func (w *work) spend(n int64) error {
	w.done += n
	if w.done > w.most {
		return errBudget
	}
	if w.done-w.asked > 1<<16 {
		w.asked = w.done
		return w.ended()
	}
	return nil
}

// ended is the error where the context has ended.
func (w *work) ended() error {
	switch {
	case w.ctx.Err() == nil:
		return nil
	case method.IsUsedUp(w.ctx):
		w.late = true
		w.asked = w.done - 1<<16 // and so at the next step
		return errBudget
	}
	return &method.Error{Code: method.Stopped, Input: "plan", Detail: "the plan was stopped before it was done"}
}

// over reports whether steps or time are used up.
func (w *work) over() bool { return w.done > w.most || w.ended() != nil }

// used is the share of what the search may use that was used, of steps or memory,
// whichever is the larger, of a search that may take so many steps; 1 where the time was
// used up.
func (w *work) used(most int64) float64 {
	if w.late {
		return 1
	}
	share := float64(w.done) / float64(most)
	if w.room > 0 {
		share = max(share, float64(w.peak)/float64(w.room))
	}
	return min(1, share)
}

// build counts n entries of a board.
func (w *work) build(n int, bytes int64) error {
	w.held.boards += int64(n) * bytes
	return w.fits()
}

// list counts n entries of other lists.
func (w *work) list(n int, bytes int64) error {
	w.held.lists += int64(n) * bytes
	return w.fits()
}

// total is all that is held.
func (w *work) total() int64 { return w.held.boards + w.held.lists + w.grid + w.tables }

// holds reports whether there is room for a grid of so many bytes in place of the one before.
func (w *work) holds(bytes int64) bool {
	total := w.total() + max(0, bytes-w.grid)
	w.peak = max(w.peak, min(total, w.room))
	if w.room > 0 && total > w.room {
		return false
	}
	w.grid = max(w.grid, bytes)
	return true
}

// hasRoom reports whether there is room for a table of so many bytes in place of the one before.
func (w *work) hasRoom(bytes int64) bool {
	return w.room == 0 || w.total()+max(0, bytes-w.tables) <= w.room
}

func (w *work) fits() error {
	total := w.total()
	w.peak = max(w.peak, total)
	if w.room > 0 && total > w.room {
		return errBudget
	}
	return nil
}
