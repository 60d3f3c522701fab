package resolve

import (
	"math"
	"slices"
	"strings"

	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// link finds, for every gather line, the block that makes it. Only a whole
// name means a block. Products of steps are linked later, when the steps are
// known.
func (b *builder) link(r *Recipe) {
	for _, l := range r.Lines {
		for _, in := range l.Instead {
			if in.From = b.find(r.Scope, in.Name); in.From == r {
				in.From = nil
			}
		}
		if l.InPart > 0 {
			l.Before = b.find(r.Scope, l.Name)
		}
		if l.Bought || l.Carried != "" {
			continue
		}
		l.From = b.find(r.Scope, l.Name)
		if l.From == r && !r.Base {
			l.From = nil // a dish of potatoes called Potatoes: the shop's are meant
		}
		if l.From == r {
			b.diags.Errorf("U107", l.NameAt, "%s gathers itself", r.Name).
				WithHelp("write `| from the shop` after it if the shop's is meant").
				WithHelp("or name the block that really makes it")
			l.From = nil
		}
		b.pairOfBatches(l)
	}
}

// pairOfBatches compares the second measure of a line gathered in batches, "2
// batches (3 litres) stock", with what so many batches give.
func (b *builder) pairOfBatches(l *Line) {
	if l.From == nil || l.Written == nil || l.Written.Kind != quantity.Paired || l.Quantity == nil {
		return
	}
	also, problem := l.Written.Also.Quantity(l.Recipe.System)
	y := yieldOfBatches(l)
	if problem != nil || y == nil || y.Dim != also.Dim || y.Unit != also.Unit {
		return
	}
	gives := y.Scale(l.Quantity.Value.High).Value.High
	if off := gives.Sub(also.Value.High).Float(); math.Abs(off) <= 0.02*gives.Float() { // as of other pairs
		return
	}
	b.diags.Askf("Q115", l.AmountAt, "the two measures differ: %s of %s give %s", l.Written.Measure.String(), l.From.Name, l.From.Say(y.Scale(l.Quantity.Value.High))).
		See(l.From.NameAt, "made here").
		WithHelp("the first is reckoned with; correct the one that is wrong")
}

// maker is where a product of a step can be found by its plain name.
type maker struct {
	scope *Scope
	name  string
}

func (b *builder) allMakers() map[maker][]*Product {
	out := map[maker][]*Product{}
	for _, r := range b.model.Recipes {
		for _, p := range r.Products {
			k := maker{r.Scope, p.Key}
			out[k] = append(out[k], p)
		}
	}
	return out
}

// linkProducts finds lines that draw on what a step of another block makes:
// by plain name if only one block of the folder makes it, else as Block/name.
func (b *builder) linkProducts(r *Recipe) {
	for _, l := range r.Lines {
		b.linkBefore(r, l)
		if l.From != nil || l.Bought || l.Carried != "" {
			continue
		}
		var found []*Product
		if l.Written == nil && !l.Quoted && l.Name[0] >= '0' && l.Name[0] <= '9' {
			continue // "1 3/2 cups milk": an amount that did not read, which is reported
		}
		if i := strings.LastIndexByte(l.Name, '/'); i > 0 {
			if block := b.find(r.Scope, l.Name[:i]); block != nil {
				name := b.fold(l.Name[i+1:])
				for _, p := range block.Products {
					if p.Key == name {
						found = []*Product{p}
					}
				}
			}
			if found == nil {
				b.unknownInside(r, l, i)
				continue
			}
		} else {
			b.asking.name(aProduct, l.Key)
			for s := r.Scope; s != nil && found == nil; s = s.Parent {
				found = others(b.makers[maker{s, l.Key}], r)
			}
		}
		for _, p := range found {
			b.asking.draw(p.Recipe)
		}
		switch len(found) {
		case 0:
		case 1:
			l.Product = found[0]
		default:
			d := b.diags.Errorf("U113", l.NameAt, "%d blocks make %s", len(found), l.Name)
			for _, p := range found {
				d.See(p.Made.Span, "%s makes it here", p.Recipe.Name)
				d.WithHelp("write %s/%s", p.Recipe.Name, p.Name)
			}
		}
	}
}

// linkBefore finds whose by-product a line is that was made in an earlier part.
func (b *builder) linkBefore(r *Recipe, l *Line) {
	if l.InPart == 0 || l.Before != nil {
		return
	}
	name := b.fold(l.Name[strings.LastIndexByte(l.Name, '/')+1:])
	b.asking.name(aProduct, name)
	for s := r.Scope; s != nil && l.Before == nil; s = s.Parent {
		for _, p := range others(b.makers[maker{s, name}], r) {
			b.asking.draw(p.Recipe)
			l.Before = p.Recipe
		}
	}
}

// shares reports lines that gather a share of what nobody makes, or a share of
// which nobody can say how much it is.
func (b *builder) shares(r *Recipe) {
	for _, l := range r.Lines {
		if l.Share == nil || l.Carried != "" {
			continue
		}
		made := l.From != nil || l.Product != nil
		if made && !l.Share.Some && !l.Share.OfRest {
			continue
		}
		said := l.AmountText
		d := b.diags.Errorf("U125", l.AmountAt.To(l.NameAt), "how much is `%s %s`", said, l.Name)
		l.Share = nil
		switch {
		case made:
			d.Because("what is made must be shared out in parts that can be worked out").
				WithHelp("write an amount, `half the %s` or `the rest of the %s`", l.Name, l.Name)
			continue
		case l.Bought:
			d.Because("what is bought is bought in an amount")
		default:
			d.Because("no block and no step makes %s, so there is nothing to have a share of", l.Name)
			if near := b.nearMade(r, l.Name); near != "" {
				d.Replace("write "+near, false, l.NameAt, near)
			}
		}
		d.WithHelp("write an amount: `300 ml %s`", l.Name).
			WithHelp("if it is left from another day, say so: `%s %s | left from Saturday`", said, l.Name)
	}
}

// nearMade is what a recipe may have meant to gather a share of: a base, or what
// a step of another block makes.
func (b *builder) nearMade(r *Recipe, name string) string {
	b.asking.everything()
	if b.made == nil {
		b.made = b.makes(nil)
	}
	near := diag.Nearest(name, b.made)
	own := func(p *Product) bool { return p.Name == near }
	if near != "" && (near == strings.ToLower(r.Name) || slices.ContainsFunc(r.Products, own)) {
		return diag.Nearest(name, b.makes(r)) // not what it makes itself
	}
	return near
}

// makes lists what could be gathered a share of: bases, and what steps make. A
// recipe that is not nil is left out.
func (b *builder) makes(but *Recipe) (out []string) {
	for _, o := range b.model.Recipes {
		if o == but {
			continue
		}
		if o.Base {
			out = append(out, strings.ToLower(o.Name))
		}
		for _, p := range o.Products {
			if p.Quantity != nil {
				out = append(out, p.Name)
			}
		}
	}
	return out
}

// others leaves out what r makes itself, and what is only a name for a moment.
func others(ps []*Product, r *Recipe) (out []*Product) {
	for _, p := range ps {
		if p.Recipe != r && p.Quantity != nil {
			out = append(out, p)
		}
	}
	return out
}

func (b *builder) unknownInside(r *Recipe, l *Line, slash int) {
	block := b.find(r.Scope, l.Name[:slash])
	if block == nil {
		b.unknownRecipe(r.Scope, Text{l.Name, l.NameAt}, "gathered")
		return
	}
	d := b.diags.Errorf("U114", l.NameAt, "%s makes nothing called %q", block.Name, l.Name[slash+1:])
	var made []string
	for _, p := range block.Products {
		made = append(made, p.Name)
	}
	slices.Sort(made)
	if near := diag.Nearest(l.Name[slash+1:], made); near != "" {
		d.WithHelp("did you mean %s/%s?", block.Name, near)
	} else if len(made) > 0 {
		d.WithHelp("it makes %s", strings.Join(made, ", "))
	} else {
		d.WithHelp("say so in a step's margin there: `| makes 200 g %s`", l.Name[slash+1:])
	}
}

// products notes what a step, or a moment of it, makes or draws.
func (b *builder) products(r *Recipe, s *Step, m *Moment, c *Made) {
	if c.Name.IsZero() {
		return
	}
	p := &Product{Name: c.Name.Text, Key: b.fold(c.Name.Text), Recipe: r, Step: s, Moment: m, Made: c}
	if c.Amount != nil {
		p.Quantity = b.amount(r, c.Amount, c.Span)
	}
	for _, other := range r.Products {
		if other.Key == p.Key {
			b.diags.Errorf("U115", c.Name.Span, "two steps make %s", p.Name).
				See(other.Made.Span, "the first is here").
				WithHelp("call what they make by two names")
			return
		}
	}
	c.Product = p
	s.Makes = append(s.Makes, p)
	r.Products = append(r.Products, p)
}
