package check_test

import (
	"context"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/check"
	"tamis/compiler/load"
	"tamis/lang/diag"
	"tamis/lang/effort"
)

// exampleFiles reads all example folders.
func exampleFiles(t testing.TB) map[string]string {
	t.Helper()
	files := map[string]string{}
	root := "../../examples"
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, load.Ending) {
			return err
		}
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		rel, err := filepath.Rel(root, name)
		require.NoError(t, err)
		files[filepath.ToSlash(rel)] = string(text)
		return nil
	})
	require.NoError(t, err)
	return files
}

// Lines lost, doubled, swapped, cut short or filled with other words: the rules
// say what they find, and never stop.
func TestRulesSurviveDamage(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 14))
	whole := exampleFiles(t)
	names := slices.Sorted(maps.Keys(whole))
	words := []string{}
	for _, n := range names {
		words = append(words, strings.Fields(whole[n])...)
	}
	for range effort.Rounds(60, 150) {
		files := fstest.MapFS{}
		name := names[r.IntN(len(names))]
		dir, _, _ := strings.Cut(name, "/")
		for _, n := range names {
			if !strings.HasPrefix(n, dir+"/") {
				continue
			}
			text := whole[n]
			if n == name || r.IntN(4) == 0 {
				text = damage(r, text, words)
			}
			files[strings.TrimPrefix(n, dir+"/")] = &fstest.MapFile{Data: []byte(text)}
		}
		tree, err := load.FS(files, ".", "", "")
		require.NoError(t, err)
		found := compiler.Compile(context.Background(), tree, compiler.Options{NoPlan: true}).Diags.Sorted()
		for _, d := range found {
			require.NotEmpty(t, d.Message, d.Code)
			require.NoError(t, tone(d.Message), d.Code)
			if s := d.At.Span; !s.IsZero() {
				require.LessOrEqual(t, s.Start, s.End, d.Code)
				require.LessOrEqual(t, s.End, len(s.File.Text), d.Code)
			}
		}
	}
}

// damage changes a few lines of a text.
func damage(r *rand.Rand, text string, words []string) string {
	lines := strings.Split(text, "\n")
	for range 1 + r.IntN(4) {
		i := r.IntN(len(lines))
		switch r.IntN(6) {
		case 0:
			lines = append(lines[:i:i], lines[i+1:]...)
		case 1:
			lines = append(lines[:i+1:i+1], lines[i:]...)
		case 2:
			j := r.IntN(len(lines))
			lines[i], lines[j] = lines[j], lines[i]
		case 3:
			lines[i] = lines[i][:r.IntN(len(lines[i])+1)]
		case 4:
			lines[i] += " " + words[r.IntN(len(words))]
		default:
			fields := strings.Fields(lines[i])
			if len(fields) > 0 {
				lines[i] = strings.Replace(lines[i], fields[r.IntN(len(fields))], words[r.IntN(len(words))], 1)
			}
		}
		if len(lines) == 0 {
			return ""
		}
	}
	return strings.Join(lines, "\n")
}

// How long the rules take over a menu for ninety that is planned already.
func BenchmarkRules(b *testing.B) {
	tree, err := load.Path("../../examples/village-hall-curry")
	require.NoError(b, err)
	r := compiler.Compile(context.Background(), tree, compiler.Options{})
	p := check.Pass{Tree: tree, Model: r.Model, Meals: r.Meals, Series: r.Series, Timelines: r.Timelines}
	for b.Loop() {
		check.Run(context.Background(), p, check.Planned, &diag.List{})
	}
}
