package desk

import (
	"context"
	"encoding/json"
	"fmt"
	"path"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"tamis/compiler"
	"tamis/compiler/larder"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/format"
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
	m, ok := sh.room.names().at(sh.text, offset)
	if !ok {
		return nil, failed(requestFailed, "nothing that has a name of its own stands here")
	}
	list, err := sh.room.rename(s.ctx, []target{m.of}, p.NewName)
	if err != nil {
		return nil, failed(requestFailed, "%s", diag.Visible(err.Error()))
	}
	return sh.room.edits(sh.room.laidOut(list)), nil
}

// laidOut lays the files out again that were laid out before: a longer name moves what stands
// behind it. How others lie is their writer's.
func (r *room) laidOut(list []diag.Edit) []diag.Edit {
	for f, done := range diag.Edited(list) {
		at := slices.IndexFunc(r.tree.Files, func(x *load.File) bool { return x.Source == f })
		if at < 0 {
			continue
		}
		reading := r.tree.Files[at].Reading
		if was, _ := format.SourceWith(f, reading); was != f.Text {
			continue
		}
		if text, ok := format.Text(done.Text, reading); ok && text != done.Text {
			list = append(slices.DeleteFunc(slices.Clone(list), func(e diag.Edit) bool { return e.Span.File == f }), lineChanges(f, text)...)
		}
	}
	return list
}

// rename are the edits that give things another name; an error says why it cannot be.
func (r *room) rename(ctx context.Context, of []target, name string) (list []diag.Edit, err error) {
	x := r.names()
	to := strings.Join(strings.Fields(name), " ")
	if to == "" || strings.ContainsAny(to, `,|():"+/`) || diag.Visible(to) != to {
		return nil, fmt.Errorf("%q cannot be a name: a name has letters, and none of , | ( ) : \" + /", name)
	}
	met := map[source.Span]bool{}
	for _, t := range of {
		old := x.name(t)
		for _, o := range x.of(t) {
			if text := renamed(o.at.Text(), old, to, o.def); text != o.at.Text() && !met[o.at] {
				met[o.at] = true
				list = append(list, diag.Edit{Span: o.at, Text: text})
			}
		}
	}
	if len(list) == 0 {
		return nil, nil
	}
	for _, e := range x.larderRows(of, to) {
		if !met[e.Span] {
			list = append(list, e)
		}
	}
	if problem := r.tryOut(ctx, list); problem != "" {
		return nil, fmt.Errorf("%s cannot be called %q: %s", x.name(of[0]), to, problem)
	}
	return list, nil
}

// Rename are the edits that give a thing of a book another name wherever it is named, in
// sentences too: a dish, a base, a by-product or a kitchen; else what is gathered under
// the old name, in every recipe or in the one that is named. An error says why it cannot
// be done, as where a sentence would be read in another way.
func Rename(ctx context.Context, r *compiler.Result, old, to, in string) ([]diag.Edit, error) {
	room := &room{tree: r.Tree, now: r}
	x := room.names()
	folder, name := "", strings.Join(strings.Fields(old), " ")
	if i := strings.LastIndexByte(name, '/'); i >= 0 {
		folder, name = name[:i], name[i+1:]
	}
	var whole, lines []target
	var where []string
	for _, m := range x.all {
		recipe := m.of.recipe
		switch {
		case !m.def || !strings.EqualFold(x.name(m.of), name):
			continue
		case m.of.product != nil:
			recipe = m.of.product.Recipe
		case m.of.line != (source.Span{}):
			recipe = x.recipeAt(m.at)
		}
		if recipe == nil && (folder != "" || in != "") || recipe != nil && (folder != "" && recipe.Scope.Dir != folder || in != "" && !strings.EqualFold(recipe.Name, in)) {
			continue
		}
		if m.of.line != (source.Span{}) {
			lines = append(lines, m.of)
			continue
		}
		whole = append(whole, m.of)
		where = append(where, strings.TrimPrefix(path.Join(path.Dir(x.paths[m.at.File]), name), "./"))
	}
	switch {
	case len(whole) == 1:
		return room.rename(ctx, whole, to)
	case len(whole) > 1:
		return nil, fmt.Errorf("%d things are called %s: say which, with its folder (%s), or with --in and the recipe", len(whole), name, strings.Join(where, ", "))
	case len(lines) > 0:
		return room.rename(ctx, lines, to)
	}
	near := diag.Nearest(name, x.allNames())
	if near != "" {
		return nil, fmt.Errorf("nothing here is called %s: did you mean %s?", name, near)
	}
	return nil, fmt.Errorf("nothing here is called %s: name a dish, a base, a by-product, a kitchen or something gathered", name)
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
func (r *room) tryOut(ctx context.Context, list []diag.Edit) string {
	x := r.names()
	texts := map[string]*string{}
	for f, done := range diag.Edited(list) {
		texts[x.paths[f]] = &done.Text
	}
	tree, err := r.tree.Change(ctx, texts)
	if err != nil {
		return err.Error()
	}
	opt := compiler.Options{NoPages: true, NoPlan: true}
	was, now := compiler.Compile(ctx, r.tree, opt), compiler.Compile(ctx, tree, opt)
	before, after := readings(was.Model), readings(now.Model)
	if len(before) != len(after) {
		return "the texts would be cut into other blocks"
	}
	for i := range before {
		if before[i].says != after[i].says {
			return fmt.Sprintf("in %s something would be read in another way: the name, or a part of it, means another thing there", before[i].of)
		}
	}
	if facts := lost(was.Model, now.Model); facts != "" {
		return facts
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
