package changes

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tamis/compiler"
	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
)

// mealPair is a meal as it was and as it is; one of them may be nil.
type mealPair struct{ was, now *demand.Meal }

// meals pairs the meals of menus: by name; the only one of each is the same.
func meals(was, now *compiler.Result) (out []mealPair) {
	before, after := ofMenus(was), ofMenus(now)
	used := map[*demand.Meal]bool{}
	for _, a := range after {
		i := slices.IndexFunc(before, func(b *demand.Meal) bool { return !used[b] && b.Menu.Name == a.Menu.Name })
		if i < 0 && len(before) == 1 && len(after) == 1 {
			i = 0
		}
		if i < 0 {
			out = append(out, mealPair{nil, a})
			continue
		}
		used[before[i]] = true
		out = append(out, mealPair{before[i], a})
	}
	for _, b := range before {
		if !used[b] {
			out = append(out, mealPair{b, nil})
		}
	}
	return out
}

func ofMenus(r *compiler.Result) (out []*demand.Meal) {
	for _, m := range r.Meals {
		if m.Menu != nil {
			out = append(out, m)
		}
	}
	return out
}

// lines are what is otherwise with a meal: its guests, its dishes, its plan.
func (p mealPair) lines(was, now *compiler.Result, pairs []pair) (out []string) {
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	a, b := p.was.Menu, p.now.Menu
	if a.Name != b.Name {
		say("was called %s", a.Name)
	}
	if a.Covers != b.Covers || a.Children != b.Children {
		say("for %d covers, before %d", b.Covers+b.Children, a.Covers+a.Children)
	}
	if a.Serve != nil && b.Serve != nil && !a.Serve.Equal(*b.Serve) {
		say("on the table %s, before %s", b.Serve.Format("2 January 15:04"), a.Serve.Format("2 January 15:04"))
	}
	x, y := servings(a), servings(b)
	for _, r := range pairs { // what has another name is the same dish
		if r.was != nil && r.now != nil && r.was.Name != r.now.Name {
			if i, j := slices.Index(x, r.was.Name), slices.Index(y, r.now.Name); i >= 0 && j >= 0 {
				x, y = slices.Delete(x, i, i+1), slices.Delete(y, j, j+1)
			}
		}
	}
	for _, name := range y {
		if !slices.Contains(x, name) {
			say("new on the menu: %s", name)
		}
	}
	for _, name := range x {
		if !slices.Contains(y, name) {
			say("no longer on the menu: %s", name)
		}
	}
	out = append(out, otherwise(written(a, y), written(b, y))...)
	if a.At.Text != b.At.Text {
		say("cooked at %s, before at %s", orNone(b.At.Text), orNone(a.At.Text))
	} else if a.Kitchen != nil && b.Kitchen != nil {
		for _, l := range otherwise(kitchen(a.Kitchen), kitchen(b.Kitchen)) {
			say("the kitchen: %s", l)
		}
	}
	return append(out, plans(planOf(was, p.was), planOf(now, p.now), a.Serve, b.Serve)...)
}

// written are the hours and tasks of a menu as they are written, its courses and, of some dishes,
// how each is served.
func written(m *resolve.Menu, dishes []string) (out []string) {
	for _, c := range m.Courses {
		if after := c.After; after != nil {
			out = append(out, fmt.Sprintf("%s: %s after %s", c.Name, timeline.SpanWords(c.At-after.At), after.Name))
		} else {
			out = append(out, c.Name)
		}
	}
	for _, c := range m.Courses {
		for _, s := range c.Servings {
			if how := strings.TrimPrefix(clauseText(s.Span), s.Name); slices.Contains(dishes, s.Name) && how != "" {
				out = append(out, s.Name+how)
			}
		}
	}
	for _, h := range m.Hours {
		out = append(out, clauseText(h.Span))
	}
	for _, t := range m.Tasks {
		out = append(out, clauseText(t.Span))
	}
	return out
}

// kitchen is what a kitchen has, as it is written.
func kitchen(k *resolve.Kitchen) (out []string) {
	for line := range strings.Lines(k.Span.Text()) {
		if line = strings.Join(strings.Fields(line), " "); line != "" && !strings.HasPrefix(line, "#") && !strings.HasPrefix(line, "kitchen ") {
			out = append(out, line)
		}
	}
	return out
}

func servings(m *resolve.Menu) (out []string) {
	for _, c := range m.Courses {
		for _, s := range c.Servings {
			out = append(out, s.Name)
		}
	}
	return out
}

func planOf(r *compiler.Result, meal *demand.Meal) *events.List {
	i := slices.Index(r.Meals, meal)
	if i < 0 || r.Timelines[i] == nil {
		return nil
	}
	return events.Of(r.Timelines[i])
}

// plans compares two plans: when work begins, how many rings are wanted at once, when
// the last thing is served.
func plans(a, b *events.List, was, now *time.Time) (out []string) {
	switch {
	case a == nil && b == nil:
		return nil
	case a == nil:
		return []string{"has a plan now"}
	case b == nil:
		return []string{"has no plan any more"}
	}
	d, of := int(b.Begins.Since(b.Zero))-int(a.Begins.Since(a.Zero)), ""
	switch {
	case was == nil || now == nil || was.Equal(*now):
	case was.Format(time.DateOnly) == now.Format(time.DateOnly):
		d += int(now.Sub(*was) / time.Minute)
	default: // another day: what is said of the clock says nothing of the work
		of = ", as seen from the table"
	}
	if d != 0 {
		way := "earlier"
		if d > 0 {
			way = "later"
		}
		out = append(out, fmt.Sprintf("work starts %s %s%s: %s, before %s", timeline.SpanWords(max(d, -d)), way, of, b.OnDay(b.Begins), a.OnDay(a.Begins)))
	}
	if x, y := rings(a), rings(b); x != y {
		out = append(out, fmt.Sprintf("now needs %s at once, before %s", ringWords(y), ringWords(x)))
	}
	return out
}

func ringWords(n int) string {
	switch n {
	case 0:
		return "no ring"
	case 1:
		return "one ring"
	case 2:
		return "two rings"
	}
	return fmt.Sprintf("%d rings", n)
}

// rings is how many rings a plan uses at most at once.
func rings(l *events.List) (most int) {
	jobs := l.Each(events.Job)
	for _, e := range jobs {
		n := 0
		for _, o := range jobs {
			if o.Start <= e.Start && e.Start < o.End {
				n += o.Where.Rings
			}
		}
		most = max(most, n)
	}
	return most
}
