package timeline

import (
	"bytes"
	"context"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/lang/diag"
)

func TestDir(t *testing.T) {
	dir := os.Getenv("TDIR")
	if dir == "" {
		t.Skip()
	}
	meals, diags := loaded(t, dir)
	for _, m := range meals {
		start := time.Now()
		line := Plan(context.Background(), m, Options{}, diags)
		took := time.Since(start)
		var b bytes.Buffer
		require.NoError(t, diag.WriteText(&b, diags.Sorted(), diag.TextOptions{}))
		if line != nil {
			require.NoError(t, WriteText(&b, line))
			for _, j := range line.Jobs {
				b.WriteString(line.Explain(j) + "\n")
			}
		}
		t.Logf("%v\n%s", took, b.String())
	}
}
