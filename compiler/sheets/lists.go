package sheets

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/ast"
	"tamis/lang/quantity"
)

// entry is one row of a list that adds up the same thing over several dishes.
type entry struct {
	key, name string
	note      string
	sums      []quantity.Quantity // one for each kind of measure met
	units     []*quantity.Unit    // how the writer wrote each
	styles    []quantity.Style
	uses      []*demand.Amount
	unknown   bool // some dish gives no amount
}

// add puts a line's amount into the row.
func (e *entry) add(a *demand.Amount, st quantity.Style) {
	e.uses = append(e.uses, a)
	if a.Quantity == nil || a.Quantity.IsZero() {
		e.unknown = true
		return
	}
	for i := range e.sums {
		if e.sums[i].Same(*a.Quantity) {
			if sum, problem := e.sums[i].Add(*a.Quantity); problem == nil {
				e.sums[i] = sum
				return
			}
		}
	}
	e.sums = append(e.sums, *a.Quantity)
	e.styles = append(e.styles, st)
}

// amount prints the sum: kinds of measure that cannot be added stand side by side.
func (e *entry) amount() string {
	var parts []string
	for i, q := range e.sums {
		if p := q.Packs; p != nil && p.Count.High.IsInt() && !p.Count.IsRange() {
			text := quantity.Pieces(p.Count.High).Print(e.styles[i]) + " × " + p.Each.Print(e.styles[i])
			if p.Container != nil {
				text += " " + p.Container.For(p.Count)
			}
			parts = append(parts, text)
			continue
		}
		parts = append(parts, q.Print(e.styles[i]))
	}
	return strings.Join(parts, " + ")
}

// counted is the number by which the name is set in the plural.
func (e *entry) counted() (quantity.Number, bool) {
	if len(e.sums) == 1 && e.sums[0].Dim == quantity.None {
		return e.sums[0].Value.High, true
	}
	return quantity.Number{}, false
}

// title is the name in the right number, with the size the lines agree on.
func (e *entry) title() string {
	name := e.name
	if n, ok := e.counted(); ok {
		name = inNumber(name, n)
	}
	size := e.uses[0].Line.AST.Size
	for _, a := range e.uses {
		if a.Line.AST.Size != size {
			size = ""
		}
	}
	if size != "" {
		name = size + " " + name
	}
	return name
}

// shares says which dish takes how much: "B 150 g · D 300 g".
func (b *builder) shares(e *entry) []Run {
	var out []Run
	for i, a := range e.uses {
		if i > 0 {
			out = append(out, Run{Text: " · "})
		}
		out = append(out, Run{Text: b.mark(a.Making), Style: Strong, Link: b.linkTo(a.Making)})
		if text := b.showLine(a); text != "" && len(e.uses) > 1 {
			out = append(out, Run{Text: " " + text})
		}
	}
	return out
}

// mise is the mise-en-place list: everything that is cut, washed, weighed or
// measured, one row for each thing and cut, however many dishes want it.
func (b *builder) mise() *Sheet {
	var cut, weigh, made []*entry
	find := func(list *[]*entry, key, name, note string) *entry {
		for _, e := range *list {
			if e.key == key && e.note == note {
				return e
			}
		}
		e := &entry{key: key, name: name, note: note}
		*list = append(*list, e)
		return e
	}
	for _, m := range b.inOrder() {
		for _, a := range m.Lines {
			l := a.Line
			note := lineNote(l)
			name := shortName(l.Name)
			switch {
			case a.Source != nil || l.Carried != "":
				find(&made, l.Key, name, note).add(a, b.lineStyle(a))
			case l.AST.Note.Text != "" || len(l.Prep) > 0:
				find(&cut, l.Key, name, note).add(a, b.lineStyle(a))
			case l.Water:
			default:
				find(&weigh, l.Key, name, note).add(a, b.lineStyle(a))
			}
		}
	}
	t := &Table{Columns: []Column{
		{Kind: TickColumn}, {Title: "Amount", Kind: AmountColumn}, {Title: "What", Kind: TextColumn, Weight: 4},
		{Title: "For", Kind: TextColumn, Weight: 4}, {Title: "Where it stands", Kind: PencilColumn, Weight: 2},
	}}
	for _, part := range []struct {
		title string
		list  []*entry
	}{{"Wash, trim and cut", cut}, {"Weigh and measure", weigh}, {"From the bases and the larder shelf", made}} {
		if len(part.list) == 0 {
			continue
		}
		slices.SortStableFunc(part.list, func(x, y *entry) int { return strings.Compare(x.key, y.key) })
		g := Group{Title: part.title}
		for _, e := range part.list {
			what := Cell{Runs: []Run{{Text: e.title(), Style: Thing}}}
			if e.note != "" {
				what.Runs = append(what.Runs, Run{Text: ", " + e.note})
			}
			g.Rows = append(g.Rows, Row{Cells: []Cell{
				{}, {Runs: []Run{{Text: e.amount(), Style: Amount}}}, what, {Runs: b.shares(e)}, {},
			}})
		}
		t.Groups = append(t.Groups, g)
	}
	if len(t.Groups) == 0 {
		return nil
	}
	return &Sheet{
		ID: b.id("mise-en-place"), Kind: Mise, Title: "Mise-en-place",
		Facts:  []string{"each thing once, for all dishes that want it"},
		Blocks: []Block{t},
	}
}

func shortName(name string) string {
	if i := strings.LastIndexByte(name, '/'); i >= 0 {
		return name[i+1:]
	}
	return name
}

// shopping is the shopping list: everything that is bought, summed over the
// meal once, by counter of the shop; things of the cupboard apart.
func (b *builder) shopping() *Sheet {
	counters := map[string][]*entry{}
	seen := map[string]*entry{}
	for _, m := range b.inOrder() {
		for _, a := range m.Lines {
			l := a.Line
			if a.Source != nil || l.Carried != "" || l.Water {
				continue
			}
			key, name := b.shopName(l)
			e := seen[key]
			if e == nil {
				e = &entry{key: key, name: name}
				seen[key] = e
				c := b.counter(l)
				counters[c] = append(counters[c], e)
			}
			e.add(b.asBought(a), b.lineStyle(a))
		}
	}
	t := &Table{Columns: []Column{
		{Kind: TickColumn}, {Title: "Buy", Kind: AmountColumn}, {Title: "What", Kind: TextColumn, Weight: 3}, {Title: "For", Kind: TextColumn, Weight: 3},
	}}
	names := make([]string, 0, len(counters))
	for c := range counters {
		names = append(names, c)
	}
	order := larder.Builtin().Counters()
	slices.SortFunc(names, func(x, y string) int {
		return cmp.Or(cmp.Compare(rank(order, x), rank(order, y)), strings.Compare(x, y))
	})
	for _, c := range names {
		list := counters[c]
		slices.SortStableFunc(list, func(x, y *entry) int { return strings.Compare(x.key, y.key) })
		g := Group{Title: capital(c)}
		for _, e := range list {
			what := Cell{Runs: []Run{{Text: e.title(), Style: Thing}}}
			if sub := b.packText(e); sub != "" {
				what.Sub = []Run{{Text: sub, Style: Quiet}}
			}
			g.Rows = append(g.Rows, Row{Cells: []Cell{{}, {Runs: []Run{{Text: e.amount(), Style: Amount}}}, what, {Runs: b.shares(e)}}})
		}
		t.Groups = append(t.Groups, g)
	}
	if g := b.boughtDishes(); g != nil {
		t.Groups = append(t.Groups, *g)
	}
	if len(t.Groups) == 0 {
		return nil
	}
	return &Sheet{
		ID: b.id("shopping"), Kind: Shopping, Title: "Shopping list",
		Facts: []string{"weights as written in the recipes; tap water is not listed"}, Blocks: []Block{t},
	}
}

// Where a counter is not known, and where things are that most kitchens have.
const (
	cupboard  = "from the cupboard: check there is enough"
	elsewhere = "elsewhere"
)

func rank(order []string, c string) int {
	switch c {
	case cupboard:
		return len(order) + 2
	case elsewhere:
		return len(order) + 1
	}
	if i := slices.Index(order, c); i >= 0 {
		return i
	}
	return len(order)
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// shopName is the name a thing is bought by: where two names mean one thing,
// the larder's.
func (b *builder) shopName(l *resolve.Line) (key, name string) {
	if l.Recipe.Scope.Entry(l.Key) == nil {
		if it, ok := larder.Builtin().Find(l.Name); ok {
			return larder.Fold(it.Name), l.Name
		}
	}
	return l.Key, l.Name
}

// counter is where a thing is bought: the writer's larder rules, then the
// built-in one.
func (b *builder) counter(l *resolve.Line) string {
	it, known := larder.Builtin().Find(l.Name)
	if known && it.Cupboard {
		return cupboard
	}
	if f := fact(l, "buy"); f != nil {
		return strings.ToLower(f.Text.Text)
	}
	if known && it.Counter != "" {
		return it.Counter
	}
	return elsewhere
}

func fact(l *resolve.Line, key string) *ast.Fact {
	e := l.Recipe.Scope.Entry(l.Key)
	if e == nil {
		return nil
	}
	for i := range e.Facts {
		if e.Facts[i].Key == key {
			return &e.Facts[i]
		}
	}
	return nil
}

// asBought is a line's amount as it is bought: a `bought as` of the margin
// scales with the line.
func (b *builder) asBought(a *demand.Amount) *demand.Amount {
	l := a.Line
	if l.BoughtAs == nil || l.Quantity == nil || a.Quantity == nil || l.Quantity.Value.High.Sign() <= 0 {
		return a
	}
	q := l.BoughtAs.Scale(a.Quantity.Value.High.Div(l.Quantity.Value.High))
	c := *a
	c.Quantity = &q
	return &c
}

// packText says how many packs to take, by the packs the larder names.
func (b *builder) packText(e *entry) string {
	if len(e.sums) != 1 {
		return ""
	}
	f := fact(e.uses[0].Line, "packs")
	if f == nil {
		return ""
	}
	need := e.sums[0]
	var best quantity.Quantity
	bestCount := quantity.Number{}
	bestTotal := quantity.Number{}
	for _, p := range f.Packs {
		q, problem := p.Quantity(e.uses[0].Line.Recipe.System)
		if problem != nil || !q.Same(need) || q.Value.High.Sign() <= 0 {
			continue
		}
		n := need.Value.High.Div(q.Value.High).Ceil()
		total := n.Mul(q.Value.High)
		if bestCount.IsZero() || total.Less(bestTotal) || total.Equal(bestTotal) && n.Less(bestCount) {
			best, bestCount, bestTotal = q, n, total
		}
	}
	if bestCount.IsZero() {
		return ""
	}
	text := bestCount.String() + " × " + best.Print(e.styles[0])
	spare := need
	spare.Value = quantity.Exactly(bestTotal.Sub(need.Value.High))
	if spare.Value.High.Sign() > 0 {
		text += ", " + spare.Print(e.styles[0]) + " spare"
	}
	return text
}

// boughtDishes are the lines of the menu that are bought ready.
func (b *builder) boughtDishes() *Group {
	if b.meal.Menu == nil {
		return nil
	}
	g := &Group{Title: "Bought ready"}
	for _, c := range b.meal.Menu.Courses {
		for _, s := range c.Servings {
			if s.AST.Bought {
				amount := ""
				if s.Covers > 0 {
					amount = fmt.Sprintf("for %d", s.Covers)
				}
				g.Rows = append(g.Rows, Row{Cells: []Cell{{}, {Runs: []Run{{Text: amount, Style: Amount}}}, {Runs: []Run{{Text: s.Name, Style: Thing}}}, {Runs: []Run{{Text: c.Name}}}}})
			}
		}
	}
	if len(g.Rows) == 0 {
		return nil
	}
	return g
}

// vessels lists the pots, tins and tools the steps name, with the steps.
func (b *builder) vessels() *Sheet {
	type use struct {
		name  string
		holds string
		rows  []string
	}
	var list []*use
	note := func(name, holds, where string) {
		key := larder.Fold(name)
		for _, u := range list {
			if larder.Fold(u.name) == key {
				if u.holds == "" {
					u.holds = holds
				}
				if !slices.Contains(u.rows, where) {
					u.rows = append(u.rows, where)
				}
				return
			}
		}
		list = append(list, &use{name, holds, []string{where}})
	}
	for _, m := range b.inOrder() {
		number := 0
		for _, sr := range m.Reading.Steps {
			if b.skipped(m, sr.Step) {
				continue
			}
			number++
			where := fmt.Sprintf("%s %d", b.mark(m), number)
			for _, c := range sr.Step.AST.Clauses {
				switch c.Key {
				case "tool", "in":
					note(c.Name.Text, c.Measure.Print(b.style), where)
				case "into":
					note(fmt.Sprintf("%s (%d)", c.Name.Text, c.Count), "", where)
				}
			}
		}
	}
	if len(list) == 0 {
		return nil
	}
	slices.SortStableFunc(list, func(x, y *use) int { return strings.Compare(larder.Fold(x.name), larder.Fold(y.name)) })
	g := Group{}
	for _, u := range list {
		what := Cell{Runs: []Run{{Text: u.name, Style: Thing}}}
		if k := b.meal.Kitchen; k != nil {
			for _, v := range k.Vessels {
				if v.Key == larder.Fold(u.name) {
					text := fmt.Sprintf("%d in the kitchen", v.Count)
					if v.Holds != nil {
						text += ", holds " + b.show(*v.Holds, nil)
					}
					what.Sub = []Run{{Text: text, Style: Quiet}}
				}
			}
		}
		if u.holds != "" && what.Sub == nil {
			what.Sub = []Run{{Text: "holds " + u.holds, Style: Quiet}}
		}
		g.Rows = append(g.Rows, Row{Cells: []Cell{{}, what, {Runs: []Run{{Text: strings.Join(u.rows, ", ")}}}}})
	}
	t := &Table{
		Columns: []Column{{Kind: TickColumn}, {Title: "What", Kind: TextColumn, Weight: 3}, {Title: "Dish and step", Kind: TextColumn, Weight: 3}},
		Groups:  []Group{g},
	}
	return &Sheet{ID: b.id("vessels"), Kind: Vessels, Title: "Pots, tins and tools", Blocks: []Block{t}}
}
