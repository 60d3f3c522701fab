package main

import (
	"cmp"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"tamis/compiler/load"
	"tamis/lang/diag"
	"tamis/lang/source"
	"tamis/render/fonts"
)

// readFonts opens the fonts that --font names: paths as they are, or beside
// the recipes.
func readFonts(names []string, recipes string) (set fonts.Set, err error) {
	if info, err := os.Stat(recipes); err == nil && !info.IsDir() {
		recipes = filepath.Dir(recipes)
	}
	for _, name := range names {
		path := name
		if file, _, _ := strings.Cut(name, "#"); !filepath.IsAbs(file) {
			if _, err := os.Stat(file); err != nil {
				if _, err := os.Stat(filepath.Join(recipes, file)); err == nil {
					path = filepath.Join(recipes, name)
				}
			}
		}
		o, err := fonts.Read(path)
		if err != nil {
			return nil, fmt.Errorf("--font: %w", err)
		}
		set = append(set, o)
	}
	return set, nil
}

// lost is why a character is not on paper.
type lost int

const (
	noFont lost = iota // a font that has it would do
	shaped             // its letters change with their neighbours
	beyond             // outside what a PDF of ours can number; emoji, nearly always
)

func why(c rune) lost {
	switch {
	case fonts.Shaped(c):
		return shaped
	case c > 0xffff:
		return beyond
	}
	return noFont
}

// missingLetters says of every character that is not on paper where it stands
// first. Those of one line, for one reason, are one finding.
func missingLetters(tree *load.Tree, missing []rune, out *diag.List) {
	files := slices.Clone(tree.Files)
	slices.SortStableFunc(files, func(a, b *load.File) int { return -cmp.Compare(asked(tree, a), asked(tree, b)) })
	type key struct {
		file *source.File
		line int
		why  lost
	}
	type group struct {
		at    source.Span
		chars []rune
	}
	found := map[key]*group{}
	var order []key
	places := map[rune]source.Span{}
	for _, c := range missing {
		places[c] = firstPlace(files, c)
	}
	missing = slices.Clone(missing)
	slices.SortStableFunc(missing, func(a, b rune) int { return cmp.Compare(places[a].Start, places[b].Start) })
	for _, c := range missing {
		at := places[c]
		k := key{at.File, at.Position().Line, why(c)}
		g := found[k]
		if g == nil {
			g = &group{at: at}
			found[k] = g
			order = append(order, k)
		}
		g.chars = append(g.chars, c)
	}
	for _, k := range order {
		g := found[k]
		chars, stands := spaced(g.chars), "it stands as □"
		if len(g.chars) > 1 {
			stands = "each stands as □"
		}
		switch k.why {
		case shaped:
			out.Askf("F102", g.at, "the PDF cannot set %s, of a script whose letters change with their neighbours: %s", chars, stands).
				WithHelp("print from the web page, which shows it: add --to html").
				Because("set letter by letter such writing cannot be read")
		case beyond:
			out.Askf("F101", g.at, "the type of the PDF lacks %s: %s", chars, stands).
				WithHelp("write a word for it, or print from the web page, which shows it")
		default:
			out.Askf("F101", g.at, "the type of the PDF lacks %s: %s", chars, stands).
				WithHelp("name a font file that has it: --font FILE; the web page shows it as it is")
		}
	}
}

func asked(t *load.Tree, f *load.File) int {
	if t.Asked(f) {
		return 1
	}
	return 0
}

// firstPlace is where c is first written. It may be written as a letter and an
// accent, or as a code of Markdown, which is not looked for.
func firstPlace(files []*load.File, c rune) source.Span {
	for _, f := range files {
		text := f.Source
		if at := strings.IndexRune(text.Text, c); at >= 0 {
			return text.Span(at, at+utf8.RuneLen(c))
		}
	}
	for _, f := range files {
		text, from := f.Source, 0
		for line := range strings.Lines(text.Text) {
			if strings.ContainsRune(norm.NFC.String(line), c) {
				return text.Span(from, from+len(strings.TrimRight(line, "\r\n")))
			}
			from += len(line)
		}
	}
	return source.Span{}
}
