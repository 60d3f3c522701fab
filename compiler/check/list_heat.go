package check

var heatRules = []*Rule{
	saidTimes,
	saidDegrees,
	heatPairs,
	noOven,
	boiledInOven,
	ovenNoTime,
	lid,
	earlyOven,
	shortHeadline,
	shortWork,
	longStep,
	stepNumber,
	smallVessel,
	notHere,
	lateWait,
	limits,
	icedHot,
	noRing,
	noGrill,
}
