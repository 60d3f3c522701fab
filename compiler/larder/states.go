package larder

import (
	"maps"
	"slices"
	"strings"
)

// broughtAbout are the words for what was done to a thing, each with the verbs that do
// it and the things it is done by.
var broughtAbout = map[string]string{
	"melted": "melt warm heat", "toasted": "toast roast grill brown", "soaked": "soak steep cover", "beaten": "beat whisk", "whisked": "beat whisk",
	"whipped": "whip whisk beat", "grated": "grate", "peeled": "peel skin", "crushed": "crush pound smash bash", "strained": "strain sieve filter",
	"drained": "drain strain", "browned": "brown sear fry colour roast", "blanched": "blanch boil scald", "poached": "poach simmer",
	"roasted": "roast bake oven", "roast": "roast bake oven", "fried": "fry brown", "mashed": "mash crush ricer", "chopped": "chop cut dice", "sliced": "slice cut",
	"diced": "dice cut cube", "shredded": "shred cut pull", "sifted": "sift sieve", "chilled": "chill fridge cold cool refrigerate",
	"softened": "soft soften sweat cook melt", "soft": "soft soften cook sweat", "boiled": "boil", "steamed": "steam", "grilled": "grill", "baked": "bake oven",
	"cooked":  "cook boil simmer fry roast bake steam grill poach ring oven braise stew",
	"sautéed": "sauté fry", "caramelised": "caramelise", "caramelized": "caramelize", "charred": "char", "warmed": "warm heat", "scalded": "scald",
	"stewed": "stew", "simmered": "simmer",
}

// BringsAbout gives every form of the words that bring a state about: of "charred"
// char, chars, charred, charring. None: it is no such state.
func BringsAbout(state string) (forms []string) {
	for verb := range strings.FieldsSeq(broughtAbout[strings.ToLower(state)]) {
		forms = append(forms, verbForms(verb)...)
	}
	return forms
}

// States are all words for what was done to a thing.
func States() []string { return slices.Sorted(maps.Keys(broughtAbout)) }

// verbForms are the forms of a verb and the tool that does it, grate and grater, a wrong one among them where a letter may be doubled.
func verbForms(verb string) []string {
	stem, last := strings.TrimSuffix(verb, "e"), verb[len(verb)-1:]
	switch {
	case !ascii(verb):
		return []string{verb, verb + "s", verb + "ed", verb + "ing"}
	case verb == "beat":
		return []string{"beat", "beats", "beaten", "beating", "beater", "beaters"}
	case verb == "refrigerate":
		return []string{verb, "refrigerates", "refrigerated", "refrigerating", "refrigerator"}
	case last == "e":
		return []string{verb, verb + "s", verb + "d", stem + "ing", stem + "er", stem + "ers"}
	case last == "y":
		return []string{verb, verb[:len(verb)-1] + "ies", verb[:len(verb)-1] + "ied", verb + "ing", verb + "er", verb[:len(verb)-1] + "ier"}
	case strings.HasSuffix(verb, "sh"), strings.HasSuffix(verb, "ch"):
		return []string{verb, verb + "es", verb + "ed", verb + "ing", verb + "er"}
	}
	return []string{verb, verb + "s", verb + "ed", verb + "ing", verb + "er", verb + "ers", verb + last + "ed", verb + last + "ing", verb + last + "er"}
}
