package sheets

// Kinds are all kinds of sheet, in the order they are bound.
func Kinds() []Kind {
	return []Kind{Overview, Wall, Timeline, RunSheet, Countdown, ByCook, OvenDoor, Mise, Shopping, Vessels, Allergens, TempLog, DateLabels, CostCard, Prep, Leaf, Series, Crew}
}

// DefaultKinds are the sheets that are printed when nobody chooses: what a kitchen
// cooks from, and what is handed out of a series.
func DefaultKinds() []Kind {
	return []Kind{Wall, Timeline, Mise, Shopping, Prep, Leaf, Series}
}

// SeriesKinds are the sheets that only a series has.
func SeriesKinds() []Kind { return []Kind{Leaf, Series, Crew} }

// Pack is the sheets that somebody needs, by a name.
type Pack struct {
	Name  string
	Kinds []Kind
}

// Packs are the packs: of those who cook, of who answers for it, of who buys, and
// all there is.
func Packs() []Pack {
	return []Pack{
		{"kitchen", DefaultKinds()},
		{"office", []Kind{Overview, RunSheet, Countdown, OvenDoor, Vessels, Allergens, TempLog, DateLabels, CostCard}},
		{"shopper", []Kind{Shopping}},
		{"book", []Kind{Book}},
		{"all", Kinds()},
	}
}
