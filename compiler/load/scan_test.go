package load

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// A folder below which half the disk lies is listed without the folders in it.
func TestScanOfAHomeFolder(t *testing.T) {
	defer func(was int) { mostEntries = was }(mostEntries)
	mostEntries = 50
	dir := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(dir, "much"), 0o755))
	write := func(name string) { require.NoError(t, os.WriteFile(filepath.Join(dir, name), nil, 0o644)) }
	write("oil.tamis")
	write("much/bread.tamis")
	listed := func() []string { return slices.Sorted(maps.Keys(Scan(t.Context(), dir, false).Files)) }
	for i := range 45 {
		write(fmt.Sprintf("much/%d.txt", i))
	}
	require.Equal(t, []string{"much/bread.tamis", "oil.tamis"}, listed())
	for i := range 10 {
		write(fmt.Sprintf("much/more %d.txt", i))
	}
	require.Equal(t, []string{"oil.tamis"}, listed())
	l := Scan(t.Context(), dir, false)
	require.True(t, l.Narrow)
	require.Equal(t, []string{"."}, l.Folders)
}
