package store_test

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"latewood/api/internal/rack/store"
	"latewood/api/internal/rack/store/storetest"
)

// writesForever names the file that the program of this test writes to until it is killed.
const writesForever = "LATEWOOD_TEST_WRITES"

// writersKilled write to one file at a time.
const writersKilled = 16

// TestWriteUntilKilled is the program that is killed; alone it does nothing.
func TestWriteUntilKilled(t *testing.T) {
	file := os.Getenv(writesForever)
	if file == "" {
		t.Skip("TestKilledUnderWriters runs this in a process of its own")
	}
	s, err := store.OpenFile(t.Context(), file)
	require.NoError(t, err)
	var mu sync.Mutex
	var all sync.WaitGroup
	for w := range writersKilled {
		all.Go(func() {
			for n := 0; ; n++ {
				key := fmt.Sprintf("%d-%d-%d", os.Getpid(), w, n)
				if _, err := s.Apply(context.Background(), pairOf(key)); err != nil {
					return
				}
				mu.Lock()
				fmt.Println("kept", key)
				mu.Unlock()
			}
		})
	}
	all.Wait()
}

// pairOf is an order of two entries, so that a half of one can be seen.
func pairOf(key string) *store.Order {
	return storetest.Sent(key, storetest.Made(store.Billet, key, store.Key{}, `{"a": 1}`),
		storetest.Made(store.Reading, key, store.Key{Kind: store.Billet, ID: key}, `{"b": 2}`))
}

// A program that is killed at any moment under sixteen writers leaves every order that it
// answered, once and whole, and a sound file.
func TestKilledUnderWriters(t *testing.T) {
	file := filepath.Join(t.TempDir(), "rack")
	r := rand.New(rand.NewPCG(1, 2))
	answered := map[string]bool{}
	for range 6 {
		for _, key := range killed(t, file, time.Duration(50+r.IntN(250))*time.Millisecond) {
			require.False(t, answered[key])
			answered[key] = true
		}
		s, err := store.OpenFile(t.Context(), file)
		require.NoError(t, err)
		require.NoError(t, s.Check(t.Context()))
		done, err := s.Done(t.Context())
		require.NoError(t, err)
		there := map[string]bool{}
		for _, d := range done {
			there[d.Key] = true
			assert.Equal(t, d.First+1, d.Last, "all of an order or nothing")
		}
		for key := range answered {
			require.True(t, there[key], "%s was answered and is lost", key)
		}
		_, billets, err := s.List(t.Context(), &store.Query{Kind: store.Billet, Limit: 1})
		require.NoError(t, err)
		_, readings, err := s.List(t.Context(), &store.Query{Kind: store.Reading, Limit: 1})
		require.NoError(t, err)
		assert.Equal(t, []int{len(done), len(done)}, []int{billets, readings}, "none is there twice")
		for key := range answered { // sent again, it is not done again
			receipt, err := s.Apply(t.Context(), pairOf(key))
			require.NoError(t, err)
			require.True(t, receipt.Repeated)
			break
		}
		require.NoError(t, s.Close())
	}
	assert.Greater(t, len(answered), 20)
}

// killed runs the writers and kills them a while after the first answer; it returns the keys
// that were answered.
func killed(t *testing.T, file string, after time.Duration) []string {
	t.Helper()
	program, err := os.Executable()
	require.NoError(t, err)
	child := exec.CommandContext(t.Context(), program, "-test.run", "^TestWriteUntilKilled$", "-test.v")
	child.Env = append(os.Environ(), writesForever+"="+file)
	out, err := child.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, child.Start())
	var keys []string
	lines := bufio.NewReader(out)
	for {
		line, err := lines.ReadString('\n')
		if key, is := strings.CutPrefix(strings.TrimSpace(line), "kept "); is && err == nil {
			if keys == nil {
				time.AfterFunc(after, func() { _ = child.Process.Kill() })
			}
			keys = append(keys, key)
		}
		if err != nil {
			require.ErrorIs(t, err, io.EOF)
			break
		}
	}
	require.Error(t, child.Wait(), "it was killed")
	return keys
}
