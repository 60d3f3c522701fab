package practice

import "slices"

// Cooling is the whole way down in print, for cautions and advice, with the
// limits it is made of: "57 to 21 °C within 2 hours, to 5 °C within 6 hours in
// all", or "into the fridge within 90 minutes".
func (c Choice) Cooling() (text string, limits []*Limit) {
	first := c.Rule("cool", "first", "all").Shortest()
	limits = []*Limit{first}
	if !first.C.Set {
		return "into the fridge within " + first.Length(), limits
	}
	text = first.Span() + " within " + first.Length()
	if !slices.Contains(first.Foods, "first") {
		return text, limits
	}
	for _, rest := range []struct{ food, word string }{{"all", " in all"}, {"second", " more"}} {
		if set := rows(first.Practice, "cool", rest.food); len(set) > 0 {
			l := printed(set)
			return text + ", to " + l.End() + " within " + l.Length() + rest.word, append(limits, l)
		}
	}
	return text, limits
}

// End is the second of two temperatures in print: where cooling ends, or the
// warmest that keeps something cold. It is the only one where there is one.
func (l *Limit) End() string {
	c := number(l.C.To) + " °C"
	if l.fahrenheit() {
		return number(l.F.To) + " °F (" + c + ")"
	}
	return c
}
