package main

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/require"

	"tamis/testdata/menus"
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
	keepSums(t, "sums-small.txt", got.String())
}

// What is found in, read from and made of the old recipes of testdata/texts, the
// texts of testdata/check and the examples of the notation.
func TestSumsOfTexts(t *testing.T) {
	sumsWanted(t)
	families := map[string][]string{}
	texts, err := filepath.Glob("testdata/texts/*/*.tamis")
	require.NoError(t, err)
	root, err := os.Getwd()
	require.NoError(t, err)
	for _, name := range texts {
		dir := filepath.Dir(name)
		families[filepath.ToSlash(dir)] = []string{filepath.Join(root, dir)}
	}
	archives, err := filepath.Glob("testdata/check/*.txtar")
	require.NoError(t, err)
	for _, name := range archives {
		archive, err := txtar.ParseFile(name)
		require.NoError(t, err)
		family, _, _ := strings.Cut(strings.TrimSuffix(filepath.Base(name), ".txtar"), "-")
		families[family] = append(families[family], unpack(t, archive))
	}
	notation, err := os.ReadFile("spec/notation.md")
	require.NoError(t, err)
	for i, block := range strings.Split(string(notation), "\n```tamis") {
		head, text, _ := strings.Cut(strings.Split(block, "\n```")[0], "\n")
		if i > 0 && !strings.Contains(head, "part=") {
			families["notation"] = append(families["notation"], unpackOne(t, text))
		}
	}
	keepSumsOf(t, "sums-texts.txt", families, []string{"build", ".", "--to", "json", "--sheets", "all", "--covers", "9", "-o", "-"})
}

// What is said, in all its words, of the two examples of every finding.
func TestSumsOfFindings(t *testing.T) {
	sumsWanted(t)
	families := map[string][]string{}
	findings, err := os.ReadFile("spec/checks.md")
	require.NoError(t, err)
	for _, section := range strings.Split(string(findings), "\n### ")[1:] {
		for i, block := range strings.Split(section, "\n```\n") {
			if i%2 == 1 {
				families[section[:2]] = append(families[section[:2]], unpackOne(t, block))
			}
		}
	}
	keepSumsOf(t, "sums-findings.txt", families)
}

// How the phrases of testdata/readings are read and scaled.
func TestSumsOfReadings(t *testing.T) {
	sumsWanted(t)
	families := map[string][]string{}
	for _, name := range readingFiles(t) {
		families[filepath.ToSlash(name)] = readingDishes(t, name)
	}
	keepSumsOf(t, "sums-readings.txt", families, []string{"build", ".", "--to", "json", "--covers", "9", "-o", "-"})
}

// How menus of chance are planned and printed.
func TestSumsOfChance(t *testing.T) {
	sumsWanted(t)
	families := map[string][]string{}
	for seed := range uint64(12) {
		text, err := fs.ReadFile(menus.ByChance(seed), "menu.tamis")
		require.NoError(t, err)
		families[fmt.Sprint(seed)] = []string{unpackOne(t, string(text))}
	}
	keepSumsOf(t, "sums-menus.txt", families, []string{"plan", "."}, []string{"build", ".", "--to", "json", "--sheets", "all", "-o", "-"})
}

func unpackOne(t *testing.T, text string) string {
	return unpack(t, &txtar.Archive{Files: []txtar.File{{Name: "a.tamis", Data: []byte(text + "\n")}}})
}

// keepSumsOf keeps a sum for each family of folders: of what check says and reads,
// and of what the commands print.
func keepSumsOf(t *testing.T, name string, families map[string][]string, commands ...[]string) {
	root, err := os.Getwd()
	require.NoError(t, err)
	var got strings.Builder
	for _, family := range slices.Sorted(maps.Keys(families)) {
		var said bytes.Buffer
		for _, dir := range families[family] {
			t.Chdir(dir)
			for _, args := range append([][]string{{"check", "--read", "."}}, commands...) {
				run(withPlans(), args, nil, &said, &said)
			}
			t.Chdir(root)
		}
		fmt.Fprintf(&got, "%.8x %s\n", sha256.Sum256(said.Bytes()), family)
	}
	keepSums(t, name, got.String())
}

func readingFiles(t *testing.T) []string {
	names, err := filepath.Glob("testdata/readings/*.txt")
	require.NoError(t, err)
	offered, err := filepath.Glob("testdata/readings/offered/*.txt")
	require.NoError(t, err)
	return append(names, offered...)
}

// readingDishes writes the phrases of a file of testdata/readings as dishes, a
// folder for each of its sections, and returns the folders.
func readingDishes(t *testing.T, name string) (dirs []string) {
	text, err := os.ReadFile(name)
	require.NoError(t, err)
	for _, section := range strings.Split("\n"+string(text), "\n## ")[1:] {
		var fields, gather, earlier, dishes []string
		for _, l := range strings.Split(section, "\n")[1:] {
			rest := strings.TrimSpace(l[min(len(l), 1):])
			switch {
			case strings.HasPrefix(l, "= serves ") || strings.HasPrefix(l, "= makes ") || strings.HasPrefix(l, "= units "):
				fields = append(fields, "  "+rest)
			case strings.HasPrefix(l, "= "):
				gather = append(gather, "    "+rest)
			case strings.HasPrefix(l, "> "):
				earlier = append(earlier, "    - "+rest)
			case strings.HasPrefix(l, "| "):
				earlier = append(earlier, "      "+l)
			case strings.HasPrefix(l, "- "):
				in, do := gather, append(slices.Clone(earlier), "    - "+rest)
				if strings.HasPrefix(filepath.Base(name), "list") {
					in, do = []string{"    " + rest}, []string{"    - Use everything."}
				}
				dish := slices.Concat([]string{fmt.Sprintf("dish Trial %d", len(dishes)+1)}, fields, []string{"  gather"}, in, []string{"  method"}, do)
				dishes = append(dishes, strings.Join(dish, "\n")+"\n")
			}
		}
		dirs = append(dirs, unpackOne(t, strings.Join(dishes, "\n")))
	}
	return dirs
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
	code := run(withPlans(), append([]string{"build", folder, "-o", dir}, flags...), nil, &said, &said)
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
