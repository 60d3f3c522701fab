package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Every file of every example, by its sum: a page that has changed by a hair is
// told, whatever no other test looks at. It says that something changed, not
// whether it should have: look at the page, then run
//
//	TAMIS_SUMS=1 go test . -run Sums -update
//
// It runs where TAMIS_SUMS is set, as .ci/run and .ci/mutants do, and on one kind of
// processor only: another may round the last bit of a position otherwise.
func TestSums(t *testing.T) {
	if os.Getenv("TAMIS_SUMS") == "" || runtime.GOARCH != "amd64" {
		t.Skip("set TAMIS_SUMS=1 on amd64")
	}
	folders, err := os.ReadDir("examples")
	require.NoError(t, err)
	var got strings.Builder
	for _, f := range folders {
		if f.IsDir() && f.Name() != "gallery" {
			for _, flags := range [][]string{{"--sheets", "all", "--to", "pdf,html,text,json"}, {"--paper", "a5", "--ink", "light", "--to", "pdf"}} {
				sums(t, &got, f.Name(), flags)
			}
		}
	}
	name := filepath.Join("testdata", "sums.txt")
	if *update {
		require.NoError(t, os.WriteFile(name, []byte(got.String()), 0o644))
	}
	want, err := os.ReadFile(name)
	require.NoError(t, err)
	require.Equal(t, string(want), got.String())
}

// sums builds an example and adds a line for each of its files.
func sums(t *testing.T, out *strings.Builder, example string, flags []string) {
	dir := t.TempDir()
	var said bytes.Buffer
	code := run(context.Background(), append([]string{"build", filepath.Join("examples", example), "-o", dir}, flags...), nil, &said, &said)
	fmt.Fprintf(out, "%s %s: exit %d, said %x\n", example, strings.Join(flags, " "), code, sha256.Sum256(bytes.ReplaceAll(said.Bytes(), []byte(dir), nil)))
	require.NoError(t, filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		rel, _ := filepath.Rel(dir, path)
		fmt.Fprintf(out, "  %x %s\n", sha256.Sum256(text), filepath.ToSlash(rel))
		return err
	}))
}
