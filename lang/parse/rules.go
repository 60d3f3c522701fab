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
	wPack                // 300 ml, or 12
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
	wSeller              // the shop, a greengrocer
)

// rule says how the words behind a keyword are read.
type rule struct {
	want  want     // what comes first
	comma want     // what comes after a comma
	small []string // words that join the parts, longest first where one begins another
}

// after says what is read behind a joining word; what the keyword reads first
// when the word is not here.
var after = map[string]want{
	"per": wPer, "plus": wTime, "every": wTime, "shut": wTime, "say": wTime, "until": wPhrase, "within": wTime, "preheat": wTime, "heats": wTemp, "cools": wTemp,
	"work": wTime, "done": wTime, "for": wTime, "then": wTemp, "above": wTemp, "below": wTemp, "up to": wTime,
	"holds": wMeasure, "gas": wNumber, "fan": wTemp, "in": wNamed, "to": wClock, "at": wClock, ":": wText, "of": wNamed, "as": wNamed,
	"by": wNamed, "before": wNamed, "after": wNamed, "percent of": wNamed, "the": wNamed, "or": wMeasure, "and": wInt, "cook for": wInt,
	"keep the remains for": wPhrase, "washed in": wTime, "at most": wTime, "with": wName, "about": wAlone, "nearly": wAlone,
}

var (
	placeWords = []string{"fridge", "freezer", "room", "cool place", "warm place"}
	levelWords = []string{"medium to high", "low to medium", "high", "medium", "low"}
	heatWords  = []string{"very slow", "very hot", "moderately slow", "moderately hot", "moderate", "slow", "hot"}
	ovenWords  = append([]string{"fan on", "fan off", "fan", "gas", "for", "then", "in", "top shelf", "middle shelf", "bottom shelf", "shelves", "shelf", "shut"}, heatWords...)
)

// The rules that several words share.
var (
	nothing       rule // nothing behind it, or what is read in its own way
	aTitle        = rule{wTitle, wTitle, nil}
	aName         = rule{wName, wName, nil}
	freeText      = rule{wText, wText, nil}
	aCount        = rule{wInt, wName, nil}
	aFigure       = rule{wRange, wName, nil}
	aMeasure      = rule{wMeasure, wName, nil}
	aTime         = rule{wTime, wTime, nil}
	aSpell        = rule{wTime, wTime, []string{"until", "per", "plus", "every", "say", "at most", "at", "of the largest"}}
	aStay         = rule{wTime, wName, placeWords}
	beforeServing = rule{wTime, wTime, []string{"before serving"}}
	someDegrees   = rule{wTemp, wTemp, nil}
	aSeller       = rule{wSeller, wName, []string{"the"}}
	aStep         = rule{wInt, wNamed, nil}
	aDiary        = rule{wDate, wName, []string{":"}}
	aLevel        = rule{wRange, wName, levelWords}
)
