package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"sync"
	"sync/atomic"
	"time"

	"latewood/api/client"
)

// clientCallers ask through the client that is kept, one question after the other.
const clientCallers = 8

// byClient lets callers ask through the client in Go while the program is killed and
// started again, and beside others who want more than it can give. None of them may see a
// failure: what they are told is an answer, or that their question is wrong.
func byClient() error {
	if err := clientsWhile("it is killed five times", "", killedAgain); err != nil {
		return err
	}
	return clientsWhile("64 others want the dearest figures", "export GOMAXPROCS=2", func(s *server) (*server, error) {
		ctx, cancel := context.WithTimeout(context.Background(), 2*floodTime)
		defer cancel()
		var others sync.WaitGroup
		for n := range 64 {
			others.Go(func() { obedient("/v1/assembly-movement", dearFigures())(ctx, n, &poured{}) })
		}
		others.Wait()
		return s, nil
	})
}

func killedAgain(s *server) (*server, error) {
	for range 5 {
		time.Sleep(700 * time.Millisecond)
		s.kill()
		var err error
		if s, err = start(io.Discard, ""); err != nil {
			return nil, err
		}
	}
	return s, nil
}

func clientsWhile(says, wrap string, trouble func(*server) (*server, error)) error {
	s, err := start(io.Discard, wrap)
	if err != nil {
		return err
	}
	var over atomic.Bool
	var answered, failed atomic.Int64
	var callers sync.WaitGroup
	for n := range clientCallers {
		callers.Go(func() {
			own := newClient()
			own.Timeout = floodEnd
			defer own.CloseIdleConnections()
			c := client.New("http://"+address, client.Through(own))
			for i := n; !over.Load(); i++ {
				if err := askThrough(c, &questions[i%len(questions)], i%2 == 0); err != nil {
					failed.Add(1)
					found("a caller of the client was told: %v", err)
					continue
				}
				answered.Add(1)
			}
		})
	}
	s, err = trouble(s)
	over.Store(true)
	callers.Wait()
	if err != nil {
		return err
	}
	fmt.Printf("   while %s: %d answered through the client, %d failed\n", says, answered.Load(), failed.Load())
	if answered.Load() == 0 {
		found("nothing was answered through the client")
	}
	return s.stop()
}

// askThrough asks a question through the client, as a stream of one where it may be.
func askThrough(c *client.Client, q *question, streamed bool) error {
	if streamed && q.path != "/v1/batch" {
		for item, err := range c.Stream(context.Background(), []client.Item{{Route: q.path, Request: json.RawMessage(q.body)}}) {
			if err != nil {
				return err
			}
			if item.Problem != nil && item.Problem.Status >= http.StatusInternalServerError {
				return item.Problem
			}
		}
		return nil
	}
	_, err := client.Ask[json.RawMessage](context.Background(), c, q.path, json.RawMessage(q.body))
	return err
}
