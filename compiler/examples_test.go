package compiler_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/buying"
	"tamis/compiler/demand"
	"tamis/compiler/figures"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets/build"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// compile compiles one of the examples, which must be without findings.
func compile(t *testing.T, dir string) *compiler.Result {
	t.Helper()
	r := folder(t, dir, compiler.Options{})
	for _, d := range r.Diags.Sorted() {
		p := d.At.Span.Position()
		if d.Severity > diag.Hint {
			t.Errorf("%s[%s] %s:%d:%d: %s", d.Severity, d.Code, d.At.Span.File.Name, p.Line, p.Column, d.Message)
		}
	}
	return r
}

// Every example folder comes with the amounts and minutes that its author
// worked out by hand (examples/*/expected.csv). The compiler must agree.
func TestExamplesAgreeWithHandCalculation(t *testing.T) {
	files, err := filepath.Glob("../examples/*/expected.csv")
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 5)
	for _, f := range files {
		dir := filepath.Dir(f)
		t.Run(filepath.Base(dir), func(t *testing.T) {
			h := &hand{t: t, dir: dir, results: map[string]*compiler.Result{}}
			for _, row := range readCSV(t, f) {
				h.check(row)
			}
		})
	}
}

func readCSV(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open(name)
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	return rows[1:]
}

// hand compares rows worked out by hand with what is compiled.
type hand struct {
	t       *testing.T
	dir     string
	results map[string]*compiler.Result
}

// result compiles the folder, or a folder below it that the row's name begins
// with ("sunday: …"; "book: …" is the folder itself or the one of the recipe).
func (h *hand) result(sub string) *compiler.Result {
	if r := h.results[sub]; r != nil {
		return r
	}
	r := compile(h.t, filepath.Join(h.dir, sub))
	h.results[sub] = r
	return r
}

func (h *hand) check(row []string) {
	kind, name, unit, how := row[0], row[1], row[3], row[4]
	if kind == "part" || kind == "carried" {
		return // of a series: compared in package examples
	}
	want, err := strconv.ParseFloat(row[2], 64)
	require.NoError(h.t, err, "%v", row)
	sub := ""
	if s, rest, ok := strings.Cut(name, ": "); ok && s == "sunday" {
		sub, name = s, rest
	} else if ok && s == "book" {
		name = rest
		if i := strings.IndexByte(rest, '/'); i >= 0 {
			sub = rest[:i]
		}
	}
	r := h.result(sub)
	got, found := h.find(r, kind, name, unit)
	if !found {
		h.t.Errorf("%s %s (%s): not found", kind, name, how)
		return
	}
	if u, ok := quantity.UnitNamed(unit); ok && u.Dim != quantity.Word && kind != "minutes" {
		size, ok := u.Base(r.Model.Recipes[0].System)
		require.True(h.t, ok, "%s has no size", unit)
		want *= size.Float()
	}
	slack := max(0.006, want*0.0012) // hand figures are rounded to two places
	if kind == "minutes" {
		slack = 1.01 // a job ends on a whole minute
	}
	if got < want-slack || got > want+slack {
		h.t.Errorf("%s %s: %g %s by hand (%s), and %g compiled", kind, name, want, unit, how, got)
	}
}

func key(name string) string {
	if i := strings.LastIndexByte(name, '/'); i >= 0 {
		name = name[i+1:]
	}
	return larder.Fold(name)
}

func (h *hand) find(r *compiler.Result, kind, name, unit string) (float64, bool) {
	about, rest, ok := strings.Cut(name, " > ") // "Apple pie > Sweet pastry": the base, in the pie's own meal
	if ok {
		name = rest
	}
	recipe, line, _ := strings.Cut(name, ": ")
	if kind == "line" && line == "" { // "book: soups/Ham stock: cooked ham"
		return 0, false
	}
	for i, meal := range r.Meals {
		if ok && key(meal.Title) != key(about) {
			continue
		}
		for _, m := range meal.Makings {
			if kind == "total" || kind == "bought" || m.Recipe.Key != key(recipe) {
				continue
			}
			if len(r.Meals) > 1 && meal.Menu == nil && kind == "scale" && !hasDraws(m) && m.Supply != nil {
				continue // not what is meant
			}
			switch kind {
			case "scale":
				return m.Factor.Float(), true
			case "demand":
				if m.Supply != nil && len(m.Supply.Draws) > 0 {
					return m.Supply.Drawn.Value.High.Float(), true
				}
			case "line":
				for _, a := range m.Lines {
					if a.Line.Key == larder.Fold(line) && a.Quantity != nil {
						if p := a.Quantity.Packs; p != nil && unit != "g" && unit != "ml" {
							return p.Count.High.Float(), true
						}
						return a.Quantity.Value.High.Float(), true
					}
				}
			case "count":
				if got, ok := count(m, r.Timelines[i], line); ok {
					return got, true
				}
			case "minutes":
				if got, ok := minutesOf(m, r.Timelines[i], line); ok {
					return got, true
				}
			}
		}
		if kind == "demand" {
			for _, s := range meal.Supplies {
				if s.Product != nil && s.Product.Key == larder.Fold(name) {
					return s.Drawn.Value.High.Float(), true
				}
			}
			if got, ok := carried(meal, larder.Fold(name)); ok {
				return got, true
			}
		}
		if kind == "bought" {
			for _, it := range buying.Build(figures.Of(meal, figures.Options{}), nil).Items {
				if it.Key == larder.Fold(name) || larder.Fold(it.Name) == larder.Fold(name) {
					return it.Buy[0].Value.High.Float(), true
				}
			}
		}
		if kind == "total" {
			if got, ok := total(meal, larder.Fold(name)); ok {
				return got, true
			}
		}
	}
	return 0, false
}

func hasDraws(m *demand.Making) bool { return m.Supply != nil && len(m.Supply.Draws) > 0 }

// count is the number of pieces made, or of loads.
func count(m *demand.Making, tl *timeline.Timeline, what string) (float64, bool) {
	if what == "loads" {
		for _, j := range jobs(tl, m) {
			if j.Loads > 1 {
				return float64(j.Loads), true
			}
		}
		return 0, false
	}
	for _, sr := range m.Reading.Steps {
		if c := sr.Step.Into; c != nil && larder.Fold(c.Name.Text) == larder.Fold(what) {
			return float64(build.Into(m, c)), true
		}
	}
	if m.Recipe.Makes == nil {
		return 0, false
	}
	return m.Recipe.Makes.Quantity.Scale(m.Factor).Value.High.Float(), true
}

func jobs(tl *timeline.Timeline, m *demand.Making) (out []*timeline.Job) {
	if tl == nil {
		return nil
	}
	for _, j := range tl.Jobs {
		if j.Making == m {
			out = append(out, j)
		}
	}
	return out
}

// minutesOf is the length of a preparation, or of the first step that has the
// word in its sentence; the hands-on part of all its loads if the step is worked
// per something.
func minutesOf(m *demand.Making, tl *timeline.Timeline, what string) (float64, bool) {
	for _, j := range jobs(tl, m) {
		switch {
		case j.Line != nil && j.Line.Line.Key == larder.Fold(what):
			return float64(j.End() - j.Start()), true
		case j.Step != nil && strings.Contains(strings.ToLower(j.Step.Step.Prose.Text), strings.ToLower(what)):
			if !hasPer(j) {
				return float64(j.End() - j.Start()), true
			}
			n := 0
			for _, o := range jobs(tl, m) { // its loads are jobs of their own
				if o != j && (j.Load == 0 || o.Step != j.Step) {
					continue
				}
				for _, p := range o.Phases {
					if p.Kind == resolve.Work || perSomething(o, p.Kind) {
						n += p.End - p.Start
					}
				}
			}
			return float64(n), true
		}
	}
	return 0, false
}

func hasPer(j *timeline.Job) bool {
	for _, s := range j.Step.Step.Phases {
		if s.Per != nil {
			return true
		}
	}
	return false
}

func perSomething(j *timeline.Job, kind resolve.SpellKind) bool {
	for _, s := range j.Step.Step.Phases {
		if s.Kind == kind && s.Per != nil {
			return true
		}
	}
	return false
}

// carried adds up what is taken of something made or left on another day.
func carried(meal *demand.Meal, name string) (float64, bool) {
	sum, found := quantity.Number{}, false
	for _, m := range meal.Makings {
		for _, a := range m.Lines {
			if a.Line.Key == name && a.Line.Carried != "" && a.Quantity != nil {
				sum, found = sum.Add(a.Quantity.Value.High), true
			}
		}
	}
	return sum.Float(), found
}

// total adds up every line of a thing that is bought, over the meal.
func total(meal *demand.Meal, name string) (float64, bool) {
	sum, found := quantity.Number{}, false
	for _, m := range meal.Makings {
		for _, a := range m.Lines {
			if a.Line.Key == name && a.Source == nil && a.Quantity != nil {
				sum, found = sum.Add(a.Quantity.Value.High), true
			}
		}
	}
	return sum.Float(), found
}
