package effort

import (
	"syscall"
	"time"
)

// Spent is the processor time this process has used; false where the system
// does not say.
func Spent() (time.Duration, bool) {
	self, err := syscall.GetCurrentProcess()
	if err != nil {
		return 0, false
	}
	var created, ended, kernel, user syscall.Filetime
	if syscall.GetProcessTimes(self, &created, &ended, &kernel, &user) != nil {
		return 0, false
	}
	return ticks(kernel) + ticks(user), true
}

// ticks reads a length of time, which comes in units of 100 ns. (A Filetime's
// own Nanoseconds takes it for a date.)
func ticks(f syscall.Filetime) time.Duration {
	return time.Duration(int64(f.HighDateTime)<<32|int64(f.LowDateTime)) * 100
}
