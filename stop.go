package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
)

// Ctrl-C ends a command cleanly: what it reads and works out is dropped, what it
// was about to write is not written, and what it had put in place stays whole. A
// second Ctrl-C ends it whatever it is at, and even then no file is half written
// (disk.go).

// interruptible is a context that ends with the first Ctrl-C. A program that was
// started deaf to it, as nohup and the background of a script do, stays so.
func interruptible() context.Context {
	if signal.Ignored(os.Interrupt) {
		return context.Background()
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	context.AfterFunc(ctx, stop)
	return ctx
}

// await does work that writes to nothing but what it returns. When ctx ends it
// returns at once with the reason, and leaves the work behind: some of it waits,
// for a keyboard or a lock, and would not hear.
func await[T any](ctx context.Context, work func() (T, error)) (T, error) {
	type end struct {
		value T
		err   error
	}
	var nothing T
	if err := ctx.Err(); err != nil {
		return nothing, err
	}
	done := make(chan end, 1)
	go func() {
		v, err := work()
		done <- end{v, err}
	}()
	select {
	case e := <-done:
		if err := ctx.Err(); err != nil {
			return nothing, err
		}
		return e.value, e.err
	case <-ctx.Done():
		return nothing, ctx.Err()
	}
}

// stopped tells whether an error is that the cook pressed Ctrl-C.
func stopped(err error) bool { return errors.Is(err, context.Canceled) }

// sayStopped is the last word of a command that was stopped.
func (a *app) sayStopped() {
	switch a.written {
	case 0:
		fmt.Fprintln(a.errOut, "tamis: stopped; nothing was written")
	case 1:
		fmt.Fprintln(a.errOut, "tamis: stopped; one file had been written, and is whole")
	default:
		fmt.Fprintf(a.errOut, "tamis: stopped; %d files had been written, and are whole\n", a.written)
	}
}
