package serve

import (
	"context"
	"runtime"
	"sync"
)

// inOrder answers the pieces that next gives, on all processors, and hands them
// to emit in their order, which then frees them. next returns nil at the end; it is called from a goroutine of
// its own and never twice at a time. No more than a few pieces are under way at
// once. inOrder returns when all its goroutines have ended. The error is that of
// emit; abort, which may be nil, is then called to wake next, and the rest is left
// undone. When ctx ends, items not begun are told so.
func (b *batching) inOrder(ctx context.Context, next func() *piece, emit func(*piece) error, abort func()) error {
	ctx, cancel := context.WithCancel(ctx)
	over := make(chan struct{}) // nobody takes the answers any more
	workers := runtime.GOMAXPROCS(0)
	todo := make(chan *piece, workers)
	order := make(chan *piece, 4*workers)
	var wait sync.WaitGroup
	wait.Go(func() {
		defer close(order)
		defer close(todo)
		for {
			p := next()
			if p == nil {
				return
			}
			select {
			case order <- p:
				todo <- p // the workers empty it even when all is over
			case <-over:
				return
			}
		}
	})
	for range workers {
		wait.Go(func() {
			for p := range todo {
				select {
				case <-over:
				default:
					b.answer(ctx, p)
				}
				close(p.done)
			}
		})
	}
	defer wait.Wait()
	defer cancel()
	var failed error
	for p := range order {
		<-p.done
		if failed == nil { // emit frees the piece
			if failed = emit(p); failed != nil {
				close(over)
				cancel()
				if abort != nil {
					abort()
				}
			}
		}
	}
	return failed
}
