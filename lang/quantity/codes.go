package quantity

// The Q codes. A code is printed, can be searched for and is never reused.
const (
	CodeTwoNumbers  = "Q101" // two numbers side by side
	CodeMark        = "Q102" // the other decimal mark, or a mark between thousands
	CodeFalling     = "Q103" // a range that does not rise
	CodeLong        = "Q105" // a number no kitchen needs
	CodeFraction    = "Q106" // a fraction over 0, or 1 3/2
	CodeNoZero      = "Q107" // .5 for 0.5
	CodeWords       = "Q108" // an amount in words
	CodeAbout       = "Q109" // "about 200 g" in a list
	CodeNoName      = "Q110" // an amount of nothing
	CodePlural      = "Q111" // 4 cup cakes
	CodeLetter      = "Q112" // T, t, c, m and in are no units
	CodePack        = "Q113" // packages written in another way than 2 x 400 g tins
	CodeEachOrAll   = "Q114" // 2 tins (400 g)
	CodePair        = "Q115" // the two measures of a pair differ
	CodePlus        = "Q116" // plus between amounts that cannot be added
	CodePer         = "Q117" // per what?
	CodeUnknownWord = "Q118" // 3 fronds dill
	CodeHyphen      = "Q119" // 2-inch
	CodeNothing     = "Q121" // an amount of 0
	CodeUnitTwice   = "Q122" // 200 g to 250 g
	CodeEach        = "Q123" // 1 tsp each cumin and coriander
	CodeMisspelt    = "Q124" // 1 tblsp, 250 gr, 1 generous tbsp
	CodeTyped       = "Q125" // 6OO g, 600 g g, 6 00 g

	CodeSpanUnit   = "Q201" // 40 of what: minutes, hours?
	CodeSpanOrder  = "Q202" // 20 min 1 h
	CodeSpanLong   = "Q203" // longer than anything keeps
	CodeSpanRises  = "Q204" // a range of times that does not rise
	CodeSpanUpTo   = "Q205" // "2 h, up to 1 h"
	CodeNoScale    = "Q301" // 200 of what: C, F?
	CodeScaleForm  = "Q302" // 200 c, 200 degrees
	CodeTempRange  = "Q303" // a range of degrees without "to"
	CodeTempRises  = "Q304" // a range of degrees that does not rise
	CodeTempWhole  = "Q305" // 62.5 C
	CodeTempLimits = "Q306" // hotter or colder than a kitchen gets

	CodeKinds     = "Q401" // grams and millilitres cannot be added
	CodeNoSystem  = "Q402" // a cup of which system?
	CodeNotThere  = "Q403" // a metric pint
	CodeNoSize    = "Q404" // a pinch has no size
	CodeNoDensity = "Q405" // volume to weight without a density
	CodeNoPiece   = "Q406" // count to weight without a piece weight
	CodePercent   = "Q407" // a percentage of what?
)

// Options are what the folder says about reading.
type Options struct {
	DecimalComma bool             // 1,5 kg; otherwise 1.5 kg
	System       System           // for comparing pairs such as 1 pint (570 ml); may be NoSystem
	Measures     map[string]*Unit // word units of the larder, under Fold of singular and plural

	// Alone lets an amount stand without a name: "makes 1.2 litres".
	Alone bool
	// Prose reads inside a sentence: what is not plainly an amount is none,
	// and nothing is complained of.
	Prose bool
}
