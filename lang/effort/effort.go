// Package effort says how much work a test may do. Only tests import it.
//
// Budgets are of processor time, never of the wall clock, so that what else a
// machine does fails nothing. Long runs (more random texts, deeper searches,
// larger files) stand behind one variable, TAMIS_LONG=1, which .ci/run sets.
package effort

import (
	"os"
	"runtime/debug"
	"testing"
	"time"
)

// Tests sweep their memory as rarely as the command does a menu's (memory.go).
func init() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(300)
	}
}

// Long reports whether long runs are wanted.
func Long() bool { return os.Getenv("TAMIS_LONG") == "1" }

// Rounds is how many rounds of chance a test runs: few every day, many where
// long runs are wanted. The first rounds are the same in both.
func Rounds[N int | int64 | uint64](few, many N) N {
	if Long() {
		return many
	}
	return few
}

// SkipUnlessLong leaves out a test that only long runs have time for.
func SkipUnlessLong(t testing.TB) {
	t.Helper()
	if !Long() {
		t.Skip("a long run: TAMIS_LONG=1")
	}
}

// Within fails a test whose work takes more processor time than the limit, user
// and system together, collection included. It counts the whole process: not
// for tests that run beside others (t.Parallel). Where a system does not tell
// the time, the work is done and not judged.
func Within(t testing.TB, limit time.Duration, what string, work func()) {
	t.Helper()
	took, known := Of(work)
	if !known {
		t.Logf("%s: this system does not say how long it took", what)
	} else if took > limit {
		t.Errorf("%s took %v of processor time, more than %v", what, took, limit)
	}
}

// Of does the work and returns the processor time it took; false where the
// system does not say.
func Of(work func()) (time.Duration, bool) {
	before, _ := Spent()
	work()
	after, known := Spent()
	return after - before, known
}
