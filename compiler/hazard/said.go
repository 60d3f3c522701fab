package hazard

import (
	"regexp"
	"strings"
	"time"

	"tamis/lang/prose"
)

// SaidStay is a stay that only a sentence speaks of: "keep in the cellar till Christmas".
type SaidStay struct {
	Words string // from the verb to the end of the place or of the time
	Place string // fridge, freezer, else room
	Long  string // how long, where nobody gives a figure: "for weeks"
	Time  time.Duration
}

// places are where food waits out of the cold, each as its sentence names it.
var places = strings.Split("shelf / shelves / counter / countertop / worktop / cellar / larder / pantry / cupboard / garage / shed / porch / doorstep / step / balcony / window / windowsill / window sill / sill / stove / hob / range / table / sideboard / dresser / kitchen / scullery / basement / attic / loft / store / storeroom / store-room / barn / hall / place / side / bench / landing / verandah / veranda / terrace / wall / outhouse / car / boot", " / ")

// openly are words for the same without a place.
var openly = []string{"room temperature", "unrefrigerated", "out of the fridge", "outside"}

var (
	// kept begins what is done with food that waits.
	kept = regexp.MustCompile(`\b(keeps?|kept|stores?|stored|leaves?|left|stands?|stood|sits?|rests?|waits?|put|set|goes|go|hang|hangs|lay|stow|tuck|pack|stack|lasts?|stays?|lives?|carry)\b`)
	// waitsAt is where it waits. Cold places are other than these.
	waitsAt = regexp.MustCompile(`\b(?:on|at|by|beside|near|in|under|next to|outside|behind) (?:(?:a|an|the|its|their|your|our|some) )?(?:(?:back|bottom|top|corner|side|end|edge) of (?:a|the) )?(?:(?:cool|dark|dry|top|back|high|low|kitchen|warm|sunny|cold|open|garden|cool,) )*(` + strings.Join(places, "|") + `)\b`)
	warmly  = regexp.MustCompile(`\b(at room temperature|unrefrigerated|out of the fridge|outside (?:the|in|for|overnight|until|till))\b`)
	people  = regexp.MustCompile(`\b(?:till|until|before|when) (?:(?:we|you|they|he|she) (?:(?:is|are|get|gets|come|comes) (?:back|in|home|here|up|hungry)|returns?|arrives?)|(?:everyone|everybody|people|somebody|the (?:guests|children|family|others|men|party|team|boys|girls|walkers|visitors)) (?:is|are|come|comes|get|gets|return|returns|arrive|arrives|wake|wakes|wants?|have|has))\b`)
	wholly  = regexp.MustCompile(`\b(?:as long as (?:it lasts|you like)|(?:until|till) (?:it|they|all of it) (?:is|are|has|have) (?:been )?(?:gone|finished|used|used up|empty|eaten|wanted|needed))\b`)
	till    = regexp.MustCompile(`\b(?:till|until|for|to|over|through|by|before|against) (?:(?:the|this|next|all|whole|following|coming) )*(christmas|easter|winter|spring|summer|autumn|season|year|new year|thanksgiving|january|february|march|april|may|june|july|august|september|october|november|december|monday|tuesday|wednesday|thursday|friday|saturday|sunday|weekend|week|month|tomorrow|tomorrow's|morning|day|breakfast|night)\b|\b(overnight|indefinitely|for months|for weeks|for days|all winter)\b`)
)

// how long a wait that is named by its end may last; at least so long is meant. Common
// practice, no source.
const (
	someHours = 5 * time.Hour
	aNight    = 10 * time.Hour
	someDays  = 48 * time.Hour
	someWeek  = 7 * 24 * time.Hour
	aSeason   = 60 * 24 * time.Hour
)

func lastsTill(word string) (time.Duration, string) {
	switch word {
	case "tomorrow", "tomorrow's", "morning", "day", "breakfast", "night", "overnight":
		return aNight, "for a night"
	case "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday", "weekend", "for days":
		return someDays, "for days"
	case "week", "for weeks":
		return someWeek, "for weeks"
	}
	return aSeason, "for months"
}

// SaidStay is what the words of the step keep somewhere out of the cold, where no clause does:
// in which place, until when, and how long that is at the least. What is only kept "on a
// shelf" stays there for weeks; what is only left there, nobody knows how long.
func (st *Stage) SaidStay() (s SaidStay, ok bool) {
	if !st.Says(places...) && !st.Says(openly...) { // most steps, and at less cost
		return s, false
	}
	for sentence := range strings.FieldsFuncSeq(st.text[:st.said], func(r rune) bool { return strings.ContainsRune(".;!?\n", r) }) {
		if s, ok = st.stayIn(sentence); ok {
			return s, true
		}
	}
	return s, false
}

func (st *Stage) stayIn(sentence string) (s SaidStay, ok bool) {
	for _, v := range kept.FindAllStringIndex(sentence, -1) {
		verb, rest := sentence[v[0]:v[1]], sentence[v[0]:]
		keeps := strings.HasPrefix(verb, "ke") || strings.HasPrefix(verb, "stor")
		if denies(sentence[:v[0]]) || hasWord(rest, "fridge", "refrigerator", "freezer", "freeze", "chill", "ice", "iced", "cold room", "cold store", "cool box", "chiller") || keeps && hasWord(rest, "warm", "hot") && !hasWord(rest, "warm place") {
			continue
		}
		at := waitsAt.FindStringIndex(rest)
		if at == nil {
			at = warmly.FindStringIndex(rest)
		}
		if at == nil || st.Heats && hasWord(rest, "oven", "grill", "smoker", "smokehouse", "barbecue") || st.Heats && hasWord(rest[at[0]:at[1]], "stove", "hob", "range", "place", "side") && !keeps {
			continue
		}
		s = SaidStay{Place: "room"}
		end := at[1]
		for _, t := range prose.Read(rest).Times {
			if t.Lasting() && longest(t.Span) > s.Time {
				s.Time, end = longest(t.Span), max(end, t.To)
			}
		}
		if m := till.FindStringSubmatchIndex(rest); m != nil && s.Time == 0 {
			word := submatch(rest, m, 1) + submatch(rest, m, 2)
			s.Time, s.Long = lastsTill(word)
			end = max(end, m[1])
		}
		if m := wholly.FindStringIndex(rest); m != nil && s.Time == 0 {
			s.Time, s.Long, end = someWeek, "for weeks", max(end, m[1])
		}
		if m := people.FindStringIndex(rest); m != nil && s.Time == 0 {
			s.Time, s.Long, end = someHours, "for hours", max(end, m[1])
		}
		if s.Time == 0 && keeps && hasWord(rest[at[0]:at[1]], "shelf", "shelves", "cellar", "larder", "pantry", "cupboard", "garage", "basement", "attic", "store", "storeroom", "store-room") {
			s.Time, s.Long = someWeek, "for weeks"
		}
		if s.Time > 0 {
			s.Words = rest[:end]
			return s, true
		}
	}
	return s, false
}

// submatch is the n-th bracket of a match; empty where it has none.
func submatch(text string, m []int, n int) string {
	if m[2*n] < 0 {
		return ""
	}
	return text[m[2*n]:m[2*n+1]]
}

// denies tells whether a text ends in a word that takes back what follows: "do not leave".
func denies(text string) bool {
	words := strings.Fields(text)
	for _, w := range words[max(0, len(words)-2):] {
		if noWords[w] {
			return true
		}
	}
	return false
}
