package check

import "slices"

// All is every rule, by family. Add a rule to the list of its family.
var All = slices.Concat(
	notationRules,
	amountRules,
	nameRules,
	heatRules,
	planRules,
	safetyRules,
	allergenRules,
	styleRules,
	menuRules,
)
