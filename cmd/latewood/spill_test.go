package main

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
)

// reader is who takes the lines: he may stand still, or be gone.
type reader struct {
	noise
	held chan struct{} // closed when he goes on
	gone bool
}

func (r *reader) Write(text []byte) (int, error) {
	if r.held != nil {
		<-r.held
	}
	if r.gone {
		return 0, errors.New("broken pipe")
	}
	return r.noise.Write(text)
}

func tellLost(lost uint64) []byte { return fmt.Appendf(nil, "lost %d\n", lost) }

// Lines come out whole and in order.
func TestSpillKeepsTheOrder(t *testing.T) {
	r := &reader{}
	s := newSpill(r, tellLost)
	var want strings.Builder
	for n := range 10_000 {
		line := fmt.Sprintf("line %d\n", n)
		want.WriteString(line)
		_, _ = s.Write([]byte(line))
		if n%1000 == 0 {
			time.Sleep(time.Millisecond)
		}
	}
	s.close(time.Minute)
	assert.Equal(t, want.String(), r.String())
	assert.Zero(t, s.Lost())
}

// A reader who stands still is not waited for; what he missed is told when he goes on.
func TestReaderOfTheLogStandsStill(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		r := &reader{held: make(chan struct{})}
		s := newSpill(r, tellLost)
		line := []byte(strings.Repeat("x", 1023) + "\n")
		_, _ = s.Write(line)
		time.Sleep(2 * together) // it was taken, and is held
		for range 1000 {
			_, _ = s.Write(line)
		}
		assert.EqualValues(t, 1000-mostSpilt/1024, s.Lost())
		began := time.Now()
		s.close(time.Second)
		assert.Equal(t, time.Second, time.Since(began), "the end of the program does not wait longer either")
		close(r.held)
		<-s.ended
		kept := 1 + mostSpilt/1024
		assert.Equal(t, strings.Repeat(string(line), kept)+fmt.Sprintf("lost %d\n", s.Lost()), r.String())
	})
}

// One who is gone costs the lines and nothing else.
func TestReaderOfTheLogIsGone(t *testing.T) {
	r := &reader{gone: true}
	s := newSpill(r, tellLost)
	for range 10 {
		_, _ = s.Write([]byte("line\n"))
	}
	s.close(time.Minute)
	assert.EqualValues(t, 10, s.Lost())
	assert.Empty(t, r.String())
}
