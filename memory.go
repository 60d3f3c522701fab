package main

import (
	"math"
	"os"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"strconv"
	"strings"
)

// Memory is swept up when so much has been thrown away: little at first, for to
// ask the system for fresh memory costs more time than to use it again; twice as
// much each time, up to a bound that a large book is swept at, however large it
// is. A fixed bound on all memory would sweep a book that comes near it over and
// over.
const (
	leastSpent = 8 << 20   // thrown away before the first sweep, in bytes
	mostSpent  = 240 << 20 // between two sweeps
	leastGrow  = 40        // per cent of what is in use
	mostGrow   = 300
)

// tendMemory sets how often memory is swept up, after each sweep anew: by what
// is in use and by what the machine has.
func tendMemory() {
	if os.Getenv("GOGC") != "" || os.Getenv("GOMEMLIMIT") != "" {
		return // the user knows better
	}
	most := float64(mostSpent)
	if has := machineMemory(); has > 0 {
		most = min(most, float64(has)*2/5)
		debug.SetMemoryLimit(has / 4 * 3)
	}
	const unit = 4 << 20 // where nothing was swept yet, what is in use counts as so much
	debug.SetGCPercent(growth(unit, leastSpent))
	spent := float64(leastSpent)
	sample := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	var after func(*[16]byte)
	after = func(mark *[16]byte) {
		metrics.Read(sample)
		spent = min(2*spent, most)
		if live := sample[0].Value; live.Kind() == metrics.KindUint64 && live.Uint64() > 0 {
			debug.SetGCPercent(growth(float64(live.Uint64()), spent))
		}
		runtime.SetFinalizer(mark, after) // again at the next sweep
	}
	runtime.SetFinalizer(new([16]byte), after)
}

// growth is by how many per cent the memory in use may grow before it is swept.
func growth(live, spent float64) int {
	return int(math.Max(leastGrow, math.Min(mostGrow, 100*spent/live)))
}

// machineMemory is how much memory there is for this program, in bytes; 0 where
// that is not known.
func machineMemory() int64 {
	has := int64(0)
	text, _ := os.ReadFile("/proc/meminfo")
	for line := range strings.Lines(string(text)) {
		if f := strings.Fields(line); len(f) > 1 && f[0] == "MemTotal:" {
			n, _ := strconv.ParseInt(f[1], 10, 64)
			has = n << 10
		}
	}
	for _, name := range []string{"/sys/fs/cgroup/memory.max", "/sys/fs/cgroup/memory/memory.limit_in_bytes"} {
		text, err := os.ReadFile(name)
		if err != nil {
			continue
		}
		if n, err := strconv.ParseInt(strings.TrimSpace(string(text)), 10, 64); err == nil && n > 0 && (has == 0 || n < has) {
			has = n
		}
	}
	return has
}
