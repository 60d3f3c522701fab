package check

import "slices"

var nameRules = slices.Concat(listNameRules, variantRules, stepNameRules, takeRules, []*Rule{
	washingTime,
	orderOfUse,
	preparedTwice,
	nearTwins,
	optionalPlain,
	zestAfterJuice,
	productUnused,
	keptUnused,
	reservedNever,
	garnishWhat,
	greaseWhat,
	seasonWhat,
	listHead,
	oneLetter,
	substituteSame,
	eggHalves,
	slowState,
	stateFromNowhere,
	addedAgain,
	twoNames,
	idleBase,
	chapterOfNothing,
	renamedBase,
	drainedOrNot,
	packedOrNot,
})
