// Package menus makes menus of chance for tests: each is the text of a folder
// with a kitchen, a few recipes and a menu, and uses all that the notation says
// about time and place.
package menus

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"strings"
	"testing/fstest"
)

// ByChance is the menu of a seed: the same seed gives the same text.
func ByChance(seed uint64) fs.FS {
	w := &writer{Rand: rand.New(rand.NewPCG(seed, 29))}
	w.menu(seed)
	return fstest.MapFS{"menu.tamis": {Data: []byte(w.String())}}
}

type writer struct {
	*rand.Rand
	strings.Builder
	ovens, rings int
}

func (w *writer) line(format string, args ...any) { fmt.Fprintf(w, format+"\n", args...) }

func (w *writer) one(list ...string) string { return list[w.IntN(len(list))] }

func (w *writer) chance(n int) bool { return w.IntN(n) == 0 }

var things = []string{
	"carrots", "leeks", "onions", "plain flour", "butter", "pearl barley", "green beans", "parsley leaves", "olive oil", "caster sugar", "red lentils", "plums",
}

func (w *writer) kitchen() {
	w.line("kitchen Hut")
	w.line("  rules %s", w.one("UK", "US"))
	w.line("  cooks %s", w.one("Ana", "Ana, Jo", "Ana, Jo, Kit"))
	w.ovens = 1 + w.IntN(2)
	w.line("  oven main, %d shelves%s, preheat %d min", 1+w.IntN(3), w.one("", ", fan"), 10+5*w.IntN(3))
	if w.ovens > 1 {
		w.line("  oven small, 1 shelf, preheat 10 min")
	}
	w.rings = 2 + w.IntN(3)
	w.line("  rings %d", w.rings)
	w.line("  tools blender")
	w.line("  vessel wide pan, holds 6 litres, 2")
	if w.chance(2) {
		w.line("  zone %s", w.one("Europe/London", "America/Chicago", "Asia/Kolkata"))
	}
}

// step is the margin of a step, with what is done during it.
func (w *writer) step() (margin, moment string) {
	switch w.IntN(9) {
	case 0:
		return fmt.Sprintf("oven %d C | work %d min | leave %d min", 150+10*w.IntN(8), 1+w.IntN(9), 20+w.IntN(40)),
			w.one("", "at half time: Turn it.", fmt.Sprintf("at %d min: Baste it. | work 2 min", 5+w.IntN(10)))
	case 1:
		return fmt.Sprintf("oven 220 C for 15 min then %d C | leave %d min", 150+10*w.IntN(4), 30+w.IntN(20)), ""
	case 2:
		low := 10 + w.IntN(30)
		return fmt.Sprintf("ring %s | in wide pan | work 2 min | leave %d to %d min", w.one("low", "medium"), low, low+5), w.one("", "at half time: Stir it.")
	case 3:
		return fmt.Sprintf("ring low | work 1 min every %d min | leave %d min", 5+w.IntN(10), 20+w.IntN(30)), ""
	case 4:
		return fmt.Sprintf("ring high | in wide pan | work %d min | watch %d min", 1+w.IntN(5), 2+w.IntN(10)), ""
	case 5:
		return fmt.Sprintf("work %d min | stand %d min, up to %d h, fridge", 1+w.IntN(5), 30+w.IntN(60), 3+w.IntN(16)), ""
	case 6:
		return "tool blender | work 4 min", ""
	case 7:
		if w.chance(2) {
			return fmt.Sprintf("with 2 cooks | ring medium | work %d min | watch %d min", 2+w.IntN(6), 3+w.IntN(6)), ""
		}
		return fmt.Sprintf("with 2 cooks | work %d min", 3+w.IntN(6)), ""
	}
	return fmt.Sprintf("work %d min", 1+w.IntN(12)), ""
}

// recipe writes one and tells whether it may be made ahead.
func (w *writer) recipe(head, yield string, twoCooks bool, draws ...string) (ahead bool) {
	w.line("%s\n  %s\n  gather", head, yield)
	order := w.Perm(len(things))
	var used []string
	for _, i := range order[:2+w.IntN(4)] {
		used = append(used, things[i])
	}
	for _, x := range used {
		w.line("    %s    %s%s", w.one("450 g", "1.2 kg", "½ kg", "125 g", "30 to 40 g"), x, w.one("", ", finely chopped | work 4 min", ", in half-inch dice | work 7 min"))
	}
	for _, d := range draws {
		w.line("    120 ml    %s", d)
	}
	w.line("  method")
	paused := -1
	if w.chance(3) {
		paused = 1
	}
	for i, x := range append(used, draws...) {
		if i == paused {
			w.line("    pause up to 1 day, fridge")
			w.line("    - Warm it through.\n      | only after a pause | ring low | work 2 min | leave 10 min")
			ahead = true
		}
		margin, moment := w.step()
		if !twoCooks {
			margin = strings.TrimPrefix(margin, "with 2 cooks | ")
		}
		w.line("    - %s the %s.\n      | %s", w.one("Stir in", "Add", "Cook"), x, margin)
		if moment != "" {
			w.line("      %s", moment)
		}
		if i == 0 && w.chance(3) {
			w.line("    - Clear down.\n      | meanwhile | work 2 min")
		}
	}
	return ahead
}

func (w *writer) menu(seed uint64) {
	w.kitchen()
	two := strings.Contains(w.String(), "Jo")
	var bases, dishes []string
	for _, name := range []string{"Green oil", "Pale stock"}[:w.IntN(3)] {
		w.recipe("base "+name, "makes 2 litres", two)
		bases = append(bases, strings.ToLower(name))
	}
	for _, name := range []string{"Soup of the day", "Roots and grains", "Äpfel im Schlafrock", "Tart"}[:1+w.IntN(4)] {
		var draws []string
		if len(bases) > 0 && w.chance(2) {
			draws = append(draws, bases[w.IntN(len(bases))])
		}
		ahead := ""
		if w.recipe("dish "+name, fmt.Sprintf("serves %d", 2+w.IntN(9)), two, draws...) && w.chance(2) {
			ahead = ", ahead"
		}
		dishes = append(dishes, name+ahead)
	}
	w.line("menu Crowd of %d\n  covers %d", seed, 1+w.IntN(20))
	if !w.chance(5) {
		w.line("  on the table 2027-10-31 %s", w.one("12:30", "19:00", "13:10"))
	}
	w.line("  at Hut\n  task Lay the table, work 10 min")
	for i, d := range dishes {
		switch i {
		case 0:
			w.line("  course First")
		case 2:
			w.line("  course Second, %d min after First", 20+5*w.IntN(8))
		}
		w.line("    %s", d)
	}
}
