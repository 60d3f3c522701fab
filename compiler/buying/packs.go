package buying

import (
	"strings"

	"tamis/compiler/figures"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// pack chooses the packs of a single amount: those the writer's larder names, the
// amount its price is for, else those shops usually have. It also says about how
// many pieces a weight comes to.
func (it *Item) pack() {
	if len(it.Buy) != 1 || it.Buy[0].Value.High.Sign() <= 0 || it.Buy[0].Packs != nil {
		return
	}
	l := it.first()
	need := it.Buy[0]
	e := it.entry(l)
	if e != nil && e.Packs != nil {
		var sizes []quantity.Quantity
		for _, m := range e.Packs.Sizes {
			if q, problem := m.Quantity(l.Recipe.System); problem == nil && q.Value.High.Sign() > 0 {
				if q, ok := it.alike(q, need); ok {
					sizes = append(sizes, q)
				}
			}
		}
		if it.Packs = choose(need, sizes); it.Packs != nil {
			it.Packs.Container = it.container(need.Dim)
			it.label(e.Packs.Sizes, need)
		}
		return
	}
	if e != nil && e.Price != nil {
		if label, ok := packOf(e.Price, l.Recipe.System); ok {
			if q, ok := it.alike(label, need); ok { // five pounds of flour for eight cups
				it.Packs = choose(need, []quantity.Quantity{q})
				it.Packs.Container = it.container(label.Dim)
				if !label.Same(need) {
					it.Packs.Label = &label
				}
				return
			}
		}
	}
	if it.usualPacks(need) {
		return
	}
	if need.Dim == quantity.Mass {
		it.countPieces(need)
	}
}

// label keeps what stands on the pack where that is another measure than the
// need: milk by the gram is sold by the litre.
func (it *Item) label(sizes []quantity.Measure, need quantity.Quantity) {
	l := it.first()
	for _, m := range sizes {
		q, problem := m.Quantity(l.Recipe.System)
		if problem != nil || q.Same(need) {
			continue
		}
		if same, ok := it.alike(q, need); ok && same.Value.High.Equal(it.Packs.Each.Value.High) {
			it.Packs.Label = &q
			it.Packs.Container = it.container(q.Dim)
			return
		}
	}
}

// packOf is the pack that a price is for: what costs so much per 125 g is sold by
// 125 g, what costs so much per 12 by twelves. By the kilo, by the litre, by 100 g and by the piece are no packs.
func packOf(p *resolve.PriceFact, system quantity.System) (quantity.Quantity, bool) {
	if p.Per.IsZero() {
		return quantity.Quantity{}, false
	}
	q, problem := p.Per.Quantity(system)
	if problem != nil || q.Dim != quantity.Mass && q.Dim != quantity.Volume && q.Dim != quantity.None || q.Value.IsRange() || q.Value.High.Sign() <= 0 {
		return quantity.Quantity{}, false
	}
	n := p.Per.Terms[0].Value.High
	return q, !n.Equal(quantity.Int(1)) && !n.Equal(quantity.Int(100))
}

// choose takes packs of one size: with several sizes, the one with the least
// over, and of those the fewest packs.
func choose(need quantity.Quantity, sizes []quantity.Quantity) *Packs {
	var best *Packs
	for _, each := range sizes {
		p := packsOf(need, each)
		if best == nil || p.Spare.Value.High.Less(best.Spare.Value.High) ||
			p.Spare.Value.High.Equal(best.Spare.Value.High) && p.Count < best.Count {
			best = p
		}
	}
	return best
}

func packsOf(need, each quantity.Quantity) *Packs {
	n := figures.Whole(need.Value.High.Div(each.Value.High))
	spare := each
	spare.Value = quantity.Exactly(each.Value.High.Mul(quantity.Int(int64(n))).Sub(figures.Carried(need).Value.High))
	return &Packs{Count: n, Each: each, Spare: spare}
}

// countPieces says about how many pieces a weight is, for things that are
// bought by the piece.
func (it *Item) countPieces(need quantity.Quantity) {
	l := it.first()
	grams := quantity.Number{}
	if e := it.entry(l); e != nil && e.Piece != nil && !strings.Contains(strings.ToLower(e.Piece.State), "trimmed") {
		if q, problem := e.Piece.Weight.Quantity(l.Recipe.System); problem == nil && q.Dim == quantity.Mass {
			grams = q.Value.High
		}
	} else if b, ok := larder.Builtin().Find(l.Name); ok && it.Counter == "greengrocer" {
		if p, ok := b.Piece("", l.Size, l.Recipe.Country()); ok && p.Bought {
			grams = p.Grams.Value
		}
	}
	if grams.Sign() > 0 {
		it.Pieces = figures.Whole(need.Value.High.Div(grams))
	}
}

// price works out what the item costs by the writer's larder. Without a price
// there is no cost: it is never taken for nothing.
func (it *Item) price() {
	l := it.first()
	e := it.entry(l)
	if e == nil || e.Price == nil || len(it.used) == 0 {
		return
	}
	cost := quantity.Number{}
	for _, q := range it.used {
		c, ok := it.priceOf(q, e.Price.Amount, e.Price.Per)
		if !ok {
			return
		}
		cost = cost.Add(c)
	}
	it.Cost = &Cost{Amount: cost, Currency: e.Price.Currency}
}

// till works out what is paid for what is carried home: whole packs, and whole
// pieces where they are counted.
func (it *Item) till() {
	if it.Cost == nil {
		return
	}
	e := it.entry(it.first())
	cost := quantity.Number{}
	for _, q := range it.Buy {
		switch p := it.Packs; {
		case p != nil && !p.Whole:
			q = p.Each.Scale(quantity.Int(int64(p.Count)))
		default:
			q = figures.Carried(q)
			q.Value.Low = q.Value.High
		}
		c, ok := it.priceOf(q, e.Price.Amount, e.Price.Per)
		if !ok {
			return
		}
		cost = cost.Add(c)
	}
	it.Till = &Cost{Amount: cost, Currency: it.Cost.Currency}
}

func (it *Item) priceOf(q quantity.Quantity, price quantity.Number, per quantity.Measure) (quantity.Number, bool) {
	l := it.first()
	unit := quantity.Pieces(quantity.Int(1))
	if !per.IsZero() {
		u, problem := per.Quantity(l.Recipe.System)
		if problem != nil || u.Value.High.Sign() <= 0 {
			return price, false
		}
		unit = u
	}
	if !q.Same(unit) {
		switch {
		case q.Packs != nil && (unit.Dim == quantity.None || unit.Dim == quantity.Word && unit.Unit == q.Packs.Container):
			return q.Packs.Count.High.Div(unit.Value.High).Mul(price), true // so much a tin
		case unit.Dim == quantity.None && q.Dim == quantity.Mass:
			grams, _, ok := l.PieceGrams()
			if !ok {
				return price, false
			}
			q = figures.Carried(quantity.Pieces(q.Value.High.Div(grams)))
		case unit.Dim == quantity.Mass:
			w, ok := it.weigh(q)
			if !ok {
				return price, false
			}
			q = w
		case unit.Dim == quantity.Volume && q.Dim == quantity.Mass:
			v, ok := it.alike(q, unit)
			if !ok {
				return price, false
			}
			q = v
		default:
			return price, false
		}
	}
	return q.Value.High.Div(unit.Value.High).Mul(price), true
}

// Print is the amount as it is read on a list: "1.4 kg", "2 × 400 g tins",
// "600 g + 2". What one line needs is what that line says.
func (it *Item) Print() string {
	return it.print(func(q quantity.Quantity, st quantity.Style) string {
		if len(it.Uses) == 1 && q.Packs == nil && (q.Dim == quantity.Mass || q.Dim == quantity.Volume) {
			if f := it.fig.Line(it.Uses[0].Amount); f.Quantity.Same(q) && f.Quantity.Value.Equal(q.Value) {
				return f.Text
			}
		}
		return it.fig.Bought(q, st)
	})
}

// Needed is the amount of what is bought in packs: the sum of what the lines say, or,
// where trimmings are allowed for, what can be weighed.
func (it *Item) Needed() string {
	return it.print(func(q quantity.Quantity, st quantity.Style) string {
		if sum, ok := it.counted(q); ok {
			return it.fig.Bought(sum, st)
		}
		if q.Dim != quantity.Mass && q.Dim != quantity.Volume || q.Packs != nil || !it.isSum(q) {
			return it.fig.Bought(q, st)
		}
		text, _ := q.Total(st)
		return text
	})
}

// isSum tells whether q is what the lines say, added up.
func (it *Item) isSum(q quantity.Quantity) bool {
	sum, ok := it.said(q)
	return ok && sum.Value.High.Equal(q.Value.High)
}

// Over is what is over of the packs when what the lines say is taken.
func (it *Item) Over() quantity.Quantity {
	p := it.Packs
	if sum, ok := it.counted(p.Spare); ok {
		over := p.Spare
		over.Value = quantity.Exactly(quantity.Max(quantity.Number{}, p.Each.Value.High.Mul(quantity.Int(int64(p.Count))).Sub(sum.Value.High)))
		return over
	}
	return p.Spare
}

// counted is what the lines say of what is counted: of 33¼ eggs 33.
func (it *Item) counted(q quantity.Quantity) (quantity.Quantity, bool) {
	if q.Dim != quantity.None || q.Packs != nil || it.Have != nil || it.Parts { // of eggs of which only the yolks go in no line speaks
		return q, false
	}
	return it.said(q)
}

// said is what the lines say, added up; false where they do not all speak of the like of q.
func (it *Item) said(q quantity.Quantity) (quantity.Quantity, bool) {
	sum := quantity.Number{}
	for _, u := range it.Uses {
		f := it.fig.Line(u.Amount).Quantity
		if !f.Same(q) {
			return q, false
		}
		sum = sum.Add(f.Value.High)
	}
	q.Value = quantity.Exactly(sum)
	return q, len(it.Uses) > 0
}

func (it *Item) print(one func(quantity.Quantity, quantity.Style) string) string {
	var parts []string
	for _, q := range it.Buy {
		if q.Value.High.Sign() <= 0 {
			continue // what is in the house is enough
		}
		st, ok := it.styles[q.Dim]
		if !ok {
			st = it.noteStyle(it.first())
		}
		text := one(q, st)
		if little, ok := figures.Little(it.first().Name, q); ok && q.Dim != quantity.None && q.Dim != quantity.Word {
			text = little
		}
		parts = append(parts, text)
	}
	return figures.Join(parts)
}
