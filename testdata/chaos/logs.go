package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"syscall"
	"time"
)

// logStill lets nobody read the log: the pipe is full soon.
func logStill() error {
	reader, writer, err := os.Pipe()
	if err != nil {
		return err
	}
	defer reader.Close()
	s, err := start(writer, "")
	if err != nil {
		return err
	}
	_ = writer.Close() // the program has it
	c := &counts{}
	ctx, cancel := context.WithCancel(context.Background())
	group := crowd(ctx, 8, false, c)
	time.Sleep(2 * time.Second)
	cancel()
	group.Wait()
	if c.broken.Load() > 0 || c.right.Load() < 1000 {
		found("a log that nobody reads: %v", c)
	}
	began := time.Now()
	err = s.stop()
	fmt.Printf("   %v; stopped in %v\n", c, time.Since(began).Round(time.Millisecond))
	return err
}

// logGone takes the reader of the log away.
func logGone() error {
	reader, writer, err := os.Pipe()
	if err != nil {
		return err
	}
	s, err := start(writer, "")
	if err != nil {
		return err
	}
	_ = writer.Close()
	_ = reader.Close()
	return s.answersOn()
}

// hungUp tells the program again and again to read its files anew, under load.
func hungUp() error {
	s, err := start(io.Discard, "")
	if err != nil {
		return err
	}
	c := &counts{}
	ctx, cancel := context.WithCancel(context.Background())
	group := crowd(ctx, 8, false, c)
	for range 20 {
		time.Sleep(50 * time.Millisecond)
		s.signal(syscall.SIGHUP)
	}
	cancel()
	group.Wait()
	if c.broken.Load() > 0 {
		found("requests were lost: %v", c)
	}
	fmt.Printf("   %v\n", c)
	return s.stop()
}
