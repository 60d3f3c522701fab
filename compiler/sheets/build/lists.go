package build

import (
	"fmt"
	"strings"

	"tamis/compiler/buying"
	"tamis/compiler/demand"
	"tamis/compiler/figures"
	"tamis/compiler/larder"
	"tamis/compiler/sheets"
	"tamis/lang/quantity"
)

// entry is one row of a list that adds up the same thing over several dishes.
type entry struct {
	key, name string
	uses      []*demand.Amount
	steps     map[*demand.Amount]int // the step that takes each use, where it is said
}

// amount prints the sum: kinds of measure that cannot be added stand side by side.
func (b *builder) amount(e *entry) string {
	if len(e.uses) == 1 {
		return b.showLine(e.uses[0])
	}
	var parts []string
	for _, f := range b.fig.Sum(e.uses) {
		parts = append(parts, f.Text)
	}
	return figures.Join(parts)
}

// title is the name in the right number, with the size the lines agree on.
func (b *builder) title(e *entry) string {
	name := e.name
	if sums := b.fig.Sum(e.uses); len(sums) == 1 && sums[0].Quantity.Dim == quantity.None {
		name = figures.InNumber(name, sums[0].Quantity.Value.High)
	}
	size := e.uses[0].Line.Size
	for _, a := range e.uses {
		if a.Line.Size != size {
			size = ""
		}
	}
	if size != "" {
		name = size + " " + name
	}
	return name
}

// shares says which dish takes how much: "B 150 g · D 300 g".
func (b *builder) shares(e *entry) []sheets.Run {
	var out []sheets.Run
	for i, a := range e.uses {
		if i > 0 {
			out = append(out, sheets.Run{Text: "\u00a0· "}) // no line begins with the dot
		}
		name, style := b.mark(a.Making), sheets.Strong
		if b.unmarked {
			name, style = a.Making.Recipe.Name, sheets.Plain
		}
		out = append(out, sheets.Run{Text: name, Style: style, Link: b.linkTo(a.Making)})
		if n, ok := e.steps[a]; ok && n > 0 {
			out = append(out, sheets.Run{Text: fmt.Sprint(n), Style: sheets.Strong, Link: b.linkTo(a.Making)})
		}
		if text := b.fig.Line(a).Text; text != "" && len(e.uses) > 1 {
			out = append(out, sheets.Run{Text: "\u00a0" + text}) // nor parts a dish from its amount
		}
	}
	return out
}

func shortName(name string) string {
	if i := strings.LastIndexByte(name, '/'); i >= 0 {
		return name[i+1:]
	}
	return name
}

// shopping is the shopping list, by counter of the shop; things of the
// cupboard come last.
func (b *builder) shopping() *sheets.Sheet {
	list := b.buying()
	t := &sheets.Table{Columns: []sheets.Column{
		{Kind: sheets.TickColumn}, {Title: "Buy", Kind: sheets.AmountColumn}, {Title: "What", Kind: sheets.TextColumn, Weight: 3}, {Title: "For", Kind: sheets.TextColumn, Weight: 3},
	}}
	days := b.shopDays()
	for _, x := range b.byDay(list.Items, days) {
		note := ""
		if len(days) > 1 && !x.of.Cupboard {
			note = b.dayTitle(x.day)
		}
		g := atCounter(t, x.of, note)
		g.Rows = append(g.Rows, b.shopRow(x.of))
	}
	if g := b.boughtDishes(); g != nil {
		t.Groups = append(t.Groups, *g)
	}
	if len(t.Groups) == 0 {
		return nil
	}
	s := &sheets.Sheet{ID: b.id("shopping"), Kind: sheets.Shopping, Title: "Shopping list", Facts: append(b.daysSaid(days), shopFacts(list)...), Blocks: []sheets.Block{t}}
	if b.caresOnce && !b.opt.Wants(sheets.Overview) {
		if c := b.cautions(nil); c != nil {
			s.Blocks = append(s.Blocks, c)
		}
	}
	return s
}

// atCounter is the group of a list that a thing stands in, by its counter and the day: the
// last one, or a new one below it.
func atCounter(t *sheets.Table, it *buying.Item, day string) *sheets.Group {
	title := larder.Capital(it.Counter)
	if it.Cupboard {
		title = "From the cupboard: check there is enough"
	}
	if n := len(t.Groups); n == 0 || t.Groups[n-1].Title != title || t.Groups[n-1].Note != day {
		t.Groups = append(t.Groups, sheets.Group{Title: title, Note: day})
	}
	return &t.Groups[len(t.Groups)-1]
}

// buying is what the meal in hand buys, worked out once.
func (b *builder) buying() *buying.List {
	if b.bought == nil {
		b.bought = buying.Build(b.fig, b.opt.Have)
	}
	return b.bought
}

// shopFacts says what the list comes to, and what it does not know.
func shopFacts(list *buying.List) []string {
	out := []string{"trimmings allowed for where the larder gives a yield", "tap water is not listed"}
	return append(out, costs(list)...)
}

// money is an amount of money with two decimals, in the writer's currency.
func money(c buying.Cost) string {
	cents, _ := c.Amount.Mul(quantity.Int(100)).Add(quantity.Frac(1, 2)).Int64()
	return strings.TrimSpace(fmt.Sprintf("%d.%02d %s", cents/100, cents%100, c.Currency))
}

func (b *builder) shopRow(it *buying.Item) sheets.Row {
	name := it.Name
	if len(it.Buy) == 1 && it.Buy[0].Dim == quantity.None {
		name = figures.InNumber(name, it.Buy[0].Value.High)
	}
	if it.Size != "" {
		name = it.Size + " " + name
	}
	var sub []string
	buy, size := b.dash(it.Print()), ""
	if p := it.Packs; p != nil {
		text := b.dash(it.Needed()) + " needed"
		if spare := it.Over(); spare.Value.High.Sign() > 0 && !p.Usual {
			if p.Label != nil { // of flour by the bag, measured in cups, a weight is over
				spare = p.Label.Scale(spare.Value.High.Div(p.Each.Value.High))
			}
			text += ", " + spare.Print(b.fig.StyleOf(it.Uses[0].Amount)) + " spare"
		}
		sub = append(sub, text)
		buy, size = b.packText(it)
		name = it.Name
		if !p.Whole && p.Each.Dim == quantity.None { // a box holds eggs, however many are wanted
			name = figures.InNumber(name, p.Each.Value.High)
		}
	}
	if it.Pieces > 0 {
		sub = append(sub, fmt.Sprintf("about %d", it.Pieces))
	}
	if it.Have != nil {
		text := "less the " + it.Have.Print(b.fig.Style()) + " in the house"
		if it.Print() == "" {
			text = "the " + it.Have.Print(b.fig.Style()) + " in the house is enough"
		}
		sub = append(sub, text)
	}
	for _, how := range it.How {
		if how.Shown {
			sub = append(sub, how.Text)
		}
	}
	what := sheets.Cell{Runs: []sheets.Run{{Text: name, Style: sheets.Thing}}}
	if len(sub) > 0 {
		what.Sub = []sheets.Run{{Text: strings.Join(sub, " · "), Style: sheets.Quiet}}
	}
	uses := entry{}
	for _, u := range it.Uses {
		uses.uses = append(uses.uses, u.Amount)
	}
	return sheets.Row{Cells: []sheets.Cell{{}, {Runs: amountRun(buy), Sub: quiet(size)}, what, {Runs: b.shares(&uses)}}}
}

// packText is what is carried, and below it of what size: "1 bottle", "of 5 litres";
// "2 boxes", "of 12"; "2 heads".
func (b *builder) packText(it *buying.Item) (count, size string) {
	p := it.Packs
	container := p.Container
	if p.Count > 1 {
		container = larder.PluralName(container)
	}
	if p.Whole {
		return fmt.Sprintf("%d %s", p.Count, container), ""
	}
	each := p.Each
	if p.Label != nil {
		each = *p.Label
	}
	size = b.fig.LabelSize(each, it.Uses[0].Amount, p.Usual)
	switch {
	case container == "" && p.Count == 1:
		return size, ""
	case container == "":
		return fmt.Sprintf("%d × %s", p.Count, size), ""
	}
	return fmt.Sprintf("%d %s", p.Count, container), "of " + size
}

func amountRun(text string) []sheets.Run {
	if text == "" {
		return nil
	}
	return []sheets.Run{{Text: text, Style: sheets.Amount}}
}

// boughtDishes are the lines of the menu that are bought ready.
func (b *builder) boughtDishes() *sheets.Group {
	if b.meal.Menu == nil {
		return nil
	}
	g := &sheets.Group{Title: "Bought ready"}
	for _, c := range b.meal.Menu.Courses {
		for _, s := range c.Servings {
			if s.Bought {
				amount := b.eatersOf(s)
				if amount != "" {
					amount = "for " + amount
				}
				where := c.Name
				if s.Seller != "" {
					where += ", from " + s.Seller
				}
				g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{{}, {Runs: []sheets.Run{{Text: amount, Style: sheets.Amount}}}, {Runs: []sheets.Run{{Text: s.Name, Style: sheets.Thing}}}, {Runs: []sheets.Run{{Text: where}}}}})
			}
		}
	}
	if len(g.Rows) == 0 {
		return nil
	}
	return g
}
