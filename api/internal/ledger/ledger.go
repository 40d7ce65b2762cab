// Package ledger counts bytes that are promised to work under way, so that what a
// process holds for its callers is bounded whatever they do. It knows nothing of what
// the bytes are for.
//
// Accounts nest: what is taken from an account is taken from every account above it
// too, all or nothing. Whoever finds no room waits in line. The line is kept for each
// account that is full: nobody passes an earlier one who waits for the same account,
// so that a large request is not starved by small ones; those who need other accounts
// go on.
package ledger

import (
	"context"
	"errors"
	"fmt"
	"sync"
)

// ErrTooLarge says that an account can never hold so much, however long one waits.
var ErrTooLarge = errors.New("more bytes than the account can hold")

// Account is a number of bytes that may be taken, with what is taken of it. It is
// safe for concurrent use.
type Account struct {
	tree  *tree
	above *Account

	most, held, peak int64
	full             bool // only during a pass over the line: someone before waits for it
}

// tree is what all accounts below one share.
type tree struct {
	mu   sync.Mutex
	line []*waiter // in the order in which they came
}

type waiter struct {
	account *Account
	bytes   int64
	given   chan struct{}
}

// New is an account above all others, of so many bytes at most.
func New(most int64) *Account { return &Account{tree: &tree{}, most: most} }

// Open makes an account below a, of so many bytes at most. Those of several accounts
// may be more together than a holds.
func (a *Account) Open(most int64) *Account {
	return &Account{tree: a.tree, above: a, most: min(most, a.most)}
}

// Most is how many bytes the account holds at most.
func (a *Account) Most() int64 { return a.most }

// Held is how many bytes are taken now; Peak how many were at most.
func (a *Account) Held() int64 { return a.read(&a.held) }

// Peak is the most that was ever taken at once.
func (a *Account) Peak() int64 { return a.read(&a.peak) }

func (a *Account) read(n *int64) int64 {
	a.tree.mu.Lock()
	defer a.tree.mu.Unlock()
	return *n
}

// Waiting is how many wait in line for this account or one below it.
func (a *Account) Waiting() int {
	a.tree.mu.Lock()
	defer a.tree.mu.Unlock()
	n := 0
	for _, w := range a.tree.line {
		for at := w.account; at != nil; at = at.above {
			if at == a {
				n++
			}
		}
	}
	return n
}

// Try takes bytes if they are free and nobody waits for them.
func (a *Account) Try(bytes int64) bool {
	a.tree.mu.Lock()
	defer a.tree.mu.Unlock()
	if len(a.tree.line) > 0 {
		return a.tree.pass(&waiter{account: a, bytes: bytes})
	}
	return a.take(bytes)
}

// Take takes bytes, and waits in line for them until ctx ends. The error is
// ErrTooLarge or that of ctx; then nothing is taken.
func (a *Account) Take(ctx context.Context, bytes int64) error {
	for at := a; at != nil; at = at.above {
		if bytes > at.most {
			return fmt.Errorf("%w: %d of %d", ErrTooLarge, bytes, at.most)
		}
	}
	a.tree.mu.Lock()
	w := &waiter{account: a, bytes: bytes}
	if a.tree.pass(w) {
		a.tree.mu.Unlock()
		return nil
	}
	w.given = make(chan struct{})
	a.tree.line = append(a.tree.line, w)
	a.tree.mu.Unlock()
	select {
	case <-w.given:
		return nil
	case <-ctx.Done():
	}
	a.tree.mu.Lock()
	defer a.tree.mu.Unlock()
	for i, other := range a.tree.line {
		if other == w {
			a.tree.line = append(a.tree.line[:i], a.tree.line[i+1:]...)
			a.tree.serve() // those behind may fit now
			return ctx.Err()
		}
	}
	return nil // it was given at the same moment
}

// Give gives bytes back. It panics when more is given than was taken: that is a
// defect of the caller, and would let others take what is not there.
func (a *Account) Give(bytes int64) {
	a.tree.mu.Lock()
	defer a.tree.mu.Unlock()
	for at := a; at != nil; at = at.above {
		if at.held -= bytes; at.held < 0 || bytes < 0 {
			panic(fmt.Sprintf("ledger: %d bytes given back of %d", bytes, at.held+bytes))
		}
	}
	a.tree.serve()
}

// Close gives back all that is taken of the account, and tells how much that was. What
// was taken of accounts below it has to be given back before.
func (a *Account) Close() int64 {
	left := a.Held()
	if left > 0 {
		a.Give(left)
	}
	return left
}

// take takes bytes of the account and of those above it, all or none.
func (a *Account) take(bytes int64) bool {
	if bytes < 0 {
		panic(fmt.Sprintf("ledger: %d bytes taken", bytes))
	}
	for at := a; at != nil; at = at.above {
		if at.held+bytes > at.most {
			return false
		}
	}
	for at := a; at != nil; at = at.above {
		at.held += bytes
		at.peak = max(at.peak, at.held)
	}
	return true
}

// pass reports whether a newcomer can take at once what he wants without passing one
// who waits for an account that he needs too.
func (t *tree) pass(w *waiter) bool {
	defer t.forget()
	for _, before := range t.line {
		before.account.mark(before.bytes)
	}
	return !w.account.barred() && w.account.take(w.bytes)
}

// serve gives to those in line what there is, in their order.
func (t *tree) serve() {
	if len(t.line) == 0 {
		return
	}
	defer t.forget()
	left := t.line[:0]
	for _, w := range t.line {
		if w.account.barred() || !w.account.take(w.bytes) {
			w.account.mark(w.bytes)
			left = append(left, w)
			continue
		}
		close(w.given)
	}
	clear(t.line[len(left):])
	t.line = left
}

// mark marks the account that bytes wait for, the lowest that has no room: who comes
// later does not get what falls free there. Those above it stay open to others until
// it has room.
func (a *Account) mark(bytes int64) {
	for at := a; at != nil; at = at.above {
		if at.held+bytes > at.most {
			at.full = true
			return
		}
	}
}

// barred reports whether someone earlier waits for the account or one above it.
func (a *Account) barred() bool {
	for at := a; at != nil; at = at.above {
		if at.full {
			return true
		}
	}
	return false
}

// forget takes the marks away.
func (t *tree) forget() {
	for _, w := range t.line {
		for at := w.account; at != nil; at = at.above {
			at.full = false
		}
	}
}
