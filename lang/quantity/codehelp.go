package quantity

// CodeHelp explains one Q code. Wrong and Right are gather lines, times or
// temperatures by the code's hundred; both are empty where a code depends on
// more than one line.
type CodeHelp struct {
	Code, Title, Text string
	Wrong, Right      string
}

// CodeTable lists every Q code in order.
func CodeTable() []CodeHelp { return append([]CodeHelp(nil), codeTable...) }

var codeTable = []CodeHelp{
	{
		CodeTwoNumbers, "Two numbers side by side.", "Two numbers may stand side by side only in a mixed number (1 1/2), a sum of falling units (2 lb 10 oz) or a pair (900 g (2 lb)). A number of packages stands before the size of one.",
		"2 400 g flour", "2400 g flour",
	},
	{
		CodeMark, "Decimal mark or thousands.", "The decimal mark is the point, or the comma where the larder says `decimal comma`. Nothing stands between the thousands, because readers of another country take it for the decimal mark.",
		"1,5 kg flour", "1.5 kg flour",
	},
	{
		CodeFalling, "A range that does not rise.", "A range goes from the smaller to the larger. `1-1/2` is one and a half.",
		"3-2 cups milk", "2 to 3 cups milk",
	},
	{
		CodeLong, "A number too long.", "A number has at most nine figures before its mark and six after it.",
		"10000000000 g flour", "10000 g flour",
	},
	{
		CodeFraction, "A fraction that is none.", "Below the stroke stands no 0, and after a whole number the fraction is less than 1.",
		"1 3/2 cups milk", "2 1/2 cups milk",
	},
	{
		CodeNoZero, "A point without a figure before it.", "The point of .5 is lost in print and in copying, and ten times too much goes in the pot.",
		".5 kg flour", "0.5 kg flour",
	},
	{
		CodeWords, "Words before a name that may be a number.", "Numbers in words, halves and dozens are read. `three bean salad` may be the name of one thing or three salads, and words such as `a few sprigs of` give no figure: the name stands alone.",
		"three bean salads", "3 bean salads",
	},
	{
		CodeAbout, "About, before an amount.", "Amounts are scaled and added up, so the figure counts as it stands, and the word is not kept. A doubt is written as a range.",
		"about 200 g flour", "180 to 220 g flour",
	},
	{
		CodeNoName, "An amount of nothing.", "In a list a name follows every amount.",
		"200 g", "200 g flour",
	},
	{
		CodePlural, "Above 1, the plural.", "A unit word above 1 is plural; `4 cup cakes` may be cups of cakes or cakes. If the word belongs to the name, the name takes quotes.",
		"2 stick cinnamon", "2 sticks cinnamon",
	},
	{
		CodeLetter, "A letter that is no unit.", "T, t, C and m are read in different ways by different cooks, and `in` is the word before a vessel.",
		"2 T sugar", "2 tbsp sugar",
	},
	{
		CodePack, "How packages are written.", "Packages are a count, an x, the size of one and its kind. `400 g tin` leaves open how many, and whether 400 g is all.",
		"400 g tin tomatoes", "1 x 400 g tin tomatoes",
	},
	{
		CodeEachOrAll, "Each, or in all.", "A size after several packages may be that of one or of all.",
		"2 tins (400 g) tomatoes", "2 x 400 g tins tomatoes",
	},
	{
		CodePair, "A pair that differs.", "The two measures of a pair are more than 6% apart, which no rounding makes. The first counts; an ounce of 25 g, as old conversions have it, is no slip.",
		"50 g (1 oz) butter", "50 g butter",
	},
	{
		CodePlus, "A sum that cannot be made.", "`plus` joins measures of one kind, the larger unit first.",
		"2 cups plus 100 g flour", "2 cups flour",
	},
	{
		CodePer, "Per what.", "In a list amounts grow per cover, or per so many covers.",
		"120 g per 0 covers beef", "120 g per cover beef",
	},
	{
		CodeUnknownWord, "A unit or a name?", "An unknown plural word after a count may be a unit. A `measure` line in the larder makes it one.",
		"3 fronds dill", "3 sprigs dill",
	},
	{
		CodeHyphen, "A dash before a unit.", "A figure and its unit are two words. A name that begins with a figure takes quotes.",
		"1/2-inch ginger", "1/2 inch ginger",
	},
	{
		CodeNothing, "An amount of 0.", "Nothing need not be listed.",
		"0 g salt", "1 g salt",
	},
	{
		CodeUnitTwice, "A range of two units.", "A range rises, in units of one kind.",
		"1 kg to 250 g flour", "250 g to 1 kg flour",
	},
	{
		CodeEach, "Each, in a list.", "A line is one thing, so that it can be weighed, bought and followed through the steps.",
		"1 tsp each cumin and coriander (ground)", "1 tsp cumin",
	},
	{
		CodeMisspelt, "A size that is not kept.", "Words between the figure and its unit are not kept, but for the sizes small, medium, large, heaped, level, rounded and scant.",
		"1 generous tbsp oil", "1 heaped tbsp oil",
	},
	{
		CodeTyped, "A slip of the keys in an amount.", "A letter among figures, a space inside a number or a second unit is most often a slip, and would make a name of the amount. What was most likely meant counts until it is put right.",
		"6OO g leeks", "600 g leeks",
	},

	{CodeSpanUnit, "A time without its unit.", "Minutes or hours: min, h, s, days, weeks.", "40", "40 min"},
	{CodeSpanOrder, "The order of units of time.", "The longer unit comes first.", "20 min 1 h", "1 h 20 min"},
	{CodeSpanLong, "A time too long.", "Nothing in a kitchen takes six years.", "10000 weeks", "10 weeks"},
	{CodeSpanRises, "A range of times that does not rise.", "A range goes from the shorter time to the longer.", "2 h to 30 min", "30 min to 2 h"},
	{CodeSpanUpTo, "Up to less.", "`2 h, up to 1 day` is at least the first and at most the second.", "2 h, up to 1 h", "1 h, up to 2 h"},
	{CodeNoScale, "Degrees of which scale.", "A degree always names its scale: 200 C and 200 F are both ovens.", "200", "200 C"},
	{CodeScaleForm, "How a scale is written.", "The scale is a capital C or F after the figure; `fan` stands before it.", "180 degrees C", "180 C"},
	{CodeTempRange, "A range of degrees.", "A range of degrees takes `to`, since a dash may be a minus, and names its scale once.", "180-200 C", "180 to 200 C"},
	{CodeTempRises, "A range of degrees that does not rise.", "A range goes from the cooler to the hotter.", "200 to 180 C", "180 to 200 C"},
	{CodeTempWhole, "Whole degrees.", "Temperatures are written in whole degrees.", "62.5 C", "63 C"},
	{CodeTempLimits, "Beyond what a kitchen gets to.", "Below -200 C or above 600 C a figure is a slip, and gas ovens have the marks 1/4, 1/2 and 1 to 9.", "1800 C", "180 C"},

	{CodeKinds, "Two kinds that do not add.", "Weights, volumes, lengths and counts add only to their own kind. The larder bridges them: `weighs 1.03 g per ml`, `piece 120 g`.", "", ""},
	{CodeNoSystem, "Whose cup?", "Cups, spoons and pints differ from country to country. `units` in the larder or the dish says which are meant.", "", ""},
	{CodeNotThere, "A unit the system does not have.", "Metric has no pint, quart, gallon, gill or fluid ounce: a pint may be 473 or 568 ml.", "", ""},
	{CodeNoSize, "A unit without size.", "Pinches, handfuls, cloves and tins have no fixed size.", "", ""},
	{CodeNoDensity, "No density.", "A volume becomes a weight only by what 1 ml weighs.", "", ""},
	{CodeNoPiece, "No weight of a piece.", "A count becomes a weight only by what one piece weighs.", "", ""},
	{CodePercent, "Per cent of what.", "Percentages belong in a list headed `gather, percent of` and the name of the flour.", "", ""},
}
