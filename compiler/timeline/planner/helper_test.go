package planner

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler/demand"
	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// Meals built by hand, so that what is tested here rests on no other pass.

type clause func(*resolve.Step)

// known is what came of the examples, which many tests look at.
var known plan.Memory

func recipe(name string, steps ...any) *resolve.Recipe {
	r := &resolve.Recipe{Name: name, Key: name}
	for _, x := range steps {
		switch x := x.(type) {
		case *resolve.Step:
			x.Recipe, x.Index, x.Pause = r, len(r.Steps), len(r.Pauses)
			for _, p := range x.Makes {
				p.Recipe, p.Step = r, x
				r.Products = append(r.Products, p)
			}
			r.Steps = append(r.Steps, x)
		case *resolve.Pause:
			x.Number, x.After = len(r.Pauses)+1, len(r.Steps)
			r.Pauses = append(r.Pauses, x)
		case *resolve.ServeHow:
			r.ServeHow = x
		case *resolve.Keep:
			r.Keeps = x
		case *resolve.Line:
			x.Recipe, x.Index = r, len(r.Lines)
			r.Lines = append(r.Lines, x)
		}
	}
	return r
}

func step(title string, clauses ...clause) *resolve.Step {
	s := &resolve.Step{Title: title, Cooks: 1}
	for _, c := range clauses {
		c(s)
	}
	return s
}

func spell(kind resolve.SpellKind, low, high int) resolve.Spell {
	return resolve.Spell{Kind: kind, Fixed: span(low, high)}
}

func span(low, high int) *quantity.Span {
	return &quantity.Span{Low: time.Duration(low) * time.Minute, High: time.Duration(high) * time.Minute}
}

func work(n int) clause {
	return func(s *resolve.Step) { s.Phases = append(s.Phases, spell(resolve.Work, n, n)) }
}

func watch(n int) clause {
	return func(s *resolve.Step) { s.Phases = append(s.Phases, spell(resolve.Watch, n, n)) }
}

func leave(n int) clause { return leaveRange(n, n) }

func leaveRange(low, high int) clause {
	return func(s *resolve.Step) { s.Phases = append(s.Phases, spell(resolve.Leave, low, high)) }
}

func upTo(n, most int) clause {
	return func(s *resolve.Step) {
		sp := spell(resolve.Leave, n, n)
		sp.Fixed.UpTo = time.Duration(most) * time.Minute
		s.Phases = append(s.Phases, sp)
	}
}

func heat(low, high int) clause {
	return func(s *resolve.Step) {
		s.Heats = append(s.Heats, resolve.Heat{Low: low, High: high})
		s.Shelves = max(1, s.Shelves)
	}
}

func ring(s *resolve.Step)      { s.Rings, s.Level = 1, "low" }
func meanwhile(s *resolve.Step) { s.Meanwhile = true }

func ifPaused(s *resolve.Step) { s.If = append(s.If, resolve.Condition{Paused: true}) }

func pauseUpTo(hours int) *resolve.Pause {
	return &resolve.Pause{UpTo: time.Duration(hours) * time.Hour, Place: "fridge"}
}

func hot(within int) *resolve.ServeHow {
	return &resolve.ServeHow{State: "hot", Within: span(within, within)}
}

// meal puts dishes on a menu at the given minutes, one course each.
type meal struct {
	*demand.Meal
}

func newMeal(kitchen *resolve.Kitchen, hours ...resolve.Hours) *meal {
	serve := time.Date(2027, 9, 19, 13, 0, 0, 0, time.UTC)
	menu := &resolve.Menu{Name: "Lunch", Serve: &serve, Kitchen: kitchen, Hours: hours}
	return &meal{&demand.Meal{Menu: menu, Title: "Lunch", Kitchen: kitchen}}
}

func (m *meal) serve(course string, at int, recipes ...*resolve.Recipe) *meal {
	c := &resolve.Course{Name: course, At: at}
	m.Menu.Courses = append(m.Menu.Courses, c)
	for _, r := range recipes {
		s := &resolve.Serving{Course: c, Recipe: r, Name: r.Name}
		c.Servings = append(c.Servings, s)
		m.make(r, s)
	}
	return m
}

func (m *meal) make(r *resolve.Recipe, s *resolve.Serving) *demand.Making {
	mk := &demand.Making{Recipe: r, Serving: s, Factor: quantity.Int(1), Letter: string(rune('A' + len(m.Makings))), Reading: &resolve.Reading{Recipe: r}}
	for _, st := range r.Steps {
		mk.Reading.Steps = append(mk.Reading.Steps, &resolve.StepReading{Step: st})
	}
	for _, l := range r.Lines {
		mk.Reading.Lines = append(mk.Reading.Lines, l)
		mk.Lines = append(mk.Lines, &demand.Amount{Making: mk, Line: l, Quantity: l.Quantity})
	}
	m.Makings = append(m.Makings, mk)
	return mk
}

func (m *meal) plan(t *testing.T) (*timeline.Timeline, *diag.List) {
	t.Helper()
	diags := &diag.List{}
	line := Plan(context.Background(), m.Meal, timeline.Options{}, diags)
	return line, diags
}

// planned plans a meal that must be on time.
func (m *meal) planned(t *testing.T) *timeline.Timeline {
	t.Helper()
	line, diags := m.plan(t)
	require.NotNil(t, line, "%v", diags.Sorted())
	require.Zero(t, line.Late)
	audit(t, line)
	return line
}

// job finds a job by its title.
func job(t *timeline.Timeline, test *testing.T, title string) *timeline.Job {
	test.Helper()
	for _, j := range t.Jobs {
		if j.Title == title {
			return j
		}
	}
	require.Fail(test, "no job "+title)
	return nil
}

// at is a time of day in minutes.
func at(h, m int) int { return h*60 + m }

func farmhouse() *resolve.Kitchen {
	return &resolve.Kitchen{
		Name: "Farmhouse", Cooks: []string{"Ana"}, Rings: 4,
		WaitHot: resolve.WaitHot, WaitCold: resolve.WaitCold, WaitPrepared: resolve.WaitPrepared,
		Ovens: []resolve.Oven{{Name: "main", Key: "main", Shelves: 2, Preheat: 15 * time.Minute}},
	}
}

func titles(jobs []*timeline.Job) (out []string) {
	for _, j := range jobs {
		out = append(out, j.Title)
	}
	return out
}
