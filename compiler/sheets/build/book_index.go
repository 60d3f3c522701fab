package build

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/collate"
	"golang.org/x/text/language"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
)

// What so many recipes of a longer book take, salt and butter, has no list of pages in its
// index: nobody looks it up.
const (
	longBook  = 12  // recipes
	mostShare = 3.0 // one in so many
)

// alphabet is the index: every dish and base by its names, and every ingredient.
func (b *builder) alphabet() *sheets.Sheet {
	v := b.volume
	entries := map[string]*sheets.Entry{} // by their folded names
	entry := func(name string) *sheets.Entry {
		key := larder.Fold(name)
		if entries[key] == nil {
			entries[key] = &sheets.Entry{Name: name}
		}
		return entries[key]
	}
	at := func(e *sheets.Entry, r *resolve.Recipe, style sheets.Style) {
		link := "#" + b.pages[r]
		if i := slices.IndexFunc(e.At, func(x sheets.Run) bool { return x.Link == link }); i >= 0 {
			if style == sheets.Strong {
				e.At[i].Style = style
			}
			return
		}
		e.At = append(e.At, sheets.Run{Text: r.Name, Style: style, Link: link, Page: "#"})
	}
	var all []*resolve.Recipe
	for _, c := range v.chapters {
		all = append(all, c.recipes...)
	}
	for _, r := range all { // first, so that a thing that is made here has the name of its recipe
		e := entry(r.Name)
		e.Name = r.Name
		for _, also := range r.Own.Notes.Also {
			entry(also.Text)
		}
	}
	uses := map[string]int{}
	for _, r := range all {
		at(entry(r.Name), r, sheets.Strong)
		for _, also := range r.Own.Notes.Also {
			at(entry(also.Text), r, sheets.Strong)
		}
		seen := map[string]bool{}
		if b.opt.Card {
			continue // a box is looked through by its dishes
		}
		for _, l := range r.Lines {
			name := thingOf(l)
			if name == "" || l.Water {
				continue
			}
			e := entry(name)
			at(e, r, sheets.Plain)
			if key := larder.Fold(name); !seen[key] {
				seen[key] = true
				uses[key]++
			}
		}
	}
	var list []sheets.Entry
	for key, e := range entries {
		strong := slices.ContainsFunc(e.At, func(x sheets.Run) bool { return x.Style == sheets.Strong })
		if len(all) > longBook && float64(uses[key])*mostShare > float64(len(all)) && !strong {
			e.At, e.Note = nil, "in many of the recipes"
		}
		list = append(list, *e)
		if !strong && len(e.At) > 0 {
			if kind := byKind(e.Name); kind != "" && entries[larder.Fold(kind)] == nil {
				list = append(list, sheets.Entry{Name: kind, At: e.At})
			}
		}
	}
	if b.opt.Card {
		return &sheets.Sheet{ID: b.id(indexID), Kind: sheets.Index, Title: "Index", Blocks: []sheets.Block{byLetter(list)}}
	}
	return &sheets.Sheet{ID: b.id(indexID), Kind: sheets.Index, Title: "Index", Blocks: []sheets.Block{
		&sheets.Prose{Small: true, Paras: []sheets.Para{{Runs: []sheets.Run{
			{Text: "Dishes and bases by all their names, and what goes into them. The recipe itself is in bold.", Page: "Dishes and bases by all their names, and what goes into them. The page of the recipe itself is in bold."},
		}}}},
		byLetter(list),
	}}
}

// byKind is a thing by what it is a kind of, for who looks there: "tomatoes, plum" of plum
// tomatoes, "lamb, neck of" of neck of lamb. Empty: its last word is no food by itself.
func byKind(name string) string {
	i := strings.LastIndexByte(name, ' ')
	if i < 0 {
		return ""
	}
	if _, food := larder.Builtin().Find(name[i+1:]); !food {
		return ""
	}
	return name[i+1:] + ", " + name[:i]
}

// thingOf is what a line is called in an index: the thing itself, without what was done to
// it, or the recipe that makes it.
func thingOf(l *resolve.Line) string {
	switch {
	case l.From != nil:
		return l.From.Name
	case l.Product != nil:
		return l.Product.Name
	case l.Known != nil && l.Known.Item != nil && l.Known.Part == "":
		if l.Item == nil { // "soft butter"
			return l.Known.Item.Name
		}
	}
	if i := strings.LastIndexByte(l.Name, '/'); i >= 0 {
		return l.Name[i+1:]
	}
	return l.Name
}

// byLetter sorts entries by the alphabet of their readers, not that of machines, and parts
// them by their first letters.
func byLetter(list []sheets.Entry) *sheets.Alphabet {
	order := collate.New(language.BritishEnglish, collate.IgnoreCase)
	slices.SortFunc(list, func(x, y sheets.Entry) int {
		if c := order.CompareString(x.Name, y.Name); c != 0 {
			return c
		}
		return strings.Compare(x.Name, y.Name)
	})
	out := &sheets.Alphabet{}
	for _, e := range list {
		l := letterOf(e.Name)
		if n := len(out.Letters); n == 0 || out.Letters[n-1].Letter != l {
			out.Letters = append(out.Letters, sheets.Letter{Letter: l})
		}
		last := &out.Letters[len(out.Letters)-1]
		last.Entries = append(last.Entries, e)
	}
	return out
}

// letterOf is the letter that a name stands under: the first, without its marks.
func letterOf(name string) string {
	for _, r := range sheets.Unmarked(name) {
		switch {
		case unicode.IsLetter(r):
			return string(unicode.ToUpper(r))
		case unicode.IsDigit(r):
			return "0–9"
		}
	}
	if utf8.RuneCountInString(name) == 0 {
		return "–"
	}
	return "0–9"
}
