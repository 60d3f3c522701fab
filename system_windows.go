package main

import (
	"os"

	"golang.org/x/sys/windows"
)

func setUp() {}

// lockFile waits until no other process holds f. The system gives the lock back
// when the process ends, in whatever way.
func lockFile(f *os.File) error {
	return windows.LockFileEx(windows.Handle(f.Fd()), windows.LOCKFILE_EXCLUSIVE_LOCK, 0, 1, 0, new(windows.Overlapped))
}

// showsColour asks the console to obey the sequences for colour, and tells
// whether it does.
func showsColour(f *os.File) bool {
	console, mode := windows.Handle(f.Fd()), uint32(0)
	return windows.GetConsoleMode(console, &mode) == nil &&
		windows.SetConsoleMode(console, mode|windows.ENABLE_VIRTUAL_TERMINAL_PROCESSING) == nil
}
