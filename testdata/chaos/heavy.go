package main

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"
)

// dearFigures is a request for the figures of 60 parts and as many pairs, with a record of
// air of nearly 5000 rows: the dearest that can be asked of simulations.
func dearFigures() []byte {
	woods := []string{"maple-sugar", "walnut-black", "spruce-sitka"}
	var parts, pairs []string
	for n := range 60 {
		parts = append(parts, fmt.Sprintf(`{"id": "p%d", "species": %q, "thickness": "%.1f mm", "width": "%d mm", "length": "600 mm", "rings": {"angle_deg": %d}}`,
			n, woods[n%3], 2.5+0.5*float64(n), 200+n, 10+n))
		pairs = append(pairs, fmt.Sprintf(`{"id": "m%d", "outer": {"part": "p%d", "dimension": "length", "size": "340 mm"}, "inner": {"part": "p%d", "dimension": "width"}, "min_clearance": "0 mm", "max_clearance": "12 mm"}`,
			n, n, (n+1)%60))
	}
	return []byte(`{"build_condition": {"mc_pct": 8}, "room": {"log_csv": "` + airRecord() + `"}, "parts": [` + strings.Join(parts, ",") + `], "pairs": [` + strings.Join(pairs, ",") + `]}`)
}

// beside measures the latency of light questions, 200 a second, while 64 callers pour
// something over the service. It is told and not judged: the callers share the machine.
func beside(name string, pour func(context.Context, int, *poured)) error {
	s, err := start(io.Discard, "export GOMAXPROCS=2")
	if err != nil {
		return err
	}
	ctx, cancel := context.WithTimeout(context.Background(), 3*time.Second)
	defer cancel()
	var callers sync.WaitGroup
	c := &poured{}
	for n := range 64 {
		callers.Go(func() { pour(ctx, n, c) })
	}
	took := light(ctx, 5*time.Millisecond)
	callers.Wait()
	if len(took) == 0 {
		return fmt.Errorf("nothing was answered beside %s", name)
	}
	at := func(share float64) time.Duration {
		return took[int(share*float64(len(took)-1))].Round(10 * time.Microsecond)
	}
	fmt.Printf("   beside %s: %d light answers, median %v, 99 %% within %v, the slowest %v; %v\n", name, len(took), at(0.5), at(0.99), at(1), c)
	return s.stop()
}

// latency measures light questions beside the dearest right and the dearest wrong ones,
// by callers who obey what they are told.
func latency() error {
	if err := beside("nothing", func(ctx context.Context, _ int, _ *poured) { <-ctx.Done() }); err != nil {
		return err
	}
	if err := beside("the dearest figures", obedient("/v1/assembly-movement", dearFigures())); err != nil {
		return err
	}
	if err := beside("the dearest plans", obedient("/v1/resaw-plan", []byte(readFile("testdata/chaos/plan-30-knots-8-kinds.json")))); err != nil {
		return err
	}
	return beside("the dearest wrong ones", obedient("/v1/seasoning", unknownMembers(980_000)))
}

// obedient asks again and again, and waits as it is told.
func obedient(path string, body []byte) func(context.Context, int, *poured) {
	return func(ctx context.Context, _ int, c *poured) {
		client := newClient()
		client.Timeout = floodEnd
		defer client.CloseIdleConnections()
		for ctx.Err() == nil {
			reply, err := client.Post("http://"+address+path, jsonMedia, bytes.NewReader(body))
			if err != nil {
				c.broken.Add(1)
				continue
			}
			c.seen(reply)
			_, _ = io.Copy(io.Discard, reply.Body)
			_ = reply.Body.Close()
			wait, _ := strconv.Atoi(reply.Header.Get("Retry-After"))
			select {
			case <-ctx.Done():
			case <-time.After(time.Duration(wait) * time.Second):
			}
		}
	}
}

// light asks one light question so many times a second until the context ends, and
// returns the latencies.
func light(ctx context.Context, each time.Duration) []time.Duration {
	q := lightQuestion()
	client := newClient()
	defer client.CloseIdleConnections()
	var took []time.Duration
	var mu sync.Mutex
	var group sync.WaitGroup
	c := &counts{}
	ticks := time.NewTicker(each)
	defer ticks.Stop()
	for ctx.Err() == nil {
		select {
		case <-ctx.Done():
		case <-ticks.C:
			group.Go(func() {
				began := time.Now()
				if q.ask(client, c) == nil {
					mu.Lock()
					took = append(took, time.Since(began))
					mu.Unlock()
				}
			})
		}
	}
	group.Wait()
	slices.Sort(took)
	return took
}

func lightQuestion() *question {
	for i := range questions {
		if questions[i].path == "/v1/movement" {
			return &questions[i]
		}
	}
	return &questions[0]
}

// fairShare lets one token flood the service with heavy work while another asks one
// question after the other and obeys what it is told: the second is served.
func fairShare() error {
	folder, err := os.MkdirTemp("", "chaos")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	file := filepath.Join(folder, "tokens")
	tokens := map[string]string{}
	var lines bytes.Buffer
	for _, name := range []string{"greedy", "modest"} {
		command := exec.Command(program, "token", name)
		var said bytes.Buffer
		command.Stdout, command.Stderr = &lines, &said
		if err := command.Run(); err != nil {
			return err
		}
		for _, word := range strings.Fields(said.String()) {
			if len(word) > len(tokens[name]) {
				tokens[name] = word
			}
		}
	}
	if err := os.WriteFile(file, lines.Bytes(), 0o600); err != nil {
		return err
	}
	s, err := startWith(io.Discard, "", "--tokens", file, "--rate", "0")
	if err != nil {
		return err
	}
	body := []byte(readFile("api/examples/seasoning.maple-under-cover-then-indoors.json"))
	ask := func(token string) int {
		request, err := http.NewRequest(http.MethodPost, "http://"+address+"/v1/seasoning", bytes.NewReader(body))
		if err != nil {
			return 0
		}
		request.Header.Set("Content-Type", jsonMedia)
		request.Header.Set("Authorization", "Bearer "+token)
		reply, err := ready.Do(request)
		if err != nil {
			return 0
		}
		_, _ = bufio.NewReader(reply.Body).WriteTo(io.Discard)
		_ = reply.Body.Close()
		return reply.StatusCode
	}
	ctx, cancel := context.WithTimeout(context.Background(), 5*time.Second)
	defer cancel()
	var greedy, modest [6]int
	var mu sync.Mutex
	var group sync.WaitGroup
	for range 64 {
		group.Go(func() {
			for ctx.Err() == nil {
				status := ask(tokens["greedy"])
				mu.Lock()
				greedy[status/100]++
				mu.Unlock()
				time.Sleep(20 * time.Millisecond)
			}
		})
	}
	for ctx.Err() == nil {
		modest[ask(tokens["modest"])/100]++
	}
	group.Wait()
	fmt.Printf("   of 64 connections: %d answers, %d told to come back; of the one beside them: %d answers, %d told to come back\n", greedy[2], greedy[5], modest[2], modest[5])
	if modest[2] < greedy[2]/2 {
		found("a caller with one connection got %d answers, one with 64 %d", modest[2], greedy[2])
	}
	return s.stop()
}
