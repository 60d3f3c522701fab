package check

var menuRules = []*Rule{
	noCovers,
	noKitchen,
	mainThing,
	noTask,
	courseOrder,
	leftNoKeeps,
	notFed,
	sameTwice,
	toWrite,
	ovenNotListed,
	carriedFromNowhere,
	partsInOrder,
}
