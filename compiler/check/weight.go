package check

import (
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// says is what the writer's larder says of a folded name; an empty entry when it
// says nothing.
func says(r *resolve.Recipe, key string) *resolve.Entry {
	if e := r.Scope.Entry(key); e != nil {
		return e
	}
	return &resolve.Entry{}
}

// itemOf is what the built-in larder knows of a line, with the part named.
func itemOf(l *resolve.Line) (it *larder.Item, part string) {
	it, part, _ = l.Known.Weighed()
	return it, part
}

// densities are the lightest and the heaviest that a thing is known to be, in
// g per ml.
func densities(l *resolve.Line) (low, high quantity.Number, ok bool) {
	if f := says(l.Recipe, l.Key).Weighs; f != nil {
		mass, p1 := f.Weight.Quantity(l.Recipe.System)
		per, p2 := f.Per.Quantity(l.Recipe.System)
		if p1 == nil && p2 == nil && mass.Dim == quantity.Mass && per.Dim == quantity.Volume && per.Value.High.Sign() > 0 {
			d := mass.Value.High.Div(per.Value.High)
			return d, d, true
		}
	}
	it, _ := itemOf(l)
	if it == nil {
		return low, high, false
	}
	for i, d := range it.Densities {
		if v := d.GPerML.Value; i == 0 {
			low, high = v, v
		} else {
			low, high = quantity.Min(low, v), quantity.Max(high, v)
		}
	}
	return low, high, len(it.Densities) > 0
}

// The lightest and the heaviest that anything in a bowl weighs, in g per ml:
// chopped leaves, honey. Common practice, no source.
var (
	lightest = quantity.Frac(3, 10)
	heaviest = quantity.Frac(145, 100)
)

// smallParts is what a part of something weighs at the most, in grams, where
// no table knows it. Common practice, no source.
var smallParts = map[string]int64{"leaf": 10, "sprig": 15, "clove": 15, "stalk": 200, "rasher": 80, "slice": 150}

// gramsAtMost is the most that an amount of a line can weigh, in grams. False:
// it cannot be told.
func gramsAtMost(l *resolve.Line, q quantity.Quantity) (quantity.Number, bool) {
	n := q.Value.High
	switch q.Dim {
	case quantity.Mass:
		return n, true
	case quantity.Volume:
		_, high, ok := densities(l)
		if !ok {
			high = heaviest
		}
		if q.Rough {
			high = high.Mul(quantity.Int(2))
		}
		return n.Mul(high), true
	case quantity.None:
		if l.From != nil || l.Product != nil { // pieces of our own making weigh what they weigh
			g, ok := eachGrams(l.From)
			return n.Mul(g), ok
		}
		g, ok := pieceGrams(l, "")
		return n.Mul(g), ok
	case quantity.Word:
		if q.Unit == nil || l.From != nil || l.Product != nil {
			return n, false
		}
		if g, ok := pieceGrams(l, q.Unit.Name); ok {
			return n.Mul(g), true
		}
		g, ok := smallParts[q.Unit.Name]
		return n.Mul(quantity.Int(g)), ok
	case quantity.Vague:
		return n.Mul(quantity.Int(60)), true
	}
	return n, false
}

// eachGrams is what one piece of a block weighs, where it says so.
func eachGrams(r *resolve.Recipe) (quantity.Number, bool) {
	if r == nil || r.Makes == nil || r.Makes.Each == nil || r.Makes.Each.Dim != quantity.Mass {
		return quantity.Number{}, false
	}
	return r.Makes.Each.Value.High, true
}

// pieceGrams is the most that one of a thing weighs, or one part of it.
func pieceGrams(l *resolve.Line, part string) (most quantity.Number, ok bool) {
	if part == "" {
		if f := says(l.Recipe, l.Key).Piece; f != nil {
			if q, problem := f.Weight.Quantity(l.Recipe.System); problem == nil && q.Dim == quantity.Mass {
				return q.Value.High, true
			}
		}
	}
	it, named := itemOf(l)
	if it == nil {
		return most, false
	}
	if part == "" {
		part = named
	}
	for _, p := range it.Pieces {
		if p.Part == part {
			most, ok = quantity.Max(most, quantity.Max(p.Grams.Value, p.Range.High)), true
		}
	}
	return most, ok
}

// seasoningOnly tells whether a line without an amount is plainly a seasoning,
// and weighs nothing to speak of.
func seasoningOnly(l *resolve.Line) bool {
	if l.ToTaste || strings.Contains(l.Key, "salt") || strings.Contains(l.Key, "pepper") {
		return true
	}
	it, _ := itemOf(l)
	return it != nil && it.Counter == "spices"
}

// mlAtLeast is the least room that an amount of a line takes up, in ml; 0
// where that cannot be told.
func mlAtLeast(l *resolve.Line, q quantity.Quantity) quantity.Number {
	n := q.Value.Low
	switch q.Dim {
	case quantity.Volume:
		return n
	case quantity.Mass:
		if _, high, ok := densities(l); ok {
			return n.Div(quantity.Max(high, quantity.Int(1)))
		}
		return n.Div(heaviest)
	}
	return quantity.Number{}
}

// taken is how much of a line a step takes at the written size. False: it
// takes none, or nobody said how much.
func taken(t resolve.Take) (quantity.Quantity, bool) {
	if t.Line == nil || t.Refers || t.Unmeasured || t.Line.Quantity == nil {
		return quantity.Quantity{}, false
	}
	return t.Line.Quantity.Scale(t.Part), true
}

// grams prints a weight, to the gram; what is less, as a scale shows it.
func grams(r *resolve.Recipe, n quantity.Number) string {
	st := r.Style()
	if st.System == quantity.US || st.System == quantity.Imperial || st.Unit != nil || n.Less(quantity.Int(10)) {
		return quantity.Grams(n).Print(st)
	}
	st.Exact = true
	return quantity.Grams(quantity.RoundTo(n, quantity.Int(1))).Print(st)
}

// bakes tells whether a recipe is one of baking, where weights matter: it has
// an oven, and flour of its own.
func bakes(r *resolve.Recipe) bool {
	oven := false
	for _, s := range r.Steps {
		oven = oven || len(s.Heats) > 0
	}
	if !oven {
		return false
	}
	for _, l := range r.Lines {
		if l.Key == "flour" || strings.HasSuffix(l.Key, " flour") {
			q := l.Quantity // enough for a dough or a batter, and not for a sauce
			return q != nil && (q.Dim == quantity.Mass || q.Dim == quantity.Volume) && quantity.Int(99).Less(q.Value.High)
		}
	}
	return false
}
