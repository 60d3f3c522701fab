package check

var styleRules = []*Rule{
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
