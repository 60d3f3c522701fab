//go:build unix

package compiler_test

import (
	"fmt"
	"math"
	"runtime"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/lang/effort"
	"tamis/testdata/bigbook"
)

// checked reads and checks texts, as `tamis check` does.
func checked(t testing.TB, files map[string]string) *compiler.Result {
	t.Helper()
	return compileFiles(t, files, compiler.Options{NoPages: true})
}

// books are drawn texts that grow: a book of recipes, one recipe with a long
// list, a chain of bases, a folder of names that nobody knows.
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
	// bases each made of the next, and the last of the first
	"ring": func(n int) map[string]string { return map[string]string{"a.tamis": around(n, "100 g", n)} },
	// bases that take a share of the next
	"shares": func(n int) map[string]string { return map[string]string{"a.tamis": around(n, "half the", 0)} },
	// shares of what nobody makes: what was meant is looked for among all that is made
	"makes": func(n int) map[string]string {
		text := "larder\n  units metric\n"
		for i := range n {
			text += fmt.Sprintf("\nbase Stew %s\n  makes 100 g\n  gather\n    half the juice of %s\n    100 g peas\n  method\n    - Warm the juice with the peas. | work 2 min\n", word(i), word(i+n))
		}
		return map[string]string{"a.tamis": text}
	},
	// each dish draws on a base that was never written: what was meant is looked for among all names
	"unknown": func(n int) map[string]string {
		text := "larder\n  units metric\n"
		for i := range n {
			text += fmt.Sprintf("\ndish Pot of %s\n  serves 4\n  gather\n    100 g    sauces/%s\n  method\n    - Warm it. | work 2 min\n  serve hot\n", word(i), word(i+n))
		}
		return map[string]string{"a.tamis": text}
	},
}

// around are n bases, each made of an amount of the next; the last is made of
// the one that is given, or of juice.
func around(n int, amount string, ring int) string {
	text := "larder\n  units metric\n"
	for i := range n {
		of := "essence " + word((i+1)%n)
		if i+1 == n && ring == 0 {
			of, amount = "beetroot juice", "100 g"
		}
		text += fmt.Sprintf("\nbase Essence %s\n  makes 100 g\n  gather\n    %s    %s\n  method\n    - Warm the %s. | work 2 min\n", word(i), amount, of, of)
	}
	return text
}

// word writes a number in letters.
func word(i int) string {
	parts := []string{"bra", "kof", "lin", "mos", "tel", "dur", "wep", "sig"}
	s := ""
	for k := range 5 {
		s += parts[(i+3*k)%len(parts)]
		i /= len(parts)
	}
	return s
}

// work is what a call spent: processor time, the least of several calls since
// others use the machine too, and what it allocated.
type work struct {
	cpu           time.Duration
	allocs, bytes uint64
}

func spent(times int, f func()) (w work) {
	w.cpu = math.MaxInt64
	for range times {
		runtime.GC()
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		from := processor()
		f()
		w.cpu = min(w.cpu, processor()-from)
		runtime.ReadMemStats(&after)
		w.allocs, w.bytes = after.Mallocs-before.Mallocs, after.TotalAlloc-before.TotalAlloc
	}
	return w
}

// power is the exponent by which a figure grows when the text grows fourfold.
func power(small, large uint64) float64 {
	return math.Log(float64(large)/float64(small)) / math.Log(4)
}

func processor() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// Work grows no faster than the text. Four times the text may take a little more
// than four times the allocations and bytes (a copy of all that went before is
// one allocation, however long), and the processor, which is measured less
// exactly, half as much again: pairs instead of passes would take sixteen times.
func TestWorkGrowsWithTheText(t *testing.T) {
	if testing.Short() {
		t.Skip("a short run was asked for, and this takes some seconds; .ci/run does it")
	}
	checked(t, books["recipes"](10)) // tables are read once
	for _, c := range []struct {
		name  string
		n     int
		least int // blocks or lines, so that the text is known to be read
	}{{"recipes", 100, 400}, {"one folder", 100, 400}, {"one file", 100, 400}, {"lines", 1500, 6000}, {"chain", 250, 1001}, {"unknown", 250, 1000}, {"ring", 250, 1000}, {"shares", 250, 1000}, {"makes", 250, 1000}} {
		share := effort.Rounds(2, 1) // of the text, on all days
		c.n, c.least = c.n/share, c.least/share
		small, large := books[c.name](c.n), books[c.name](4*c.n)
		times := effort.Rounds(1, 2)
		one := spent(times, func() { checked(t, small) })
		var r *compiler.Result
		four := spent(times, func() { r = checked(t, large) })
		read := len(r.Model.Recipes)
		if c.name == "lines" {
			read = len(r.Model.Recipes[0].Lines)
		}
		require.GreaterOrEqual(t, read, c.least, c.name)
		allocs, bytes := power(one.allocs, four.allocs), power(one.bytes, four.bytes)
		t.Logf("%s: processor %v and %v, allocations to the power of %.3f, bytes of %.3f", c.name, one.cpu, four.cpu, allocs, bytes)
		assert.LessOrEqual(t, allocs, 1.05, "%s: allocations %d and %d", c.name, one.allocs, four.allocs)
		assert.LessOrEqual(t, bytes, 1.1, "%s: bytes %d and %d", c.name, one.bytes, four.bytes)
		assert.LessOrEqual(t, float64(four.cpu), 6*float64(one.cpu)+float64(200*time.Millisecond), "%s: processor %v and %v", c.name, one.cpu, four.cpu)
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
