// Package examples holds kitchens to cook from. Its test compares what the
// program works out with what was worked out by hand (expected.csv; the kinds
// are explained in README.md).
package examples

import (
	"context"
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/compiler/load"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

func TestByHand(t *testing.T) {
	found, err := filepath.Glob("*/expected.csv")
	require.NoError(t, err)
	deeper, err := filepath.Glob("*/*/expected.csv")
	require.NoError(t, err)
	found = append(found, deeper...)
	require.Len(t, found, 8)
	for _, name := range found {
		t.Run(filepath.ToSlash(filepath.Dir(name)), func(t *testing.T) { compare(t, name) })
	}
}

// row is one line of expected.csv.
type row struct {
	kind, meal, block, name, unit, how string
	amount                             float64
}

func compare(t *testing.T, name string) {
	tree, err := load.Path(filepath.Dir(name))
	require.NoError(t, err)
	r := compiler.Compile(context.Background(), tree, compiler.Options{})
	for _, d := range r.Diags.Sorted() {
		require.Less(t, d.Severity, diag.Question, "%s %s", d.Code, d.Message)
	}
	for _, w := range rows(t, name) {
		t.Run(w.kind+" "+w.block+" "+w.name, func(t *testing.T) {
			if w.kind == "part" || w.kind == "carried" {
				w.ofPart(t, r)
				return
			}
			meal, line := mealOf(t, r, w)
			switch w.kind {
			case "scale":
				require.InDelta(t, w.amount, one(t, meal, w.block).Factor.Float(), 0.0001, w.how)
			case "demand":
				w.same(t, lines(meal, "", w.block))
				for _, s := range meal.Supplies {
					if same(s.Name, w.block) {
						w.sameAmount(t, s.Drawn)
					}
				}
			case "line":
				w.same(t, lines(meal, w.block, w.name))
			case "total":
				w.same(t, lines(meal, "", w.block))
			case "minutes":
				j, n := job(t, line, w), 0
				for _, o := range line.Jobs { // the loads of a step are jobs of their own
					if o == j || j.Load > 0 && o.Making == j.Making && o.Step == j.Step {
						n += o.End() - o.Start()
					}
				}
				require.Equal(t, int(w.amount), n, w.how)
			case "count":
				w.count(t, meal, line)
			case "bought": // rounding and packs are the shopping list's, and tested with it
			default:
				t.Fatalf("no such kind: %q", w.kind)
			}
		})
	}
}

func rows(t *testing.T, name string) (out []row) {
	f, err := os.Open(name)
	require.NoError(t, err)
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"kind", "name", "amount", "unit", "how"}, all[0])
	for _, c := range all[1:] {
		n, err := strconv.ParseFloat(c[2], 64)
		require.NoError(t, err, c)
		w := row{kind: c[0], block: c[1], amount: n, unit: c[3], how: c[4]}
		if meal, rest, ok := strings.Cut(w.block, " > "); ok {
			w.meal, w.block = meal, rest
		}
		if block, rest, ok := strings.Cut(w.block, ": "); ok {
			w.block, w.name = block, rest
		}
		out = append(out, w)
	}
	return out
}

// mealOf is the meal a row speaks of: the menu's, or the recipe's own.
func mealOf(t *testing.T, r *compiler.Result, w row) (*demand.Meal, *timeline.Timeline) {
	for i, m := range r.Meals {
		if w.meal == "" && m.Menu != nil || w.meal != "" && m.Title == w.meal {
			return m, r.Timelines[i]
		}
	}
	t.Fatalf("no meal for %q", w.meal)
	return nil, nil
}

func one(t *testing.T, meal *demand.Meal, block string) *demand.Making {
	for _, m := range meal.Makings {
		if m.Recipe.Name == block {
			return m
		}
	}
	t.Fatalf("nothing called %q is made", block)
	return nil
}

func same(a, b string) bool {
	if i := strings.LastIndexByte(a, '/'); i >= 0 {
		a = a[i+1:]
	}
	return larder.Fold(a) == larder.Fold(b)
}

// lines are the amounts of everything gathered under a name; in any block, or
// in one.
func lines(meal *demand.Meal, block, name string) (out []quantity.Quantity) {
	for _, m := range meal.Makings {
		for _, a := range m.Lines {
			if (block == "" || m.Recipe.Name == block) && same(a.Line.Name, name) && a.Quantity != nil {
				out = append(out, *a.Quantity)
			}
		}
	}
	return out
}

// in is how many of the program's units one of a row's is: US spoons and cups
// as in NIST SP 811, Appendix B.8, the rest by definition.
var in = map[string]float64{
	"": 1, "g": 1, "ml": 1, "clove": 1, "oz": 28.349523125, "lb": 453.59237,
	"cup": 236.5882365, "tbsp": 14.78676478125,
}

func (w row) same(t *testing.T, qs []quantity.Quantity) {
	require.NotEmpty(t, qs, "nothing is gathered under that name")
	sum := qs[0]
	for _, q := range qs[1:] {
		more, problem := sum.Add(q)
		require.Nil(t, problem)
		sum = more
	}
	w.sameAmount(t, sum)
}

func (w row) sameAmount(t *testing.T, q quantity.Quantity) {
	if w.unit == "tin" {
		require.NotNil(t, q.Packs)
		require.InDelta(t, w.amount, q.Packs.Count.High.Float(), 0.001, w.how)
		return
	}
	factor, ok := in[w.unit]
	require.True(t, ok, w.unit)
	require.InDelta(t, w.amount*factor, q.Value.High.Float(), 0.0051*factor, w.how)
}

// job finds the preparation of a line, or the first step with a word.
func job(t *testing.T, tl *timeline.Timeline, w row) *timeline.Job {
	require.NotNil(t, tl, "there is no plan")
	var best *timeline.Job
	for _, j := range tl.Jobs {
		if j.Making == nil || j.Making.Recipe.Name != w.block {
			continue
		}
		if j.Kind == timeline.PrepJob && same(j.Line.Line.Name, w.name) {
			return j
		}
		if j.Kind == timeline.StepJob && strings.Contains(strings.ToLower(j.Step.Step.Prose.Text), w.name) &&
			(best == nil || j.Step.Step.Index < best.Step.Step.Index) {
			best = j
		}
	}
	require.NotNil(t, best, "no step of %s says %q", w.block, w.name)
	return best
}

// count compares pieces, or loads.
func (w row) count(t *testing.T, meal *demand.Meal, tl *timeline.Timeline) {
	m := one(t, meal, w.block)
	if w.name == "loads" {
		most := 0
		for _, j := range tl.Jobs {
			if j.Making == m {
				most = max(most, j.Loads)
			}
		}
		require.Equal(t, int(w.amount), most, w.how)
		return
	}
	into := func(s *resolve.Step) bool { return s.Into != nil && same(s.Into.Name.Text, w.name) }
	for _, s := range m.Recipe.Steps {
		if into(s) {
			require.InDelta(t, w.amount, float64(s.Into.Count)*m.Factor.Float(), 0.001, w.how)
			return
		}
	}
	t.Fatalf("%s is not shared into %s", w.block, w.name)
}

// ofPart compares what goes into a part of a series, its stand-ins included, or
// what it makes for later ones.
func (w row) ofPart(t *testing.T, r *compiler.Result) {
	require.Len(t, r.Series, 1)
	for _, p := range r.Series[0].Parts {
		if "part "+strconv.Itoa(p.Of.Number) != w.block {
			continue
		}
		if w.kind == "part" {
			w.same(t, lines(p.Meal, "", w.name))
			return
		}
		var qs []quantity.Quantity
		for _, c := range r.Series[0].Carries {
			if c.From == p && same(c.Name(), w.name) && c.Amount != nil {
				qs = append(qs, *c.Amount)
			}
		}
		w.same(t, qs)
		return
	}
	t.Fatalf("there is no %s", w.block)
}
