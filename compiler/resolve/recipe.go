package resolve

import (
	"strings"

	"tamis/compiler/larder"
	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// recipe reads the fields and gather lines of a block.
func (b *builder) recipe(r *Recipe) {
	r.System = r.Scope.Units()
	items := b.items(r, nil)
	for _, it := range items {
		if u, ok := it.(*ast.Units); ok {
			if sys, ok := systemNamed(u.System.Text); ok {
				r.System = sys
			}
		}
	}
	for _, it := range items {
		switch x := it.(type) {
		case *ast.Serves:
			c := x.Count
			r.Serves, r.ServesEach = &c, x.Each
		case *ast.Makes:
			r.Makes = b.yield(r, x)
		case *ast.Keeps:
			r.Keeps = &x.Keep
		case *ast.Tested:
			c := x.Count
			r.Tested = &c
		case *ast.WholeBatches:
			r.WholeBatches = true
		case *ast.ServeHow:
			r.ServeHow = x
		case *ast.Takes:
			r.Takes = x
		case *ast.About:
			r.About = x
		case *ast.Gather:
			b.gather(r, x.Items, nil, nil)
			b.percents(r, x)
		case *ast.Method:
			r.method = x
		}
	}
	b.namesTwice(r)
}

func (b *builder) yield(r *Recipe, x *ast.Makes) *Yield {
	q := b.amount(r, &x.Amount, x.Span)
	if q == nil {
		return nil
	}
	y := &Yield{Quantity: *q, What: x.Name.Text}
	if len(x.Each.Terms) > 0 {
		y.Each = b.measure(r, x.Each, x.Span)
	}
	return y
}

// gather reads lines through sub-lists and choices.
func (b *builder) gather(r *Recipe, items []ast.GatherItem, sub *SubList, opt *Option) {
	for _, it := range items {
		switch x := it.(type) {
		case *ast.Line:
			b.line(r, x, sub, opt)
		case *ast.SubList:
			s := &SubList{AST: x, Name: x.Name.Text, Key: b.fold(x.Name.Text)}
			r.SubLists = append(r.SubLists, s)
			b.gather(r, x.Items, s, opt)
		case *ast.Choice:
			c := &Choice{}
			r.Choices = append(r.Choices, c)
			for _, o := range x.Options {
				option := &Option{AST: o, Choice: c, Label: o.Label.Text, Key: b.fold(o.Label.Text)}
				if first := r.option(option.Key); first != nil {
					b.diags.Errorf("U108", o.Label.Span, "%q is offered twice in %s", o.Label.Text, r.Name).
						See(first.AST.Label.Span, "first offered here").
						WithHelp("two choices of one dish need different labels, since steps and menus name them")
				}
				c.Options = append(c.Options, option)
				b.gather(r, o.Items, sub, option)
			}
		}
	}
}

// option finds a label among all choices of the recipe.
func (r *Recipe) option(key string) *Option {
	for _, c := range r.Choices {
		for _, o := range c.Options {
			if o.Key == key {
				return o
			}
		}
	}
	return nil
}

func (b *builder) line(r *Recipe, x *ast.Line, sub *SubList, opt *Option) {
	l := &Line{AST: x, Recipe: r, Index: len(r.Lines), Name: x.Name.Text, Key: b.fold(x.Name.Text), Sub: sub, Option: opt}
	r.Lines = append(r.Lines, l)
	if sub != nil {
		sub.Lines = append(sub.Lines, l)
		l.Serving = sub.Key == "serving"
	}
	if opt != nil {
		opt.Lines = append(opt.Lines, l)
	}
	if x.Amount != nil {
		switch x.Amount.Kind {
		case quantity.PerHead:
			l.Law = PerHead
		case quantity.Percent: // worked out when all lines are read
		default:
			l.Quantity = b.amount(r, x.Amount, x.AmountAt.Span)
		}
	}
	for _, c := range x.Clauses {
		b.lineClause(r, l, c)
	}
	if e := r.Scope.Entry(l.Key); e == nil {
		if it, ok := larder.Builtin().Find(l.Name); ok {
			l.Water = it.Water
		}
	}
}

func (b *builder) lineClause(r *Recipe, l *Line, c *ast.Clause) {
	switch c.Key {
	case "work", "watch", "leave":
		l.Prep = append(l.Prep, b.spell(r, c))
	case "to taste":
		l.ToTaste = true
	case "optional":
		l.Optional = true
	case "bought":
		l.Bought = true
	case "seasoning":
		l.Law = Seasoning
	case "fixed":
		l.Law = Fixed
	case "whole":
		l.Law = Whole
	case "per vessel":
		l.Law = ByVessel
	case "by area":
		l.Law = ByArea
	case "left from":
		l.Carried = "left from " + c.Text.Text
	case "made in part":
		l.Carried = "made in part " + quantity.Int(int64(c.Count)).String()
	case "bought as":
		l.BoughtAs = b.measure(r, c.Measure, c.Span)
	}
}

// spell keeps the parts of a length of time for scaling.
func (b *builder) spell(r *Recipe, c *ast.Clause) Spell {
	s := Spell{Kind: SpellKind(c.Key), Clause: c, Place: c.Place}
	switch c.Key {
	case "rest":
		s.Kind, s.Place = Leave, "room"
	case "stand", "thaw":
		s.Kind = Leave
	}
	if c.Spell != nil {
		s.Fixed, s.Per, s.Each, s.Every = c.Spell.Fixed, c.Spell.Per, c.Spell.Each, c.Spell.Every
	}
	return s
}

// percents works out baker's percentages: each is of the sum of the lines that
// `gather, percent of …` names.
func (b *builder) percents(r *Recipe, g *ast.Gather) {
	var flour *quantity.Quantity
	for _, n := range g.PercentOf {
		line := r.lineNamed(b.fold(n.Text))
		switch {
		case line == nil:
			b.diags.Errorf("U109", n.Span, "%s is not in this list, so nothing can be a percentage of it", n.Text).
				WithHelp("name a line of the list, with its weight")
		case line.Quantity == nil:
			b.diags.Errorf("U110", line.AST.Span, "%s needs a weight, since other lines are percentages of it", line.Name)
		case flour == nil:
			q := *line.Quantity
			flour = &q
			r.PercentOf = append(r.PercentOf, line)
		default:
			sum, err := flour.Add(*line.Quantity)
			if err != nil {
				b.diags.Errorf("U111", n.Span, "the lines that percentages are of must be measured alike: %s", err.Message)
				continue
			}
			flour = &sum
			r.PercentOf = append(r.PercentOf, line)
		}
	}
	for _, l := range r.Lines {
		a := l.AST.Amount
		if a == nil || a.Kind != quantity.Percent {
			continue
		}
		if len(g.PercentOf) == 0 {
			b.diags.Errorf("U112", l.AST.AmountAt.Span, "%s is a percentage, but of what", l.AST.AmountAt.Text).
				WithHelp("write `gather, percent of strong flour` at the head of the list, or a weight here").
				WithHelp("if the figure belongs to the name, quote it: `\"%s %s\"`", l.AST.AmountAt.Text, l.Name)
			continue
		}
		if flour != nil {
			q := flour.Scale(a.Percent.Div(quantity.Int(100)))
			l.Quantity = &q
		}
	}
}

func (r *Recipe) lineNamed(key string) *Line {
	for _, l := range r.Lines {
		if l.Key == key {
			return l
		}
	}
	return nil
}

// namesTwice reports a name that stands twice in one list.
func (b *builder) namesTwice(r *Recipe) {
	type place struct {
		sub *SubList
		key string
	}
	seen := map[place]*Line{}
	for _, l := range r.Lines {
		p := place{l.Sub, l.Key}
		first := seen[p]
		if first == nil {
			seen[p] = l
			continue
		}
		if first.Option != l.Option {
			continue // only one of the two is ever there
		}
		b.diags.Errorf("U104", l.AST.Name.Span, "%s is gathered twice in this list", l.Name).
			Because("a sentence that says %q could mean either", l.Name).
			See(first.AST.Name.Span, "the first is here").
			WithHelp("write one line with the whole amount, and say in the steps how it is shared out").
			WithHelp("or put each under its own `for the …`")
	}
}

func (b *builder) unknownRecipe(s *Scope, name ast.Name, what string) {
	d := b.diags.Errorf("U105", name.Span, "there is no dish or base called %q in this folder", name.Text).
		Labelled("%s this", what)
	if near := diag.Nearest(name.Text, b.names(s)); near != "" {
		d.Replace("write "+near, false, name.Span, near)
		d.WithHelp("did you mean %q?", near)
	}
	if strings.Contains(name.Text, "/") {
		d.WithHelp("a name with a slash starts at the book's root: folder/Name")
	}
}
