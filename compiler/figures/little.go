package figures

import (
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/lang/quantity"
)

// What is less than the least spoon, scale or knife can tell is said in words: nobody
// measures 0.04 tsp of nutmeg or cuts a hundredth of a lime. Common practice, no source,
// for all of these; a pharmacist's drop is about a twentieth of a millilitre (from memory).
var (
	leastSpoon = quantity.Frac(15, 32) // ml: from here on it is 1/8 tsp
	leastGrams = quantity.Frac(1, 4)
	leastPiece = quantity.Frac(5, 48) // from here on it is an eighth of one
	leastBatch = quantity.Frac(1, 20)
	smallPinch = quantity.Frac(3, 20) // ml, and about as many grams
	oneDrop    = quantity.Frac(1, 20)
)

// Little says an amount that is too little to be measured; false for what is not. name is
// what it is of: what pours is counted in drops.
func Little(name string, q quantity.Quantity) (string, bool) {
	v := q.Value.High
	if v.Sign() <= 0 || q.Packs != nil {
		return "", false
	}
	switch q.Dim {
	case quantity.Volume:
		if v.Less(leastSpoon) {
			return dropsOrPinch(name, v), true
		}
	case quantity.Mass:
		if v.Less(leastGrams) {
			return dropsOrPinch(name, v), true
		}
	case quantity.None, quantity.Word:
		if v.Less(leastPiece) && !wholeOnly(name, q) {
			return "a little", true
		}
	case quantity.Batch:
		if v.Less(leastBatch) {
			return "a little", true
		}
	}
	return "", false
}

func dropsOrPinch(name string, v quantity.Number) string {
	if pours(name) {
		n := nearestWhole(v.Div(oneDrop))
		return n.String() + " " + drop.For(quantity.Exactly(n))
	}
	if v.Less(smallPinch) {
		return "1 small pinch"
	}
	return "1 pinch"
}

var drop = quantity.MustUnit("drop")

// pouring are last words of names of what is liquid, beside the liquids of the larder.
var pouring = []string{
	"juice", "oil", "vinegar", "sauce", "extract", "essence", "water", "milk", "cream", "wine", "stock", "syrup", "honey", "brandy", "rum", "sherry",
	"port", "whisky", "whiskey", "vodka", "gin", "liqueur", "beer", "cider", "treacle", "molasses", "broth", "vermouth", "mirin", "sake", "bitters", "tamari",
}

func pours(name string) bool {
	if it, ok := larder.Builtin().Find(name); ok && it.In("liquid") {
		return true
	}
	words := strings.Fields(larder.Fold(name))
	return len(words) > 0 && slices.Contains(pouring, words[len(words)-1])
}

// inWords puts a figure that is too little to be measured in words. Of a range whose low
// end is, the high end stays.
func inWords(name string, f Figure) Figure {
	if text, ok := Little(name, f.Quantity); ok {
		f.Text = text
		return f
	}
	low := f.Quantity
	if low.Value.High = low.Value.Low; !f.Quantity.Value.IsRange() || low.Value.Low.Sign() <= 0 {
		return f
	}
	if _, ok := Little(name, low); ok {
		high := f.Quantity
		high.Value.Low = high.Value.High
		f = said(high, f.style)
	}
	return f
}
