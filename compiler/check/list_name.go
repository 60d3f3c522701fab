package check

import "slices"

var nameRules = slices.Concat(listNameRules, stepNameRules, takeRules, []*Rule{})
