package desk

import (
	"cmp"
	"path"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"tamis/compiler"
	"tamis/compiler/resolve"
	"tamis/lang/source"
)

// target is a thing that is named in several places: exactly one field is set. A
// gathered line is known by where its name stands, for a variant has it again.
type target struct {
	recipe  *resolve.Recipe
	product *resolve.Product
	kitchen *resolve.Kitchen
	line    source.Span
}

func (t target) isZero() bool { return t == target{} }

// mention is a place at which a thing is named.
type mention struct {
	at  source.Span
	of  target
	def bool // it gets its name here
}

// index is where everything in a room is named.
type index struct {
	all   []mention // by file and place
	model *resolve.Model
	lines map[source.Span]string // the names of gathered lines, by place
	// targets are what they are.
	targets map[source.Span]target
	paths   map[*source.File]string // of the files of the room
	known   map[mention]bool
}

// names is the index of the room as it is now.
func (r *room) names() *index {
	if r.index == nil {
		r.index = newIndex(r.now)
	}
	return r.index
}

func newIndex(r *compiler.Result) *index {
	x := &index{model: r.Model, lines: map[source.Span]string{}, targets: map[source.Span]target{}, paths: map[*source.File]string{}, known: map[mention]bool{}}
	dirs := map[*source.File]string{}
	for _, f := range r.Tree.Files {
		x.paths[f.Source], dirs[f.Source] = f.Path, f.Dir
	}
	m := r.Model
	for _, rec := range m.Recipes {
		x.recipe(m, rec)
	}
	for _, rec := range m.Recipes {
		for _, n := range rec.Speaks {
			x.add(n.Span, x.targets[n.Of], false)
		}
	}
	for _, t := range m.Spoken { // servings, chapters, parts, as
		if s := m.ScopeOf(dirs[t.Span.File]); s != nil {
			x.named(t.Span, m.Named(s, t.Text))
		}
	}
	for _, b := range m.Books {
		placed := b.Placed(m.Recipes)
		for _, c := range b.Chapters {
			for _, n := range c.Names {
				if list := placed(n); len(list) == 1 {
					x.named(n.Span, list[0])
				}
			}
		}
	}
	for _, s := range m.Scopes {
		for _, k := range s.Kitchens {
			x.add(k.NameAt, target{kitchen: k}, true)
		}
	}
	for _, menu := range m.Menus {
		if menu.Kitchen != nil && !menu.At.IsZero() {
			x.add(menu.At.Span, target{kitchen: menu.Kitchen}, false)
		}
		for _, t := range menu.Tasks {
			for _, ref := range []resolve.Text{t.Before, t.After} {
				if !ref.IsZero() && !courseNamed(menu, ref.Text) {
					x.named(ref.Span, m.Named(menu.Scope, ref.Text))
				}
			}
		}
	}
	slices.SortFunc(x.all, func(a, b mention) int {
		return cmp.Or(cmp.Compare(x.paths[a.at.File], x.paths[b.at.File]), cmp.Compare(a.at.Start, b.at.Start), cmp.Compare(a.at.End, b.at.End))
	})
	return x
}

func courseNamed(m *resolve.Menu, name string) bool {
	return slices.ContainsFunc(m.Courses, func(c *resolve.Course) bool { return strings.EqualFold(c.Name, name) })
}

// recipe adds what a dish or a base names.
func (x *index) recipe(m *resolve.Model, r *resolve.Recipe) {
	x.add(r.NameAt, target{recipe: r}, true)
	for _, n := range r.Own.Notes.GoesWith {
		x.named(n.Span, m.Named(r.Scope, n.Text))
	}
	for _, p := range r.Products {
		if p.Made != nil && p.Recipe == r {
			x.add(p.Made.Name.Span, target{product: p}, true)
		}
	}
	for _, l := range r.Lines {
		x.line(l)
	}
	for _, s := range r.Steps {
		x.margin(r, s.Margin)
		for _, mo := range s.Moments {
			x.margin(r, mo.Margin)
		}
	}
	for _, rd := range r.Readings {
		for _, sr := range rd.Steps {
			for i := range sr.Takes {
				t := &sr.Takes[i]
				switch {
				case t.NameAt.IsZero():
				case t.Product != nil:
					x.add(t.NameAt, target{product: t.Product}, false)
				case t.Line != nil:
					x.add(t.NameAt, lineTarget(t.Line), false)
				}
			}
		}
	}
}

// lineTarget is what a gathered line is: what makes it, or itself.
func lineTarget(l *resolve.Line) target {
	switch {
	case l.From != nil:
		return target{recipe: l.From}
	case l.Product != nil:
		return target{product: l.Product}
	}
	return target{line: l.NameAt}
}

// line adds the name of a gathered line; "Slow lamb/lamb fat" names two things.
func (x *index) line(l *resolve.Line) {
	at := unquoted(l.NameAt)
	if at.IsZero() {
		return
	}
	t := lineTarget(l)
	x.lines[l.NameAt], x.targets[l.NameAt] = l.Name, t
	if i := strings.LastIndexByte(at.Text(), '/'); i >= 0 {
		if l.Product != nil {
			x.named(at.File.Span(at.Start, at.Start+i), l.Product.Recipe)
		}
		at = trimmed(at.File.Span(at.Start+i+1, at.End))
	}
	x.add(at, t, t.line == l.NameAt)
}

// margin adds what clauses name: what is waited for, and what a time grows with.
func (x *index) margin(r *resolve.Recipe, margin []resolve.Clause) {
	for _, c := range margin {
		switch c := c.(type) {
		case *resolve.After:
			for _, p := range r.Products {
				if strings.EqualFold(p.Name, c.Name.Text) {
					x.add(c.Name.Span, target{product: p}, false)
				}
			}
		case *resolve.Spell:
			if c.EachLine != nil {
				x.add(c.Each.Name.Span, lineTarget(c.EachLine), false)
			}
		case *resolve.InVessel:
			if c.Line != nil {
				x.add(c.Of.Span, lineTarget(c.Line), false)
			}
		}
	}
}

// named adds a name by which somebody speaks of a recipe; the folder before it is none of it.
func (x *index) named(at source.Span, r *resolve.Recipe) {
	if r == nil || at.IsZero() {
		return
	}
	at = unquoted(at)
	if i := strings.LastIndexByte(at.Text(), '/'); i >= 0 {
		at = trimmed(at.File.Span(at.Start+i+1, at.End))
	}
	x.add(at, target{recipe: r}, false)
}

func (x *index) add(at source.Span, of target, def bool) {
	at = unquoted(at)
	if at.IsZero() || of.isZero() || at.End <= at.Start || x.known[mention{at, of, true}] {
		return
	}
	if m := (mention{at, of, def}); !x.known[m] {
		x.known[m] = true
		x.all = append(x.all, m)
	}
}

// at is what is named at an offset of a file; false where nothing is.
func (x *index) at(f *source.File, offset int) (best mention, ok bool) {
	for _, m := range x.all {
		if m.at.File == f && m.at.Start <= offset && offset <= m.at.End && (!ok || m.at.End-m.at.Start < best.at.End-best.at.Start) {
			best, ok = m, true
		}
	}
	return best, ok
}

// of are the places at which a thing is named, headnotes too.
func (x *index) of(t target) (out []mention) {
	for _, m := range x.all {
		if m.of == t {
			out = append(out, m)
		}
	}
	if t.recipe != nil {
		return append(out, x.headnotes(t)...)
	}
	return out
}

// headnotes are the places at which prose about recipes speaks of one by its whole
// name; of a name of one word only with a capital, for bread need not be the Bread.
func (x *index) headnotes(t target) (out []mention) {
	name := t.recipe.Name
	words := strings.Fields(name)
	for i := range words {
		words[i] = regexp.QuoteMeta(words[i])
	}
	fold := "(?i)"
	if len(words) < 2 {
		fold = ""
	}
	find := regexp.MustCompile(fold + strings.Join(words, " +"))
	var about []resolve.Text
	for _, r := range x.model.Recipes {
		if r.About != nil && r.About.Span.File == r.Span.File {
			about = append(about, r.About.Text)
		}
	}
	for _, s := range x.model.Series {
		about = append(about, s.Notes.About)
		for _, p := range s.Parts {
			about = append(about, p.Notes.About)
		}
	}
	for _, b := range x.model.Books {
		about = append(about, b.About)
		for _, c := range b.Chapters {
			about = append(about, c.About)
		}
	}
	for _, a := range about {
		text := a.Span.Text()
		for _, hit := range find.FindAllStringIndex(text, -1) {
			before, _ := utf8.DecodeLastRuneInString(text[:hit[0]])
			after, _ := utf8.DecodeRuneInString(text[hit[1]:])
			if at := a.Span.File.Span(a.Span.Start+hit[0], a.Span.Start+hit[1]); !unicode.IsLetter(before) && !unicode.IsLetter(after) && !slices.ContainsFunc(out, func(m mention) bool { return m.at == at }) {
				out = append(out, mention{at, t, false})
			}
		}
	}
	return out
}

// name is what a thing is called.
func (x *index) name(t target) string {
	switch {
	case t.recipe != nil:
		return t.recipe.Name
	case t.product != nil:
		return t.product.Name
	case t.kitchen != nil:
		return t.kitchen.Name
	}
	return path.Base(x.lines[t.line])
}

// allNames are the names of all things, each once.
func (x *index) allNames() (out []string) {
	met := map[string]bool{}
	for _, m := range x.all {
		if name := x.name(m.of); m.def && !met[name] {
			met[name] = true
			out = append(out, name)
		}
	}
	return out
}

// recipeAt is the recipe in whose text a place stands.
func (x *index) recipeAt(at source.Span) *resolve.Recipe {
	for _, r := range x.model.Recipes {
		if r.Span.File == at.File && r.Span.Start <= at.Start && at.End <= r.Span.End {
			return r
		}
	}
	return nil
}

// unquoted is a span without the quotation marks round it.
func unquoted(s source.Span) source.Span {
	s = trimmed(s)
	if text := s.Text(); len(text) > 1 && text[0] == '"' && text[len(text)-1] == '"' {
		return s.File.Span(s.Start+1, s.End-1)
	}
	return s
}

func trimmed(s source.Span) source.Span {
	if s.IsZero() {
		return s
	}
	text := s.Text()
	from := len(text) - len(strings.TrimLeft(text, " \t"))
	return s.File.Span(s.Start+from, s.Start+max(from, len(strings.TrimRight(text, " \t\r\n"))))
}
