package main

import (
	"bytes"
	"context"
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/lang/effort"
)

// A menu is printed in a moment: the whole of it takes some 0.25 s of processor
// time on an idle machine, most of it finding a good plan and setting pages. The
// memory asked for on the way tells more exactly when something is done twice
// again, for what else the machine does leaves it alone.
func TestAMenuIsPrintedInAMoment(t *testing.T) {
	var before, after runtime.MemStats
	var said bytes.Buffer
	dir := t.TempDir()
	require.Equal(t, exitClean, run(context.Background(), []string{"build", "testdata/menus/one-cook-supper", "-o", dir}, nil, &said, &said), "%s", &said) // fonts and tables are read once
	runtime.ReadMemStats(&before)
	effort.Within(t, time.Second, "to print the harvest lunch", func() {
		require.Equal(t, exitClean, run(context.Background(), []string{"build", "examples/harvest-lunch", "-o", dir}, nil, &said, &said), "%s", &said)
	})
	runtime.ReadMemStats(&after)
	require.Less(t, (after.TotalAlloc-before.TotalAlloc)>>20, uint64(85), "megabytes of memory asked for: 67, and 14 for what the wall says of slips; measuring sheets each time they are set was 18 more")
}
