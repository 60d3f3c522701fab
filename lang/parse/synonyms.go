package parse

import "strings"

// synonyms are words that writers bring from elsewhere, and what says the same
// here. They are never read as such: the finding offers the right one.
var synonyms = map[Place]map[string]string{
	AtBlock: {
		"recipe": "dish", "meal": "menu", "pantry": "larder", "component": "base", "preparation": "base",
		"course": "menu", "chapter": "book",
	},
	InRecipe: {
		"ingredients": "gather", "ingredient": "gather", "shopping": "gather", "list": "gather",
		"directions": "method", "instructions": "method", "steps": "method", "preparation": "method", "procedure": "method",
		"servings": "serves", "serving": "serves", "portions": "serves", "feeds": "serves",
		"yield": "makes", "yields": "makes", "description": "about", "notes": "about", "note": "about", "introduction": "about",
		"time": "takes", "total": "takes", "author": "by", "storage": "keeps", "store": "keeps", "photo": "picture", "image": "picture", "url": "link",
	},
	InMenu: {
		"serve": "on the table", "serving": "on the table", "guests": "covers", "people": "covers", "diners": "covers", "heads": "covers", "date": "on the table", "time": "on the table", "when": "on the table",
		"place": "at", "kitchen": "at", "where": "at", "dishes": "course", "starter": "course", "starters": "course", "main": "course",
		"mains": "course", "pudding": "course", "dessert": "course", "job": "task",
	},
	OnLine: {
		"bought": "from the shop", "bought as": "buy", "as bought": "as sold", "net": "trimmed", "seasoning": "scales less",
	},
	OnStep: {
		"draws": "sets aside", "reserves": "sets aside", "start at once": "any time",
	},
	OnFact:    {"buy": "from the", "bought": "from the", "sold": "from the", "seller": "from the", "shop": "from the"},
	InPart:    {"stand-ins": "copies", "stand-in": "copies"},
	OnServing: {"bought": "from the shop"},
	InKitchen: {
		"waits": "hold", "wait": "hold",
		"hob": "rings", "hobs": "rings", "burners": "rings", "staff": "cooks", "people": "cooks", "chefs": "cooks", "hands": "cooks",
		"equipment": "tools", "gear": "tools", "pot": "vessel", "pots": "vessel", "pan": "vessel", "pans": "vessel", "timezone": "zone",
		"clean": "wash up", "cleaning": "wash up",
	},
}

// meant finds the word of a place that an unknown one probably stands for: one
// that says the same, or the nearest in letters.
func meant(place Place, word string) *Word {
	if right, ok := synonyms[place][word]; ok {
		w, _ := LookUp(place, right)
		return w
	}
	return nearest(place, word, false)
}

// says is what a place says for the words that a text begins with, and how much of
// the text they are: the longest of the synonyms, else the nearest word.
func says(place Place, text string) (right string, n int) {
	for words, say := range synonyms[place] {
		if k := matchGroup(text, words); k > n {
			right, n = say, k
		}
	}
	if n > 0 {
		return right, n
	}
	for n < len(text) && strings.IndexByte(" \t,:|", text[n]) < 0 {
		n++
	}
	if w := nearest(place, lower(text[:n]), strings.ContainsAny(text, "0123456789")); w != nil {
		return w.Text, n
	}
	return "", n
}

// meantHead tells which of `gather`, `method` and `about` a line of one
// unknown word stands for, so that the lines below it can be read all the
// same; "" if none.
func meantHead(t string) string {
	word := lower(strings.TrimSuffix(t, ":"))
	for i := 0; i < len(word); i++ {
		if !isKeyByte(word[i]) {
			return ""
		}
	}
	if w, _ := LookUp(InRecipe, t); w != nil {
		return ""
	}
	if w := meant(InRecipe, word); w.has(body) {
		return w.Text
	}
	return ""
}
