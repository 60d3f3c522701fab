package parse_test

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"github.com/yuin/goldmark"

	"tamis/lang/diag"
	"tamis/lang/effort"
	"tamis/lang/parse"
	"tamis/lang/source"
)

// cpu is the processor time the process has used: other work on the machine
// does not count.
func cpu() time.Duration {
	spent, _ := effort.Spent()
	return spent
}

var benchFigure = regexp.MustCompile(`\b[1-9]\d*\b`)

// notation is some 300 KB of what people write: the examples, five times over,
// each time with other figures in their lists and methods.
func notation(tb testing.TB) []string {
	names, err := filepath.Glob("../../examples/*/*.tamis")
	require.NoError(tb, err)
	require.NotEmpty(tb, names)
	var out []string
	for round := range 5 {
		for _, name := range names {
			b, err := os.ReadFile(name)
			require.NoError(tb, err)
			lines := strings.SplitAfter(string(b), "\n")
			for i, l := range lines {
				if strings.HasPrefix(l, "    ") && !strings.Contains(l, ":") {
					lines[i] = benchFigure.ReplaceAllStringFunc(l, func(t string) string {
						n, _ := strconv.Atoi(t)
						return strconv.Itoa(n + round*(1+n/10))
					})
				}
			}
			out = append(out, strings.Join(lines, ""))
		}
	}
	return out
}

// BenchmarkParse reads the same bytes twice: as notation, and as Markdown, which
// goldmark turns into HTML. `goldmarks` is how many times as fast as goldmark
// the parser is (aim: 0.40), and `B/byte` what it allocates for a byte it reads
// (aim: 20). Both are of processor time, so collecting garbage counts.
func BenchmarkParse(b *testing.B) {
	texts := notation(b)
	var files []*source.File
	size := 0
	for _, t := range texts {
		files = append(files, source.New("x.tamis", t))
		size += len(t)
	}
	var ours, theirs time.Duration
	var before, after runtime.MemStats
	allocated, rounds := uint64(0), 0
	var html bytes.Buffer
	for b.Loop() {
		runtime.ReadMemStats(&before)
		at := cpu()
		for _, f := range files {
			var list diag.List
			parse.File(f, &list)
		}
		ours += cpu() - at
		runtime.ReadMemStats(&after)
		allocated += after.TotalAlloc - before.TotalAlloc
		at = cpu()
		for _, t := range texts {
			html.Reset()
			require.NoError(b, goldmark.Convert([]byte(t), &html))
		}
		theirs += cpu() - at
		rounds++
	}
	total := float64(size) * float64(rounds)
	b.ReportMetric(theirs.Seconds()/ours.Seconds(), "goldmarks")
	b.ReportMetric(float64(allocated)/total, "B/byte")
	b.ReportMetric(total/1e6/ours.Seconds(), "MB/cpu-s")
	b.ReportMetric(float64(size)/1e3, "KB")
}

// BenchmarkParseLength reads texts of which hardly anything is prose, ten times
// as long each time: a step that grows faster than the text would show.
func BenchmarkParseLength(b *testing.B) {
	for _, n := range []int{1, 10, 100} {
		b.Run("n="+strconv.Itoa(n), func(b *testing.B) {
			f := source.New("x.tamis", strings.Repeat(harvest(b)+"\n", n))
			b.SetBytes(int64(len(f.Text)))
			b.ReportAllocs()
			before := cpu()
			for b.Loop() {
				var list diag.List
				parse.File(f, &list)
			}
			b.ReportMetric(float64(len(f.Text))*float64(b.N)/1e6/(cpu()-before).Seconds(), "MB/cpu-s")
		})
	}
}
