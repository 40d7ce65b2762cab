package main

import (
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
		parts = append(parts, fmt.Sprintf(`{"id": "p%d", "wood": %q, "thickness": "%.1f mm", "width": "%d mm", "length": "600 mm", "rings": {"angle_deg": %d}}`,
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
	fmt.Printf(" beside %s: %d light answers, median %v, 99 %% within %v, the slowest %v; %v\n", name, len(took), at(0.5), at(0.99), at(1), c)
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

// The fair part: how long it is poured, and by how many answers the two may differ. With
// one turn at a time and requests that all take alike, the bound of api/internal/fair,
// (2C+1)L, is the work of three. Own choice: one more, for the moments in which the single
// caller reads an answer and has nothing asked.
const (
	fairTime  = 8 * time.Second
	mostApart = 4
)

// fairShare lets one token flood the service with heavy work while another asks one
// question after the other: both get the same. What is answered after the end does not
// count: the flood has its requests in the queue then, and the other has none.
func fairShare() error {
	folder, err := os.MkdirTemp("", "chaos")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	file, tokens, err := makeTokens(folder, "greedy", "modest")
	if err != nil {
		return err
	}
	s, err := startWith(io.Discard, "export GOMAXPROCS=2", "--tokens", file, "--rate", "0")
	if err != nil {
		return err
	}
	body := []byte(readFile("api/examples/seasoning.maple-under-cover-then-indoors.json"))
	ctx, cancel := context.WithTimeout(context.Background(), fairTime)
	defer cancel()
	var greedy, modest answers
	var group sync.WaitGroup
	for range 64 {
		group.Go(func() { greedy.gather(ctx, tokens["greedy"], body, 20*time.Millisecond) })
	}
	modest.gather(ctx, tokens["modest"], body, 0)
	group.Wait()
	fmt.Printf(" of 64 connections: %v; of the one beside them: %v\n", &greedy, &modest)
	if apart := greedy.right.Load() - modest.right.Load(); max(apart, -apart) > mostApart {
		found("a caller with one connection got %d answers, one with 64 %d", modest.right.Load(), greedy.right.Load())
	}
	return s.stop()
}

// makeTokens writes a file of tokens, and returns them by name.
func makeTokens(folder string, names ...string) (file string, tokens map[string]string, err error) {
	tokens = map[string]string{}
	var lines bytes.Buffer
	for _, name := range names {
		command := exec.Command(program, "token", name)
		var said bytes.Buffer
		command.Stdout, command.Stderr = &lines, &said
		if err := command.Run(); err != nil {
			return "", nil, err
		}
		for _, word := range strings.Fields(said.String()) {
			if len(word) > len(tokens[name]) {
				tokens[name] = word
			}
		}
	}
	file = filepath.Join(folder, "tokens")
	return file, tokens, os.WriteFile(file, lines.Bytes(), 0o600)
}

// answers are those that one token got.
type answers struct{ counts }

func (a *answers) String() string {
	return fmt.Sprintf("%d answers, %d told to come back", a.right.Load(), a.busy.Load())
}

// gather asks one question after the other on one connection until the context ends.
func (a *answers) gather(ctx context.Context, token string, body []byte, rest time.Duration) {
	client := newClient()
	defer client.CloseIdleConnections()
	for ctx.Err() == nil {
		request, err := http.NewRequestWithContext(ctx, either(), "http://"+address+"/v1/seasoning", bytes.NewReader(body))
		if err != nil {
			found("%v", err)
			return
		}
		request.Header.Set("Content-Type", jsonMedia)
		request.Header.Set("Authorization", "Bearer "+token)
		reply, err := client.Do(request)
		if err != nil {
			a.broken.Add(1) // by the end of the context
			continue
		}
		_, err = io.Copy(io.Discard, reply.Body)
		_ = reply.Body.Close()
		switch {
		case err != nil:
			a.broken.Add(1)
		case reply.StatusCode == http.StatusOK:
			a.right.Add(1)
		case reply.StatusCode == http.StatusServiceUnavailable:
			a.busy.Add(1)
		default:
			found("status %d", reply.StatusCode)
		}
		time.Sleep(rest)
	}
}
