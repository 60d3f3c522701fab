package buying

import (
	"maps"
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// Some things are bought whole and used in parts: 48 whites and 48 yolks are
// 48 eggs. A whole serves every part at once, so the parts that are wanted
// most decide how many are bought; those that are left are named.

// part is one thing a whole gives.
type part struct {
	item *Item
	each quantity.Number // how many of it one whole gives
}

// mostSqueezed is how many fruits are squeezed for their juice; more is bought in
// bottles. Common practice, no source.
var mostSqueezed = quantity.Int(24)

// whole brings parts that are counted over to the wholes they come from.
func (l *List) whole(items map[string]*Item) {
	wholes := map[string][]part{}
	names := map[string]string{}
	lines := map[string]*resolve.Line{}
	var order []string
	for _, it := range l.Items {
		if len(it.Buy) != 1 || it.Buy[0].Packs != nil || it.Buy[0].Dim != quantity.None && it.Buy[0].Dim != quantity.Volume {
			continue
		}
		name, each, ok := wholeOf(it)
		if !ok || it.Buy[0].Dim == quantity.Volume && mostSqueezed.Less(it.Buy[0].Value.High.Div(each)) {
			continue
		}
		key := larder.Fold(name)
		if wholes[key] == nil {
			order = append(order, key)
		}
		wholes[key] = append(wholes[key], part{it, each})
		names[key], lines[key] = name, it.first()
	}
	for _, key := range order {
		l.bringOver(items, key, names[key], lines[key], wholes[key])
	}
}

// bringOver puts the parts on the whole's row.
func (l *List) bringOver(items map[string]*Item, key, name string, line *resolve.Line, parts []part) {
	it := items[key]
	if it != nil && (len(it.Buy) != 1 || it.Buy[0].Dim != quantity.None) {
		return // eggs by weight: nobody can say how many are whole
	}
	if it == nil {
		it = &Item{fig: parts[0].item.fig, Key: key, Name: name, Counter: parts[0].item.Counter, Cupboard: parts[0].item.Cupboard, Known: true}
		if b, ok := larder.Builtin().Find(name); ok && b.Counter != "" {
			it.Counter = b.Counter
		}
		zero := quantity.Pieces(quantity.Number{})
		it.Buy = []quantity.Quantity{zero}
		l.Items = append(l.Items, it)
		items[key] = it
	}
	most := quantity.Number{}
	for _, p := range parts {
		most = quantity.Max(most, p.item.Buy[0].Value.High.Div(p.each))
	}
	for _, p := range parts {
		st := p.item.noteStyle(p.item.first())
		need := p.item.Buy[0]
		it.note(true, "%s %s", need.Print(st), plural(p.item.Name, need))
		spare := need
		spare.Value = quantity.Exactly(most.Ceil().Mul(p.each).Sub(need.Value.High))
		if spare.Value.High.Sign() > 0 && need.Dim == quantity.None { // of juice that is over nobody speaks
			it.note(true, "%s %s left over", spare.Print(st), plural(p.item.Name, spare))
		}
		it.Uses = append(it.Uses, p.item.Uses...)
		l.Items = slices.DeleteFunc(l.Items, func(o *Item) bool { return o == p.item })
		delete(items, p.item.Key)
	}
	for _, g := range givenBy(line, name) {
		wanted := g.each.IsZero() || slices.ContainsFunc(parts, func(p part) bool { return p.item.Key == larder.Fold(g.name) })
		if left := most.Ceil().Mul(g.each); !wanted && left.Sign() > 0 {
			q := quantity.Pieces(left)
			it.note(true, "%s %s left over", q.Print(it.fig.Style()), plural(g.name, q))
		}
	}
	it.Buy[0] = it.Buy[0].Scale(quantity.Int(1))
	it.Buy[0].Value.Low = it.Buy[0].Value.Low.Add(most)
	it.Buy[0].Value.High = it.Buy[0].Value.High.Add(most)
	for i := range it.How { // what was said of it before is said as well
		it.How[i].Shown = true
	}
	it.used = slices.Clone(it.Buy) // whole ones are used up, and their parts with them
	it.Parts = true
}

func plural(name string, q quantity.Quantity) string {
	switch {
	case q.Dim != quantity.None: // "80 ml lemon juice"
		return name
	case quantity.Int(1).Less(q.Value.High):
		return larder.PluralName(name)
	}
	if it, ok := larder.Builtin().Find(name); ok { // written as "egg whites"
		return it.Name
	}
	return name
}

// given is one of the things a whole gives.
type given struct {
	name string
	each quantity.Number
}

// givenBy lists what one of a thing gives in number: by the writer's larder,
// else by the built-in one.
func givenBy(l *resolve.Line, name string) (out []given) {
	if e := l.Recipe.Scope.Entry(larder.Fold(name)); e != nil {
		for _, g := range e.Gives {
			out = append(out, given{g.Name.Text, g.Count})
		}
	}
	if b, ok := larder.Builtin().Find(name); ok && out == nil {
		for _, g := range b.Gives {
			if g.Unit == "each" {
				out = append(out, given{g.Name, g.Amount.Value})
			}
		}
	}
	return out
}

// wholeOf says what a part comes from: by the writer's larder, else by the
// built-in one, and then only where one gives a count.
func wholeOf(it *Item) (name string, each quantity.Number, ok bool) {
	juice := it.Buy[0].Dim == quantity.Volume
	if e := it.entry(it.first()); juice && e != nil && (e.Buy != nil && !strings.EqualFold(e.Buy.Text, "greengrocer") || e.Price != nil || e.Packs != nil) || it.first().Seller != "" {
		return "", quantity.Number{}, false // the writer buys it as it is
	}
	for s := it.first().Recipe.Scope; s != nil; s = s.Parent {
		for _, key := range slices.Sorted(maps.Keys(s.Entries)) {
			e := s.Entries[key]
			for _, g := range e.Gives {
				if !juice && larder.Fold(g.Name.Text) == it.Key && g.Count.Sign() > 0 {
					return e.Name, g.Count, true
				}
			}
		}
	}
	for _, b := range larder.Builtin().Items() {
		for _, g := range b.Gives {
			if (g.Unit == "each" && !juice || g.Unit == "ml" && juice) && larder.Fold(g.Name) == it.Key && g.Amount.Value.Sign() > 0 {
				return b.Name, g.Amount.Value, true
			}
		}
	}
	return "", quantity.Number{}, false
}
