package main

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"math/rand/v2"
	"net"
	"net/http"
	"os"
	"slices"
	"sync"
	"syscall"
	"time"
)

// fault is one way to treat the program badly.
type fault struct {
	name, says string
	run        func() error
}

var faults = []fault{
	{"kill", "killed without warning and started again under load, five times", killed},
	{"client", "callers of the client that is kept, while it is killed and beside a flood", byClient},
	{"idle", "thousands of connections that say nothing", idle},
	{"slow", "three hundred bodies that come a byte at a time", slow},
	{"half", "callers that close their half, cut their request short, or vanish", half},
	{"noise", "bytes that are no requests, and headers that are too long", noise},
	{"log", "a log that cannot be written", fullLog},
	{"log-still", "a log that nobody reads", logStill},
	{"log-gone", "a log whose reader went away", logGone},
	{"hang-up", "told twenty times to read its files anew, under load", hungUp},
	{"fair", "one token with 64 callers, and one with a single caller beside it", fairShare},
	{"latency", "light questions beside 64 callers who want the dearest", latency},
	{"descriptors", "more connections than the process may hold", descriptors},
	{"pause", "stopped for three seconds in the midst of load, and let on", paused},
	{"stop", "told to stop in the midst of heavy work, three times", stopped},
}

func killed() error {
	c := &counts{}
	ctx, cancel := context.WithCancel(context.Background())
	s, err := start(io.Discard, "")
	if err != nil {
		cancel()
		return err
	}
	group := crowd(ctx, 16, true, c)
	var slowest time.Duration
	for range 5 {
		time.Sleep(700 * time.Millisecond)
		s.kill()
		began := time.Now()
		if s, err = start(io.Discard, ""); err != nil {
			cancel()
			group.Wait()
			return err
		}
		slowest = max(slowest, time.Since(began))
	}
	cancel()
	group.Wait()
	askAll(c)
	fmt.Printf("   %v; ready again within %v\n", c, slowest.Round(time.Millisecond))
	return s.stop()
}

func idle() error {
	s, err := start(io.Discard, "")
	if err != nil {
		return err
	}
	var limit syscall.Rlimit
	if err := syscall.Getrlimit(syscall.RLIMIT_NOFILE, &limit); err != nil {
		return err
	}
	n := int(min(limit.Cur-500, 10_000)) // each end has a table of its own
	before := s.resident()
	var open []net.Conn
	for range n {
		connection, err := dial()
		if err != nil {
			found("connection %d: %v", len(open), err)
			break
		}
		open = append(open, connection)
	}
	c := &counts{}
	began := time.Now()
	askAll(c)
	took := time.Since(began)
	most := s.resident()
	// Each says nothing: it is closed after the 5 s that headers may take.
	left := 0
	for _, connection := range open {
		_ = connection.SetReadDeadline(began.Add(15 * time.Second))
		if _, err := connection.Read(make([]byte, 1)); err != io.EOF {
			left++
		}
		_ = connection.Close()
	}
	if left > 0 {
		found("%d silent connections were not closed", left)
	}
	if most > 160 {
		found("%.0f MiB with %d connections", most, len(open))
	}
	fmt.Printf("   %d connections: %v in %v; %.0f MiB before, %.0f MiB with them; all closed by the service\n", len(open), c, took.Round(time.Millisecond), before, most)
	return s.stop()
}

// slow sends the bodies of 300 requests so slowly that half of them never end.
func slow() error {
	s, err := start(io.Discard, "")
	if err != nil {
		return err
	}
	c, fast := &counts{}, &counts{}
	ctx, cancel := context.WithCancel(context.Background())
	var group sync.WaitGroup
	var mu sync.Mutex
	cut := 0
	for n := range 300 {
		q := &questions[n%len(questions)]
		group.Go(func() {
			connection, err := dial()
			if err != nil {
				found("%v", err)
				return
			}
			defer connection.Close()
			_, _ = fmt.Fprintf(connection, "POST %s HTTP/1.1\r\nHost: %s\r\nContent-Type: application/json\r\nContent-Length: %d\r\nConnection: close\r\n\r\n", q.path, address, len(q.body))
			pause := 8 * time.Second / time.Duration(len(q.body)) // ends in time
			if n%2 == 1 {
				pause = 40 * time.Second / time.Duration(len(q.body)) // does not
			}
			go func() {
				for i := range q.body {
					if _, err := connection.Write(q.body[i : i+1]); err != nil {
						return
					}
					time.Sleep(pause)
				}
			}()
			_ = connection.SetReadDeadline(time.Now().Add(30 * time.Second))
			reply, err := http.ReadResponse(bufio.NewReader(connection), nil)
			if err != nil {
				found("%s, caller %d: no reply: %v", q.path, n, err)
				return
			}
			body, err := io.ReadAll(reply.Body)
			_ = reply.Body.Close()
			switch {
			case err != nil:
				found("%s: %v", q.path, err)
			case n%2 == 1 && reply.StatusCode == http.StatusRequestTimeout:
				mu.Lock()
				cut++
				mu.Unlock()
			default:
				_ = q.judge(reply, body, c)
			}
		})
	}
	others := crowd(ctx, 4, false, fast)
	group.Wait()
	cancel()
	others.Wait()
	if fast.broken.Load() > 0 {
		found("callers beside them: %v", fast)
	}
	fmt.Printf("   in time: %v; too slow: %d answered with 408; beside them: %v\n", c, cut, fast)
	return s.stop()
}

func half() error {
	s, err := start(io.Discard, "")
	if err != nil {
		return err
	}
	c := &counts{}
	refused, gone := 0, 0
	for n := range 10 * len(questions) {
		q := &questions[n%len(questions)]
		connection, err := dial()
		if err != nil {
			return err
		}
		tcp, ok := connection.(*net.TCPConn)
		if !ok {
			return fmt.Errorf("%T is no TCP connection", connection)
		}
		body := q.body
		if n%3 == 1 {
			body = body[:len(body)/2]
		}
		_, _ = fmt.Fprintf(tcp, "POST %s HTTP/1.1\r\nHost: %s\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n", q.path, address, len(q.body))
		_, _ = tcp.Write(body)
		if n%3 == 2 { // vanishes with a reset
			if n%2 == 0 {
				time.Sleep(5 * time.Millisecond)
			}
			_ = tcp.SetLinger(0)
			_ = tcp.Close()
			gone++
			continue
		}
		_ = tcp.CloseWrite()
		_ = tcp.SetReadDeadline(time.Now().Add(20 * time.Second))
		reply, err := http.ReadResponse(bufio.NewReader(tcp), nil)
		if err != nil {
			found("%s: no reply to a caller that closed its half: %v", q.path, err)
			_ = tcp.Close()
			continue
		}
		text, _ := io.ReadAll(reply.Body)
		_ = reply.Body.Close()
		_ = tcp.Close()
		switch {
		case n%3 == 1 && reply.StatusCode == http.StatusBadRequest:
			refused++
		case n%3 == 1:
			found("%s: half a request is answered with %d: %.200s", q.path, reply.StatusCode, text)
		default:
			_ = q.judge(reply, text, c)
		}
	}
	fmt.Printf("   closed half: %v; %d half requests refused with 400, %d vanished\n", c, refused, gone)
	after := &counts{}
	askAll(after) // no turn was kept by those who vanished
	fmt.Printf("   afterwards: %v\n", after)
	return s.stop()
}

func noise() error {
	s, err := start(io.Discard, "")
	if err != nil {
		return err
	}
	random := rand.New(rand.NewPCG(1, 2))
	for n := range 500 {
		connection, err := dial()
		if err != nil {
			return err
		}
		_ = connection.SetDeadline(time.Now().Add(10 * time.Second))
		switch n % 3 {
		case 0:
			bytes := make([]byte, 1+random.IntN(4000))
			for i := range bytes {
				bytes[i] = byte(random.Uint32())
			}
			_, _ = connection.Write(append(bytes, "\r\n\r\n"...))
		case 1:
			_, _ = fmt.Fprintf(connection, "GET /v1/methods HTTP/1.1\r\nHost: localhost\r\nX: %0*d\r\n\r\n", 40<<10, 0)
		case 2:
			_, _ = io.WriteString(connection, "POST /v1/air HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: 5\r\nTransfer-Encoding: chunked\r\n\r\nzz\r\n")
		}
		if reply, err := http.ReadResponse(bufio.NewReader(connection), nil); err == nil {
			if !slices.Contains([]int{400, 431, 501, 505}, reply.StatusCode) {
				found("noise of kind %d is answered with %d", n%3, reply.StatusCode)
			}
			_ = reply.Body.Close()
		}
		_ = connection.Close()
	}
	c := &counts{}
	askAll(c)
	fmt.Printf("   afterwards: %v\n", c)
	return s.stop()
}

func fullLog() error {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	defer full.Close()
	s, err := start(full, "")
	if err != nil {
		return err
	}
	return s.answersOn()
}

// answersOn asks everything five times of a program whose log goes nowhere, and stops it.
func (s *server) answersOn() error {
	c := &counts{}
	for range 5 {
		askAll(c)
	}
	fmt.Printf("   %v\n", c)
	return s.stop()
}

func descriptors() error {
	s, err := start(io.Discard, "ulimit -n 64")
	if err != nil {
		return err
	}
	var open []net.Conn
	for range 300 { // the backlog of the kernel holds those that are not accepted
		connection, err := dial()
		if err != nil {
			break
		}
		open = append(open, connection)
	}
	time.Sleep(500 * time.Millisecond)
	for _, connection := range open {
		_ = connection.Close()
	}
	c := &counts{}
	began := time.Now()
	askAll(c)
	fmt.Printf("   %d connections against 64 descriptors; afterwards: %v in %v\n", len(open), c, time.Since(began).Round(time.Millisecond))
	return s.stop()
}

func paused() error {
	s, err := start(io.Discard, "")
	if err != nil {
		return err
	}
	c := &counts{}
	ctx, cancel := context.WithCancel(context.Background())
	group := crowd(ctx, 8, true, c)
	time.Sleep(500 * time.Millisecond)
	s.signal(syscall.SIGSTOP)
	time.Sleep(3 * time.Second)
	s.signal(syscall.SIGCONT)
	time.Sleep(time.Second)
	cancel()
	group.Wait()
	if c.broken.Load() > 0 {
		found("requests were lost: %v", c)
	}
	fmt.Printf("   %v\n", c)
	return s.stop()
}

// stopped tells the service to stop while heavy requests run and wait. Each of
// them was sent before: it gets its answer, or is told to come back, and no
// connection breaks under it.
func stopped() error {
	for range 3 {
		s, err := start(io.Discard, "")
		if err != nil {
			return err
		}
		c := &counts{}
		var group sync.WaitGroup
		var sent sync.WaitGroup
		for n := range 24 {
			q := &questions[n%len(questions)]
			sent.Add(1)
			group.Go(func() {
				connection, err := dial()
				if err != nil {
					sent.Done()
					found("%v", err)
					return
				}
				defer connection.Close()
				_, err = fmt.Fprintf(connection, "POST %s HTTP/1.1\r\nHost: %s\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n%s", q.path, address, len(q.body), q.body)
				sent.Done()
				if err != nil {
					found("%v", err)
					return
				}
				_ = connection.SetReadDeadline(time.Now().Add(30 * time.Second))
				reply, err := http.ReadResponse(bufio.NewReader(connection), nil)
				if err != nil {
					found("%s was sent and not answered: %v", q.path, err)
					return
				}
				text, err := io.ReadAll(reply.Body)
				_ = reply.Body.Close()
				if err != nil {
					found("%s: the answer broke off: %v", q.path, err)
					return
				}
				_ = q.judge(reply, text, c)
			})
		}
		sent.Wait()
		time.Sleep(20 * time.Millisecond) // that the kernel has handed them over
		began := time.Now()
		if err := s.stop(); err != nil {
			found("%v", err)
		}
		group.Wait()
		fmt.Printf("   %v; gone after %v\n", c, time.Since(began).Round(time.Millisecond))
	}
	return nil
}
