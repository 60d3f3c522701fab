package check

var styleRules = []*Rule{
	titleCase,
	figureFirst,
	noServes,
	noCredit,
	titlePromise,
	unexplained,
	preheatStyle,
	dividedStyle,
	rangeStyle,
	unitStyle,
	unknownStyle,
	styleTwice,
	asterisk,
	headnoteCount,
	sameAbout,
	doubleWord,
	doublesEasily,
	chapterTwice,
	wrongVerb,
}
