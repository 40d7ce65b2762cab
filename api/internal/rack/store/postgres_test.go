package store_test

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/rack/store/storetest"
)

// postgresAddress is that of a server of which everything may be lost. .ci/postgres starts
// one in a temporary folder and runs these tests against it.
func postgresAddress(t *testing.T) string {
	address := os.Getenv("LATEWOOD_TEST_POSTGRES")
	if address == "" {
		t.Skip("no PostgreSQL: .ci/postgres starts one and runs this")
	}
	return address
}

var shops atomic.Int64

// openShop is an empty rack of a shop of its own.
func openShop(t require.TestingT, at *testing.T, address string) store.Store {
	s, err := store.OpenServer(at.Context(), address, fmt.Sprintf("shop-%d-%d", os.Getpid(), shops.Add(1)))
	require.NoError(t, err)
	return s
}

func TestServer(t *testing.T) {
	address := postgresAddress(t)
	storetest.Contract(t, func(t *testing.T) store.Store {
		s := openShop(t, t, address)
		t.Cleanup(func() { assert.NoError(t, s.Close()) })
		return s
	})
}

func TestServerAgainstModel(t *testing.T) {
	address := postgresAddress(t)
	storetest.Random(t, func(r *rapid.T) store.Store { return openShop(r, t, address) })
}

// A rack moves from a file to a server and back.
func TestFileToServerAndBack(t *testing.T) {
	server := openShop(t, t, postgresAddress(t))
	defer server.Close() //nolint:errcheck // looked at
	from := openFile(t)
	for _, o := range []*store.Order{
		storetest.Sent("k1", storetest.Made(store.Billet, "a", store.Key{}, "{\"a\":  1.50}")),
		storetest.Sent("k2", storetest.Changed(store.Billet, "a", 1, `{"a": 2}`)),
		storetest.Sent("k3", storetest.On(store.Undo, store.Billet, "a", 2)),
	} {
		_, err := from.Apply(t.Context(), o)
		require.NoError(t, err)
	}
	storetest.Loaded(t, from, server)
	storetest.Loaded(t, server, openFile(t))
}

// Shops that share a database see nothing of each other.
func TestShopsAreApart(t *testing.T) {
	address := postgresAddress(t)
	one, two := openShop(t, t, address), openShop(t, t, address)
	defer one.Close() //nolint:errcheck // looked at
	defer two.Close() //nolint:errcheck // looked at
	order := storetest.Sent("k1", storetest.Made(store.Billet, "a", store.Key{}, `"of one"`))
	_, err := one.Apply(t.Context(), order)
	require.NoError(t, err)
	_, total, err := two.List(t.Context(), &store.Query{Kind: store.Billet, Limit: 10})
	require.NoError(t, err)
	assert.Zero(t, total)
	_, err = two.Apply(t.Context(), storetest.Sent("k2", storetest.Made(store.Reading, "r", store.Key{Kind: store.Billet, ID: "a"}, `1`)))
	var refused *store.Refusal
	require.ErrorAs(t, err, &refused)
	assert.Equal(t, store.Missing, refused.Why)
	again, err := two.Apply(t.Context(), order)
	require.NoError(t, err)
	assert.False(t, again.Repeated, "the same key of another shop is another order")
	all, err := two.Since(t.Context(), 0, 10)
	require.NoError(t, err)
	assert.Len(t, all, 1)
}

// Replicas that start together on an empty database, and answer one sender, act as one.
func TestReplicas(t *testing.T) {
	address := postgresAddress(t)
	one := openShop(t, t, address)
	defer one.Close() //nolint:errcheck // looked at
	two, err := store.OpenServer(t.Context(), address, fmt.Sprintf("shop-%d-%d", os.Getpid(), shops.Load()))
	require.NoError(t, err)
	defer two.Close() //nolint:errcheck // looked at
	order := storetest.Sent("k1", storetest.Made(store.Billet, "a", store.Key{}, `1`))
	failed := make(chan error, 8)
	for i := range cap(failed) {
		go func() {
			_, err := []store.Store{one, two}[i%2].Apply(t.Context(), order)
			failed <- err
		}()
	}
	for range cap(failed) {
		if err := <-failed; err != nil {
			var refused *store.Refusal
			require.ErrorAs(t, err, &refused)
			assert.Equal(t, store.UnderWay, refused.Why)
		}
	}
	all, err := two.Since(t.Context(), 0, 10)
	require.NoError(t, err)
	assert.Len(t, all, 1)
}

// A server that is stopped as by a power cut and started again, under writers that send again
// what was not answered: every order is there once.
func TestServerRestartedUnderWriters(t *testing.T) {
	restart := os.Getenv("LATEWOOD_TEST_POSTGRES_RESTART")
	if restart == "" {
		t.Skip("no PostgreSQL of our own: .ci/postgres starts one and runs this")
	}
	s := openShop(t, t, postgresAddress(t))
	defer s.Close() //nolint:errcheck // looked at
	const writers, each = 4, 150
	var all sync.WaitGroup
	var sentAgain, done atomic.Int64
	for w := range writers {
		all.Go(func() {
			for n := range each {
				o := storetest.Sent(fmt.Sprintf("k-%d-%d", w, n), storetest.Made(store.Billet, fmt.Sprintf("b-%d-%d", w, n), store.Key{}, `{}`))
				for {
					_, err := s.Apply(context.Background(), o)
					if err == nil {
						break
					}
					sentAgain.Add(1)
					time.Sleep(5 * time.Millisecond)
				}
				done.Add(1)
				time.Sleep(2 * time.Millisecond)
			}
		})
	}
	for restarts := range int64(3) {
		for done.Load() < (restarts+1)*writers*each/5 {
			time.Sleep(time.Millisecond)
		}
		said, err := exec.CommandContext(t.Context(), restart).CombinedOutput()
		require.NoError(t, err, string(said))
	}
	all.Wait()
	assert.Positive(t, sentAgain.Load(), "it was restarted under load")
	_, total, err := s.List(t.Context(), &store.Query{Kind: store.Billet, Limit: 1})
	require.NoError(t, err)
	assert.Equal(t, writers*each, total)
	require.NoError(t, s.Check(t.Context()))
}
