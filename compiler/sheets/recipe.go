package sheets

import "time"

// Recipe is a dish or base at its written size, in the words it was written in, for whoever
// reads recipes and no sheets. Recipes are data: they are not drawn on any page.
type Recipe struct {
	Name      string
	Base      bool
	By        []string // who wrote it
	Source    []string
	Links     []string // absolute addresses
	Also      []string // other names
	Equipment []string
	About     string        // Markdown, with line ends
	Serves    string        // "6", "6 to 8"; may be empty
	Makes     string        // "300 ml", "24 rolls"; may be empty
	Takes     time.Duration // the promised time; 0: none is promised
	Work      time.Duration // of it, at work
	PercentOf []string      // what the list is in per cent of: "strong flour"; empty: it has amounts
	Lines     []Gathered
	Steps     []Written
	Ends      []string // how it is served and how long it keeps: "serve hot, within 10 min"
}

// Gathered is a line of a recipe's list: "800 g leeks, sliced".
type Gathered struct {
	List    string // of the sub-list: "dressing"; empty outside one
	Option  string // of a choice, as it is headed: "either plain", "or with almonds"; empty outside one
	Text    string
	Name    string
	Instead []string // what may stand in for it: "700 ml chicken stock"
	Margin  []string // its clauses, but for those that the text says: "work 5 min"
}

// Written is a step as it was written.
type Written struct {
	Text   string
	Margin []string      // its clauses, one by one: "ring low", "leave 20 min"
	Lasts  time.Duration // by its margin, the longer of a range; 0: the margin does not say
	Above  string        // what stands before it: a pause
	Inside []string      // what is done while it lasts: "at 30 min: Turn it."
}
