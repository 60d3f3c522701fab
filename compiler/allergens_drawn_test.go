package compiler_test

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/sheets"
	"tamis/lang/effort"
)

// An allergen walk that shares nothing with the program: the test draws a kitchen by
// chance, bases on bases, a by-product, a choice and a substitute, knows by its own table what
// each thing holds, and walks its own drawing. The table is Annex II of Regulation (EU)
// 1169/2011, from memory, for things of which it leaves no doubt.
var heldByHand = map[string]string{
	"milk": "milk", "double cream": "milk", "butter": "milk", "plain flour": "wheat", "semolina": "wheat", "eggs": "egg", "walnuts": "walnut",
	"hazelnuts": "hazelnut", "celery": "celery", "sesame seeds": "sesame", "cod fillet": "fish", "rice": "", "potatoes": "", "olive oil": "", "leeks": "", "sugar": "",
}

// block is a dish or a base as the test has drawn it.
type block struct {
	name   string
	things []string // bought
	draws  []string // other blocks, and by-products of them
	swap   string   // offered instead of the first thing
	gives  string   // a by-product
	plain  string   // of a choice: what goes in when nobody chooses
	other  string   // and what goes in "with the other"
}

type drawn struct {
	blocks map[string]*block
	gives  map[string]string // by-product -> block
	chosen map[string]bool   // dishes made with the other
}

// held walks the drawing.
func (d *drawn) held(name string) map[string]bool {
	out := map[string]bool{}
	if by := d.gives[name]; by != "" {
		name = by
	}
	b := d.blocks[name]
	things := slices.Clone(b.things)
	if b.other != "" && d.chosen[name] {
		things = append(things, b.other)
	} else if b.plain != "" {
		things = append(things, b.plain)
	}
	for _, t := range things {
		if a := heldByHand[t]; a != "" {
			out[a] = true
		}
	}
	for _, from := range b.draws {
		maps.Copy(out, d.held(from))
	}
	return out
}

func drawKitchen(r *rand.Rand) (*drawn, string) {
	d := &drawn{map[string]*block{}, map[string]string{}, map[string]bool{}}
	all := slices.Sorted(maps.Keys(heldByHand))
	some := func(n int) (out []string) {
		for _, i := range r.Perm(len(all))[:n] {
			out = append(out, all[i])
		}
		return out
	}
	var order, dishes []string
	var text strings.Builder
	for _, name := range []string{"First paste", "Second paste", "Third paste", "Stew", "Bake", "Salad"} {
		list := some(5)
		b := &block{name: name, things: list[:2]}
		kind := "base"
		if len(order) >= 3 {
			kind = "dish"
			dishes = append(dishes, name)
		}
		for _, o := range order {
			if !slices.Contains(dishes, o) && r.IntN(2) == 0 {
				b.draws = append(b.draws, o)
			}
		}
		if kind == "dish" && r.IntN(2) == 0 {
			b.swap = list[2]
		}
		if kind == "dish" && r.IntN(2) == 0 {
			b.plain, b.other = list[3], list[4]
			d.chosen[name] = r.IntN(2) == 0
		}
		if name == "Stew" {
			b.gives = "stew liquor"
			d.gives[b.gives] = name
		}
		if name == "Salad" {
			b.draws = append(b.draws, "stew liquor")
		}
		d.blocks[name], order = b, append(order, name)
		fmt.Fprintf(&text, "%s %s\n", kind, name)
		if kind == "base" {
			text.WriteString("  makes 500 g\n  keeps 2 days, fridge\n")
		} else {
			text.WriteString("  serves 4\n")
		}
		text.WriteString("  gather\n")
		for i, t := range b.things {
			fmt.Fprintf(&text, "    300 g %s\n", t)
			if i == 0 && b.swap != "" {
				fmt.Fprintf(&text, "      instead 300 g %s\n", b.swap)
			}
		}
		for _, o := range b.draws {
			fmt.Fprintf(&text, "    20 g %s\n", strings.ToLower(o))
		}
		if b.plain != "" {
			fmt.Fprintf(&text, "    either plain\n      50 g %s\n    or with the other\n      50 g %s\n", b.plain, b.other)
		}
		text.WriteString("  method\n    - Mix everything.\n      | work 5 min\n")
		if b.gives != "" {
			fmt.Fprintf(&text, "    - Drain.\n      | work 2 min | makes 200 g %s\n", b.gives)
		}
	}
	menu := "menu Supper\n  covers 4\n  rules UK\n  course Main\n"
	for _, name := range dishes {
		menu += "    " + name
		if d.chosen[name] {
			menu += ", with the other"
		}
		menu += "\n"
	}
	return d, menu + text.String()
}

func TestAllergensByAWalkOfOurOwn(t *testing.T) {
	looked, choices, swapped := 0, 0, 0
	for seed := range effort.Rounds[uint64](25, 400) {
		d, text := drawKitchen(rand.New(rand.NewPCG(seed, 12)))
		r := compileText(t, text, compiler.Options{Sheets: sheets.Kinds(), NoPlan: true})
		require.Len(t, r.Documents, 1, "%s\n%v", text, r.Diags.Sorted())
		for i := range r.Documents[0].Sheets {
			s := &r.Documents[0].Sheets[i]
			if s.Kind != sheets.Prep {
				continue
			}
			held := d.held(s.Title)
			want := slices.Sorted(maps.Keys(held))
			require.ElementsMatch(t, want, namesOf(sheetHolds(s)), "%s, seed %d:\n%s", s.Title, seed, text)
			looked++
			b := d.blocks[s.Title]
			if b.other != "" {
				choices++
			}
			if a := heldByHand[b.swap]; a != "" && !held[a] {
				swapped++
				require.Contains(t, careOn(s), "ith "+b.swap+" instead: "+a, "%s, seed %d", s.Title, seed)
			}
		}
	}
	require.Greater(t, looked, 100)
	require.Greater(t, choices, 10)
	require.Greater(t, swapped, 10)
}

// namesOf are allergens without their kinds: fish of "fish (cod)".
func namesOf(list []string) (out []string) {
	for _, a := range list {
		a, _, _ = strings.Cut(a, " (")
		out = append(out, a)
	}
	return out
}
