package build

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
	"tamis/compiler/resolve"
	"tamis/lang/effort"
)

func bookOf(names []string, chapters ...resolve.Chapter) ([]*demand.Meal, []*resolve.Book) {
	var meals []*demand.Meal
	for _, n := range names {
		r := &resolve.Recipe{Name: n}
		if dir, name, ok := strings.Cut(n, "/"); ok {
			r.Name, r.Scope = name, &resolve.Scope{Dir: dir}
		}
		if name, other, ok := strings.Cut(r.Name, " = "); ok {
			r.Name, r.Own.Notes.Also = name, []resolve.Text{{Text: other}}
		}
		meals = append(meals, &demand.Meal{Makings: []*demand.Making{{Recipe: r}}})
	}
	return meals, []*resolve.Book{{Chapters: chapters}}
}

// The recipes of a book stand in the order of its chapters, each once, whatever
// the case they are named in; the rest follow as they were read.
func TestChaptersOrderTheRecipes(t *testing.T) {
	text := func(names ...string) (out []resolve.Text) {
		for _, n := range names {
			out = append(out, resolve.Text{Text: n})
		}
		return out
	}
	meals, books := bookOf([]string{"Alder soup", "sweets/Éclairs", "Cabbage", "savoury/Éclairs", "Dumplings = Clangers", "Cabbage"},
		resolve.Chapter{Name: "Sweet", Names: text("sweets/éclairs ", "nothing")}, resolve.Chapter{Name: "Pots", Names: text("CLANGERS", "cabbage")})
	var got []string
	for _, m := range inChapters(meals, books) {
		got = append(got, own(m).Recipe.Name)
	}
	require.Equal(t, []string{"Éclairs", "Dumplings", "Cabbage", "Cabbage", "Alder soup", "Éclairs"}, got)
}

// A long book is put in order in passes, not in pairs.
func TestALongBookIsPutInOrder(t *testing.T) {
	const n = 20000
	var names []string
	c := resolve.Chapter{Name: "All"}
	for i := range n {
		names = append(names, fmt.Sprintf("Dish number %d", i))
		c.Names = append(c.Names, resolve.Text{Text: names[i]})
	}
	slices.Reverse(c.Names)
	meals, books := bookOf(names, c)
	effort.Within(t, 400*time.Millisecond, "putting a book in order", func() {
		require.Equal(t, "Dish number 19999", own(inChapters(meals, books)[0]).Recipe.Name)
	})
}
