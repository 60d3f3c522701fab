package buying

import (
	"maps"
	"slices"
	"strings"
	"unicode"

	"tamis/compiler/demand"
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
	need quantity.Quantity // how much of it, measured as the whole gives it
	each quantity.Number   // how much of it one whole gives
	kind string            // parts of one kind come from one and the same piece of the whole
}

// The kinds of parts of a fruit.
const (
	juice = "juice"
	zest  = "zest"
)

// partWords are the words by which a name or a note says a part of a fruit.
var partWords = map[string]string{
	"juice": juice, "juiced": juice, "squeezed": juice, "zest": zest, "zested": zest, "rind": zest, "peel": zest,
}

// kindOf is the kind of a part: lemon juice is juice, whoever squeezed it.
func kindOf(name string) string {
	words := strings.Fields(larder.Fold(name))
	if k := partWords[words[len(words)-1]]; k != "" {
		return k
	}
	return larder.Fold(name)
}

// mostSqueezed is how many fruits are squeezed for their juice; more is bought in
// bottles. Common practice, no source.
var mostSqueezed = quantity.Int(24)

// whole brings parts over to the wholes they come from.
func (l *List) whole(items map[string]*Item) {
	wholes := map[string][]part{}
	names := map[string]string{}
	lines := map[string]*resolve.Line{}
	var order []string
	for _, it := range l.Items {
		p, name, ok := it.partOf()
		if !ok {
			if len(it.Buy) == 1 && it.Buy[0].Dim == quantity.None && len(it.inParts()) == 2 && names[it.Key] == "" && items[it.Key] == it { // two fruits for their juice, one for its zest
				order, names[it.Key], lines[it.Key] = append(order, it.Key), it.Name, it.first()
			}
			continue
		}
		key := larder.Fold(name)
		if names[key] == "" {
			order = append(order, key)
		}
		wholes[key] = append(wholes[key], p)
		names[key], lines[key] = name, it.first()
	}
	for _, key := range order {
		l.bringOver(items, key, names[key], lines[key], wholes[key])
	}
}

// partOf tells what an item is a part of, and how much of it there is.
func (it *Item) partOf() (p part, name string, ok bool) {
	if len(it.Buy) != 1 || it.Buy[0].Packs != nil {
		return p, "", false
	}
	need := it.Buy[0]
	if need.Dim == quantity.Mass { // juice by weight
		if need, ok = it.alike(need, quantity.Millilitres(quantity.Int(1))); !ok {
			return p, "", false
		}
	}
	if need.Dim != quantity.None && need.Dim != quantity.Volume {
		return p, "", false
	}
	name, each, ok := wholeOf(it, need.Dim == quantity.Volume)
	if !ok || need.Dim == quantity.Volume && mostSqueezed.Less(need.Value.High.Div(each)) {
		return p, "", false
	}
	return part{it, need, each, kindOf(it.Key)}, name, true
}

// inParts is how many pieces of a fruit are used for one of its parts alone: for
// their zest, by "1 lemon, zested", where no sentence asks more of it.
func (it *Item) inParts() map[string]quantity.Range {
	out := map[string]quantity.Range{}
	for _, u := range it.Uses {
		if k := onlyFor(u.Amount); k != "" && u.Quantity != nil && u.Quantity.Dim == quantity.None {
			r := out[k]
			out[k] = quantity.Range{Low: r.Low.Add(u.Quantity.Value.Low), High: r.High.Add(u.Quantity.Value.High)}
		}
	}
	return out
}

// onlyFor is the part for which alone a line of fruit is gathered; empty where it
// goes in whole, or nobody can tell.
func onlyFor(a *demand.Amount) string {
	kind := ""
	for _, w := range strings.FieldsFunc(larder.Fold(a.Line.Note.Text), notLetter) {
		switch k := partWords[w]; {
		case k != "" && kind != "" && k != kind:
			return ""
		case k != "":
			kind = k
		case strings.HasPrefix(w, "halve") || strings.HasPrefix(w, "slice") || strings.HasPrefix(w, "quarter") || strings.HasPrefix(w, "wedge") || w == "half" || w == "flesh":
			return ""
		}
	}
	if kind == "" {
		return ""
	}
	for _, sr := range a.Making.Reading.Steps {
		if !slices.ContainsFunc(sr.Takes, func(t resolve.Take) bool { return t.Line == a.Line }) {
			continue
		}
		for _, w := range strings.FieldsFunc(larder.Fold(wordsBeside(sr, a.Line)), notLetter) {
			if k := partWords[w]; k != "" && k != kind || strings.HasPrefix(w, "squeez") && kind != juice || strings.HasPrefix(w, "slice") || strings.HasPrefix(w, "wedge") || strings.HasPrefix(w, "flesh") {
				return ""
			}
		}
	}
	return kind
}

// wordsBeside are the words of a step without the names of what else it takes.
func wordsBeside(sr *resolve.StepReading, l *resolve.Line) string {
	var out strings.Builder
	for _, line := range sr.Step.Lines {
		text := []byte(line.Span.File.Text[line.Span.Start:line.Span.End])
		for _, t := range sr.Takes {
			if at := t.NameAt; t.Line != l && at.File == line.Span.File && line.Span.Start <= at.Start && at.End <= line.Span.End {
				copy(text[at.Start-line.Span.Start:at.End-line.Span.Start], strings.Repeat(" ", at.End-at.Start))
			}
		}
		out.Write(text)
		out.WriteByte(' ')
	}
	return out.String()
}

func notLetter(r rune) bool { return !unicode.IsLetter(r) }

// bringOver puts the parts on the whole's row.
func (l *List) bringOver(items map[string]*Item, key, name string, line *resolve.Line, parts []part) {
	it := items[key]
	if it != nil && (len(it.Buy) != 1 || it.Buy[0].Dim != quantity.None) {
		return // eggs by weight: nobody can say how many are whole
	}
	if it == nil && len(parts) == 0 {
		return
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
	wanted := it.inParts()
	own := quantity.Range{}
	for _, k := range []string{zest, juice} {
		if r := wanted[k]; r.High.Sign() > 0 {
			own = quantity.Range{Low: own.Low.Add(r.Low), High: own.High.Add(r.High)}
			it.note(true, "%s for the %s", quantity.Quantity{Value: r}.Print(it.noteStyle(line)), k)
		}
	}
	for _, p := range parts {
		r := wanted[p.kind]
		wanted[p.kind] = quantity.Range{Low: r.Low.Add(p.need.Value.High.Div(p.each)), High: r.High.Add(p.need.Value.High.Div(p.each))}
	}
	most := quantity.Range{}
	for _, r := range wanted {
		most = quantity.Range{Low: quantity.Max(most.Low, r.Low), High: quantity.Max(most.High, r.High)}
	}
	for _, p := range parts {
		need := p.item.Buy[0]
		st, ok := p.item.styles[need.Dim]
		if !ok {
			st = p.item.noteStyle(p.item.first())
		}
		text, _ := need.Total(st) // the sum of what is printed for each dish
		if need.Dim == quantity.None {
			text = need.Print(st)
		}
		it.note(true, "%s %s", text, plural(p.item.Name, need))
		spare := need
		spare.Value = quantity.Exactly(most.High.Ceil().Mul(p.each).Sub(p.need.Value.High))
		if spare.Value.High.Sign() > 0 && need.Dim == quantity.None { // of juice that is over nobody speaks
			it.note(true, "%s %s left over", spare.Print(st), plural(p.item.Name, spare))
		}
		it.Uses = append(it.Uses, p.item.Uses...)
		l.Items = slices.DeleteFunc(l.Items, func(o *Item) bool { return o == p.item })
		delete(items, p.item.Key)
	}
	for _, g := range givenBy(line, name) {
		wanted := g.each.IsZero() || slices.ContainsFunc(parts, func(p part) bool { return p.item.Key == larder.Fold(g.name) })
		if left := most.High.Ceil().Mul(g.each); !wanted && left.Sign() > 0 {
			q := quantity.Pieces(left)
			it.note(true, "%s %s left over", q.Print(it.fig.Style()), plural(g.name, q))
		}
	}
	it.Buy[0] = it.Buy[0].Scale(quantity.Int(1))
	it.Buy[0].Value.Low = it.Buy[0].Value.Low.Sub(own.Low).Add(most.Low)
	it.Buy[0].Value.High = it.Buy[0].Value.High.Sub(own.High).Add(most.High)
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
func wholeOf(it *Item, byVolume bool) (name string, each quantity.Number, ok bool) {
	key := it.Key
	if of, part, known := larder.Builtin().FindPart(it.Name); known && partWords[part] == zest { // "grated orange zest"
		key = larder.Fold(of.Name + " " + zest)
	}
	if e := it.entry(it.first()); byVolume && e != nil && (e.Buy != nil && !strings.EqualFold(e.Buy.Text, "greengrocer") || e.Price != nil || e.Packs != nil) || it.first().Seller != "" {
		return "", quantity.Number{}, false // the writer buys it as it is
	}
	for s := it.first().Recipe.Scope; s != nil; s = s.Parent {
		for _, key := range slices.Sorted(maps.Keys(s.Entries)) {
			e := s.Entries[key]
			for _, g := range e.Gives {
				if !byVolume && larder.Fold(g.Name.Text) == it.Key && g.Count.Sign() > 0 {
					return e.Name, g.Count, true
				}
			}
		}
	}
	for _, b := range larder.Builtin().Items() {
		for _, g := range b.Gives {
			if (g.Unit == "each" && !byVolume || g.Unit == "ml" && byVolume) && larder.Fold(g.Name) == key && g.Amount.Value.Sign() > 0 {
				return b.Name, g.Amount.Value, true
			}
		}
	}
	return "", quantity.Number{}, false
}
