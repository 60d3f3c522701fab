package resolve

import (
	"slices"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// Pin is what is fixed of one step of a dish for this meal.
type Pin struct {
	Span source.Span
	Step *Step
	At   *int     // when it begins, on the menu's clock; nil when not said
	By   []string // folded names of the cooks who may do it; empty: any
	Oven string   // folded; empty: any that will do
}

// Pin is what the menu fixes of a step; nil when nothing is.
func (s *Serving) Pin(of *Step) *Pin {
	if s == nil {
		return nil
	}
	for _, p := range s.Pins {
		if p.Step == of {
			return p
		}
	}
	return nil
}

// unmade reports lines for the steps of what is not made here.
func (b *builder) unmade(s *Serving, list []*ast.Pin, how string) {
	for _, x := range list {
		b.diags.Errorf("M115", x.Pos(), "%s is %s, so it has no step %d", s.Name, how, x.Step).
			WithHelp("take this line out, or write the recipe and leave out what stands behind its name")
	}
}

// pins gives the lines below a serving their meaning.
func (b *builder) pins(m *Menu, s *Serving, list []*ast.Pin, serve *ast.ServeAt) {
	for _, x := range list {
		if x.Step > len(s.Recipe.Steps) || x.Step < 1 {
			b.diags.Errorf("M115", x.Pos(), "%s has no step %d", s.Recipe.Name, x.Step).
				See(s.Recipe.NameAt, "it has %d", len(s.Recipe.Steps)).
				WithHelp("count the dashes of its method from the top")
			continue
		}
		if i := slices.IndexFunc(s.Pins, func(p *Pin) bool { return p.Step == s.Recipe.Steps[x.Step-1] }); i >= 0 {
			b.diags.Errorf("M115", x.Pos(), "step %d has a line already", x.Step).
				See(s.Pins[i].Span, "the other").
				WithHelp("put both into one, with a comma between them: `step %d: at 11:50, by Nell`", x.Step)
			continue
		}
		p := &Pin{Span: x.Span, Step: s.Recipe.Steps[x.Step-1]}
		if x.At != nil {
			if serve == nil {
				b.diags.Errorf("M115", x.Pos(), "this step has a clock time, and the menu has no serving time").
					WithHelp("write `on the table 2027-09-19 13:00` in the menu")
			} else {
				before := x.DaysBefore
				if !x.Date.IsZero() {
					before = daysBetween(x.Date, serve.Date)
				}
				at := clock(*x.At) - before*day
				at, _ = b.passed(m, x.Pos(), at)
				p.At = &at
			}
		}
		for _, n := range x.By {
			if m.Kitchen != nil && len(m.Kitchen.Cooks) > 0 && !slices.ContainsFunc(m.Kitchen.Cooks, func(c string) bool { return b.fold(c) == b.fold(n.Text) }) {
				d := b.diags.Errorf("M115", n.Span, "%s is no cook of %s", n.Text, m.Kitchen.Name)
				if near := diag.Nearest(n.Text, m.Kitchen.Cooks); near != "" {
					d.Replace("write "+near, false, n.Span, near).WithHelp("did you mean %q?", near)
				}
				continue
			}
			p.By = append(p.By, b.fold(n.Text))
		}
		if !x.Oven.IsZero() {
			p.Oven = b.fold(x.Oven.Text)
			switch {
			case len(p.Step.Heats) == 0:
				b.diags.Errorf("M115", x.Oven.Span, "step %d of %s is in no oven", x.Step, s.Recipe.Name).
					WithHelp("take `in %s` out, or give the step its `oven` in the recipe", x.Oven.Text)
				p.Oven = ""
			case m.Kitchen != nil && !slices.ContainsFunc(m.Kitchen.Ovens, func(o Oven) bool { return o.Key == p.Oven }):
				b.diags.Errorf("M115", x.Oven.Span, "%s has no oven called %q", m.Kitchen.Name, x.Oven.Text).
					WithHelp("write the name that it has in the kitchen")
				p.Oven = ""
			}
		}
		s.Pins = append(s.Pins, p)
	}
}
