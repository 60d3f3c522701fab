package sheets

// Figure is one reckoned amount with its exact value, what is printed for it,
// and how it came about, so that a person can follow it from plate to basket.
// Figures are data: they are not drawn on any page.
type Figure struct {
	Of      string   // what it is an amount of: "line", "made", "drawn", "left", "buy"
	Sheet   string   // id of the prep sheet it belongs to; empty for the shopping list
	Recipe  string   // the recipe; empty for the shopping list
	Thing   string   // "green beans"
	Exact   string   // the exact value as a fraction, of Unit: "400/3"
	High    string   // the upper end of a range; empty for a plain amount
	Unit    string   // g, ml, mm, or the counted word; empty for bare pieces
	Printed string   // "135 g"
	Source  string   // the recipe or by-product it is drawn from; empty when bought
	How     []string // steps of the reckoning, in order
}
