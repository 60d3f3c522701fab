// Package buying turns what a meal needs into what is bought: summed over the
// whole meal once, as the shop sells it, with what is in the house taken off,
// in packs where packs are known, with what is spare named and the cost where
// prices are known. Nothing is guessed: what is not known is said to be so.
//
// Read this file first. whole.go buys what is sold whole, packs.go and tins.go what comes
// in packs, usual.go knows how shops mostly sell things, and cost.go adds up.
package buying

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"tamis/compiler/demand"
	"tamis/compiler/figures"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// List is what is bought for one meal, by counter of the shop.
type List struct {
	Items []*Item // by counter, then by name
	Costs []Cost  // what is used comes to, one for each currency word
	Till  []Cost  // what is carried comes to: whole packs and whole pieces
	// Unpriced are the items without a price; with any, the sum is a part only.
	Unpriced []*Item
	// Unused are names of Options.Have that nothing needs.
	Unused []string
}

// Item is one thing to buy.
type Item struct {
	Key      string // folded
	Name     string // as the writer calls it
	Size     string // small, large … where all lines agree
	Counter  string
	Cupboard bool // kept in most houses: check there is enough
	Known    bool // in the writer's larder or the built-in one

	Uses []Use
	// Needs are the amounts that go into the dishes, one for each kind of
	// measure that could not be brought together.
	Needs []quantity.Quantity
	// Buy are the same as bought: with trimmings, less what is in the house.
	Buy []quantity.Quantity
	// used are the same by the true amounts, before they are rounded for print:
	// what is used costs what it costs.
	used []quantity.Quantity
	// Unmeasured tells that some line gives no amount.
	Unmeasured bool
	Have       *quantity.Quantity // what is in the house
	Packs      *Packs
	Parts      bool   // bought whole for its parts: How names them
	Pieces     int    // about how many pieces the weight comes to; 0 when unknown
	How        []Note // how Buy came about, for the reader
	Cost       *Cost  // of what is used
	Till       *Cost  // of what is carried
	fig        *figures.Set
	styles     map[quantity.Dimension]quantity.Style // how amounts of each kind are set: as the first line that has one
}

// Note is a word on how an amount came about.
type Note struct {
	Text  string
	Shown bool // the list itself says it: what one counts as, what parts it is bought for
}

// Use is one line that needs the item, and how much of it goes in: what is
// printed of it, or the true number where a whole one stands for it and is less.
type Use struct {
	Amount   *demand.Amount
	Quantity *quantity.Quantity // nil: no amount was written
}

// Packs is how many packs are taken, and what is over.
type Packs struct {
	Count     int
	Each      quantity.Quantity
	Container string // "bottle"; empty where nobody says
	Spare     quantity.Quantity
	Label     *quantity.Quantity // what stands on it, where Each is that by weight or by volume; else nil
	Usual     bool               // by the habits of shops, not by the writer's larder
	Whole     bool               // a head or a bunch, not a pack: of no printed size
}

// Cost is an amount of money; Currency is the writer's word, or empty.
type Cost struct {
	Amount   quantity.Number
	Currency string
}

// Have is an amount of something that need not be bought.
type Have struct {
	Name     string
	Quantity quantity.Quantity
}

// CounterElsewhere is where things are whose counter nobody knows.
const CounterElsewhere = "elsewhere"

// Build makes the list of a meal from the figures that are printed of it, less
// what is in the house.
func Build(fig *figures.Set, have []Have) *List {
	items := map[string]*Item{}
	l := &List{}
	for _, m := range fig.Meal().Makings {
		for _, a := range m.Lines {
			if a.Source != nil || a.Line.Carried != "" || a.Line.Water {
				continue
			}
			key := nameKey(a.Line)
			at := key
			if a.Line.Seller != "" { // of two sellers it is two things to buy
				at += "\x00" + strings.ToLower(a.Line.Seller)
			}
			it := items[at]
			if it == nil {
				it = newItem(key, a.Line)
				it.fig = fig
				items[at] = it
				l.Items = append(l.Items, it)
			}
			it.Uses = append(it.Uses, Use{a, fig.Need(a)})
		}
	}
	for _, it := range l.Items {
		it.sum()
	}
	l.whole(items)
	for _, it := range l.Items {
		it.price() // of what is used, wherever it comes from
	}
	l.oneCurrency()
	l.takeOff(have, items)
	for _, it := range l.Items {
		it.inTheHouse()
		it.pack()
		it.till()
	}
	l.addUp()
	order := larder.Builtin().Counters()
	slices.SortStableFunc(l.Items, func(x, y *Item) int {
		return cmp.Or(cmp.Compare(rank(order, x), rank(order, y)), strings.Compare(x.Counter, y.Counter), strings.Compare(x.Key, y.Key))
	})
	return l
}

// nameKey is the name by which lines are one item: what two names mean, the
// larder says.
func nameKey(l *resolve.Line) string {
	if l.BuyName != "" {
		if it, ok := larder.Builtin().Find(l.BuyName); ok {
			return larder.Fold(it.Name)
		}
		return larder.Fold(l.BuyName)
	}
	if e := l.Recipe.Scope.Entry(l.Key); e != nil {
		if e.SameAs != nil {
			return larder.Fold(e.SameAs.Text)
		}
		return l.Key
	}
	if it, ok := larder.Builtin().Find(bare(l.Name)); ok {
		return larder.Fold(it.Name)
	}
	return l.Key
}

func newItem(key string, l *resolve.Line) *Item {
	it := &Item{Key: key, Name: cmp.Or(l.BuyName, bare(l.Name)), Counter: CounterElsewhere}
	if l.Recipe.Scope.Entry(l.Key) != nil {
		it.Name = cmp.Or(l.BuyName, l.Name) // as the writer's larder has it
	}
	if b, ok := sold(it.Name); ok {
		it.Known, it.Cupboard = true, b.Cupboard
		if b.Counter != "" {
			it.Counter = b.Counter
		}
	}
	if e := it.entry(l); e != nil {
		it.Known = true
		if e.Buy != nil {
			it.Counter, it.Cupboard = strings.ToLower(e.Buy.Text), false // the writer buys it there
		}
	}
	if l.Seller != "" {
		it.Counter, it.Cupboard = strings.ToLower(l.Seller), false
	}
	return it
}

// entry is what the writer's larder says about a line; nil: nothing.
func (it *Item) entry(l *resolve.Line) *resolve.Entry {
	if it.Parts || l.BuyName != "" { // the line names a part; what is bought is the whole
		return l.Recipe.Scope.Entry(it.Key)
	}
	return l.Recipe.Scope.Entry(l.Key)
}

// Keeps is how many days the thing keeps as it is bought: by the writer's larder,
// else by the built-in one; of what neither knows, a day. 0: as long as anyone needs.
func (it *Item) Keeps() int {
	l := it.first()
	if e := it.entry(l); e != nil && e.Keeps != nil {
		days := 0
		if d := max(e.Keeps.Time.High, e.Keeps.Time.UpTo); d > 0 {
			days = max(1, int(d/(24*time.Hour)))
		}
		return days
	}
	b, ok := larder.Builtin().Find(it.Name)
	if !ok {
		if b, _, ok = larder.Builtin().FindPart(it.Name); !ok {
			return 1
		}
	}
	if slices.ContainsFunc(it.Buy, func(q quantity.Quantity) bool { return q.Packs != nil }) { // a tin
		return 0
	}
	return b.Keeps.Value
}

// first is the line the item was met in first: its facts count.
func (it *Item) first() *resolve.Line { return it.Uses[0].Amount.Line }

// noteStyle prints what is no amount of a line in the units of the page.
func (it *Item) noteStyle(l *resolve.Line) quantity.Style {
	st := it.fig.Style()
	st.System = cmp.Or(st.System, l.Recipe.System)
	return st
}

// sum adds up all lines, net and as bought, and brings the kinds of measure
// together where the larder knows how.
func (it *Item) sum() {
	it.Size = it.Uses[0].Amount.Line.Size
	for _, u := range it.Uses {
		l := u.Amount.Line
		if l.Size != it.Size {
			it.Size = ""
		}
		q := u.Quantity
		if q == nil || q.IsZero() || q.Dim == quantity.Vague {
			it.Unmeasured = it.Unmeasured || q == nil || q.Dim == quantity.Vague
			continue
		}
		net := *q
		st := it.fig.StyleOf(u.Amount)
		if _, seen := it.styles[net.Dim]; !seen {
			if it.styles == nil {
				it.styles = map[quantity.Dimension]quantity.Style{}
			}
			it.styles[net.Dim] = st
		}
		it.Needs = add(it.Needs, net)
		it.Buy = addApart(it.Buy, it.asBought(u.Amount, net, st))
		it.used = add(it.used, it.asBought(u.Amount, *u.Amount.Quantity, st))
	}
	it.used = it.bridge(it.used)
	it.inTins()
}

func add(list []quantity.Quantity, q quantity.Quantity) []quantity.Quantity {
	for i := range list {
		if list[i].Same(q) {
			if sum, problem := list[i].Add(q); problem == nil {
				list[i] = sum
				return list
			}
		}
	}
	return append(list, q)
}

// asBought is what must be bought for one line: by its own `buy`; by a
// yield of the writer's larder, unless the line says `as sold`; by a built-in
// yield only where the line says `trimmed`.
func (it *Item) asBought(a *demand.Amount, net quantity.Quantity, st quantity.Style) quantity.Quantity {
	l := a.Line
	if l.BoughtAs != nil && l.Quantity != nil && l.Quantity.Value.High.Sign() > 0 {
		it.note(false, "%s bought for %s", l.BoughtAs.Print(st), l.Quantity.Print(st))
		return l.BoughtAs.Scale(net.Value.High.Div(l.Quantity.Value.High))
	}
	if net.Dim != quantity.Mass || l.AsBought || l.ToTaste {
		return net
	}
	percent, from := quantity.Number{}, ""
	if e := it.entry(l); e != nil && e.Yields != nil {
		percent, from = *e.Yields, "the larder"
	} else if l.Net {
		if b, ok := larder.Builtin().Find(l.Name); ok {
			if y, ok := b.Yield(l.Note.Text, l.Recipe.Country()); ok {
				percent, from = y.Percent.Value, y.Percent.From()
			}
		}
	}
	if percent.Sign() <= 0 || percent.Equal(quantity.Int(100)) {
		return net
	}
	it.note(false, "%s%% of what is bought goes in (%s)", percent.Text(false), from)
	return net.Scale(quantity.Int(100).Div(percent))
}

func (it *Item) note(shown bool, format string, args ...any) {
	if n := (Note{fmt.Sprintf(format, args...), shown}); !slices.Contains(it.How, n) {
		it.How = append(it.How, n)
	}
}

// bridge brings counts and volumes over to weight when a weight is among the
// kinds and the larder knows what one, or a millilitre, weighs. It says so.
func (it *Item) bridge(list []quantity.Quantity) []quantity.Quantity {
	if len(list) < 2 {
		return list
	}
	mass := slices.IndexFunc(list, func(q quantity.Quantity) bool { return q.Dim == quantity.Mass })
	if mass < 0 {
		return list
	}
	var out []quantity.Quantity
	sum := list[mass]
	for i, q := range list {
		if i == mass {
			continue
		}
		w, ok := it.weigh(q)
		if !ok {
			out = append(out, q)
			continue
		}
		if s, problem := sum.Add(w); problem == nil {
			sum = s
		}
	}
	return append([]quantity.Quantity{sum}, out...)
}

// weigh is the weight of a count or a volume, if it is known.
func (it *Item) weigh(q quantity.Quantity) (quantity.Quantity, bool) {
	l := it.first()
	switch q.Dim {
	case quantity.None:
		grams, from, ok := l.PieceGrams()
		if !ok {
			return q, false
		}
		w, problem := q.AsWeight(grams)
		it.note(true, "each counted as %s%s", quantity.Grams(grams).Print(it.noteStyle(l)), whose(from))
		return w, problem == nil
	case quantity.Volume:
		d, from, ok := it.density(l)
		if !ok {
			return q, false
		}
		w, problem := q.AsMass(d)
		it.note(true, "%s%s", it.heavy(l, d), whose(from))
		return w, problem == nil
	}
	return q, false
}

// whose says that a figure is the writer's own. Where a built-in one is from, the
// larder's tables say; in the shop nobody reads it.
func whose(from string) string {
	if from == ofTheWriter {
		return " (" + from + ")"
	}
	return ""
}

// ofTheWriter is where a figure is from that stands in the writer's larder.
const ofTheWriter = "the larder"

// heavy says what a measure of something weighs, in measures of the page.
func (it *Item) heavy(l *resolve.Line, density quantity.Number) string {
	st := it.noteStyle(l)
	switch st.System {
	case quantity.US:
		size, _ := quantity.MustUnit("cup").Base(quantity.US)
		return "1 cup counted as " + quantity.Grams(density.Mul(size)).Print(st)
	case quantity.Imperial:
		size, _ := quantity.MustUnit("pint").Base(quantity.Imperial)
		return "½ pint counted as " + quantity.Grams(density.Mul(size).Div(quantity.Int(2))).Print(st)
	}
	return "100 ml counted as " + quantity.Grams(density.Mul(quantity.Int(100))).Print(quantity.Style{Glyphs: true})
}

func (it *Item) density(l *resolve.Line) (quantity.Number, string, bool) {
	if e := it.entry(l); e != nil && e.Weighs != nil {
		mass, p1 := e.Weighs.Weight.Quantity(l.Recipe.System)
		per, p2 := e.Weighs.Per.Quantity(l.Recipe.System)
		if p1 == nil && p2 == nil && per.Dim == quantity.Volume && per.Value.High.Sign() > 0 {
			return mass.Value.High.Div(per.Value.High), ofTheWriter, true
		}
	}
	if b, ok := sold(l.Name); ok {
		if d, ok := b.Density(l.Note.Text); ok {
			return d.GPerML.Value, d.GPerML.From(), true
		}
	}
	return quantity.Number{}, "", false
}

// takeOff takes what is in the house off what is bought.
func (l *List) takeOff(have []Have, items map[string]*Item) {
	for _, h := range have {
		it := items[larder.Fold(h.Name)]
		if it == nil {
			if b, ok := larder.Builtin().Find(h.Name); ok {
				it = items[larder.Fold(b.Name)]
			}
		}
		if i := slices.IndexFunc(l.Items, func(it *Item) bool { return it.Key == larder.Fold(h.Name) }); it == nil && i >= 0 {
			it = l.Items[i]
		}
		if it == nil {
			l.Unused = append(l.Unused, h.Name)
			continue
		}
		q := h.Quantity
		it.Have = &q
		rest := q.Value
		for i := range it.Buy {
			if it.Buy[i].Same(q) {
				it.Buy[i], rest = less(it.Buy[i], rest)
			}
		}
	}
}

// less takes an amount off another, never below nothing, and says what is over.
func less(q quantity.Quantity, off quantity.Range) (left quantity.Quantity, over quantity.Range) {
	zero, was := quantity.Number{}, q
	q.Value = quantity.Range{Low: quantity.Max(zero, was.Value.Low.Sub(off.High)), High: quantity.Max(zero, was.Value.High.Sub(off.High))}
	over = quantity.Exactly(quantity.Max(zero, off.High.Sub(was.Value.High)))
	if p := was.Packs; p != nil && was.Value.High.Sign() > 0 {
		q.Packs = packsIn(q, p)
	}
	return q, over
}

// oneCurrency gives prices without a currency the one that all others name.
func (l *List) oneCurrency() {
	word := ""
	for _, it := range l.Items {
		if it.Cost == nil || it.Cost.Currency == "" {
			continue
		}
		if word != "" && word != it.Cost.Currency {
			return
		}
		word = it.Cost.Currency
	}
	for _, it := range l.Items {
		if it.Cost != nil {
			it.Cost.Currency = word
		}
	}
}

// addUp sums the costs, by currency word.
func (l *List) addUp() {
	for _, it := range l.Items {
		if it.Cost == nil {
			l.Unpriced = append(l.Unpriced, it)
			continue
		}
		l.Costs = addCost(l.Costs, it.Cost)
		l.Till = addCost(l.Till, it.Till)
	}
}

func addCost(sums []Cost, c *Cost) []Cost {
	if c == nil {
		return sums
	}
	i := slices.IndexFunc(sums, func(o Cost) bool { return o.Currency == c.Currency })
	if i < 0 {
		return append(sums, *c)
	}
	sums[i].Amount = sums[i].Amount.Add(c.Amount)
	return sums
}

func rank(order []string, it *Item) int {
	switch {
	case it.Cupboard:
		return len(order) + 2
	case it.Counter == CounterElsewhere:
		return len(order) + 1
	}
	if i := slices.Index(order, it.Counter); i >= 0 {
		return i
	}
	return len(order)
}
