//go:build unix

package effort

import (
	"syscall"
	"time"
)

// Spent is the processor time this process has used; false where the system
// does not say.
func Spent() (time.Duration, bool) {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0, false
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano()), true
}
