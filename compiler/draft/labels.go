package draft

import (
	"strings"

	"tamis/lang/prose"
	"tamis/lang/quantity"
)

// label is what a word at the head of a text says of it.
type label int

const (
	noLabel   label = iota
	theList         // ingredients
	theMethod       // method
	theNotes
	theServes
	theMakes
	theTime
	otherTime // of preparing, of cooking
	theOven
	thePortion
	theTitle
	leftOut // what no sheet shows: cost, calories
)

var labels = map[string]label{
	"ingredients": theList, "ingredient": theList, "you will need": theList, "you'll need": theList, "what you need": theList, "what you will need": theList, "you need": theList,
	"shopping list": theList, "materials": theList, "the ingredients": theList, "quantities": theList, "what goes in": theList, "proportions": theList, "needed": theList,
	"method": theMethod, "mode": theMethod, "directions": theMethod, "instructions": theMethod, "preparation": theMethod, "procedure": theMethod, "steps": theMethod, "the method": theMethod,
	"what to do": theMethod, "how to make it": theMethod, "to make": theMethod, "how to do it": theMethod, "making": theMethod, "process": theMethod, "method of preparation": theMethod,
	"note": theNotes, "notes": theNotes, "tip": theNotes, "tips": theNotes, "hint": theNotes, "hints": theNotes, "variation": theNotes, "variations": theNotes, "remark": theNotes, "obs": theNotes, "n.b": theNotes, "nb": theNotes,
	"serves": theServes, "servings": theServes, "sufficient": theServes, "serving": theServes, "portions": theServes, "number of servings": theServes, "feeds": theServes, "enough for": theServes, "serves about": theServes, "recipe yield": theServes,
	"item": theTitle, "dish": theTitle, "recipe": theTitle, "recipe name": theTitle, "name of dish": theTitle, "product": theTitle, "title": theTitle,
	"shelf life": leftOut, "station": leftOut, "sheet": leftOut, "section": leftOut,
	"portion": thePortion, "portion size": thePortion, "amount in one serving": thePortion,
	"makes": theMakes, "yield": theMakes, "yields": theMakes, "total volume": theMakes, "quantity": theMakes,
	"time": theTime, "total time": theTime, "ready in": theTime, "takes": theTime, "time required": theTime, "altogether": theTime,
	"prep time": otherTime, "preparation time": otherTime, "cook time": otherTime, "cooking time": otherTime, "prep": otherTime, "cook": otherTime, "cooking": otherTime, "active time": otherTime, "baking time": otherTime, "oven time": otherTime,
	"oven": theOven, "oven temperature": theOven, "temperature": theOven,
	"average cost": leftOut, "cost": leftOut, "seasonable": leftOut, "source": leftOut, "calories": leftOut, "nutrition": leftOut, "calories in one serving": leftOut, "cost of one serving": leftOut,
	"copyright": leftOut, "category": leftOut, "difficulty": leftOut, "transcribed": leftOut, "date": leftOut, "from": leftOut, "subject": leftOut, "to": leftOut,
}

var headNumber = lazily(`^(?:No\. ?)?\d{1,4}[a-z]?\s*(?:[.)—–-]+\s*)+`)

// labelOf tells what a heading is a label for.
func labelOf(s string) label {
	s = headNumber.ReplaceAllString(s, "")
	s = strings.ToLower(strings.Trim(strings.NewReplacer("_", "", "*", "", "’", "'").Replace(s), " .:—–-"))
	if l := labels[s]; l != noLabel {
		return l
	}
	if strings.HasPrefix(s, "ingredients for") || strings.HasPrefix(s, "quantities for") || strings.HasPrefix(s, "quantities required for") {
		return theList
	}
	switch {
	case len(strings.Fields(s)) > 7:
	case needs.MatchString(s):
		return theList
	case doing.MatchString(s):
		return theMethod
	}
	return noLabel
}

// What somebody who tells it says above a list, and above what is done: "Here's what you need",
// "How I make it".
var (
	needs = lazily(`^(?:here'?s |and )?(?:what|all|things|stuff|everything) (?:you|i|we)(?:'ll|'d| will)? (?:need|use|used|want|buy|bought|put in)\b`)
	doing = lazily(`^(?:(?:here'?s|now|then|and|so) )*(?:how|what) (?:to|(?:i|you|we|she|he)(?:'d|'ll)?|it'?s|it is) (?:(?:then|usually|always) )?(?:make|made|do|did|done|cook|cooked|bake|baked|put|assemble)\b(?: (?:it|them|this|these))?(?: .{1,12})?$|^(?:putting|bringing) (?:it|them) (?:all )?together$|^let's (?:make|cook|bake|do) (?:it|them|this)$`)
)

// runIn is a label that stands in one line with what it labels: "_Mode_.--Cut up",
// "Serves: 6", "367. INGREDIENTS.--1 small bunch".
var runIn = lazily(`^(?:No\. ?)?(?:\d{1,4}[.)]\s*)?[_*]{0,2}(\p{L}[\p{L}' ]{1,40}?)[_*]{0,2}[.]?[_*]{0,2}\s*(?:--+|—|–|:)[_*]{0,2}\s*(\S.*)$`)

// atHead is a label that no mark parts from what it labels: "Serves 6", "Makes about 24
// biscuits", "Yield 100", "Number of servings 160", "Sufficient for 7 or 8 persons".
var atHead = lazily(`(?i)^_?(serves|makes|yields?|number of servings|sufficient|enough for|feeds|portions?|total volume|total time|prep(?:aration)? time|cook(?:ing)? time|ready in|amount in one serving|calories in one serving|cost of one serving|average cost|seasonable)_?,?\s+(\S.*)$`)

// labelled parts a text from the label at its head.
func labelled(s string) (l label, rest string) {
	if bare := strings.TrimRight(s, "_ "); len(s)-len(bare) > 2 { // a form that nobody has filled in
		if l := labelOf(bare); l != noLabel {
			return l, ""
		}
	}
	if m := runIn.FindStringSubmatch(s); m != nil {
		if l := labelOf(m[1]); l != noLabel {
			return l, m[2]
		}
	}
	if m := atHead.FindStringSubmatch(s); m != nil && len(strings.Fields(s)) <= 12 {
		if l := labelOf(m[1]); l != noLabel {
			return l, m[2]
		}
	}
	if m := lengthOf.FindStringSubmatch(s); m != nil {
		if times := prose.Read(m[1]).Times; len(times) == 1 && times[0].From == 0 && times[0].To == len(m[1]) {
			return otherTime, m[1]
		}
	}
	return noLabel, s
}

// lengthOf is how long a part of the work takes, on a line that says no more: "Prep 15 minutes".
var lengthOf = lazily(`^(?:Prep|Preparation|Cook|Cooking|Baking|Chilling|Rising|Resting|Hands-on)[:,]? (\d.*)$`)

var saysYield = lazily(`(?i)\b(serves?|served|fed|yields?:?|(?:makes )?enough for|makes?|made|sufficient for|feeds?|will do for|plenty for|should do)\s+(?:about |nearly |roughly )?([\p{L}\d](?:[\p{L}\d -]|\.\d){0,40}?)(?:[,;!)]|\.(?:\D|$)|$| if | when | and )`)

// batchIs is what a batch comes to: "One batch = 18 scones".
var batchIs = lazily(`(?i)\b(?:one|a|1|each|per) (?:batch|lot|mix|quantity|recipe)\s*(?:=|is|gives|comes to)\s*([\p{L}\d][\p{L}\d -]{0,30}?)(?:[,;.!)]|$)`)

// forSoMany is what a sentence says by the way: "for eight people", "16 portions".
var forSoMany = lazily(`(?i)\b()(?:for (?:about )?([\p{L}\d-]+(?: (?:to|or) [\p{L}\d-]+)?) (?:people|persons|guests|covers)|(\d+) (?:portions|covers))\b`)

// forCovers is a few words that say for how many it is: "For 10.", "sec. for 40 covers".
var forCovers = lazily(`(?i)^(?:.{0,12}\s)?for (?:about )?([\p{L}\d -]{1,24}?)[.)]?$|^(\d+ (?:people|persons|covers|servings|portions))\)?$`)

var people = lazily(`(?i)^(?:for\s+)?(?:about\s+)?(.+?)\s*(?:persons?|people|servings?|portions?|covers|guests|diners|helpings|friends|eaters|of us|plates)?(?:\s+each)?[.]?$`)

// withMore is what may be said behind a number of people: as what they eat it, how hungry
// they are.
var withMore = lazily(`(?i)[ ,]+(?:as an? |as part of |with |easily|comfortably|generously|generous|hungry|or more|or so|at a pinch|if ).*$`)

// serves is how many a text says it is for, as the notation writes it: "6", "7 to 8".
func serves(s string) string {
	if strings.Contains(strings.ToLower(s), "dozen") {
		return "" // a figure of our own would stand there
	}
	s = strings.TrimSpace(withMore.ReplaceAllString(s, ""))
	m := people.FindStringSubmatch(s)
	if m == nil {
		return ""
	}
	n, end := quantity.ReadSpoken(m[1], quantity.Options{})
	if end == 0 || strings.TrimSpace(m[1][end:]) != "" || n.Part || n.Article {
		return ""
	}
	low, high := n.Value.Low.String(), n.Value.High.String()
	if strings.ContainsAny(low+high, "./") {
		return ""
	}
	if low == high {
		return low
	}
	return low + " to " + high
}
