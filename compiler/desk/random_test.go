package desk

import (
	"encoding/json"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/require"

	"tamis/lang/effort"
	"tamis/lang/source"
)

// Whatever a writer does to a text, and wherever an editor asks, there is an answer,
// and never one that says that something went wrong in Tamis itself.
func TestWhateverIsTypedAndAsked(t *testing.T) {
	for _, dir := range []string{"harvest-lunch", "evening-class", "family-notebook"} {
		t.Run(dir, func(t *testing.T) {
			files := map[string]string{}
			root := filepath.Join("..", "..", "examples", dir)
			require.NoError(t, filepath.WalkDir(root, func(p string, d os.DirEntry, err error) error {
				if err == nil && strings.HasSuffix(p, ".tamis") {
					raw, err := os.ReadFile(p)
					require.NoError(t, err)
					below, err := filepath.Rel(root, p)
					require.NoError(t, err)
					files[filepath.ToSlash(below)] = string(raw)
				}
				return err
			}))
			e := newEditor(t, files)
			rnd := rand.New(rand.NewPCG(7, uint64(len(dir))))
			names := []string{}
			for name := range files {
				names = append(names, name)
			}
			slices.Sort(names)
			for _, name := range names {
				e.open(name, files[name])
			}
			odd := []string{"🍋", "e\u0301", "\r\n", "\t", "|", "\"", "# ", "(", "½", "- ", "\x00", "\u202e", "  ", "\n", ",", "/", "200 g ", "the rest of the "}
			for range effort.Rounds(60, 600) {
				name := names[rnd.IntN(len(names))]
				f := e.source(name)
				i := rnd.IntN(len(f.Text) + 1)
				j := min(len(f.Text), i+rnd.IntN(30)*rnd.IntN(2))
				text := odd[rnd.IntN(len(odd))]
				if other := files[names[rnd.IntN(len(names))]]; rnd.IntN(3) == 0 {
					k := rnd.IntN(len(other))
					text = strings.ToValidUTF8(other[k:min(len(other), k+rnd.IntN(200))], "")
				}
				if rnd.IntN(8) == 0 {
					e.open(name, files[name]) // and begins again
					continue
				}
				r := textRange{at(f, i), at(f, j)}
				s := spanOf(f, r)
				e.version++
				e.texts[name] = f.Text[:s.Start] + text + f.Text[s.End:]
				e.tell("textDocument/didChange", map[string]any{
					"textDocument":   map[string]any{"uri": e.uri(name), "version": e.version},
					"contentChanges": []any{map[string]any{"range": r, "text": text}},
				})
				e.anything(rnd, name)
			}
		})
	}
}

// anything asks a question somewhere; it may be refused.
func (e *editor) anything(rnd *rand.Rand, name string) {
	f := e.source(name)
	p := e.of(name)
	pos := at(f, rnd.IntN(len(f.Text)+1))
	p["position"] = pos
	p["newName"] = "other thing"
	p["range"] = textRange{pos, at(f, rnd.IntN(len(f.Text)+1))}
	p["context"] = map[string]any{"includeDeclaration": true}
	p["query"] = "a"
	asks := []string{}
	for m := range methods {
		if m != "textDocument/didOpen" && m != "textDocument/didClose" && m != "initialized" && m != "textDocument/didChange" {
			asks = append(asks, m)
		}
	}
	slices.Sort(asks)
	for range 4 {
		m := e.answer(e.ask(asks[rnd.IntN(len(asks))], p))
		if m.Error != nil {
			require.NotEqual(e, internalError, m.Error.Code)
		}
	}
}

// Edits by UTF-16 columns leave the text that an editor has, which keeps it in such units.
func TestSyncAgainstUTF16(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	pieces := []string{"a", "🍋", "e\u0301", "\n", "\r\n", "½", "日本", " ", "beans", "\n\n"}
	for range effort.Rounds(300, 20000) {
		var lines [][]uint16
		text := ""
		for range rnd.IntN(40) {
			text += pieces[rnd.IntN(len(pieces))]
		}
		f := source.New("", text)
		for _, l := range strings.Split(text, "\n") {
			lines = append(lines, utf16.Encode([]rune(strings.TrimSuffix(l, "\r"))))
		}
		place := func() position {
			n := rnd.IntN(len(lines))
			return position{n, rnd.IntN(len(lines[n]) + 3)}
		}
		a, b := place(), place()
		if a.Line > b.Line || a.Line == b.Line && a.Character > b.Character {
			a, b = b, a
		}
		// The oracle cuts lines of units, and gives a half of a pair back to its whole.
		cut := func(p position) (before, after string) {
			l := lines[p.Line]
			k := min(p.Character, len(l))
			if k > 0 && k < len(l) && utf16.IsSurrogate(rune(l[k])) && utf16.IsSurrogate(rune(l[k-1])) && l[k] >= 0xDC00 && l[k-1] < 0xDC00 {
				k--
			}
			whole := strings.Split(text, "\n")
			before = strings.Join(whole[:p.Line], "\n")
			if p.Line > 0 {
				before += "\n"
			}
			before += string(utf16.Decode(l[:k]))
			return before, text[len(before):]
		}
		before, _ := cut(a)
		_, after := cut(b)
		s := spanOf(f, textRange{a, b})
		require.Equal(t, before+"X"+after, text[:s.Start]+"X"+text[s.End:], "%q %v %v", text, a, b)
	}
}

func TestAnAnswerIsValidJSON(t *testing.T) {
	e := newEditor(t, nil)
	e.open("a.tamis", "dish \"Le\u2028eks\"\n  serves 4\n")
	raw := e.answer(e.ask("textDocument/documentSymbol", e.of("a.tamis")))
	require.True(t, json.Valid(raw.Result))
}
