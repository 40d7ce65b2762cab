package main

import (
	"io"
	"sync"
	"sync/atomic"
	"time"
)

// spill is a writer of log lines that neither waits nor fails. Lines are kept in a
// buffer of bounded size, which a goroutine empties, many at a time. When nobody takes
// them the newest are dropped and counted; how many is told as soon as someone does.
type spill struct {
	to    io.Writer
	lost  atomic.Uint64
	tell  func(lost uint64) []byte // the line that tells of lost ones
	last  chan struct{}            // closed when no more lines come
	ended chan struct{}

	mu      sync.Mutex
	more    *sync.Cond // something is there, or all is over
	waiting []byte
	untold  uint64
	over    bool
}

// mostSpilt is how many bytes of lines wait to be taken; there are two such buffers.
const mostSpilt = 512 << 10

// together is how long lines are gathered before they are written. Own choice: nobody
// reads a log sooner, and a goroutine that is woken for every line costs a light request a
// fifth of the time that it takes in all.
const together = 10 * time.Millisecond

func newSpill(to io.Writer, tell func(uint64) []byte) *spill {
	s := &spill{to: to, tell: tell, last: make(chan struct{}), ended: make(chan struct{})}
	s.more = sync.NewCond(&s.mu)
	go s.run()
	return s
}

// Write keeps a line, or drops it.
func (s *spill) Write(line []byte) (int, error) {
	s.mu.Lock()
	if s.over || len(s.waiting)+len(line) > mostSpilt {
		s.untold++
		s.lost.Add(1)
	} else {
		if len(s.waiting) == 0 {
			s.more.Signal()
		}
		s.waiting = append(s.waiting, line...)
	}
	s.mu.Unlock()
	return len(line), nil
}

// Lost is how many lines were dropped so far.
func (s *spill) Lost() uint64 { return s.lost.Load() }

func (s *spill) run() {
	defer close(s.ended)
	var taken []byte
	for {
		s.mu.Lock()
		for len(s.waiting) == 0 && s.untold == 0 && !s.over {
			s.more.Wait()
		}
		if len(s.waiting) == 0 && s.untold == 0 {
			s.mu.Unlock()
			return
		}
		s.mu.Unlock()
		s.gather()
		s.mu.Lock()
		taken, s.waiting = s.waiting, taken[:0]
		untold := s.untold
		s.untold = 0
		s.mu.Unlock()
		if _, err := s.to.Write(taken); err != nil {
			s.lost.Add(uint64(countLines(taken)))
		}
		if untold > 0 {
			_, _ = s.to.Write(s.tell(untold))
		}
	}
}

// gather waits for more lines, unless none come.
func (s *spill) gather() {
	select {
	case <-time.After(together):
	case <-s.last:
	}
}

func countLines(text []byte) int {
	n := 0
	for _, b := range text {
		if b == '\n' {
			n++
		}
	}
	return n
}

// close writes what is there, but does not wait longer than patience for a reader that
// stands still.
func (s *spill) close(patience time.Duration) {
	s.mu.Lock()
	if !s.over {
		close(s.last)
	}
	s.over = true
	s.more.Signal()
	s.mu.Unlock()
	select {
	case <-s.ended:
	case <-time.After(patience):
	}
}
