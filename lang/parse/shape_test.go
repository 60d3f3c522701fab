package parse

import (
	"fmt"
	"math/rand"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// exampleTexts are the texts of the examples and of this package's test data.
func exampleTexts(t *testing.T) (out []string) {
	t.Helper()
	for _, pattern := range []string{"../../examples/*/*.tamis", "testdata/*.tamis"} {
		names, err := filepath.Glob(pattern)
		require.NoError(t, err)
		require.NotEmpty(t, names)
		for _, name := range names {
			b, err := os.ReadFile(name)
			require.NoError(t, err)
			out = append(out, string(b))
		}
	}
	return out
}

// spoil makes up to six slips in a part of a text: signs and words that are
// lost, doubled, moved or strange, clauses from elsewhere.
func spoil(r *rand.Rand, text string, all []string) string {
	lines := strings.SplitAfter(text, "\n")
	from := r.Intn(len(lines))
	lines = lines[from:min(len(lines), from+40)]
	lines[0] = strings.TrimLeft(lines[0], " ")
	for range 1 + r.Intn(6) {
		k := r.Intn(len(lines))
		parts := strings.SplitAfter(lines[k], " ")
		w := r.Intn(len(parts))
		switch r.Intn(8) {
		case 0:
			parts[w] = ""
		case 1:
			parts[w] += parts[w]
		case 2:
			v := r.Intn(len(parts))
			parts[v], parts[w] = parts[w], parts[v]
		case 3:
			signs := []string{",", "|", ":", "\"", "(", "½", "%", "+", " - ", "7", " to ", "x"}
			parts[w] += signs[r.Intn(len(signs))]
		case 4:
			parts[w] = words[r.Intn(len(words))].Text + " " + parts[w]
		case 5:
			other := strings.Split(all[r.Intn(len(all))], "\n")
			if _, margin, ok := strings.Cut(other[r.Intn(len(other))], "|"); ok {
				parts = append(parts[:len(parts)-1], strings.TrimSuffix(parts[len(parts)-1], "\n"), "|"+margin+"\n")
			}
		case 6:
			parts[0] = " " + parts[0]
		case 7:
			if n := len(parts[w]); n > 0 {
				i := r.Intn(n)
				parts[w] = parts[w][:i] + parts[w][i+1:]
			}
		}
		lines[k] = strings.Join(parts, "")
	}
	return strings.Join(lines, "")
}

// reading is all that comes of a text.
type reading struct {
	tree     *ast.File
	findings []diag.Diagnostic
}

func readText(src *source.File, plain bool) reading {
	var list diag.List
	p := newParser(src, &list)
	defer p.done()
	p.opt, p.plain = Settings(quantity.Options{}, src), plain
	return reading{p.file(), list.Sorted()}
}

// A statement read by the verdict on its shape is read as if participle had
// been shown the statement itself, with all its texts: tree and findings are
// the same to the letter. Thousands of texts with slips in them are tried.
func TestVerdictsOnShapesAreVerdictsOnStatements(t *testing.T) {
	all := exampleTexts(t)
	texts := append([]string(nil), all...)
	rounds := 2000
	if testing.Short() {
		rounds = 300
	}
	for seed := range rounds {
		r := rand.New(rand.NewSource(int64(seed)))
		texts = append(texts, spoil(r, all[r.Intn(len(all))], all))
	}
	found := 0
	for i, text := range texts {
		src := source.New("x.tamis", text)
		plain, shaped := readText(src, true), readText(src, false)
		require.Equal(t, plain.findings, shaped.findings, "text %d:\n%s", i, text)
		require.Empty(t, ast.Difference(plain.tree, shaped.tree), "text %d:\n%s", i, text)
		require.Equal(t, plain.tree, shaped.tree, "text %d:\n%s", i, text)
		found += len(plain.findings)
	}
	require.Greater(t, found, rounds/2, "the slips are seen")
}

// What a shape keeps is bounded, and nothing of one statement is seen in
// another of its shape.
func TestShapesAreBounded(t *testing.T) {
	var g grammar[clauseNode]
	clause := func(text string) *verdict[clauseNode] {
		p := newParser(source.New("x.tamis", text), nil)
		defer p.done()
		s := p.piece(len(text))
		w, n := LookUp(OnStep, text)
		s.addWord(tKey, 0, w.Text)
		s.lex(n, w.reads)
		return g.decide(s)
	}
	first := clause("work 5 min")
	require.True(t, first.ok)
	require.Same(t, first, clause("WORK  1 h 20 min"), "one shape")
	require.NotSame(t, first, clause("watch 5 min"), "another word, another shape")
	require.False(t, clause("work 5 min, fridge").ok)
	require.Len(t, g.kept, 3)

	long := "oven 200 C" + strings.Repeat(", top shelf", maxTokens)
	require.True(t, clause(long).ok)
	require.Len(t, g.kept, 3, "a long statement is not kept")

	for i := range 3 * maxShapes { // each another row of numbers and times
		var b strings.Builder
		for k := i; k > 0; k /= 2 {
			b.WriteString([]string{",", " 5 min"}[k%2])
		}
		clause("work " + b.String())
		require.LessOrEqual(t, len(g.kept), maxShapes)
	}
	again := clause("work 5 min")
	require.Equal(t, first, again, "what was forgotten is learnt again")
}

// Files are read side by side.
func TestShapesAreSharedByFilesReadAtOnce(t *testing.T) {
	all := exampleTexts(t)
	want := make([]reading, len(all))
	srcs := make([]*source.File, len(all))
	for i, text := range all {
		srcs[i] = source.New(fmt.Sprint(i), text)
		want[i] = readText(srcs[i], true)
	}
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			for i := range all {
				if got := readText(srcs[i], false); ast.Difference(want[i].tree, got.tree) != "" {
					t.Errorf("file %d", i)
				}
			}
		})
	}
	wg.Wait()
}
