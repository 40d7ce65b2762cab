package main

import (
	"bufio"
	"bytes"
	"context"
	"crypto/tls"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"strings"
	"sync"
	"sync/atomic"
	"time"
)

// A flood is what many callers do at once that once ended the service, or could. Each is
// tried with one, two and eight processors, in a memory cgroup where that can be had:
// the service lives, keeps within mostMiB, answers floods with what it may answer, and
// light questions beside them rightly.
type flood struct {
	name, says string
	callers    int
	pour       func(ctx context.Context, caller int, c *poured)
	encrypted  bool
}

// poured is what came of a flood.
type poured struct {
	answers [6]atomic.Int64 // by class of status
	bytes   atomic.Int64
	broken  atomic.Int64
	odd     atomic.Int64
}

func (c *poured) String() string {
	text := fmt.Sprintf("%d answers of %.0f MB", c.answers[2].Load(), float64(c.bytes.Load())/1e6)
	if n := c.answers[4].Load(); n > 0 {
		text += fmt.Sprintf(", %d refused (4xx)", n)
	}
	if n := c.answers[5].Load(); n > 0 {
		text += fmt.Sprintf(", %d told to come back", n)
	}
	if n := c.broken.Load(); n > 0 {
		text += fmt.Sprintf(", %d connections ended", n)
	}
	return text
}

// seen judges a reply: its status is one that a flood may get.
func (c *poured) seen(reply *http.Response) {
	switch reply.StatusCode {
	case 200, 400, 408, 413, 422, 429, 503:
	default:
		if c.odd.Add(1) == 1 {
			found("status %d", reply.StatusCode)
		}
	}
	if s := reply.StatusCode; (s == 429 || s == 503) && reply.Header.Get("Retry-After") == "" {
		found("%d without a time to come back", s)
	}
	c.answers[reply.StatusCode/100].Add(1)
}

const (
	floodTime = 2 * time.Second
	floodEnd  = 20 * time.Second // for what is under way then
)

// lightFrom is where light questions beside a flood come from: all of 127.0.0.0/8 is this
// machine, and the flood comes from 127.0.0.1. From one address both would be one caller.
var lightFrom = net.IPv4(127, 0, 0, 2)

// lightCallers ask light questions beside a flood, one after the other.
const lightCallers = 2

// leastBeside is how many of them have to be answered: each within 0.1 s in the mean, or
// 1 s with one processor. There a piece of heavy work, the flood and the light questions
// run one after the other, and what is read from connections is run in turn by connection,
// not by caller: two of them stand behind two hundred, and the count of one flood differs
// eightfold from the next (10 to 78 in six runs of "unread"). Own choice.
func leastBeside(processors int) int64 {
	patience := 100 * time.Millisecond
	if processors == 1 {
		patience = time.Second
	}
	return int64(lightCallers * floodFor(processors) / patience)
}

// floodFor is how long a flood is poured: longer where fewer light questions come through,
// so that their count says something.
func floodFor(processors int) time.Duration {
	if processors == 1 {
		return 2 * floodTime
	}
	return floodTime
}

// ask sends a request again and again and reads the answers, at a pace in bytes a second
// if that is not 0.
func pouring(path, media string, body []byte, pace int) func(context.Context, int, *poured) {
	return func(ctx context.Context, _ int, c *poured) {
		client := newClient()
		client.Timeout = floodEnd
		defer client.CloseIdleConnections()
		for ctx.Err() == nil {
			request, err := http.NewRequest(either(), "http://"+address+path, bytes.NewReader(body))
			if err != nil {
				found("%v", err)
				return
			}
			request.Header.Set("Content-Type", media)
			reply, err := client.Do(request)
			if err != nil {
				c.broken.Add(1)
				continue
			}
			c.seen(reply)
			n, err := io.Copy(io.Discard, paced{ctx, reply.Body, pace})
			c.bytes.Add(n)
			if err != nil && ctx.Err() == nil {
				c.broken.Add(1)
			}
			_ = reply.Body.Close()
		}
	}
}

// paced reads so many bytes a second, until the end of the flood.
type paced struct {
	ctx  context.Context
	from io.Reader
	pace int
}

func (p paced) Read(b []byte) (int, error) {
	if p.pace == 0 {
		return p.from.Read(b)
	}
	if p.ctx.Err() != nil {
		return 0, p.ctx.Err()
	}
	n, err := p.from.Read(b[:min(len(b), p.pace/50)])
	time.Sleep(time.Duration(n) * time.Second / time.Duration(p.pace))
	return n, err
}

const (
	jsonMedia  = "application/json"
	linesMedia = "application/x-ndjson"
)

// wideMatch is a bookmatch whose answer is long: 200 leaves, three ways to open them.
const wideMatch = `{"billet": {"width": "210 mm", "rings": {"pith": {"y": "400 mm", "z": "25 mm"}, "angle_sd_deg": 2, "ring_width": "2 mm"}, "grain": {"runout_one_in": 20, "dip_one_in": 30}}, "stack": {"leaves": 200, "sawn_thickness": "1 mm"}, "saw": {"kerf": "1 mm"}}`

func batchOf(item string, n int) []byte {
	return []byte(`{"items": [` + strings.TrimSuffix(strings.Repeat(item+",", n), ",") + `]}`)
}

func itemOf(route, request string) string {
	var small bytes.Buffer
	if err := json.Compact(&small, []byte(request)); err != nil {
		panic(err)
	}
	return `{"route": "` + route + `", "request": ` + small.String() + `}`
}

func readFile(name string) string {
	text, err := os.ReadFile(name)
	if err != nil {
		panic(err)
	}
	return string(text)
}

// unknownMembers is a request of so many bytes, of members that nobody knows.
func unknownMembers(bytes int) []byte {
	var text strings.Builder
	text.WriteString(`{"a":1`)
	for n := 0; text.Len() < bytes; n++ {
		fmt.Fprintf(&text, `,"x%d":1`, n)
	}
	return []byte(text.String() + "}")
}

// airRecord is a year of air, row by row, as it stands in a JSON text.
func airRecord() string {
	var log strings.Builder
	log.WriteString("time,temperature_c,rh_pct\\n")
	at := time.Date(2024, 1, 1, 0, 0, 0, 0, time.UTC)
	for row := range 4990 {
		fmt.Fprintf(&log, "%s,20.0,%d.0\\n", at.Format("2006-01-02T15:04:05Z"), 35+row/100%30)
		at = at.Add(2 * time.Hour)
	}
	return log.String()
}

// longSeasoning is a right request of so many bytes: a year of air, and room.
func longSeasoning(bytes int) []byte {
	body := `{"billet": {"wood": "maple-sugar", "thickness": "25 mm", "stacked_on": "2024-01-02"}, "stays": [{"log_csv": "` + airRecord() + `"}], "target_condition": {"mc_pct": 9}, "horizon_days": 30}`
	return []byte(body + strings.Repeat(" ", max(0, bytes-len(body))))
}

func floods() []flood {
	bookmatch := itemOf("/v1/bookmatch", wideMatch)
	pith := itemOf("/v1/bookmatch", readFile("api/examples/bookmatch.stack-with-the-pith.json"))
	plan := []byte(readFile("testdata/chaos/plan-30-knots-8-kinds.json"))
	return []flood{
		{"batch", "documents of 1000 long answers", 4, pouring("/v1/batch", jsonMedia, batchOf(bookmatch, 1000), 0), false},
		{"batch-slow", "the same, read at 200 kB/s", 16, pouring("/v1/batch", jsonMedia, batchOf(bookmatch, 1000), 200_000), false},
		{"pith", "documents of 1000 answers of the contract's own example", 4, pouring("/v1/batch", jsonMedia, batchOf(pith, 1000), 0), false},
		{"long", "a short request with a long answer, by 64 callers", 64, pouring("/v1/bookmatch", jsonMedia, []byte(wideMatch), 0), false},
		{"lines", "streams of 300 long answers, read at 200 kB/s", 16, pouring("/v1/batch", linesMedia, []byte(strings.Repeat(bookmatch+"\n", 300)), 200_000), false},
		{"last-byte", "200 bodies of 1 MB that stop before the last byte", 200, lastByte, false},
		{"items", "340 000 empty items in a batch, by 32 callers", 32, pouring("/v1/batch", jsonMedia, batchOf("{}", 340_000), 0), false},
		{"unknown", "250 kB of unknown members, by 64 callers", 64, pouring("/v1/emc", jsonMedia, unknownMembers(250_000), 0), false},
		{"idle", "9 258 connections that are kept after one question", 1, keptOpen(9258, false), false},
		{"idle-tls", "the same over TLS", 1, keptOpen(2000, true), true},
		{"unread", "200 callers that never read", 200, neverRead, false},
		{"plans", "plans with 30 through knots and 8 kinds, by 16 callers", 16, pouring("/v1/resaw-plan", jsonMedia, plan, 0), false},
		{"seasonings", "400 seasonings of 0.7 MB", 400, pouring("/v1/seasoning", jsonMedia, longSeasoning(700_000), 0), false},
		{"figures", "figures of 60 parts and pairs with a year of air, by 64 callers", 64, pouring("/v1/assembly-movement", jsonMedia, dearFigures(), 0), false},
		{"wrong", "batches of 1000 wrong items, by 64 callers", 64, pouring("/v1/batch", jsonMedia, batchOf(`{"route":"/v1/emc","request":`+string(unknownMembers(900))+`}`, 1000), 0), false},
	}
}

// lastByte sends all of a body but its last byte, and waits.
func lastByte(ctx context.Context, _ int, c *poured) {
	body := longSeasoning(1 << 20)
	for ctx.Err() == nil {
		connection, err := dial()
		if err != nil {
			c.broken.Add(1)
			continue
		}
		_, err = fmt.Fprintf(connection, "POST /v1/seasoning HTTP/1.1\r\nHost: %s\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n", address, len(body))
		if err == nil {
			_ = connection.SetWriteDeadline(time.Now().Add(2 * floodTime))
			_, err = connection.Write(body[:len(body)-1])
		}
		_ = connection.SetReadDeadline(time.Now().Add(2 * floodTime))
		if reply, err := http.ReadResponse(bufio.NewReader(connection), nil); err == nil {
			c.seen(reply)
			_ = reply.Body.Close()
		} else {
			c.broken.Add(1) // we give up waiting
		}
		_ = err
		_ = connection.Close()
	}
}

// unreadRequests is how many requests one caller sends who never reads: more than enough
// that their answers fill every buffer on the way. Whoever writes on fills the kernel with
// small pieces, hundreds of megabytes a second, and takes the processors from all others.
const unreadRequests = 200

// neverRead asks for long answers and takes none of them.
func neverRead(ctx context.Context, caller int, c *poured) {
	connection, err := dial()
	if err != nil {
		c.broken.Add(1)
		return
	}
	defer connection.Close()
	_ = connection.SetWriteDeadline(time.Now().Add(floodTime))
	path, body := "/v1/bookmatch", wideMatch
	for n := range unreadRequests {
		if caller%2 == 1 {
			path, body = questions[n%len(questions)].path, string(questions[n%len(questions)].body)
		}
		if _, err := fmt.Fprintf(connection, "POST %s HTTP/1.1\r\nHost: %s\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n%s", path, address, len(body), body); err != nil {
			break
		}
	}
	<-ctx.Done()
}

// keptOpen asks one question on each of many connections and keeps them.
func keptOpen(n int, encrypted bool) func(context.Context, int, *poured) {
	return func(_ context.Context, _ int, c *poured) {
		var open []net.Conn
		var mu sync.Mutex
		var group sync.WaitGroup
		for part := range 8 {
			group.Go(func() {
				for range n / 8 {
					connection, err := dialKept(encrypted)
					if err != nil {
						c.broken.Add(1)
						continue
					}
					mu.Lock()
					open = append(open, connection)
					mu.Unlock()
					_ = connection.SetDeadline(time.Now().Add(10 * time.Second))
					_, _ = fmt.Fprintf(connection, "GET /livez HTTP/1.1\r\nHost: %s\r\n\r\n", address)
					reply, err := http.ReadResponse(bufio.NewReader(connection), nil)
					if err != nil {
						c.broken.Add(1)
						continue
					}
					c.seen(reply)
					_ = reply.Body.Close()
				}
				_ = part
			})
		}
		group.Wait()
		for _, connection := range open {
			_ = connection.Close()
		}
	}
}

func dialKept(encrypted bool) (net.Conn, error) {
	connection, err := dial()
	if err != nil || !encrypted {
		return connection, err
	}
	over := tls.Client(connection, &tls.Config{InsecureSkipVerify: true}) //nolint:gosec // the service's own certificate, on the loopback
	_ = over.SetDeadline(time.Now().Add(10 * time.Second))
	if err := over.Handshake(); err != nil {
		_ = connection.Close()
		return nil, err
	}
	return over, nil
}

// run pours a flood over a service with so many processors.
func (f *flood) run(processors int) error {
	box := newCage()
	defer box.remove()
	wrap := fmt.Sprintf("export GOMAXPROCS=%d", processors)
	if enter := box.enter(); enter != "" {
		wrap = enter + "; " + wrap
	}
	var words []string
	if f.encrypted {
		folder, err := os.MkdirTemp("", "chaos")
		if err != nil {
			return err
		}
		defer os.RemoveAll(folder)
		if words, err = selfSigned(folder); err != nil {
			return err
		}
	}
	s, err := startWith(io.Discard, wrap, words...)
	if err != nil {
		return err
	}
	c, beside := &poured{}, &counts{}
	ctx, cancel := context.WithCancel(context.Background())
	var callers sync.WaitGroup
	for n := range f.callers {
		callers.Go(func() { f.pour(ctx, n, c) })
	}
	others := crowdFrom(ctx, lightFrom, lightCallers, false, beside)
	finished := make(chan struct{})
	go func() { callers.Wait(); close(finished) }()
	select {
	case <-finished:
	case <-time.After(floodFor(processors)):
	case err := <-s.done:
		s.done <- err
		cancel()
		return fmt.Errorf("the service ended: %w", cmpError(err))
	}
	cancel()
	callers.Wait()
	others.Wait()
	peak, err := memoryOf(s.command.Process.Pid, "VmHWM")
	if err != nil {
		return fmt.Errorf("the service ended: %w", err)
	}
	if peak > mostMiB {
		found("%.0f MiB with %d processors", peak, processors)
	}
	if n, least := beside.right.Load(), leastBeside(processors); n < least {
		found("only %d light questions were answered beside it with %d processors, and not %d", n, processors, least)
	}
	after := &counts{}
	askAll(after)
	fmt.Printf("   %d processors: %v; beside it %v; most %.0f MiB\n", processors, c, beside, peak)
	return s.stop()
}

func cmpError(err error) error {
	if err == nil {
		return errors.New("with status 0")
	}
	return err
}
