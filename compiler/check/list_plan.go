package check

import "slices"

var planRules = slices.Concat(timelineRules, []*Rule{
	noBreak,
	idleHours,
	idleCook,
})
