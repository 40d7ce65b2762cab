package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"latewood/api/client"
)

// clientCallers ask through each of the clients that are kept, one question after the other:
// together no more than the streams that a caller may have.
const clientCallers = 4

// byClient lets callers ask through the clients that are kept while the program is killed and
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

// callTypeScript starts callers of the client in TypeScript; what it gives back ends them and
// tells what they saw.
func callTypeScript() (end func(says string) error, err error) {
	if typescript == "" {
		return func(string) error { return nil }, nil
	}
	command := exec.Command("node", typescript, "http://"+address, "api/examples")
	var told bytes.Buffer
	command.Stdout, command.Stderr = &told, os.Stderr
	input, err := command.StdinPipe()
	if err != nil {
		return nil, err
	}
	return func(says string) error {
		if err := errors.Join(input.Close(), command.Wait()); err != nil {
			return err
		}
		lines := strings.Split(strings.TrimSpace(told.String()), "\n")
		last := len(lines) - 1
		for _, line := range lines[:last] {
			found("%s", line)
		}
		var answered, failed int
		if _, err := fmt.Sscan(lines[last], &answered, &failed); err != nil {
			return err
		}
		fmt.Printf("   while %s: %d answered through the client in TypeScript, %d failed\n", says, answered, failed)
		if answered == 0 {
			found("nothing was answered through the client in TypeScript")
		}
		return nil
	}, command.Start()
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
	inTypeScript, err := callTypeScript()
	if err != nil {
		return err
	}
	s, err = trouble(s)
	over.Store(true)
	callers.Wait()
	if err := errors.Join(err, inTypeScript(says)); err != nil {
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
