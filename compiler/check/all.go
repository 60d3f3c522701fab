package check

import (
	"cmp"
	"slices"
)

// All is every rule, by family and code. Add a rule to the list of its family.
var All = sorted(
	notationRules,
	amountRules,
	nameRules,
	heatRules,
	planRules,
	safetyRules,
	allergenRules,
	slices.Concat(styleRules, allowRules),
	menuRules,
	fileRules,
)

func sorted(families ...[]*Rule) []*Rule {
	for _, f := range families {
		slices.SortFunc(f, func(a, b *Rule) int { return cmp.Compare(a.Code, b.Code) })
	}
	return slices.Concat(families...)
}
