package desk

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"tamis/compiler"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// prepareRename says what would be renamed at a place.
func (s *server) prepareRename(raw json.RawMessage) (any, error) {
	sh, offset, err := s.asked(raw)
	if err != nil {
		return nil, err
	}
	x := sh.room.names()
	if m, ok := x.at(sh.text, offset); ok {
		return prepared{rangeOf(m.at), diag.Visible(x.name(m.of))}, nil
	}
	return nil, failed(requestFailed, "nothing that has a name of its own stands here: put the cursor on a dish, a base, a by-product, a kitchen or something gathered")
}

// rename gives a thing another name wherever it is named, in sentences too, in the
// number and with the capital it has there. The texts are then read again; where
// anything would be read in another way than before, nothing is renamed.
func (s *server) rename(raw json.RawMessage) (any, error) {
	sh, offset, err := s.asked(raw)
	if err != nil {
		return nil, err
	}
	p, err := read[struct {
		NewName string `json:"newName"`
	}](raw)
	if err != nil {
		return nil, err
	}
	x := sh.room.names()
	m, ok := x.at(sh.text, offset)
	if !ok {
		return nil, failed(requestFailed, "nothing that has a name of its own stands here")
	}
	to := strings.Join(strings.Fields(p.NewName), " ")
	if to == "" || strings.ContainsAny(to, `,|():"+/`) || diag.Visible(to) != to {
		return nil, failed(requestFailed, "%s", diag.Visible(fmt.Sprintf("%q cannot be a name: a name has letters, and none of , | ( ) : \" + /", p.NewName)))
	}
	old := x.name(m.of)
	if to == old {
		return sh.room.edits(nil), nil
	}
	var list []diag.Edit
	for _, o := range x.of(m.of) {
		if text := renamed(o.at.Text(), old, to, o.def); text != o.at.Text() {
			list = append(list, diag.Edit{Span: o.at, Text: text})
		}
	}
	if problem := sh.tryOut(s, m.of, list); problem != "" {
		return nil, failed(requestFailed, "%s", diag.Visible(fmt.Sprintf("%s cannot be called %q: %s", old, to, problem)))
	}
	return sh.room.edits(list), nil
}

// renamed is what a mention of a thing becomes: the whole name with its number and its
// capital; of a short form, "the oil", the new name if it does not fit that too.
func renamed(said, old, to string, def bool) string {
	if def {
		return asWritten(said, old, to)
	}
	words, name := strings.Fields(said), strings.Fields(old)
	if len(words) == 0 || len(name) == 0 {
		return said
	}
	for i := 0; i+len(name) <= len(words); i++ {
		if part := strings.Join(words[i:i+len(name)], " "); sameThing(part, old) {
			words = slices.Replace(words, i, i+len(name), asWritten(part, old, to))
			return strings.Join(words, " ")
		}
	}
	has := func(list []string, w string) bool {
		return slices.ContainsFunc(list, func(o string) bool { return sameThing(o, w) })
	}
	short := !slices.ContainsFunc(words, func(w string) bool { return !has(name, w) })
	fits := !slices.ContainsFunc(words, func(w string) bool { return !has(strings.Fields(to), w) })
	if !short || fits {
		return said // "the juice" of a lemon, or a word that the new name has too
	}
	text := asWritten(said, words[len(words)-1], to)
	if capital(old) && !capital(said) {
		text = larder.Small(text)
	}
	return text
}

// sameThing tells whether two names differ in number and capitals at most.
func sameThing(a, b string) bool {
	return larder.Fold(a) == larder.Fold(b) || larder.Fold(larder.PluralName(a)) == larder.Fold(larder.PluralName(b))
}

// asWritten is a new name in the number of the old as it was said, and with a small
// letter or a capital where the old had another than its own.
func asWritten(said, old, to string) string {
	switch many := larder.PluralName(said); {
	case strings.EqualFold(said, old):
	case strings.EqualFold(said, many):
		to = larder.PluralName(to)
	default:
		words := strings.Fields(to)
		words[len(words)-1] = larder.Singular(words[len(words)-1])
		to = strings.Join(words, " ")
	}
	switch was, is := capital(old), capital(said); {
	case was && !is && capital(to):
		return larder.Small(to)
	case !was && is:
		return larder.Capital(to)
	}
	return to
}

func capital(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return unicode.IsUpper(r)
}

// tryOut reads the texts with the edits, and says what would be read in another way;
// "" when nothing would.
func (sh *sheet) tryOut(s *server, of target, list []diag.Edit) string {
	x := sh.room.names()
	texts := map[string]*string{}
	byFile := map[*source.File][]diag.Edit{}
	for _, e := range list {
		byFile[e.Span.File] = append(byFile[e.Span.File], e)
	}
	for f, edits := range byFile {
		done := diag.Apply([]diag.Diagnostic{{Fixes: []diag.Fix{{Edits: edits}}}}, func(diag.Fix) bool { return true })
		text := done[f].Text
		texts[x.paths[f]] = &text
	}
	tree, err := sh.room.tree.Change(s.ctx, texts)
	if err != nil {
		return err.Error()
	}
	opt := compiler.Options{NoPages: true, NoPlan: true}
	was, now := compiler.Compile(s.ctx, sh.room.tree, opt), compiler.Compile(s.ctx, tree, opt)
	before, after := readings(was.Model), readings(now.Model)
	if len(before) != len(after) {
		return "the texts would be cut into other blocks"
	}
	for i := range before {
		if before[i].says != after[i].says {
			return fmt.Sprintf("in %s something would be read in another way: the name, or a part of it, means another thing there", before[i].of)
		}
	}
	counts := map[string]int{}
	for d := range was.Diags.All() {
		counts[d.Code]++
	}
	for d := range now.Diags.All() {
		if counts[d.Code]--; counts[d.Code] < 0 && d.Severity == diag.Error {
			return d.Message
		}
	}
	return ""
}

// reading is what a recipe draws on and takes, without a name.
type reading struct{ of, says string }

func readings(m *resolve.Model) (out []reading) {
	number := map[*resolve.Recipe]int{}
	for i, r := range m.Recipes {
		number[r] = i
	}
	for _, r := range m.Recipes {
		var b strings.Builder
		of := map[*resolve.Line]int{}
		for i, l := range r.Lines {
			of[l] = i
			fmt.Fprint(&b, i, from(number, l.From), from(number, productOf(l.Product)), ";")
		}
		for _, rd := range r.Readings {
			for _, sr := range rd.Steps {
				fmt.Fprint(&b, "step", sr.Step.Index)
				for _, t := range sr.Takes {
					line := -1
					if t.Line != nil {
						line = of[t.Line]
					}
					fmt.Fprint(&b, " ", line, from(number, productOf(t.Product)), t.Part, t.Refers, t.Unmeasured, t.LeftAfter)
				}
			}
		}
		out = append(out, reading{r.Name, b.String()})
	}
	for _, menu := range m.Menus {
		var b strings.Builder
		for _, c := range menu.Courses {
			for _, s := range c.Servings {
				fmt.Fprint(&b, from(number, s.Recipe), ";")
			}
		}
		fmt.Fprint(&b, menu.Kitchen != nil)
		out = append(out, reading{menu.Name, b.String()})
	}
	return out
}

func productOf(p *resolve.Product) *resolve.Recipe {
	if p == nil {
		return nil
	}
	return p.Recipe
}

func from(number map[*resolve.Recipe]int, r *resolve.Recipe) int {
	if r == nil {
		return -1
	}
	return number[r]
}
