package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"strings"
	"time"
	"unicode/utf8"

	"golang.org/x/term"
)

// progress says on a terminal what takes longer than a second: one line on
// standard error, written over each second and wiped in the end, whether the
// work was done or stopped. A pipe, a file or a script gets none of it.
type progress struct {
	to   io.Writer                                      // the terminal; nil: there is none
	tick func() (seconds <-chan time.Time, stop func()) // the clock
}

// progressOn is for those who read standard error.
func progressOn(errOut io.Writer) progress {
	p := progress{tick: func() (<-chan time.Time, func()) {
		t := time.NewTicker(time.Second)
		return t.C, t.Stop
	}}
	f, ok := errOut.(*os.File)
	if ok && os.Getenv("CI") == "" && os.Getenv("TERM") != "dumb" && term.IsTerminal(int(f.Fd())) {
		p.to = f
	}
	return p
}

// shown does work as await does, and says meanwhile what it is.
func shown[T any](ctx context.Context, p progress, what string, work func() (T, error)) (T, error) {
	defer p.say(what)()
	return await(ctx, work)
}

// say says what is going on until done is called, after which nothing is left of
// it on the terminal.
func (p progress) say(what string) (done func()) {
	if p.to == nil {
		return func() {}
	}
	seconds, stop := p.tick()
	end, wiped := make(chan struct{}), make(chan struct{})
	go func() {
		defer close(wiped)
		wide := 0
		for n := 1; ; n++ {
			select {
			case <-seconds:
				line := fmt.Sprintf("%s, %d s", what, n)
				fmt.Fprint(p.to, "\r"+line)
				wide = utf8.RuneCountInString(line)
			case <-end:
				if wide > 0 {
					wide += len("^C") // which a terminal writes behind it
					fmt.Fprint(p.to, "\r"+strings.Repeat(" ", wide)+"\r")
				}
				return
			}
		}
	}()
	return func() {
		stop()
		close(end)
		<-wiped
	}
}
