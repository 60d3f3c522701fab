package check

import "slices"

// safetyRules are in the order of their codes.
var safetyRules = slices.Concat([]*Rule{
	practiceUnknown,
	coreMissing,
	coreLow,
	coreFish,
	reheatMissing,
	reheatLow,
	reheatTwice,
	uncooled,
	coolSlow,
	keepsLong,
	garlicOil,
	holdLow,
	holdOpen,
	timeOut,
	mixtureLong,
	riceWarm,
	kidneyBeans,
	keptWarm,
	rawEgg,
	rawFlour,
	jarShelf,
	infantHoney,
	rawFish,
}, handRules, []*Rule{
	thawWarm,
	marinadeRaw,
	slowReheat,
	keptPastPart,
	holdCold,
	frozenIn,
})
