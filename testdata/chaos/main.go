// Command chaos treats the program badly and watches what it answers: nothing that
// it accepted may be lost without need, and no answer may ever hold a wrong
// number. Answers are compared, byte for byte but for the id of a request, with those of "latewood ask", which
// computes them in a process of its own that is left in peace.
//
//	go run ./testdata/chaos [-only NAME] [-typescript CALLER] PROGRAM
//
// CALLER is .ci/clients/caller.ts, compiled; .ci/chaos does it. Without one no caller of the
// client in TypeScript asks beside those of the one in Go.
// PROGRAM is the built binary. It runs on the loopback only, for about five
// minutes, and every count is bounded. The exit status is 1 when something
// was found. It needs an operating system with signals and /dev/full (Linux).
package main

import (
	"bytes"
	"context"
	"crypto/tls"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"time"
)

const address = "127.0.0.1:18095"

// question is a request whose right answer is known.
type question struct {
	path  string
	body  []byte
	right []byte
	heavy bool
}

var (
	program string
	// typescript is what runs callers of the client in TypeScript; empty for none.
	typescript string
	scheme     = "http"
	ready      = &http.Client{Timeout: time.Second, Transport: &http.Transport{DisableKeepAlives: true, TLSClientConfig: &tls.Config{InsecureSkipVerify: true}}} //nolint:gosec // as above
	questions  []question
	findings   atomic.Int64
)

// found tells of something that must not be.
func found(format string, args ...any) {
	findings.Add(1)
	fmt.Printf("   FOUND: "+format+"\n", args...)
}

func main() {
	only := flag.String("only", "", "run one fault alone")
	flag.StringVar(&typescript, "typescript", "", "the compiled callers of the client in TypeScript")
	flag.Parse()
	if flag.NArg() != 1 {
		fmt.Fprintln(os.Stderr, "chaos [-only NAME] [-typescript CALLER] PROGRAM")
		os.Exit(2)
	}
	program = flag.Arg(0)
	if err := readQuestions("api/examples"); err != nil {
		fmt.Fprintln(os.Stderr, "chaos:", err)
		os.Exit(2)
	}
	for _, one := range faults {
		part(one.name, one.says, *only, one.run)
	}
	box := newCage()
	fmt.Printf("== floods, each with 1, 2 and 8 processors, %v\n", box)
	box.remove()
	for _, one := range floods() {
		part(one.name, one.says, *only, func() error {
			for _, processors := range []int{1, 2, 8} {
				if err := one.run(processors); err != nil {
					return err
				}
			}
			return nil
		})
	}
	fmt.Printf("\n%d findings\n", findings.Load())
	if findings.Load() > 0 {
		os.Exit(1)
	}
}

// part runs one part, if it is wanted.
func part(name, says, only string, run func() error) {
	if only != "" && only != name {
		return
	}
	fmt.Printf("== %s: %s\n", name, says)
	start := time.Now()
	if err := run(); err != nil {
		found("%v", err)
	}
	fmt.Printf("   %.1f s\n", time.Since(start).Seconds())
}

// readQuestions asks every example of the program in peace.
func readQuestions(folder string) error {
	files, err := filepath.Glob(filepath.Join(folder, "*.json"))
	if err != nil || len(files) == 0 {
		return fmt.Errorf("no examples in %s; run this at the top of the repository", folder)
	}
	var limits struct {
		Routes []struct {
			Route string
			Heavy bool
		}
	}
	text, err := exec.Command(program, "ask", "/v1/limits").Output()
	if err != nil {
		return err
	}
	if err := json.Unmarshal(text, &limits); err != nil {
		return err
	}
	heavy := map[string]bool{}
	for _, one := range limits.Routes {
		heavy[one.Route] = one.Heavy
	}
	for _, file := range files {
		id, _, _ := strings.Cut(filepath.Base(file), ".")
		if id != strings.ToLower(id) {
			continue // an operation of the rack, by its name; what it answers hangs on what is kept
		}
		path := "/v1/" + id
		body, err := os.ReadFile(file)
		if err != nil {
			return err
		}
		right, err := exec.Command(program, "ask", path, file).Output()
		if err != nil {
			return fmt.Errorf("%s: %w: %s", file, err, right)
		}
		// A batch may hold heavy items.
		questions = append(questions, question{path, body, right, heavy[path] || path == "/v1/batch"})
	}
	return nil
}

// server is one run of the program.
type server struct {
	command *exec.Cmd
	done    chan error
}

// start runs the program and waits until it is ready. wrap runs it by way of a
// shell line in which "$0" is the program.
func start(log io.Writer, wrap string) (*server, error) { return startWith(log, wrap) }

// startWith runs it with more flags.
func startWith(log io.Writer, wrap string, words ...string) (*server, error) {
	words = append([]string{"serve", "--listen", address, "--log-format", "json"}, words...)
	command := exec.Command(program, words...)
	if wrap != "" {
		command = exec.Command("sh", append([]string{"-c", wrap + `; exec "$0" "$@"`, program}, words...)...)
	}
	if scheme = "http"; slices.Contains(words, "--tls-cert") {
		scheme = "https"
	}
	if other, err := dial(); err == nil {
		_ = other.Close()
		return nil, fmt.Errorf("something else answers at %s", address)
	}
	command.Stderr = log
	if err := command.Start(); err != nil {
		return nil, err
	}
	s := &server{command, make(chan error, 1)}
	go func() { s.done <- command.Wait() }()
	began := time.Now()
	for time.Since(began) < 5*time.Second {
		if reply, err := ready.Get(scheme + "://" + address + "/readyz"); err == nil {
			_ = reply.Body.Close()
			if reply.StatusCode == http.StatusOK {
				return s, nil
			}
		}
		time.Sleep(2 * time.Millisecond)
	}
	s.kill()
	return nil, errors.New("it was not ready within 5 s")
}

func (s *server) signal(sig os.Signal) { _ = s.command.Process.Signal(sig) }

func (s *server) kill() {
	s.signal(syscall.SIGKILL)
	<-s.done
}

// stop tells it to stop and requires that it does, with status 0.
func (s *server) stop() error {
	s.signal(syscall.SIGTERM)
	select {
	case err := <-s.done:
		if err != nil {
			return fmt.Errorf("it stopped with %w", err)
		}
		return nil
	case <-time.After(130 * time.Second):
		s.kill()
		return errors.New("it did not stop within 130 s")
	}
}

// resident is the memory in MiB now.
func (s *server) resident() float64 {
	mib, err := memoryOf(s.command.Process.Pid, "VmRSS")
	if err != nil {
		return -1
	}
	return mib
}

// counts of what came back.
type counts struct{ right, busy, broken atomic.Int64 }

func (c *counts) String() string {
	return fmt.Sprintf("%d right, %d told to come back, %d connections broken", c.right.Load(), c.busy.Load(), c.broken.Load())
}

// either is one of the methods of a calculation, in turn.
func either() string {
	if turns.Add(1)%2 == 0 {
		return "QUERY"
	}
	return http.MethodPost
}

var turns atomic.Int64

// ask sends a question. Whole answers are judged; a connection that breaks is an
// error, which the caller judges.
func (q *question) ask(client *http.Client, c *counts) error {
	request, err := http.NewRequest(either(), scheme+"://"+address+q.path, bytes.NewReader(q.body))
	if err != nil {
		return err
	}
	request.Header.Set("Content-Type", jsonMedia)
	reply, err := client.Do(request)
	if err != nil {
		c.broken.Add(1)
		return err
	}
	defer reply.Body.Close()
	body, err := io.ReadAll(reply.Body)
	if err != nil {
		c.broken.Add(1)
		return err
	}
	return q.judge(reply, body, c)
}

// instance is the id of the request in a problem, which differs from time to time.
var instance = regexp.MustCompile(`"instance":"[^"]*"`)

func same(a, b []byte) bool {
	return bytes.Equal(instance.ReplaceAll(a, nil), instance.ReplaceAll(b, nil))
}

// sameButLate reports that a batch answers some items as it should, and tells the others
// that its time is over, as they are to be told.
func sameButLate(got, right []byte) bool {
	type batch struct {
		Result struct {
			Items []struct {
				ID              string
				Status          int
				Answer, Problem json.RawMessage
			}
		}
	}
	var is, should batch
	if json.Unmarshal(got, &is) != nil || json.Unmarshal(right, &should) != nil || len(is.Result.Items) == 0 || len(is.Result.Items) != len(should.Result.Items) {
		return false
	}
	for i, one := range is.Result.Items {
		other := should.Result.Items[i]
		late := one.Status == http.StatusServiceUnavailable && bytes.Contains(one.Problem, []byte(`"detail":"the time of this batch is over`))
		alike := one.Status == other.Status && same(one.Answer, other.Answer) && same(one.Problem, other.Problem)
		if one.ID != other.ID || !late && !alike {
			return false
		}
	}
	return true
}

// judge finds wrong numbers and other wrong replies.
func (q *question) judge(reply *http.Response, body []byte, c *counts) error {
	switch {
	case reply.StatusCode == http.StatusOK && same(body, q.right):
		c.right.Add(1)
	case reply.StatusCode == http.StatusOK && sameButLate(body, q.right):
		c.busy.Add(1) // the items left over are told to come back, as a request would be
	case reply.StatusCode == http.StatusOK:
		found("%s: an answer that differs from the right one: %.300s", q.path, body)
	case reply.StatusCode == http.StatusServiceUnavailable && reply.Header.Get("Retry-After") != "" && json.Valid(body):
		c.busy.Add(1)
	default:
		found("%s: status %d: %.300s", q.path, reply.StatusCode, body)
	}
	return nil
}

// askAll asks every question once, one after the other, and requires the right
// answers.
func askAll(c *counts) {
	client := newClient()
	defer client.CloseIdleConnections()
	for i := range questions {
		if err := questions[i].ask(client, c); err != nil {
			found("%s: %v", questions[i].path, err)
		}
	}
}

func newClient() *http.Client { return newClientFrom(nil) }

// newClientFrom is a client that asks from an address of its own: without tokens that is
// what the service knows a caller by.
func newClientFrom(own net.IP) *http.Client {
	dialer := &net.Dialer{LocalAddr: &net.TCPAddr{IP: own}}
	return &http.Client{Timeout: 30 * time.Second, Transport: &http.Transport{DialContext: dialer.DialContext, MaxIdleConnsPerHost: 64,
		TLSClientConfig: &tls.Config{InsecureSkipVerify: true}}} //nolint:gosec // the certificate is made here
}

// crowd keeps asking with several callers until the context ends.
func crowd(ctx context.Context, callers int, heavy bool, c *counts) *sync.WaitGroup {
	return crowdFrom(ctx, nil, callers, heavy, c)
}

// crowdFrom does so from an address.
func crowdFrom(ctx context.Context, own net.IP, callers int, heavy bool, c *counts) *sync.WaitGroup {
	var group sync.WaitGroup
	for n := range callers {
		group.Go(func() {
			client := newClientFrom(own)
			defer client.CloseIdleConnections()
			for i := n; ctx.Err() == nil; i++ {
				if q := &questions[i%len(questions)]; heavy || !q.heavy {
					if err := q.ask(client, c); err != nil {
						time.Sleep(5 * time.Millisecond)
					}
				}
			}
		})
	}
	return &group
}

// dial opens a bare connection.
func dial() (net.Conn, error) { return net.DialTimeout("tcp", address, 2*time.Second) }
