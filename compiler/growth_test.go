//go:build unix

package compiler_test

import (
	"context"
	"fmt"
	"math"
	"runtime"
	"syscall"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/load"
	"tamis/testdata/bigbook"
)

// checked reads and checks texts, as `tamis check` does.
func checked(t testing.TB, files map[string]string) *compiler.Result {
	t.Helper()
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	tree, err := load.FS(fsys, ".", "", "")
	require.NoError(t, err)
	return compiler.Compile(context.Background(), tree, compiler.Options{NoPages: true})
}

// books are drawn texts that grow: a book of recipes, one recipe with a long
// list, a chain of bases.
var books = map[string]func(n int) map[string]string{
	"recipes": func(n int) map[string]string { return bigbook.Book{Recipes: n, Seed: 1}.Files() },
	"one folder": func(n int) map[string]string {
		return bigbook.Book{Recipes: n, Seed: 2, Chapter: n}.Files()
	},
	"one file": func(n int) map[string]string {
		return bigbook.Book{Recipes: n, Seed: 3, Chapter: n, PerFile: n}.Files()
	},
	"lines": func(n int) map[string]string { return map[string]string{"a.tamis": bigbook.Lines(n)} },
	"chain": func(n int) map[string]string { return map[string]string{"a.tamis": bigbook.Chain(n)} },
}

// spent is the processor time and the number of allocations of a call: the least
// of several, since others use the machine too.
func spent(times int, f func()) (cpu time.Duration, allocs uint64) {
	cpu = math.MaxInt64
	for range times {
		runtime.GC()
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		from := processor()
		f()
		cpu = min(cpu, processor()-from)
		runtime.ReadMemStats(&after)
		allocs = after.Mallocs - before.Mallocs
	}
	return cpu, allocs
}

func processor() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// Work grows no faster than the text. Four times the text may take a little more
// than four times the allocations, and the processor, which is measured less
// exactly, half as much again: pairs instead of passes would take sixteen times.
func TestWorkGrowsWithTheText(t *testing.T) {
	if testing.Short() {
		t.Skip("takes some seconds")
	}
	for _, c := range []struct {
		name  string
		n     int
		least int // blocks or lines, so that the text is known to be read
	}{{"recipes", 100, 400}, {"one folder", 100, 400}, {"one file", 100, 400}, {"lines", 1500, 6000}, {"chain", 250, 1001}} {
		small, large := books[c.name](c.n), books[c.name](4*c.n)
		cpu1, allocs1 := spent(2, func() { checked(t, small) })
		var r *compiler.Result
		cpu4, allocs4 := spent(2, func() { r = checked(t, large) })
		read := len(r.Model.Recipes)
		if c.name == "lines" {
			read = len(r.Model.Recipes[0].Lines)
		}
		require.GreaterOrEqual(t, read, c.least, c.name)
		growth := math.Log(float64(allocs4)/float64(allocs1)) / math.Log(4)
		t.Logf("%s: processor %v and %v, allocations to the power of %.3f", c.name, cpu1, cpu4, growth)
		require.LessOrEqual(t, growth, 1.05, "%s: allocations %d and %d", c.name, allocs1, allocs4)
		require.LessOrEqual(t, float64(cpu4), 6*float64(cpu1)+float64(200*time.Millisecond), "%s: processor %v and %v", c.name, cpu1, cpu4)
	}
}

func BenchmarkCheck(b *testing.B) {
	for _, c := range []struct {
		name string
		n    int
	}{{"recipes", 1000}, {"recipes", 4000}, {"recipes", 10000}, {"lines", 8000}, {"chain", 1000}} {
		b.Run(fmt.Sprint(c.name, "-", c.n), func(b *testing.B) {
			files := books[c.name](c.n)
			b.ReportAllocs()
			from := processor()
			for b.Loop() {
				checked(b, files)
			}
			b.ReportMetric((processor()-from).Seconds()/float64(b.N), "cpu-s/op")
		})
	}
}
