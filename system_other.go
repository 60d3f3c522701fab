//go:build !(darwin || dragonfly || freebsd || linux || netbsd || openbsd || windows)

package main

import (
	"errors"
	"os"
)

func setUp() {}

// lockFile has nothing to lock with here.
func lockFile(*os.File) error { return errors.ErrUnsupported }

func showsColour(*os.File) bool { return os.Getenv("TERM") != "dumb" }
