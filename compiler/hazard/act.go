package hazard

import (
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/prose"
)

var (
	heatWords = []string{"sizzle", "hard-boil", "hard boil", "soft-boil", "pan-fry", "shallow-fry", "dry-fry", "dry-roast", "pan-roast", "pot-roast", "slow-cook", "slow-roast", "oven-roast", "oven-bake", "pressure-cook", "stir-fry", "stir fry", "barbecue", "griddle", "smoke", "hot-smoke", "air-fry", "air fry", "spit-roast", "chargrill", "broil", "zap", "nuke", "flash-fry", "confit", "parboil", "half-cook", "part-cook", "par-cook", "bake", "roast", "fry", "deep-fry", "boil", "simmer", "grill", "poach", "steam", "braise", "stew", "cook", "toast", "sear", "brown", "heat", "reheat", "warm", "scramble", "sweat", "soften", "bring back", "microwave", "sauté", "char", "blanch", "scald", "melt"}
	coolWords = []string{"cool", "cools", "cooled", "cooling", "iced water", "ice water", "ice bath", "refresh", "no longer warm", "until cold", "stone cold", "blast chiller", "blast-chill", "blast chill", "chiller"}
	coldWords = []string{"chill", "chilled", "fridge", "refrigerate", "freeze", "freezer"}
	// To stand in cold water or on ice cools what is not on the heat; to be covered
	// with it, let down with it or served beside it does not.
	bathWords = []string{"in cold water", "into cold water", "in a sink of cold water", "in a basin of cold water", "in a bowl of cold water", "in running water", "under cold water", "under cold running water", "under running water", "under the tap", "under the cold tap", "in ice", "on ice", "over ice", "into ice", "in a bowl of ice", "over a bowl of ice", "in snow"}
	wetWords  = []string{"boil", "boiling", "simmer", "simmers", "simmering", "bubble", "bubbling", "stew", "braise", "poach", "scald", "steam"}
)

// act works out what a step does to its pot.
func (st *Stage) act() {
	s := st.Step
	if st.Before.Totals.Flesh && st.Tells("mince it") {
		for _, i := range st.Before.Items {
			i.mince()
		}
	}
	st.Heats = heats(st)
	reach, said := s.Reach.Celsius()
	st.Cools = st.Says(coolWords...) || !st.Heats && (st.Says(bathWords...) || said && reach <= 25)
	cold := !st.Heats && s.Place == "" && st.Says(coldWords...) && (st.Tells("cold place") || !st.Says("out of the freezer", "out of the fridge", "from the freezer", "from the fridge"))
	later := cold && st.chillsLater()
	st.Chills = s.Place == "fridge" || s.Place == "freezer" || cold && !later
	after := st.Before
	if st.Heats {
		cold := after.Chilled && after.Warmth != Hot
		st.Warms = cold && !st.anew() && !st.rawDough()
		if st.Warms {
			after.Back = append(slices.Clone(after.Back), st)
		}
		after.Chilled = after.Chilled && !cold
		melts := st.melts()
		for _, i := range after.Items[after.heated:] {
			if !i.Heated && !(melts && i.Is(Egg)) {
				i.Heated, i.hot = true, st.N
			}
		}
		after.heated = len(after.Items)
		if melts {
			after.heated = slices.IndexFunc(after.Items, func(i *Item) bool { return i.Is(Egg) && !i.Heated })
		}
		if after.Warmth = Hot; len(after.Items) > 0 { // scalded jars are no cooked food
			after.From = s
		}
		after.Cooked = after.Cooked || after.Grows() && !melts
	}
	if !st.Heats && after.Warmth == Hot && st.combines() && !after.Strong() {
		after.Warmth, after.Cooked = Fresh, false // a spoonful of fried garlic in a bowl of cold salad
	}
	if st.Cools && after.Warmth == Hot {
		after.Warmth = Cooled
	}
	if st.Chills && (s.Place != "" || after.Warmth != Hot) {
		place := s.Place
		if place == "" {
			place = "fridge"
		}
		after.chill(place)
	}
	after.Soured = after.Soured || st.souring()
	if later || st.PutsAway() {
		after.chill("fridge")
	}
	st.After = after
}

// souring tells whether milk stands in the warm with a culture for hours.
func (st *Stage) souring() bool {
	return !st.Heats && !st.Chills && st.Tells("sours milk") && st.Time >= 3*time.Hour && slices.ContainsFunc(st.Before.Items, (*Item).IsMilky)
}

// PutsAway tells whether a step that heats its food puts it into the cold in the same breath:
// "simmer for an hour, cool and chill".
func (st *Stage) PutsAway() bool {
	if !st.Heats || st.Step.Place != "" {
		return false
	}
	text, at := st.text[:st.said], 0
	for _, w := range heatWords {
		if i := strings.LastIndex(text, w); i >= 0 && !letter(text, i-1) && !letter(text, i+len(w)) {
			at = max(at, i+len(w))
		}
	}
	rest := text[at:]
	return opens(rest, []string{"chill", "refrigerate", "freeze"}) || hasWord(rest, "in the fridge", "into the fridge", "in the freezer", "into the freezer", "in the refrigerator", "to the fridge")
}

// Follows tells whether the words of one sign stand behind those of another.
func (st *Stage) Follows(sign, other string) bool {
	a, b := signNo(sign), signNo(other)
	first := len(st.text)
	for _, f := range st.signs.at {
		if f.sign == b {
			first = min(first, f.from)
		}
	}
	return slices.ContainsFunc(st.signs.at, func(f found) bool { return f.sign == a && f.from > first && f.to <= st.said })
}

// chillsLater tells whether the time of a step comes before the cold, and is warm: "leave it
// for 2 hours before it goes in the fridge", "leave it for 2 hours, then chill". "Chill it
// before it goes into the freezer" is cold already.
func (st *Stage) chillsLater() bool {
	at, _ := findWord(st.text, coldWords...)
	if said := st.SaidBy("chill after"); said != "" && strings.Index(st.text, said) < at {
		return true
	}
	then := -1
	for _, w := range thenWords {
		then = max(then, strings.LastIndex(st.text[:at], " "+w+" "))
	}
	if then < 0 || at >= st.said {
		return false
	}
	times := prose.Read(st.text[:st.said]).Times
	return len(times) > 0 && !slices.ContainsFunc(times, func(t prose.Time) bool { return t.Lasting() && t.From > then })
}

// thenWords part what a sentence does first from what it does next.
var thenWords = []string{"then", "after that", "afterwards", "after which", "finally", "next", "later", "thereafter"}

// melts tells whether a step only melts something and has raw egg beaten into it:
// melted chocolate and melted butter set no egg. Common practice, no source.
func (st *Stage) melts() bool {
	s := st.Step
	if !opens(st.text, []string{"melt", "melts", "melted"}) || len(s.Heats) > 0 || s.Grill || s.Core != nil || s.Reach != nil || st.Tells("heat device") || !st.Says("egg", "eggs", "yolk", "yolks", "white", "whites") {
		return false
	}
	return slices.ContainsFunc(st.Before.Items, func(i *Item) bool { return i.Is(Egg) && !i.Heated }) && !st.Says(setsEgg...)
}

// setsEgg are words of steps in which egg is cooked.
var setsEgg = []string{"scramble", "set", "thick", "thicken", "thickens", "thickened", "fry", "fried", "cook", "boil", "simmer", "bubbles", "curds", "omelette", "omelet", "coats", "steaming", "bake", "roast", "sizzle", "heat", "simmering water", "double boiler", "bain-marie"}

// combines tells whether the step brings in something that was not heated and
// that is more than seasoning.
func (st *Stage) combines() bool {
	return slices.ContainsFunc(st.Taken, func(i *Item) bool { return !i.Heated && (i.Strong || i.Plant) })
}

// anew tells whether a step cooks a new dish, into which stock, sauce or
// vegetables cooked earlier go: then what is fresh in it is what counts.
func (st *Stage) anew() bool {
	fresh := false
	for _, i := range st.Before.Items {
		old := i.Heated || i.Before || i.Leftover
		fresh = fresh || !old && (i.Strong || i.Plant)
		if old && (i.Base == nil && !i.Leftover || i.Strong && !isKind("liquid", i.Line.Name)) {
			return false
		}
	}
	return fresh
}

// rawDough tells whether it is dough or batter that no heat was put to yet, though milk or
// butter in it was warmed: it is cooked for the first time.
func (st *Stage) rawDough() bool {
	flour, flesh := false, false
	for _, i := range st.Before.Items {
		flour = flour || i.Has(larder.RawFlour) && i.RawAt(st.N)
		flesh = flesh || i.Strong && (i.Heated || i.Before || i.Leftover) && (i.Has(larder.Meat) || i.Has(larder.Fish) || i.Has(larder.Shellfish) || i.Has(larder.Rice))
	}
	return flour && !flesh
}

func heats(st *Stage) bool {
	s := st.Step
	if len(s.Heats) > 0 || s.Rings > 0 || s.Grill || slowCooker(st) {
		return true
	}
	if core, said := s.Core.Celsius(); said && core >= 45 {
		return true // whatever brings it there
	}
	if st.Tells("torch") && !st.Says("bake", "roast", "boil", "simmer", "fry", "poach", "steam", "stew", "braise", "cook") {
		return false // a flame on the outside cooks nothing through
	}
	if s.Place == "" && st.Tells("heat device") && !st.Tells("set aside") && st.fired() {
		return true
	}
	reach, said := s.Reach.Celsius()
	if s.Place != "" || said && len(s.Phases) > 0 && reach <= 35 {
		return false
	}
	return said && reach >= 50 && !st.Says(coolWords...) || st.inHotFat() || st.Before.fat() >= deep && st.Says(frying...) && st.Says("oil", "fat", "lard", "dripping", "ghee") || st.bringsTo() || opens(st.text, heatWords)
}

// bringsTo tells whether the words bring something to degrees above those of a body.
func (st *Stage) bringsTo() bool {
	return opens(st.text, []string{"bring", "take", "get", "raise"}) && !st.Says(coolWords...) && st.saysDegrees(50, 215)
}

// inHotFat tells whether the words name fat and the degrees at which one fries in it.
func (st *Stage) inHotFat() bool {
	return st.Says("oil", "fat", "lard", "dripping", "ghee", "fryer", "tallow", "schmaltz") && !st.Says("oven") && st.saysDegrees(120, 215)
}

// fired tells whether a device that the words name works in this step: it is a step
// that takes raw food, or one that has nothing hot to set aside.
func (st *Stage) fired() bool {
	return len(st.Taken) > 0 || st.Before.Warmth != Hot
}

// openers are words that may stand before the verb of a sentence.
var openers = []string{" and", " then", " cover", "gently", "slowly", "first", "now", "next", "finally", "today", "tomorrow", "meanwhile", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday", "the day", "day before", "next day", "morning", "afternoon", "evening", "night", "or"}

// opens tells whether one of some verbs opens a sentence, or stands after a
// comma or "and" or "then": "Bake until gold", not "while the oven heats".
func opens(text string, verbs []string) bool {
	for from := 0; from < len(text); {
		at, ok := findWord(text[from:], verbs...)
		if !ok {
			return false
		}
		at += from
		before := strings.TrimRight(text[:at], " ")
		if before == "" || strings.ContainsAny(before[len(before)-1:], ".;:,!") {
			return true
		}
		if slices.ContainsFunc(openers, func(w string) bool { return endsInWord(before, w) }) {
			return true
		}
		from = at + 1
	}
	return false
}

// endsInWord tells whether text ends in a word, not only in its letters: "for" is no "or".
func endsInWord(text, word string) bool {
	rest, ok := strings.CutSuffix(text, word)
	if !ok || rest == "" || strings.HasPrefix(word, " ") {
		return ok
	}
	last, _ := utf8.DecodeLastRuneInString(rest)
	return !unicode.IsLetter(last)
}

func slowCooker(st *Stage) bool {
	return st.Says("slow cooker", "crockpot", "crock pot") || slices.ContainsFunc(append(slices.Clone(st.Step.Tools), st.Step.Vessel), func(t string) bool { return strings.Contains(t, "slow cooker") })
}

// SlowCooker tells whether the step uses one.
func (st *Stage) SlowCooker() bool { return slowCooker(st) }

// Boils tells whether the step cooks in liquid at or near the boil.
func (st *Stage) Boils() bool { return st.Heats && st.Says(wetWords...) }

// Thorough tells whether a step cooks so long in liquid, or so very long in the
// oven, that nobody asks how hot the middle is: stocks, stews, hams. Common
// practice, no source.
func (st *Stage) Thorough() bool {
	if !st.Heats {
		return false
	}
	t := max(st.Allowed(), st.SaidTimeOf(wetWords...))
	for _, p := range st.Step.Phases { // at least 3 h
		if p.Fixed != nil && p.Fixed.AtLeast {
			t = max(t, p.Fixed.Low)
		}
	}
	if len(st.Step.Heats) > 0 {
		return t >= 150*time.Minute
	}
	return t >= time.Hour && (st.Says(wetWords...) || st.Step.Rings > 0)
}

func (i *Item) isRice() bool {
	return i.Has(larder.Rice) || i.it == nil && hasWord(strings.ToLower(i.Name), "rice") && !hasWord(strings.ToLower(i.Name), "vinegar", "wine", "paper", "noodles", "flour", "pudding")
}

// HoldsFor is how long what a step made may be held, and in what state.
func HoldsFor(s *resolve.Step) (state string, d time.Duration) {
	if s.Hold == nil {
		return "", 0
	}
	if s.Hold.UpTo != nil {
		d = longest(*s.Hold.UpTo)
	}
	return s.Hold.State, d
}
