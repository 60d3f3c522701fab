package larder

import "strings"

// without cuts from a name what stands behind or before the thing: what it is for, where
// it comes from, what it lies in, and what it is a piece of. "Butter at room temperature"
// is butter, "a block of tofu" tofu; "herring in mustard sauce" is left as it is.
func (t *Table) without(words []string) (k Known, ok bool) {
	for i := 1; i+1 < len(words); i++ {
		if !tail(words[i], words[i+1:]) && !t.garnish(words[i], words[i+1:]) {
			continue
		}
		if k, ok = t.bare(words[:i]); !ok {
			k, ok = t.parted(words[:i])
		}
		if ok {
			k.Left = append(k.Left, words[i:]...)
			k.Changed = k.Changed || words[i] == "in"
			return k, true
		}
	}
	if len(words) > 2 && words[1] == "of" && pieces[Singular(words[0])] {
		if k, ok = t.bare(words[2:]); ok {
			k.Left = append(words[:2:2], k.Left...)
			return k, true
		}
	}
	return Known{}, false
}

// garnish tells whether "with" brings something that holds nothing of the lists of allergens:
// cottage cheese with chives, and not pâté with pistachios.
func (t *Table) garnish(word string, rest []string) bool {
	if word != "with" {
		return false
	}
	k, ok := t.bare(rest)
	return ok && len(k.Item.Contains) == 0 && !k.Item.Has("read the label") && !k.Item.Has(Generic)
}

// tail tells whether words behind a name say only what it is for, where it comes from or
// what plain thing it lies in.
func tail(word string, rest []string) bool {
	switch word {
	case "at":
		return rest[len(rest)-1] == "temperature" || rest[len(rest)-1] == "heat"
	case "from", "off", "on":
		return rest[0] == "the" || rest[0] == "a"
	case "for", "to":
		return true
	case "of":
		return rest[0] == "your" || rest[0] == "any"
	case "in":
		for _, w := range rest {
			if !plainly[w] {
				return false
			}
		}
		return true
	}
	return strings.HasSuffix(word, "%") && rest[0] == "fat"
}

// plainly are words of what a thing lies in that bring nothing of the lists of allergens.
var plainly = set("their its the own olive sunflower vegetable rapeseed extra virgin oil brine water spring salted syrup light heavy juice natural tomato salt shell shells skin skins jacket jackets pod pods husk chilli and a jar tin can one piece pieces strips chunks cubes slices rings halves quarters large small")

// pieces are what a thing comes as, before "of".
var pieces = set("block slab hunk lump knob ball log round wheel wedge square cube chunk piece roll sachet pack packet tub pot carton bag box tube jar tin can bottle handful side fillet strip finger scoop spoonful scraping grating drizzle dusting squeeze splash dash glug bit bar sheet punnet bunch layer dollop")
