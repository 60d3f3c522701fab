//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package main

import (
	"os"
	"os/signal"
	"syscall"
)

// setUp makes a pipe that nobody reads an error like any other: the command
// then ends with its own exit code.
func setUp() { signal.Ignore(syscall.SIGPIPE) }

// lockFile waits until no other process holds f. The system gives the lock back
// when the process ends, in whatever way.
func lockFile(f *os.File) error {
	for {
		err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX)
		if err != syscall.EINTR {
			return err
		}
	}
}

// showsColour tells whether a terminal obeys the sequences for colour.
func showsColour(*os.File) bool { return os.Getenv("TERM") != "dumb" }
