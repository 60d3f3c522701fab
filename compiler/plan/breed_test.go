package plan

import (
	"path/filepath"
	"testing"
	"time"

	"flag"

	"github.com/stretchr/testify/require"
)

var onlyBreed = flag.Int("breed", 0, "schedules an instance for TestBreeding; 0 skips it")
var poolSize = flag.Int("pool", 60, "pool")

func TestBreeding(t *testing.T) {
	if *onlyBreed == 0 {
		t.Skip("a measurement: -args -instances DIR -breed N")
	}
	paths, err := filepath.Glob(filepath.Join(*instances, "*.sm"))
	require.NoError(t, err)
	known, err := readBounds(*instances)
	require.NoError(t, err)
	over, best := 0.0, 0
	began := time.Now()
	for _, path := range paths {
		p, err := readInstance(path)
		require.NoError(t, err)
		c, ok := asClassic(p)
		require.True(t, ok)
		b := newBreeder(c, 1, *poolSize)
		b.run(c.energyBound(), *onlyBreed, func() bool { return false })
		cp := float64(c.criticalPath())
		over += (float64(b.best.length) - cp) / cp
		if int(b.best.length) <= known[filepath.Base(path)].ub {
			best++
		}
	}
	t.Logf("%d: over critical path %.3f%%, best known %d of %d, %v each", *onlyBreed, 100*over/float64(len(paths)), best, len(paths), time.Since(began)/time.Duration(len(paths)))
}
