package resolve

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// Series is a set of lessons or programmes that lead, part by part, to what is
// eaten in the end.
type Series struct {
	Scope    *Scope
	Name     string
	NameAt   source.Span
	Asked    bool
	Credits  []Credit
	Pictures []source.Span // its `picture` fields
	Notes    Notes
	Parts    []*Part // by number; of two with one number the first in the text comes first

	ast *ast.Series
}

// Part is one lesson of a series.
type Part struct {
	Number   int
	Name     string
	NameAt   source.Span
	Date     *time.Time // midnight, in UTC; nil when not said
	DateAt   source.Span
	Shows    []*Shown
	StandIns []*StandIn
	Moments  []Text // where its stand-ins stop, known or not
	Notes    Notes
	Credits  []Credit
	Pictures []source.Span // its `picture` fields
}

// Shown is what a part shows. Exactly one of Recipe and Menu is set.
type Shown struct {
	Span   source.Span
	Recipe *Recipe
	Menu   *Menu
}

// StandIn is what must be ready before a part: so many copies of a recipe, as
// far as a step has come, or finished.
type StandIn struct {
	Span   source.Span
	Count  int
	Recipe *Recipe
	Moment *Product // nil: finished
}

// series gives the names in every series their meaning.
func (b *builder) series() {
	for _, s := range b.model.Series {
		s.Notes = notesOf(s.ast.Items)
		for _, it := range s.ast.Items {
			switch x := it.(type) {
			case *ast.Common:
				switch x.Key {
				case "by", "source", "link", "licence":
					s.Credits = append(s.Credits, credit(x))
				case "picture":
					s.Pictures = append(s.Pictures, x.Span)
				}
			case *ast.Part:
				s.Parts = append(s.Parts, b.part(s, x))
			}
		}
		slices.SortStableFunc(s.Parts, func(x, y *Part) int { return cmp.Compare(x.Number, y.Number) })
	}
}

func (b *builder) part(s *Series, x *ast.Part) *Part {
	p := &Part{Number: x.Number, Name: x.Title.Text, NameAt: x.Title.Span, Pictures: pictures(x.Items), Notes: notesOf(x.Items)}
	for _, it := range x.Items {
		switch it := it.(type) {
		case *ast.PartDate:
			t := dayOf(it.Date)
			p.Date = &t
			if p.DateAt.IsZero() {
				p.DateAt = it.Span
			}
		case *ast.Common:
			switch it.Key {
			case "by", "source", "link", "licence":
				p.Credits = append(p.Credits, credit(it))
			}
		case *ast.Shows:
			if r := b.find(s.Scope, it.Ref.Text); r != nil {
				p.Shows = append(p.Shows, &Shown{Span: it.Span, Recipe: r})
			} else if m := b.menuNamed(s.Scope, it.Ref.Text); m != nil {
				p.Shows = append(p.Shows, &Shown{Span: it.Span, Menu: m})
			} else {
				b.unknownRecipe(s.Scope, nameText(it.Ref), "shown")
			}
		case *ast.Copies:
			if !it.As.IsZero() {
				p.Moments = append(p.Moments, nameText(it.As))
			}
			if in := b.standIn(s, it); in != nil {
				p.StandIns = append(p.StandIns, in)
			}
		}
	}
	return p
}

func (b *builder) standIn(s *Series, x *ast.Copies) *StandIn {
	r := b.find(s.Scope, x.Of.Text)
	if r == nil {
		b.unknownRecipe(s.Scope, nameText(x.Of), "stands in")
		return nil
	}
	in := &StandIn{Span: x.Span, Count: x.Count, Recipe: r}
	if x.As.IsZero() {
		return in
	}
	var made []string
	for _, p := range r.Products {
		if p.Key == b.fold(x.As.Text) {
			in.Moment = p
			return in
		}
		made = append(made, p.Name)
	}
	d := b.diags.Errorf("U140", x.As.Span, "no step of %s makes %q", r.Name, x.As.Text).
		Because("a copy that is not finished is made as far as a step that has a name").
		See(r.NameAt, "the recipe")
	if near := diag.Nearest(x.As.Text, made); near != "" {
		d.Replace("write "+near, false, x.As.Span, near).WithHelp("did you mean %q?", near)
	} else if len(made) > 0 {
		d.WithHelp("its steps make %s", strings.Join(made, ", "))
	}
	d.WithHelp("name the moment in the margin of its step: `| makes %s`", x.As.Text)
	return nil
}

// menuNamed finds a menu of a folder, or of those it stands in.
func (b *builder) menuNamed(s *Scope, name string) *Menu {
	key := b.fold(name)
	for ; s != nil; s = s.Parent {
		for _, m := range b.model.Menus {
			if m.Scope == s && b.fold(m.Name) == key {
				return m
			}
		}
	}
	return nil
}

// Recipes are the dishes and bases a part shows, each once: those of a menu are
// shown with it.
func (p *Part) Recipes() (out []*Recipe) {
	add := func(r *Recipe) {
		if r != nil && !slices.Contains(out, r) {
			out = append(out, r)
		}
	}
	for _, sh := range p.Shows {
		add(sh.Recipe)
		if sh.Menu == nil {
			continue
		}
		for _, c := range sh.Menu.Courses {
			for _, s := range c.Servings {
				add(s.Recipe)
			}
		}
	}
	return out
}
