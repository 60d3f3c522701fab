package check

var allergenRules = []*Rule{
	containsLess,
	containsUnknown,
	containsLoose,
	dietWord,
	swapAllergen,
	lowClaim,
}
