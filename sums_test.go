package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
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
	sumsWanted(t)
	folders, err := os.ReadDir("examples")
	require.NoError(t, err)
	var got strings.Builder
	for _, f := range folders {
		if f.IsDir() && f.Name() != "gallery" {
			for _, flags := range [][]string{{"--sheets", "all", "--to", "pdf,html,text,json"}, {"--paper", "a5", "--ink", "light", "--to", "pdf"}} {
				sums(t, &got, filepath.Join("examples", f.Name()), flags)
			}
		}
	}
	keepSums(t, "sums.txt", got.String())
}

// What the pages of the small menus (small_test.go) are on every paper, and what
// programs are given.
func TestSumsOfSmall(t *testing.T) {
	sumsWanted(t)
	var got strings.Builder
	root, err := os.Getwd()
	require.NoError(t, err)
	for _, name := range smallMenus(t) {
		archive, err := txtar.ParseFile(filepath.Join(root, name))
		require.NoError(t, err)
		t.Chdir(unpack(t, archive))
		for _, flags := range [][]string{
			{"--sheets", "all", "--to", "pdf,html,json"},
			{"--sheets", "all", "--paper", "a5", "--ink", "light", "--to", "pdf"},
			{"--sheets", "all", "--paper", "letter", "--large", "--to", "pdf"},
			{"--booklet", "--to", "pdf"},
			{"--paper", "6x4", "--sheets", "prep,labels", "--to", "pdf"},
		} {
			var one strings.Builder
			sums(t, &one, ".", flags)
			fmt.Fprintf(&got, "%.8x %s %s\n", sha256.Sum256([]byte(one.String())), filepath.Base(name), strings.Join(flags, " "))
		}
	}
	t.Chdir(root)
	keepSums(t, "small/sums.txt", got.String())
}

// What is found in, read from and made of the old recipes of testdata/texts, the
// texts of testdata/check and the examples of the notation.
func TestSumsOfTexts(t *testing.T) {
	sumsWanted(t)
	var got strings.Builder
	var seen []string
	root, err := os.Getwd()
	require.NoError(t, err)
	add := func(name string, dirs ...string) {
		var one strings.Builder
		for _, dir := range dirs {
			var said bytes.Buffer
			t.Chdir(dir)
			run(context.Background(), []string{"check", "--read", "."}, nil, &said, &said)
			run(context.Background(), []string{"build", ".", "--to", "json", "--sheets", "all", "-o", "-"}, nil, &said, &said)
			t.Chdir(root)
			one.Write(said.Bytes())
		}
		fmt.Fprintf(&got, "%.8x %s\n", sha256.Sum256([]byte(one.String())), name)
	}
	texts, err := filepath.Glob("testdata/texts/*/*.tamis")
	require.NoError(t, err)
	for _, name := range texts {
		if dir := filepath.Dir(name); len(seen) == 0 || seen[len(seen)-1] != dir {
			seen = append(seen, dir)
			add(filepath.ToSlash(dir), filepath.Join(root, dir))
		}
	}
	families := map[string][]string{}
	archives, err := filepath.Glob("testdata/check/*.txtar")
	require.NoError(t, err)
	for _, name := range archives {
		archive, err := txtar.ParseFile(name)
		require.NoError(t, err)
		family, _, _ := strings.Cut(filepath.Base(name), "-")
		families[family] = append(families[family], unpack(t, archive))
	}
	notation, err := os.ReadFile("spec/notation.md")
	require.NoError(t, err)
	for i, block := range strings.Split(string(notation), "\n```tamis") {
		head, text, _ := strings.Cut(strings.Split(block, "\n```")[0], "\n")
		if i > 0 && !strings.Contains(head, "part=") {
			families["notation"] = append(families["notation"], unpack(t, &txtar.Archive{Files: []txtar.File{{Name: "a.tamis", Data: []byte(text + "\n")}}}))
		}
	}
	for _, family := range slices.Sorted(maps.Keys(families)) {
		add(family, families[family]...)
	}
	keepSums(t, "texts/sums.txt", got.String())
}

func sumsWanted(t *testing.T) {
	if os.Getenv("TAMIS_SUMS") == "" || runtime.GOARCH != "amd64" {
		t.Skip("set TAMIS_SUMS=1 on amd64")
	}
}

// keepSums compares with the file of testdata, or writes it.
func keepSums(t *testing.T, name, got string) {
	name = filepath.Join("testdata", filepath.FromSlash(name))
	if *update {
		require.NoError(t, os.WriteFile(name, []byte(got), 0o644))
	}
	want, err := os.ReadFile(name)
	require.NoError(t, err)
	require.Equal(t, string(want), got)
}

// sums builds a folder and adds a line for each of its files.
func sums(t *testing.T, out *strings.Builder, folder string, flags []string) {
	dir := t.TempDir()
	var said bytes.Buffer
	code := run(context.Background(), append([]string{"build", folder, "-o", dir}, flags...), nil, &said, &said)
	fmt.Fprintf(out, "%s %s: exit %d, said %x\n", filepath.Base(folder), strings.Join(flags, " "), code, sha256.Sum256(bytes.ReplaceAll(bytes.ReplaceAll(said.Bytes(), []byte(dir), nil), []byte(folder), nil)))
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
