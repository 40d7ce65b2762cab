package ledger_test

import (
	"context"
	"math/rand/v2"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/api/internal/ledger"
)

// The test of a budget: work that needs M passes with M, is refused with M-1, and the
// peak is M.
func TestBudget(t *testing.T) {
	const need = 1000
	work := func(a *ledger.Account) error { // 400 that stay, 600 on top
		if err := a.Take(t.Context(), 400); err != nil {
			return err
		}
		defer a.Give(400)
		if !a.Try(600) {
			return ledger.ErrTooLarge
		}
		a.Give(600)
		return nil
	}
	for _, nested := range []bool{false, true} {
		enough, short := ledger.New(need), ledger.New(need-1)
		of := func(root *ledger.Account) *ledger.Account {
			if nested {
				return root.Open(2 * need).Open(3 * need)
			}
			return root
		}
		require.NoError(t, work(of(enough)))
		assert.EqualValues(t, need, enough.Peak())
		assert.Zero(t, enough.Held())
		require.ErrorIs(t, work(of(short)), ledger.ErrTooLarge)
		assert.EqualValues(t, 400, short.Peak())
		assert.Zero(t, short.Held())
		require.ErrorIs(t, of(short).Take(t.Context(), need), ledger.ErrTooLarge, "it does not wait for what cannot be")
	}
}

func TestNestedAccountsAreHeldToTheirOwn(t *testing.T) {
	root := ledger.New(100)
	one, other := root.Open(60), root.Open(60)
	assert.True(t, one.Try(60))
	assert.False(t, one.Try(1), "its own is used up")
	assert.False(t, other.Try(41), "that of all is")
	assert.True(t, other.Try(40))
	assert.EqualValues(t, 100, root.Held())
	assert.EqualValues(t, 60, one.Close())
	assert.EqualValues(t, 40, other.Close())
	assert.Zero(t, root.Held())
	assert.Zero(t, one.Close())
	assert.Panics(t, func() { one.Give(1) }, "more than was taken")
	assert.Panics(t, func() { one.Try(-1) })
}

// waits starts to take bytes and reports when they are there.
func waits(ctx context.Context, a *ledger.Account, bytes int64) chan error {
	done := make(chan error, 1)
	go func() { done <- a.Take(ctx, bytes) }()
	synctest.Wait()
	return done
}

func given(done chan error) bool {
	synctest.Wait()
	return len(done) == 1
}

// Who waits is served in order; nobody passes him for the same account, and those who
// need others do not wait for him.
func TestLine(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		root := ledger.New(95)
		small, large := root.Open(20), root.Open(80)
		require.True(t, large.Try(70))
		first := waits(t.Context(), large, 40)
		second := waits(t.Context(), large, 10) // would fit
		assert.False(t, given(first))
		assert.False(t, given(second), "it does not pass the first")
		assert.False(t, large.Try(5))
		assert.Equal(t, 2, root.Waiting())
		assert.Zero(t, small.Waiting())
		assert.True(t, small.Try(20), "another account goes on")
		large.Give(30)
		assert.False(t, given(first), "its own account has room, that of all has none")
		assert.False(t, given(second))
		small.Give(10)
		assert.True(t, given(first))
		assert.False(t, given(second))
		large.Give(10)
		assert.True(t, given(second))
		assert.EqualValues(t, 10, small.Held())
		assert.EqualValues(t, 90, root.Held())
	})
}

// Who leaves the line takes nothing and lets those behind him pass.
func TestLeavingTheLine(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		root := ledger.New(100)
		require.True(t, root.Try(60))
		ctx, leave := context.WithTimeout(t.Context(), 2*time.Second)
		defer leave()
		began := time.Now()
		large := waits(ctx, root, 90)
		small := waits(t.Context(), root, 40)
		assert.False(t, given(small))
		require.ErrorIs(t, <-large, context.DeadlineExceeded)
		assert.Equal(t, 2*time.Second, time.Since(began))
		assert.True(t, given(small))
		assert.EqualValues(t, 100, root.Held())
		assert.Zero(t, root.Waiting())
	})
}

// After any operations nothing is held that was not taken, no account holds more than
// its own, an account holds what those below it hold, and in the end all are empty.
func TestRandomOperations(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		root := ledger.New(rapid.Int64Range(1, 1000).Draw(t, "root"))
		accounts := []*ledger.Account{root}
		above := []int{-1}
		own := []int64{0}
		for range rapid.IntRange(1, 6).Draw(t, "accounts") {
			under := rapid.IntRange(0, len(accounts)-1).Draw(t, "under")
			accounts = append(accounts, accounts[under].Open(rapid.Int64Range(0, 1500).Draw(t, "most")))
			above, own = append(above, under), append(own, 0)
		}
		for range rapid.IntRange(1, 200).Draw(t, "operations") {
			i := rapid.IntRange(0, len(accounts)-1).Draw(t, "account")
			bytes := rapid.Int64Range(0, 500).Draw(t, "bytes")
			if rapid.Bool().Draw(t, "take") {
				fits := true
				for at := i; at >= 0; at = above[at] {
					fits = fits && accounts[at].Held()+bytes <= accounts[at].Most()
				}
				if accounts[i].Try(bytes) != fits {
					t.Fatalf("taking %d was not as it fits: %v", bytes, fits)
				}
				if fits {
					own[i] += bytes
				}
			} else if back := min(bytes, own[i]); back > 0 {
				accounts[i].Give(back)
				own[i] -= back
			}
			for i, a := range accounts {
				held := own[i]
				for below := i + 1; below < len(accounts); below++ {
					if above[below] == i {
						held += accounts[below].Held()
					}
				}
				if a.Held() != held || held > a.Most() || a.Peak() > a.Most() {
					t.Fatalf("account %d holds %d of %d, not %d", i, a.Held(), a.Most(), held)
				}
			}
		}
		for i := len(accounts) - 1; i >= 0; i-- {
			accounts[i].Give(own[i])
		}
		for i, a := range accounts {
			if a.Held() != 0 {
				t.Fatalf("account %d is not empty", i)
			}
		}
	})
}

// Many at once, with waiting: the budget holds at every moment and all is given back.
func TestManyAtOnce(t *testing.T) {
	root := ledger.New(10_000)
	children := []*ledger.Account{root.Open(3000), root.Open(9000), root.Open(10_000)}
	var group sync.WaitGroup
	for n := range 32 {
		group.Go(func() {
			random := rand.New(rand.NewPCG(7, uint64(n)))
			for range 500 {
				a := children[random.IntN(3)]
				bytes := random.Int64N(a.Most() + 1)
				ctx, leave := context.WithTimeout(t.Context(), time.Duration(random.IntN(300))*time.Microsecond)
				if a.Take(ctx, bytes) == nil {
					a.Give(bytes)
				}
				leave()
			}
		})
	}
	group.Wait()
	assert.Zero(t, root.Held())
	assert.Zero(t, root.Waiting())
	assert.LessOrEqual(t, root.Peak(), root.Most())
}

func BenchmarkTryGive(b *testing.B) {
	a := ledger.New(1 << 30).Open(1 << 30)
	for b.Loop() {
		if a.Try(1000) {
			a.Give(1000)
		}
	}
}
