package build

import (
	"fmt"
	"strings"

	"tamis/compiler/buying"
	"tamis/compiler/demand"
	"tamis/compiler/sheets"
	"tamis/lang/quantity"
)

// entry is one row of a list that adds up the same thing over several dishes.
type entry struct {
	key, name string
	note      string
	sums      []quantity.Quantity // one for each kind of measure met
	styles    []quantity.Style
	uses      []*demand.Amount
	shown     []quantity.Style       // how the prep sheet prints each use
	unknown   bool                   // some dish gives no amount
	steps     map[*demand.Amount]int // the step that takes each use, where it is said
}

// add puts a line's amount into the row.
func (e *entry) add(a *demand.Amount, st quantity.Style) {
	e.uses, e.shown = append(e.uses, a), append(e.shown, st)
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
		if wholeOnly(e.name, q) {
			q.Value = quantity.Exactly(nearestWhole(q.Value.High))
		}
		st := e.styles[i]
		if len(e.uses) > 1 && !e.agrees() {
			st.Tolerance = quantity.Number{} // as the shares beside it are rounded
		}
		parts = append(parts, q.Print(st))
	}
	return strings.Join(parts, " + ")
}

// agrees tells whether the shares, as the prep sheets print them, come to their
// sum as near as a scale can tell, half a hundredth; then they are printed so
// here too, and no sheet contradicts another.
func (e *entry) agrees() bool {
	var total, printed quantity.Quantity
	for i, a := range e.uses {
		if a.Quantity == nil || a.Quantity.Packs != nil || a.Quantity.Value.IsRange() {
			return false
		}
		q, r := *a.Quantity, quantity.Round(*a.Quantity, e.shown[i])
		if i > 0 {
			var p1, p2 *quantity.Problem
			q, p1 = total.Add(q)
			r, p2 = printed.Add(r)
			if p1 != nil || p2 != nil {
				return false
			}
		}
		total, printed = q, r
	}
	if len(e.uses) == 0 || total.Value.High.IsZero() || total.Print(e.shown[0]) != printed.Print(e.shown[0]) {
		return false
	}
	off := quantity.Round(total, e.shown[0]).Value.High.Div(printed.Value.High).Sub(quantity.Int(1))
	return !quantity.Frac(1, 200).Less(quantity.Max(off, quantity.Int(0).Sub(off)))
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
	parts := b.parts(e)
	for i, a := range e.uses {
		if i > 0 {
			out = append(out, sheets.Run{Text: "\u00a0· "}) // no line begins with the dot
		}
		out = append(out, sheets.Run{Text: b.mark(a.Making), Style: sheets.Strong, Link: b.linkTo(a.Making)})
		if n, ok := e.steps[a]; ok && n > 0 {
			out = append(out, sheets.Run{Text: fmt.Sprint(n), Style: sheets.Strong, Link: b.linkTo(a.Making)})
		}
		if text := parts[i]; text != "" && len(e.uses) > 1 {
			out = append(out, sheets.Run{Text: "\u00a0" + text}) // nor parts a dish from its amount
		}
	}
	return out
}

// parts are the printed amounts of the lines of a row. Rounded each for itself
// they need not add up to the printed sum; where they are measured alike they
// are rounded together, so that they do.
func (b *builder) parts(e *entry) []string {
	out := make([]string, len(e.uses))
	if e.agrees() {
		return rest(b, e, out, 0)
	}
	var total quantity.Quantity
	var each []quantity.Quantity
	for i, a := range e.uses {
		out[i] = b.showLine(a)
		if a.Quantity == nil || a.Quantity.Packs != nil || a.Quantity.Value.IsRange() || wholeOnly(a.Line.Name, *a.Quantity) {
			return rest(b, e, out, i)
		}
		sum, problem := total.Add(*a.Quantity)
		if problem != nil || b.lineStyle(a) != b.lineStyle(e.uses[0]) {
			return rest(b, e, out, i)
		}
		total = sum
		each = append(each, *a.Quantity)
	}
	st := b.lineStyle(e.uses[0])
	st.Tolerance = quantity.Number{} // shares are to read, not to weigh by
	together, problem := quantity.Spread(total, each, st)
	if problem != nil {
		return out
	}
	for i, q := range together { // nobody weighs to the tenth of a gram for a sum's sake
		if !q.Value.High.IsInt() && quantity.Round(each[i], b.lineStyle(e.uses[i])).Value.High.IsInt() {
			return rest(b, e, out, 0)
		}
	}
	st.Exact = true
	spread := make([]string, len(together))
	for i, q := range together {
		spread[i] = q.Print(st)
		if strings.Contains(spread[i], "/") { // no spoon is so large: each for itself, then
			return out
		}
	}
	return spread
}

// rest prints the remaining lines each for itself.
func rest(b *builder, e *entry, out []string, from int) []string {
	for i := from; i < len(e.uses); i++ {
		out[i] = b.showLine(e.uses[i])
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
	for _, it := range list.Items {
		title := capital(it.Counter)
		if it.Cupboard {
			title = "From the cupboard: check there is enough"
		}
		if n := len(t.Groups); n == 0 || t.Groups[n-1].Title != title {
			t.Groups = append(t.Groups, sheets.Group{Title: title})
		}
		g := &t.Groups[len(t.Groups)-1]
		g.Rows = append(g.Rows, b.shopRow(it))
	}
	if g := b.boughtDishes(); g != nil {
		t.Groups = append(t.Groups, *g)
	}
	if len(t.Groups) == 0 {
		return nil
	}
	return &sheets.Sheet{ID: b.id("shopping"), Kind: sheets.Shopping, Title: "Shopping list", Facts: shopFacts(list), Blocks: []sheets.Block{t}}
}

func (b *builder) buying() *buying.List {
	return buying.Build(b.meal, buying.Options{Have: b.opt.Have, Units: b.opt.Units})
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
		name = inNumber(name, it.Buy[0].Value.High)
	}
	if it.Size != "" {
		name = it.Size + " " + name
	}
	what := sheets.Cell{Runs: []sheets.Run{{Text: name, Style: sheets.Thing}}}
	var sub []string
	if p := it.Packs; p != nil {
		st := b.lineStyle(it.Uses[0].Amount)
		text := fmt.Sprintf("%d × %s", p.Count, p.Each.Print(st))
		if p.Spare.Value.High.Sign() > 0 {
			text += ", " + p.Spare.Print(st) + " spare"
		}
		sub = append(sub, text)
	}
	if it.Pieces > 0 {
		sub = append(sub, fmt.Sprintf("about %d", it.Pieces))
	}
	if it.Have != nil {
		text := "less the " + it.Have.Print(b.style) + " in the house"
		if it.Print(true, b.opt.Units) == "" {
			text = "the " + it.Have.Print(b.style) + " in the house is enough"
		}
		sub = append(sub, text)
	}
	for _, how := range it.How {
		if it.Parts || strings.HasPrefix(how, "each counted") || strings.HasPrefix(how, "100 ml counted") {
			sub = append(sub, how)
		}
	}
	if len(sub) > 0 {
		what.Sub = []sheets.Run{{Text: strings.Join(sub, " · "), Style: sheets.Quiet}}
	}
	uses := entry{}
	for _, u := range it.Uses {
		uses.uses, uses.shown = append(uses.uses, u.Amount), append(uses.shown, b.lineStyle(u.Amount))
	}
	return sheets.Row{Cells: []sheets.Cell{{}, {Runs: amountRun(b.dash(it.Print(true, b.opt.Units)))}, what, {Runs: b.shares(&uses)}}}
}

func amountRun(text string) []sheets.Run {
	if text == "" {
		return nil
	}
	return []sheets.Run{{Text: text, Style: sheets.Amount}}
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
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
