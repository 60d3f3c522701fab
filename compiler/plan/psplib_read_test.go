package plan

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// What is no instance is known as such, what is a broken one is an error, and nothing panics.
func TestInstancesCutShort(t *testing.T) {
	dir := t.TempDir()
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "psplib", "rcpspmax", "*", "*.sch"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, name := range []string{filepath.Join("..", "..", "testdata", "psplib", "j30", "j301_1.sm"), files[0]} {
		whole, err := os.ReadFile(name)
		require.NoError(t, err)
		path := filepath.Join(dir, filepath.Base(name))
		for n := 0; n < len(whole)*9/10; n += 7 {
			require.NoError(t, os.WriteFile(path, whole[:n], 0o600))
			_, err := readInstance(path)
			require.Error(t, err, "%s, %d bytes", name, n)
		}
	}
	table := filepath.Join(dir, "j30opt.sm")
	require.NoError(t, os.WriteFile(table, []byte("Parameter Instance Makespan\n1 1 43\n"), 0o600))
	_, err = readInstance(table)
	require.ErrorIs(t, err, errNoInstance)
}

// Bounds are found above, by the names of the columns; a row may know less than another.
func TestBoundsFromAbove(t *testing.T) {
	dir := t.TempDir()
	deep := filepath.Join(dir, "a", "b")
	require.NoError(t, os.MkdirAll(deep, 0o700))
	known, err := readBounds(deep, dir)
	require.NoError(t, err)
	require.Empty(t, known)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "bounds.csv"), []byte("ub,instance,lb\n45,j301_1.sm,44\n,x.sch,7\n"), 0o600))
	known, err = readBounds(deep, dir)
	require.NoError(t, err)
	require.Equal(t, map[string]published{"j301_1.sm": {44, 45, "open"}, "x.sch": {7, maxTime, "open"}}, known)
}
