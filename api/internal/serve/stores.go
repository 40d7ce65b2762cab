package serve

import (
	"context"
	"time"

	"latewood/api/internal/ledger"
)

// What the service holds at most for its callers, in bytes. Together with some 20 MiB
// that it always holds and the buffers of MaxConnections (16 MiB) it keeps within the
// 116 MiB that the program allows itself (cmd/latewood/memory.go). Own choice, measured
// by testdata/chaos.
const (
	mostHeld    = 80 << 20 // the rest together
	smallBodies = 6 << 20
	largeBodies = 14 << 20
	smallTexts  = 6 << 20 // answers on their way
	largeTexts  = 14 << 20
	mostAtWork  = 40 << 20 // requests, working sets and answers of what has a turn

	// batchesHeld is for the pieces of batches and streams.
	batchesHeld = 12 << 20
)

// Sizes that tell small from large, in bytes.
const (
	smallText  = 128 << 10 // an answer
	freeText   = 4 << 10   // of an answer that counts as part of its connection
	mostAnswer = 4 << 20   // of one request
)

// stores are the accounts of one service.
type stores struct {
	all                      *ledger.Account
	smallBodies, largeBodies *ledger.Account
	smallTexts, largeTexts   *ledger.Account
	batches                  *ledger.Account
}

func newStores() *stores {
	all := ledger.New(mostHeld - mostAtWork + batchesHeld)
	return &stores{all: all, smallBodies: all.Open(smallBodies), largeBodies: all.Open(largeBodies),
		smallTexts: all.Open(smallTexts), largeTexts: all.Open(largeTexts), batches: all.Open(batchesHeld)}
}

// held is what is taken of an account. The zero value is nothing.
type held struct {
	account *ledger.Account
	bytes   int64
}

// try takes bytes in addition, of the same account as before.
func (h *held) try(a *ledger.Account, bytes int64) bool {
	if h.account != nil && h.account != a || !a.Try(bytes) {
		return false
	}
	h.account, h.bytes = a, h.bytes+bytes
	return true
}

// take takes bytes, and waits for them for a while.
func (h *held) take(ctx context.Context, a *ledger.Account, bytes int64, patience time.Duration) bool {
	if h.try(a, bytes) {
		return true
	}
	if h.account != nil && h.account != a {
		return false
	}
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	if a.Take(ctx, bytes) != nil {
		return false
	}
	h.account, h.bytes = a, h.bytes+bytes
	return true
}

// give gives all back.
func (h *held) give() {
	if h.account != nil && h.bytes > 0 {
		h.account.Give(h.bytes)
	}
	*h = held{}
}
