package resolve

import (
	"strings"

	"tamis/compiler/larder"
	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// ownOf is what a recipe's own text says; of a field that is written twice, the
// first.
func ownOf(x *ast.Recipe) (o Own) {
	o.Notes = notesOf(x.Items)
	first := func(at *source.Span, n ast.Node) {
		if at.IsZero() {
			*at = n.Pos()
		}
	}
	for _, it := range x.Items {
		first(&o.First, it)
		switch it := it.(type) {
		case *ast.Gather, *ast.Method, *ast.About:
			first(&o.Part, it)
		case *ast.Serves:
			first(&o.Serves, it)
		case *ast.Makes:
			if o.Makes.IsZero() {
				o.Makes, o.Yield = it.Span, &it.Amount
			}
		case *ast.ServeHow:
			first(&o.ServeHow, it)
		case *ast.Tested:
			first(&o.Tested, it)
		case *ast.Keeps:
			first(&o.Keeps, it)
		case *ast.As:
			o.Like = nameText(it.Ref)
		case *ast.Common:
			o.common(it)
		}
	}
	return o
}

func (o *Own) common(c *ast.Common) {
	switch c.Key {
	case "rules":
		if o.Practice.Span.IsZero() {
			o.Practice = Text(c.Text)
		}
	case "by", "source", "link", "licence":
		o.Credits = append(o.Credits, credit(c))
	case "picture":
		o.Pictures = append(o.Pictures, c.Span)
	}
}

// credit is whom a `by`, `source` or `link` field names.
func credit(c *ast.Common) Credit {
	kind := By
	switch c.Key {
	case "source":
		kind = FromSource
	case "link":
		kind = Link
	case "licence":
		kind = Licence
	}
	return Credit{kind, Text(c.Text)}
}

// pictures are the `picture` fields among the items of a block.
func pictures[T ast.Node](items []T) (out []source.Span) {
	for _, it := range items {
		if c, ok := any(it).(*ast.Common); ok && c.Key == "picture" {
			out = append(out, c.Span)
		}
	}
	return out
}

func wordingOf(x *ast.Line) Wording {
	return Wording{
		Span: x.Span, NameAt: x.Name.Span, Quoted: x.Name.Quoted, Written: x.Amount, AmountText: x.AmountAt.Text, AmountAt: x.AmountAt.Span,
		Size: x.Size, Brackets: Text(x.Brackets), Note: Text(x.Note), Said: Text(x.Said),
	}
}

// recipe reads the fields and gather lines of a block.
func (b *builder) recipe(r *Recipe) {
	r.System = r.Scope.Units()
	c := b.inherit(r, nil)
	items := c.items
	r.renamed, r.numbers, r.Speaks = c.renamed, c.numbers, c.speaks
	for _, l := range c.gone {
		line := &Line{Wording: wordingOf(l), Recipe: r, Name: l.Name.Text, Key: b.fold(l.Name.Text), gone: true}
		line.look()
		r.gone = append(r.gone, line)
	}
	for _, it := range items {
		if u, ok := it.(*ast.Units); ok {
			if sys, ok := quantity.SystemNamed(u.System.Text); ok {
				r.System = sys
			}
		}
	}
	var list *ast.Gather
	for _, it := range items {
		switch x := it.(type) {
		case *ast.Serves:
			c := x.Count
			r.Serves, r.ServesEach = &c, x.Each
		case *ast.Makes:
			r.Makes = b.yield(r, x)
		case *ast.Keeps:
			r.Keeps = (*Keep)(&x.Keep)
		case *ast.Tested:
			c := x.Count
			r.Tested = &c
		case *ast.WholeBatches:
			r.WholeBatches = true
		case *ast.ServeHow:
			r.ServeHow = &ServeHow{x.Span, x.State, x.Within}
		case *ast.Takes:
			r.Takes = &Takes{x.Span, x.Total, x.Work}
		case *ast.About:
			r.About = &About{x.Span, Text(x.Text)}
		case *ast.Gather:
			b.gather(r, x.Items, nil, nil)
			list = x
		case *ast.Method:
			r.method = x
		}
	}
	if list != nil {
		b.percents(r, list)
	}
	b.namesTwice(r)
}

func (b *builder) yield(r *Recipe, x *ast.Makes) *Yield {
	q := b.amount(r, &x.Amount, x.Span)
	if q == nil {
		return nil
	}
	y := &Yield{Quantity: *q, What: x.Name.Text, Near: x.Near}
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
			s := &SubList{Name: x.Name.Text, NameAt: x.Name.Span, Key: b.fold(x.Name.Text)}
			r.SubLists = append(r.SubLists, s)
			b.gather(r, x.Items, s, opt)
		case *ast.Choice:
			c := &Choice{}
			r.Choices = append(r.Choices, c)
			for _, o := range x.Options {
				option := &Option{Choice: c, Label: o.Label.Text, LabelAt: o.Label.Span, Key: b.fold(o.Label.Text)}
				if first := r.option(option.Key); first != nil && !sameBlock(first, option, r) {
					b.diags.Errorf("U108", o.Label.Span, "%q is offered twice in %s", o.Label.Text, r.Name).
						See(first.LabelAt, "first offered here").
						WithHelp("two choices of one dish need different labels, since steps and menus name them")
				}
				c.Options = append(c.Options, option)
				b.gather(r, o.Items, sub, option)
			}
		}
	}
}

// sameBlock tells whether two options are written in the recipe's own block:
// then the parser has reported that they are called alike.
func sameBlock(a, b *Option, r *Recipe) bool {
	in := func(o *Option) bool {
		at, block := o.LabelAt, r.Span
		return at.File == block.File && at.Start >= block.Start && at.End <= block.End
	}
	return in(a) && in(b)
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
	l := &Line{Wording: wordingOf(x), Recipe: r, Index: len(r.Lines), Name: x.Name.Text, Key: b.fold(x.Name.Text), Sub: sub, Option: opt, was: r.renamed[x]}
	if whole, rest, ok := turnedRound(l.Name, l.Note.Text); ok && !x.Name.Quoted && r.Scope.Entry(l.Key) == nil {
		l.kind, l.Name, l.Key, l.Note.Text = strings.TrimSuffix(whole, " "+l.Name), whole, b.fold(whole), rest
	}
	l.look()
	b.measuredBy(r, l, x.Name.Quoted)
	r.Lines = append(r.Lines, l)
	if sub != nil {
		sub.Lines = append(sub.Lines, l)
		l.Serving = sub.Key == "serving"
	}
	if opt != nil {
		opt.Lines = append(opt.Lines, l)
	}
	l.Share = (*Share)(x.Share)
	for _, in := range x.Instead {
		l.Instead = append(l.Instead, &Instead{Wording: wordingOf(in), Name: in.Name.Text, Size: in.Size})
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
	sortPhases(l.Prep)
	if l.Item != nil && r.Scope.Entry(l.Key) == nil {
		l.Water = l.Item.Water
	}
}

// look looks the name of a line up in the built-in larder.
func (l *Line) look() {
	l.Item, _ = larder.Builtin().FindFolded(l.Key, l.Name)
	l.Known = larder.Builtin().Named(l.Name)
}

func (b *builder) lineClause(r *Recipe, l *Line, c ast.Clause) {
	switch c := c.(type) {
	case *ast.Timed:
		l.Prep = append(l.Prep, spell(c))
	case *ast.Mark:
		switch c.Word {
		case "to taste":
			l.ToTaste = true
		case "optional":
			l.Optional = true
		case "scales less":
			l.Law = Seasoning
		case "fixed":
			l.Law = Fixed
		case "whole":
			l.Law = Whole
		case "per vessel":
			l.Law = ByVessel
		case "by area":
			l.Law = ByArea
		case "as sold":
			l.AsBought = true
		case "trimmed":
			l.Net = true
		}
	case *ast.Note:
		switch c.Word {
		case "left from":
			l.Carried = "left from " + c.Text.Text
		case "caution":
			l.Cautions = append(l.Cautions, Text(c.Text))
		}
	case *ast.Hands:
		for _, n := range c.Cooks {
			l.By = append(l.By, b.fold(n.Text))
		}
	case *ast.InPart:
		l.Carried = "made in part " + quantity.Int(int64(c.Part)).String()
		l.InPart = c.Part
		if l.InPartAt.IsZero() {
			l.InPartAt = c.Span
		}
	case *ast.Weighed:
		l.Drained = true
	case *ast.Buy:
		l.BoughtAs, l.BuyName = b.measure(r, c.Measure, c.Span), c.Name.Text
	case *ast.From:
		l.Bought, l.Seller = true, sellerOf(c.Seller)
	case *ast.Stay: // keeps
		if l.Keeps == nil {
			k := Keep(c.Keep)
			l.Keeps = &k
		}
	}
}

// sellerOf is who sells a thing, by name; "" of the shop, which is any.
func sellerOf(s ast.Seller) string {
	if s.Shop() {
		return ""
	}
	return s.Name.Text
}

// percents works out baker's percentages. Each is of the sum of the flours
// that `gather, percent of …` names. The flours have weights of their own; or
// they are percentages too, and then what the block makes says how much dough
// there must be in all.
func (b *builder) percents(r *Recipe, g *ast.Gather) {
	flours, ok := b.flours(r, g)
	if !ok {
		return
	}
	var onePercent quantity.Quantity
	if len(flours) > 0 {
		if onePercent, ok = b.onePercent(r, flours); !ok {
			return
		}
	}
	for _, l := range r.Lines {
		a := l.Written
		if a == nil || a.Kind != quantity.Percent {
			continue
		}
		if len(flours) == 0 { // reported: by the parser, or because the flour is not in the list
			continue
		}
		q := onePercent.Scale(a.Percent)
		l.Quantity = &q
	}
}

// flours finds the lines that percentages are of.
func (b *builder) flours(r *Recipe, g *ast.Gather) (flours []*Line, ok bool) {
	ok = true
	for _, n := range g.PercentOf {
		line := r.lineNamed(b.fold(n.Text))
		if line == nil {
			b.diags.Errorf("U109", n.Span, "%s is not in this list, so nothing can be a percentage of it", n.Text).
				WithHelp("name a line of the list")
			ok = false
			continue
		}
		flours = append(flours, line)
		r.Speaks = append(r.Speaks, Spoken{nameText(n), line.NameAt})
	}
	r.PercentOf = flours
	return flours, ok
}

// onePercent is a hundredth of all the flour.
func (b *builder) onePercent(r *Recipe, flours []*Line) (quantity.Quantity, bool) {
	var weighed quantity.Quantity
	var shares quantity.Number
	for _, l := range flours {
		switch a := l.Written; {
		case a != nil && a.Kind == quantity.Percent:
			shares = shares.Add(a.Percent)
		case l.Quantity == nil:
			b.diags.Errorf("U110", l.Span, "%s needs a weight or a percentage, since other lines are percentages of it", l.Name)
			return weighed, false
		default:
			sum, problem := weighed.Add(*l.Quantity)
			if problem != nil {
				b.diags.Errorf("U111", l.Span, "the flours must be measured alike: %s", problem.Message)
				return weighed, false
			}
			weighed = sum
		}
	}
	hundred := quantity.Int(100)
	switch {
	case shares.IsZero():
		return weighed.Scale(one.Div(hundred)), true
	case !weighed.IsZero():
		b.diags.Errorf("U116", flours[0].Span, "some of the flours have weights, and some percentages").
			WithHelp("give all of them weights, or all of them percentages that add up to 100%%")
		return weighed, false
	case !shares.Equal(hundred):
		b.diags.Errorf("U117", flours[len(flours)-1].AmountAt, "the flours add up to %s%%, not 100%%", shares.Text(false)).
			Because("baker's percentages are of all the flour together")
		return weighed, false
	}
	dough, ok := r.doughWeight()
	if !ok {
		b.diags.Errorf("U118", flours[0].AmountAt, "nobody says how much dough this is").
			Because("all lines are percentages, so one weight is wanted").
			WithHelp("write what it makes: `makes 3 kg`, or `makes 12 pieces, 540 g each`").
			WithHelp("or give the flour its weight: `1 kg %s`", flours[0].Name)
		return weighed, false
	}
	var all quantity.Number
	for _, l := range r.Lines {
		if a := l.Written; a != nil && a.Kind == quantity.Percent {
			all = all.Add(a.Percent)
		}
	}
	return dough.Scale(one.Div(all)), true
}

// doughWeight is the weight of what the block makes.
func (r *Recipe) doughWeight() (quantity.Quantity, bool) {
	switch y := r.Makes; {
	case y == nil:
		return quantity.Quantity{}, false
	case y.Quantity.Dim == quantity.Mass:
		return y.Quantity, true
	case y.Each != nil && y.Each.Dim == quantity.Mass:
		return y.Each.Scale(y.Quantity.Value.High), true
	}
	return quantity.Quantity{}, false
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
		if l.Note.Text != "" && first.Note.Text != "" && !strings.EqualFold(l.Note.Text, first.Note.Text) {
			continue // warm water, and cold
		}
		if (first.Note.Text == "") != (l.Note.Text == "") && forWhat(first.Note.Text+l.Note.Text) {
			continue // butter, and butter for basting
		}
		l.again = true
		b.diags.Askf("U104", l.NameAt, "%s is gathered twice in this list", l.Name).
			Because("a sentence that says %q could mean either, and is read as the first", l.Name).
			See(first.NameAt, "the first is here").
			WithHelp("write one line with the whole amount, and say in the steps how it is shared out").
			WithHelp("or put each under its own `for the …`")
	}
}

func (b *builder) unknownRecipe(s *Scope, name Text, what string) {
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
