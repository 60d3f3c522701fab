package sheets

// Kinds are all kinds of sheet, in the order they are bound.
func Kinds() []Kind {
	return []Kind{Overview, Wall, Timeline, RunSheet, Countdown, ByCook, OvenDoor, Mise, Shopping, Vessels, Allergens, TempLog, DateLabels, CostCard, Prep, Handout}
}

// DefaultKinds are the sheets that are printed when nobody chooses.
func DefaultKinds() []Kind {
	return []Kind{Overview, Wall, Timeline, Mise, Shopping, Vessels, Prep, Handout}
}
