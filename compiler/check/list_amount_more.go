package check

// judgedAmounts are what an editor asks about amounts that can be read.
var judgedAmounts = []*Rule{
	mixedSystems,
	noPieceSize,
	uncounted,
	noTinSize,
	byEye,
	pairDensity,
	tooMuch,
	unmeasurable,
	massOut,
	massOutOfStep,
	noPortionSize,
	eggSize,
	saltKind,
	fractionStyle,
	untested,
	otherPieces,
	dice,
	whichSugar,
}
