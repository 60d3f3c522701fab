//go:build unix

package parse_test

import (
	"syscall"
	"time"
)

// cpu is the processor time the process has used: other work on the machine
// does not count.
func cpu() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
