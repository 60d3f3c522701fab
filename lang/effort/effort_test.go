package effort_test

import (
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/lang/effort"
)

// recorder notes what a test would have said.
type recorder struct {
	testing.TB
	failed bool
}

func (r *recorder) Helper()               {}
func (r *recorder) Logf(string, ...any)   {}
func (r *recorder) Errorf(string, ...any) { r.failed = true }

// Waiting costs nothing, working does.
func TestOnlyWorkCounts(t *testing.T) {
	if _, known := effort.Spent(); !known {
		t.Skip("this system does not say how long work took")
	}
	runtime.GC()
	idle := &recorder{TB: t}
	effort.Within(idle, 50*time.Millisecond, "waiting", func() { time.Sleep(80 * time.Millisecond) })
	require.False(t, idle.failed, "the wall clock does not count")
	busy := &recorder{TB: t}
	effort.Within(busy, 5*time.Millisecond, "working", func() {
		start, _ := effort.Spent()
		for now := start; now-start < 20*time.Millisecond; now, _ = effort.Spent() {
		}
	})
	require.True(t, busy.failed)
}

func TestRounds(t *testing.T) {
	t.Setenv("TAMIS_LONG", "")
	require.Equal(t, 3, effort.Rounds(3, 200))
	t.Setenv("TAMIS_LONG", "1")
	require.Equal(t, 200, effort.Rounds(3, 200))
}
