package hazard

import (
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
)

// Thing is one thing that is bought or carried over, in a dish or in what the
// dish is made from, and what is known of it.
type Thing struct {
	Top    *resolve.Line   // the line of the dish that brings it
	Line   *resolve.Line   // of the list that it stands in: Top, or a line of a base
	Option *resolve.Option // the option that brings it, where nobody chose; nil: it is always there
	Item   *larder.Item    // nil: the built-in larder does not know it
	Known  bool            // somebody says what it is: the built-in larder, or the writer by `contains`

	// Contains is what it contains: what the writer's larder says, else what the
	// built-in one says. Perhaps is what the words of its name bring to mind where
	// neither knows it.
	Contains, Perhaps []larder.Content
}

// Name is the thing's name as it is listed, without a path.
func (t Thing) Name() string { return t.Line.Name[strings.LastIndexByte(t.Line.Name, '/')+1:] }

// Things are all things in some lines, through bases and by-products, in the
// order of the lists. A circle of bases is followed once.
func Things(lines []*resolve.Line) []Thing {
	var w walker
	w.lines(nil, nil, lines)
	return w.out
}

// AllThings are the things of a recipe by itself: those of its reading, and
// those of the options that nobody chose.
func AllThings(rd *resolve.Reading) []Thing {
	var w walker
	w.lines(nil, nil, rd.Lines)
	for _, c := range rd.Recipe.Choices {
		for _, o := range c.Options {
			if o != rd.Chosen[c] && !slices.ContainsFunc(o.Lines, func(l *resolve.Line) bool { return slices.Contains(rd.Lines, l) }) {
				w.lines(nil, o, o.Lines)
			}
		}
	}
	return w.out
}

// walker goes down through what lines are made from.
type walker struct {
	out   []Thing
	above []*resolve.Recipe
	by    map[come]*resolve.Line // by which line of the dish a recipe or making was last come to
}

// comesTo tells whether a recipe or making is come to for the first time by a line of
// the dish: what that line brings by several ways is there once.
func (w *walker) comesTo(what any, made *resolve.Product, top *resolve.Line) bool {
	if w.by == nil {
		w.by = map[come]*resolve.Line{}
	}
	if w.by[come{what, made}] == top {
		return false
	}
	w.by[come{what, made}] = top
	return true
}

// come is a recipe or a making, and which of its by-products is drawn; nil: all it gives.
type come struct {
	from any
	made *resolve.Product
}

func (w *walker) lines(top *resolve.Line, o *resolve.Option, lines []*resolve.Line) {
	for _, l := range lines {
		first := top
		if first == nil {
			first = l
		}
		from := l.From
		if l.Product != nil && l.Product.Recipe != l.Recipe {
			from = l.Product.Recipe
		}
		if l.Before != nil {
			from = l.Before
		}
		if from != nil && from.Reading != nil && !slices.Contains(w.above, from) {
			if w.comesTo(from, l.Product, first) {
				w.above = append(w.above, from)
				w.lines(first, o, linesTo(from.Reading, l.Product))
				w.above = w.above[:len(w.above)-1]
			}
			continue
		}
		w.out = append(w.out, thing(first, l, o))
	}
}

// linesTo are the lines of a reading that may be in what one of its steps gives: what went in
// by that step, and what no step is read to take. nil: all of them.
func linesTo(rd *resolve.Reading, made *resolve.Product) []*resolve.Line {
	if made == nil || made.Recipe != rd.Recipe {
		return rd.Lines
	}
	first := map[*resolve.Line]int{}
	for _, sr := range rd.Steps {
		for _, tk := range sr.Takes {
			if _, ok := first[tk.Line]; tk.Line != nil && !ok {
				first[tk.Line] = sr.Step.Index
			}
		}
	}
	var out []*resolve.Line
	for _, l := range rd.Lines {
		if n, taken := first[l]; taken && n <= made.Step.Index || !taken && !l.Serving {
			out = append(out, l)
		}
	}
	return out
}

func thing(top, l *resolve.Line, o *resolve.Option) Thing {
	t := Thing{Top: top, Line: l, Option: o}
	name := l.Name[strings.LastIndexByte(l.Name, '/')+1:]
	if l.Water {
		t.Known = true
		return t
	}
	for range 8 { // `same as` may lead on, and must not go round for ever
		own := said(l.Recipe.Scope, name)
		if f := own.Contains; f != nil {
			t.Known, t.Contains = true, ContentsSaid(f)
			break
		}
		k, ok := larder.Builtin().Know(name)
		if own.SameAs != nil {
			name = own.SameAs.Text
			continue
		}
		if ok {
			if f := said(l.Recipe.Scope, k.Name).Contains; f != nil {
				t.Contains = ContentsSaid(f) // the writer's own butter, softened
			} else {
				t.Contains = k.Item.Contains
			}
			t.Known = true
		}
		break
	}
	if k, ok := larder.Builtin().Know(name); ok {
		t.Item = k.Item
	}
	if !t.Known {
		for _, it := range larder.Builtin().Within(name) {
			t.Perhaps = append(t.Perhaps, it.Contains...)
		}
	}
	return t
}

// said is what the writer's larder says of a thing; an empty entry when it says
// nothing.
func said(s *resolve.Scope, name string) *resolve.Entry {
	if e := s.Entry(larder.Fold(name)); e != nil {
		return e
	}
	return &resolve.Entry{}
}

// ContentsSaid is what a `contains` names.
func ContentsSaid(f *resolve.ContainsFact) (out []larder.Content) {
	for _, n := range f.Substances {
		if s, ok := larder.Builtin().Substance(n.Text); ok {
			out = append(out, larder.Content{Substance: s})
		}
	}
	return out
}

// Allergens is what is known of some food, as one list of allergens names it.
type Allergens struct {
	Contains []string // by nature, sorted: "egg", "fish (cod)"
	Labels   []Label  // what only a label can tell, in the order of the lists
	Unknown  []string // what nobody knows: "grobbins", "bay cream (by its name perhaps milk)"
}

// Label is a thing whose label must be read, and for what: nothing is named
// where all that is known is that makers differ.
type Label struct {
	Thing string
	May   []string
}

// AllergenList is whose list of allergens holds: that of the practice, or the
// UK's where it has none.
func AllergenList(practice string) string {
	p := larder.Practice(practice)
	if len(larder.Builtin().Groups(p)) == 0 {
		return "UK"
	}
	return p
}

// AllergensOf adds up what some things contain, as the list of a practice names
// it. What only an option brings says so.
func AllergensOf(list string, things []Thing) (a Allergens) {
	sure := map[string]bool{}
	add := func(to *[]string, s string) {
		if !slices.Contains(*to, s) {
			*to = append(*to, s)
		}
	}
	for _, t := range things {
		for _, c := range larder.Builtin().Regulate(list, t.Contains) {
			if !c.Depends && t.Option == nil {
				sure[c.Named()] = true
			}
		}
	}
	for _, t := range things {
		name, with := t.Name(), ""
		if t.Option != nil {
			with = " (" + t.Option.Label + ")"
		}
		var may []string
		for _, c := range larder.Builtin().Regulate(list, t.Contains) {
			switch {
			case sure[c.Named()]:
				if !c.Depends {
					add(&a.Contains, c.Named())
				}
			case c.Depends:
				add(&may, c.Named())
			default:
				add(&a.Contains, c.Named()+with)
			}
		}
		if len(may) > 0 || t.Item != nil && t.Item.Has(larder.ReadLabel) {
			a.label(name+with, may)
		}
		if !t.Known {
			add(&a.Unknown, name+with+t.perhaps(list))
		}
	}
	slices.Sort(a.Contains)
	return a
}

func (a *Allergens) label(thing string, may []string) {
	i := slices.IndexFunc(a.Labels, func(l Label) bool { return l.Thing == thing })
	if i < 0 {
		i = len(a.Labels)
		a.Labels = append(a.Labels, Label{Thing: thing})
	}
	for _, m := range may {
		if !slices.Contains(a.Labels[i].May, m) {
			a.Labels[i].May = append(a.Labels[i].May, m)
		}
	}
}

// perhaps says what the words of an unknown name bring to mind.
func (t Thing) perhaps(list string) string {
	var names []string
	for _, c := range larder.Builtin().Regulate(list, t.Perhaps) {
		if n := c.Named(); !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return " (by its name perhaps " + strings.Join(names, ", ") + ")"
}

// LabelNames are the things whose labels must be read.
func (a Allergens) LabelNames() (out []string) {
	for _, l := range a.Labels {
		out = append(out, l.Thing)
	}
	return out
}
