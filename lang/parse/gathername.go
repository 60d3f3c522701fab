package parse

import (
	"strings"

	"tamis/lang/quantity"
)

// What people write round a name in a list without a bar or a comma.

// purposes follow "for" behind a name: oil for frying, butter for the dish.
var purposes = []string{
	"frying", "deep-frying", "deep frying", "shallow-frying", "shallow frying", "dusting", "greasing", "brushing", "rolling", "sprinkling", "serving", "glazing", "basting", "dredging", "coating",
	"finishing", "garnish", "the dish", "the tin", "the tins", "the pan", "the bowl", "the table",
}

// tails stand behind a name without a comma.
var tails = []string{
	"to taste", "optional", "to serve", "to finish", "to garnish", "to decorate", "as required", "as needed", "as wanted", "as it takes", "if liked", "if needed", "if wanted", "if desired",
	"to fry", "to grease", "to bind", "to mix", "to glaze", "to cover", "to moisten",
}

// endOfName tells where a name of n bytes ends when words about it stand
// behind it without a comma, and where these begin; n and n when none do.
func endOfName(text string, n int) (kept, from int) {
	name := text[:n]
	cut := n
	for _, w := range tails {
		if c := n - len(w); c > 1 && name[c-1] == ' ' && strings.EqualFold(name[c:], w) {
			// "salt to taste, crushed" has two things behind it.
			if w != "to taste" && w != "optional" || trimEnd(text) == n {
				cut = c
			}
		}
	}
	for at := quantity.IndexFold(name, " for "); cut == n && at > 0; at = -1 {
		for _, w := range purposes {
			if k := matchGroup(strings.TrimLeft(name[at+len(" for "):], " "), w); k > 0 {
				cut = at + 1
			}
		}
	}
	if at := quantity.IndexFold(name, " to "); cut == n && at > 0 && name[0] != '"' && matchGroup(name[at+len(" to "):], "taste") == 0 && !strings.HasSuffix(lower(name[:at]), "ready") && len(name) > at+len(" to ")+1 { // flour to make a stiff dough
		cut = at + 1
	}
	if at := quantity.IndexFold(name, " for "); cut == n && at > 0 && name[0] != '"' { // sugar for rolling them in
		first, _, _ := strings.Cut(name[at+len(" for "):], " ")
		if strings.HasSuffix(lower(first), "ing") && len(first) > len("pudding") {
			cut = at + 1
		}
	}
	for _, more := range [...]string{" plus extra", " plus more", " and extra for", " and more for"} { // flour plus extra for rolling
		if at := quantity.IndexFold(name, more); at > 0 && cut > at {
			cut = at + 1
		}
	}
	if at := quantity.IndexFold(name, " the size of "); cut == n && at > 0 { // butter the size of a walnut
		cut = at + 1
	}
	if cut == n {
		return n, n
	}
	return trimEnd(name[:cut]), cut
}

// qualities are adjectives that stand before a comma and another adjective.
var qualities = map[string]bool{
	"ripe": true, "firm": true, "fresh": true, "lean": true, "thick": true, "thin": true, "young": true, "dried": true, "whole": true, "raw": true,
	"hot": true, "cold": true, "soft": true, "unsalted": true, "smoked": true, "unsmoked": true, "organic": true, "wild": true, "mild": true, "sweet": true,
	"dark": true, "crisp": true, "juicy": true, "plump": true, "floury": true, "waxy": true, "large": true, "small": true, "good": true, "free-range": true, "tender": true,
	"fat": true, "unpeeled": true, "unwaxed": true, "red": true, "green": true, "white": true, "black": true, "yellow": true, "long": true, "dry": true, "tart": true,
}

func quality(w string) bool {
	w = lower(w)
	return qualities[w] || len(w) > len("less")+2 && strings.HasSuffix(w, "less")
}

// adjectives is the length of a name that begins with the n bytes of text when
// these are adjectives alone, and a further adjective and the thing itself
// stand behind the comma; n when not.
func adjectives(text string, n int) int {
	end := n
	for {
		for _, w := range strings.Fields(strings.Trim(text[:end], ", ")) {
			if w = strings.Trim(w, ","); !quality(w) {
				return n
			}
		}
		if end >= len(text) || text[end] != ',' {
			return n
		}
		next := end + 1
		for next < len(text) && !endsName[text[next]] {
			next++
		}
		words := strings.Fields(text[end+1 : next])
		if len(words) == 0 || !quality(words[0]) {
			return n
		}
		end = next
		if len(words) > 1 && !quality(words[len(words)-1]) && !strings.HasSuffix(lower(words[len(words)-1]), "ly") && lower(words[1]) != "and" && lower(words[1]) != "or" {
			return trimEnd(text[:end])
		}
	}
}
