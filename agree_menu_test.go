package main

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"strings"
	"testing/fstest"
)

// menuByChance writes a menu of a few dishes and bases with all kinds of
// amounts, margins and words, as a writer might.
func menuByChance(seed uint64) fs.FS {
	r := rand.New(rand.NewPCG(seed, 11))
	one := func(list ...string) string { return list[r.IntN(len(list))] }
	things := []string{
		"carrots", "leeks", "onions", "plain flour", "butter", "double cream", "pearl barley", "green beans", "lemon juice",
		"parsley leaves", "olive oil", "caster sugar", "eggs", "crème fraîche", "flaked almonds", "red lentils",
	}
	amount := func(thing string) string {
		if thing == "eggs" {
			return fmt.Sprint(1 + r.IntN(9))
		}
		return one("450 g", "1.2 kg", "30 to 40 g", "½ kg", "2½ tbsp", "125 g", "75 g", "333 g")
	}
	var b strings.Builder
	recipe := func(head, yield string, draws ...string) {
		fmt.Fprintf(&b, "%s\n  %s\n  about\n    %s\n  gather\n", head, yield, one(
			"From the *garden*, and **never** hurried.", "An old favourite.\n\n    - light\n    - cheap", "With naïve & <plain> words, “quoted”.", "梨 and 🍐: not everything is on paper."))
		r.Shuffle(len(things), func(i, j int) { things[i], things[j] = things[j], things[i] })
		used := things[:2+r.IntN(4)]
		for _, x := range used {
			fmt.Fprintf(&b, "    %s    %s%s\n", amount(x), x, one("", "", ", chopped | work 4 min"))
		}
		for _, d := range draws {
			fmt.Fprintf(&b, "    %s    %s\n", one("120 ml", "200 ml", "75 ml"), d)
		}
		b.WriteString("  method\n")
		for i, x := range append(append([]string{}, used...), draws...) {
			fmt.Fprintf(&b, "    - %s the %s %s.\n      | %s\n", one("Stir in", "Add", "Cook"), x,
				one("until soft", "and wait", "over a low flame, turning now and then, until it smells of nuts and browns at the edges"),
				one("work 5 min", "ring low | work 2 min | leave 35 to 40 min", "oven 200 C | work 5 min | leave 20 min", "ring medium | work 10 min"))
			if i == 0 && r.IntN(2) == 0 {
				b.WriteString("    - Clear down.\n      | meanwhile | work 2 min\n")
			}
		}
	}
	bases := []string{}
	for _, name := range []string{"Green oil", "Pale stock"}[:r.IntN(3)] {
		recipe("base "+name, "makes 2 litres")
		bases = append(bases, name)
	}
	var dishes []string
	for _, name := range []string{"Soup of the day", "Slow-cooked roots & grains", "Äpfel im Schlafrock", "Tart"}[:1+r.IntN(4)] {
		draws := []string{}
		if len(bases) > 0 && r.IntN(3) > 0 {
			draws = append(draws, strings.ToLower(bases[r.IntN(len(bases))]))
		}
		recipe("dish "+name, fmt.Sprintf("serves %d", 2+r.IntN(9)), draws...)
		dishes = append(dishes, name)
	}
	fmt.Fprintf(&b, "kitchen Hut\n  rules %s\n  cooks %s\n  oven main, 2 shelves, preheat 15 min\n  rings 4\n", one("UK", "US"), one("Ana", "Ana, Jo"))
	fmt.Fprintf(&b, "menu Crowd of %d\n  covers %d\n  on the table 2027-09-19 19:00\n  at Hut\n  course Main\n", seed, 1+r.IntN(40))
	for _, d := range dishes {
		fmt.Fprintf(&b, "    %s\n", d)
	}
	return fstest.MapFS{"menu.tamis": {Data: []byte(b.String())}}
}
