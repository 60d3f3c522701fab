package parse

// What the lexer expects behind each keyword. A number can be read as a time,
// a temperature or an amount; the word before it says which.

// want is what the next number or word is read as.
type want uint8

const (
	wName    want = iota // a name; an amount in front of it is an amount
	wTitle               // a title: it may begin with a figure
	wVessel              // a vessel, which may be called by its size, or so many of a kind
	wNamed               // a title whose words never join anything
	wTime                // 20 min
	wTemp                // 180 C
	wMeasure             // 300 ml
	wAmount              // 300 ml, a share, or a count before a name
	wAlone               // an amount that needs no name behind it
	wRange               // 4 to 6
	wInt                 // 4
	wNumber              // 1.80
	wPercent             // 75%
	wDate                // 2027-09-19
	wClock               // 13:00
	wText                // anything, to the end
	wPhrase              // anything, to the comma
	wPer                 // 300 g green beans, lb lamb, onion, load
	wCode                // E201
	wMoney               // GBP, after a price
)

// rule says how the words behind a keyword are read.
type rule struct {
	want  want     // what comes first
	comma want     // what comes after a comma
	small []string // words that join the parts, longest first where one begins another
}

// after says what is read behind a joining word.
var after = map[string]want{
	"per": wPer, "plus": wTime, "every": wTime, "say": wTime, "until": wPhrase, "within": wTime, "preheat": wTime, "heats": wTemp, "cools": wTemp,
	"work": wTime, "done": wTime, "for": wTime, "then": wTemp, "above": wTemp, "below": wTemp, "up to": wTime,
	"holds": wMeasure, "gas": wNumber, "fan": wTemp, "in": wNamed, "to": wClock, "at": wClock, "of": wNamed, "as": wNamed,
	"by": wNamed, "before": wNamed, "after": wNamed, "percent of": wNamed, "the": wNamed, "or": wMeasure, "and": wInt, "cook for": wInt,
	"keep the remains for": wPhrase, "washed in": wTime,
}

var (
	spellWords = []string{"until", "per", "plus", "every", "say"}
	placeWords = []string{"fridge", "freezer", "room", "larder", "warm place"}
	levelWords = []string{"high", "medium", "low"}
	heatWords  = []string{"very slow", "very hot", "moderately slow", "moderately hot", "moderate", "slow", "hot"}
	ovenWords  = append([]string{"fan", "gas", "for", "then", "in", "top shelf", "middle shelf", "bottom shelf", "shelves", "shelf"}, heatWords...)
)

// clauseRules are the rules of margins, in lists and in steps.
var clauseRules = map[string]rule{
	"work": {wTime, wTime, spellWords}, "watch": {wTime, wTime, spellWords}, "leave": {wTime, wTime, spellWords}, "rest": {wTime, wTime, spellWords},
	"stand": {wTime, wName, placeWords}, "thaw": {wTime, wName, placeWords}, "keeps": {wTime, wName, placeWords},
	"oven": {wTemp, wInt, ovenWords},
	"ring": {wRange, wName, levelWords}, "rings": {wRange, wName, levelWords}, "grill": {wRange, wName, levelWords},
	"fridge": {wTemp, wTemp, nil}, "freezer": {wTemp, wTemp, nil}, "room": {wTemp, wTemp, nil}, "larder": {wTemp, wTemp, nil}, "warm place": {wTemp, wTemp, nil},
	"tool": {wName, wName, nil}, "after": {wName, wName, nil}, "if": {wTitle, wTitle, nil}, "unless": {wTitle, wTitle, nil},
	"in": {wVessel, wMeasure, []string{"holds"}}, "into": {wInt, wMeasure, []string{"each"}},
	"core": {wTemp, wTemp, []string{"for"}}, "reach": {wTemp, wTemp, nil}, "never above": {wTemp, wTemp, nil},
	"uses": {wAmount, wName, []string{"nothing", "the"}}, "makes": {wAmount, wName, []string{"the"}}, "draws": {wAmount, wName, []string{"the"}},
	"hold":   {wTime, wTemp, []string{"hot", "warm", "cold", "up to", "above", "below"}},
	"within": {wTime, wTime, nil}, "start": {wTime, wTime, []string{"before serving"}}, "done": {wTime, wTime, []string{"before serving"}},
	"by": {wTitle, wTitle, nil}, "with": {wInt, wName, []string{"cooks", "cook"}},
	"caution": {wText, wText, nil}, "plus extra": {wText, wText, nil}, "left from": {wText, wText, nil},
	"drained": {wMeasure, wName, nil}, "bought as": {wMeasure, wName, nil}, "made in part": {wInt, wName, nil},
}

// factRules are the rules of larder margins.
var factRules = map[string]rule{
	"piece":  {wMeasure, wName, []string{"bought", "trimmed"}},
	"yields": {wPercent, wName, nil}, "buy": {wTitle, wTitle, nil},
	"price": {wNumber, wName, []string{"each", "per"}}, "weighs": {wMeasure, wName, []string{"per"}},
	"packs": {wMeasure, wMeasure, []string{"or"}}, "contains": {wTitle, wTitle, nil},
	"same as": {wTitle, wTitle, nil}, "plural": {wTitle, wTitle, nil},
	"keeps": {wTime, wName, placeWords}, "gives": {wInt, wInt, []string{"and"}},
}

var titleRule = rule{wTitle, wTitle, nil}

var textRule = rule{wText, wText, nil}

// fieldRules are the rules of fields, by place.
var fieldRules = map[Place]map[string]rule{
	AtBlock: {
		"notation": {wInt, wName, nil}, "menu": titleRule, "dish": titleRule, "base": titleRule,
		"kitchen": titleRule, "series": titleRule, "book": titleRule,
	},
	InMenu: {
		"covers": {wInt, wInt, []string{"children", "child"}}, "serve": {wDate, wClock, nil}, "at": titleRule,
		"hours":  {wDate, wClock, []string{"on the day", "day before", "days before", "to"}},
		"course": {wTitle, wTime, []string{"at", "after"}},
		"task":   {wTitle, wTitle, []string{"work", "by", "before serving", "before", "after", "done"}},
	},
	InRecipe: {
		"serves": {wRange, wMeasure, []string{"each"}}, "makes": {wAlone, wMeasure, []string{"each"}}, "keeps": {wTime, wName, placeWords},
		"tested": {wRange, wName, nil}, "units": titleRule,
		"serve": {wRange, wTime, []string{"hot", "warm", "cold", "at room temperature", "within"}},
		"takes": {wTime, wTime, []string{"work"}}, "as": {wTitle, wName, []string{"but"}},
		"gather": {wName, wName, []string{"percent of"}},
	},
	InGather: {
		"for": {wName, wName, []string{"the"}}, "either": titleRule, "or": titleRule, "said": textRule,
	},
	InMethod: {
		"pause": {wTime, wName, append([]string{"up to"}, placeWords...)},
	},
	InKitchen: {
		"oven":  {wTitle, wInt, []string{"shelves", "shelf", "fan", "gas", "preheat", "heats", "cools", "within"}},
		"rings": {wInt, wName, nil}, "cooks": titleRule, "tools": {wTitle, wTitle, []string{"washed in"}},
		"vessel":  {wTitle, wInt, []string{"holds"}},
		"wash up": {wTime, wTime, []string{"after each dish", "every", "before serving", "by"}},
		"waits":   {wTime, wTime, []string{"hot", "cold", "prepared"}}, "zone": textRule,
	},
	InLarder: {"units": titleRule, "decimal": titleRule},
	InSeries: {"part": {wInt, wTitle, nil}},
	InPart: {
		"shows": titleRule, "date": {wDate, wDate, nil}, "stand-ins": {wInt, wTitle, []string{"of", "as"}},
	},
	InBook: {"style": textRule, "chapter": titleRule},
}

// commonRules are the rules of the fields many blocks share.
var commonRules = map[string]rule{
	"by": textRule, "source": textRule, "picture": textRule, "link": textRule, "practice": textRule, "language": textRule,
	"allow": {wCode, wText, nil},
}
