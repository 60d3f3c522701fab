package check

import "slices"

var planRules = slices.Concat(timelineRules, []*Rule{
	washedLater,
	noBreak,
	idleHours,
	idleCook,
	serviceUntimed,
	oneMoment,
	notCold,
	kettle,
})
