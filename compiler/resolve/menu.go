package resolve

import (
	"slices"
	"strings"
	"time"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

func (b *builder) menus() {
	for _, m := range b.model.Menus {
		b.menu(m)
	}
}

func (b *builder) menu(m *Menu) {
	var serve *ast.ServeAt
	at := false // a kitchen is named
	for _, item := range m.ast.Items {
		switch it := item.(type) {
		case *ast.Covers:
			m.Covers, m.Children = it.Count, it.Children
		case *ast.ServeAt:
			serve = it
			t := time.Date(it.Date.Year, time.Month(it.Date.Month), it.Date.Day, it.Clock.Hour, it.Clock.Minute, 0, 0, time.UTC)
			m.Serve = &t
		case *ast.At:
			at = true
			b.menuKitchen(m, it)
		case *ast.Task:
			m.Tasks = append(m.Tasks, &Task{it.Span, it.Title.Text, it.Work, nameTexts(it.By), nameText(it.Before), nameText(it.After), it.Done})
		case *ast.Service:
			m.Service = append(m.Service, serviceOf(it))
		case *ast.Common:
			switch it.Key {
			case "by":
				m.By = it.Text.Text
			case "rules":
				m.Practice = it.Text.Text
			case "picture":
				m.Pictures = append(m.Pictures, it.Span)
			}
		}
	}
	if !at && len(m.Scope.Kitchens) == 1 { // the only one of its folder
		for _, k := range m.Scope.Kitchens {
			m.Kitchen = k
		}
	}
	if serve != nil && m.Kitchen != nil && m.Kitchen.Zone != nil {
		b.clocks(m, serve, m.Kitchen.Zone)
	}
	if m.Practice == "" && m.Kitchen != nil {
		m.Practice = m.Kitchen.Practice
	}
	for _, item := range m.ast.Items {
		switch it := item.(type) {
		case *ast.Hours:
			b.hours(m, it, serve)
		case *ast.Shop:
			b.shopDays(m, it, serve)
		case *ast.Course:
			b.course(m, it, serve)
		}
	}
	b.tasks(m)
}

func (b *builder) menuKitchen(m *Menu, it *ast.At) {
	m.At = nameText(it.Kitchen)
	if m.Kitchen = b.findKitchen(m.Scope, it.Kitchen); m.Kitchen != nil {
		return
	}
	var names []string
	for s := m.Scope; s != nil; s = s.Parent {
		for _, k := range s.Kitchens {
			names = append(names, k.Name)
		}
	}
	slices.Sort(names)
	d := b.diags.Errorf("U130", it.Kitchen.Span, "there is no kitchen called %q in this folder", it.Kitchen.Text)
	if near := diag.Nearest(it.Kitchen.Text, names); near != "" {
		d.Replace("write "+near, false, it.Kitchen.Span, near).WithHelp("did you mean %q?", near)
	}
	d.WithHelp("write a block `kitchen %s` with its cooks, oven and rings", it.Kitchen.Text)
}

const day = 24 * 60

// clocks sets the clock of the menu by its zone. It asks about a serving at an
// hour that the clock leaves out or has twice, and says where it is changed
// shortly before.
func (b *builder) clocks(m *Menu, serve *ast.ServeAt, zone *time.Location) {
	m.Wall = quantity.WallOf(*m.Serve, zone)
	if m.Wall == nil {
		b.leftOut(serve.Span, *m.Serve)
		return
	}
	at := clock(serve.Clock)
	b.passed(m, serve.Span, at)
	for _, c := range m.Wall.Changes(at-day, at) {
		change, by := "forward", time.Duration(c.By)*time.Minute
		if c.By < 0 {
			change, by = "back", -by
		}
		b.diags.Hintf("M124", serve.Span, "the clocks go %s by %s in the 24 hours before", change, quantity.Span{Low: by, High: by}).
			Because("the plan goes by the time that passes and prints what the clock shows, so its hours are right; a clock that nobody changes is wrong").
			WithHelp("see that the kitchen's clock and the ovens' timers are put right, or set timers by minutes")
	}
}

func (b *builder) leftOut(at source.Span, wall time.Time) {
	b.diags.Askf("M123", at, "there is no %s on %s: the clocks go forward", wall.Format("15:04"), wall.Format("2 January 2006")).
		Because("nobody can be there at an hour that the clock leaves out").
		WithHelp("write an hour that the clocks have on that day")
}

// passed is how many minutes have passed when the menu's clock shows a time: the
// first and the last moment at which it does. It asks where there are two, or
// none.
func (b *builder) passed(m *Menu, at source.Span, shown int) (first, last int) {
	first, last, ok := m.Wall.Passed(shown)
	if ok && first == last {
		return first, last
	}
	wall := time.Date(m.Serve.Year(), m.Serve.Month(), m.Serve.Day(), 0, shown, 0, 0, time.UTC)
	if !ok {
		b.leftOut(at, wall)
		return first, last
	}
	b.diags.Askf("M123", at, "%s comes twice on %s: the clocks go back", wall.Format("15:04"), wall.Format("2 January 2006")).
		Because("half of those who are meant may come an hour early").
		WithHelp("write an hour before or after the one that comes twice")
	return first, last
}

// hours puts a span of working time on the menu's clock.
func (b *builder) hours(m *Menu, it *ast.Hours, serve *ast.ServeAt) {
	before := it.DaysBefore
	if !it.Date.IsZero() {
		if serve == nil {
			b.diags.Errorf("U131", it.Pos(), "these hours name a date, and the menu has no serving time").
				WithHelp("write `on the table 2027-09-19 13:00` in the menu, or say `day before` and `on the day`")
			return
		}
		before = daysBetween(it.Date, serve.Date)
	}
	h := Hours{Span: it.Span, Named: nameTexts(it.Cooks), From: clock(it.From) - before*day, To: clock(it.To) - before*day}
	if !it.UntilDate.IsZero() && serve != nil {
		h.To = clock(it.To) - daysBetween(it.UntilDate, serve.Date)*day
	}
	_, h.From = b.passed(m, it.Pos(), h.From)
	h.To, _ = b.passed(m, it.Pos(), h.To)
	if h.To <= h.From {
		if !it.UntilDate.IsZero() { // within one day the parser has reported it
			b.diags.Errorf("U132", it.Pos(), "these hours end before they begin").
				WithHelp("the later day comes second: `hours 2027-09-18, 20:00 to 2027-09-19 01:00`")
		}
		return
	}
	for _, n := range it.Cooks {
		if m.Kitchen != nil && !slices.ContainsFunc(m.Kitchen.Cooks, func(c string) bool { return b.fold(c) == b.fold(n.Text) }) {
			d := b.diags.Errorf("U133", n.Span, "%s is no cook of %s", n.Text, m.Kitchen.Name).
				WithHelp("its cooks are %s", strings.Join(m.Kitchen.Cooks, ", "))
			if near := diag.Nearest(n.Text, m.Kitchen.Cooks); near != "" {
				d.Replace("write "+near, false, n.Span, near)
			}
			continue
		}
		h.Cooks = append(h.Cooks, b.fold(n.Text))
	}
	m.Hours = append(m.Hours, h)
}

func clock(c ast.Clock) int { return c.Hour*60 + c.Minute }

// daysBetween counts the days from one date to another.
func daysBetween(from, to ast.Date) int {
	return int(dayOf(to).Sub(dayOf(from)).Hours() / 24)
}

func (b *builder) course(m *Menu, it *ast.Course, serve *ast.ServeAt) {
	c := &Course{Name: it.Title.Text, NameAt: it.Title.Span}
	if serve != nil {
		c.At = clock(serve.Clock)
	}
	switch {
	case it.At != nil:
		if serve == nil {
			b.diags.Errorf("U134", it.Pos(), "this course has a clock time, and the menu has no serving time").
				WithHelp("write `serve` with a date and a time in the menu")
			return
		}
		c.At = clock(*it.At)
		if c.At < clock(serve.Clock)-4*60 { // after midnight
			c.At += day
		}
		c.At, _ = b.passed(m, it.Pos(), c.At)
	case it.After != nil:
		i := slices.IndexFunc(m.Courses, func(o *Course) bool { return b.fold(o.Name) == b.fold(it.AfterOf.Text) })
		if i < 0 {
			d := b.diags.Errorf("U135", it.AfterOf.Span, "no course called %q stands above this one", it.AfterOf.Text)
			var names []string
			for _, o := range m.Courses {
				names = append(names, o.Name)
			}
			if near := diag.Nearest(it.AfterOf.Text, names); near != "" {
				d.WithHelp("did you mean %q?", near)
			}
		} else {
			c.After = m.Courses[i]
			c.At = c.After.At + int(it.After.High/time.Minute)
		}
	}
	m.Courses = append(m.Courses, c)
	for _, s := range it.Servings {
		b.serving(m, c, s, serve)
	}
}

func (b *builder) serving(m *Menu, c *Course, x *ast.Serving, serve *ast.ServeAt) {
	s := &Serving{
		Span: x.Span, Course: c, Name: x.Ref.Text, NameAt: x.Ref.Span, For: x.For, Counted: x.For > 0 || x.CookFor > 0,
		KeepFor: Text(x.KeepFor), Bought: !x.From.IsZero(), Seller: sellerOf(x.From), ToWrite: x.ToWrite, Covers: x.For, Ahead: x.Ahead, Straight: x.Straight,
		Chosen: map[*Choice]*Option{}, Stated: map[*Choice]bool{},
	}
	c.Servings = append(c.Servings, s)
	if s.Covers == 0 {
		s.Covers = m.Covers
	}
	s.CookFor = s.Covers
	if x.CookFor > 0 {
		s.CookFor = x.CookFor
	}
	switch {
	case s.Bought:
		b.unmade(s, x.Pins, "bought")
		return
	case x.ToWrite:
		b.unmade(s, x.Pins, "not written yet")
		return
	}
	x = b.wholeName(m.Scope, x)
	s.NameAt = x.Ref.Span
	r := b.find(m.Scope, x.Ref.Text)
	if r == nil {
		b.unknownRecipe(m.Scope, nameText(x.Ref), "the menu serves")
		b.lastHelp("if there is no recipe, write `%s, from the shop` or `%s, to be written`", x.Ref.Text, x.Ref.Text)
		return
	}
	s.Recipe, s.Name = r, r.Name
	b.pins(m, s, x.Pins, serve)
	if x.Ahead && len(r.Pauses) == 0 {
		b.diags.Errorf("U136", x.Pos(), "%s is to be made ahead, and its method has no pause", r.Name).
			See(r.NameAt, "the recipe").
			WithHelp("write `pause up to 1 day, fridge` in its method where it may wait")
	}
	for _, n := range x.Options {
		o := r.option(b.fold(n.Text))
		if o == nil {
			d := b.diags.Errorf("U121", n.Span, "%s does not offer %q", r.Name, n.Text)
			if near := diag.Nearest(n.Text, r.labels()); near != "" {
				d.Replace("write "+near, false, n.Span, near).WithHelp("did you mean %q?", near)
			} else if ls := r.labels(); len(ls) > 0 {
				d.WithHelp("it offers %s", and(ls))
			} else {
				d.WithHelp("its gather list has no `either` and `or`")
			}
			continue
		}
		s.Chosen[o.Choice], s.Stated[o.Choice] = o, true
	}
	for _, ch := range r.Choices {
		if s.Chosen[ch] == nil {
			s.Chosen[ch] = chosenOf(ch, nil)
		}
	}
}

// wholeName is a serving of a dish whose name has a comma in it: what stands behind
// the comma is no option then.
func (b *builder) wholeName(scope *Scope, x *ast.Serving) *ast.Serving {
	for n := len(x.Options); n > 0 && !x.Ref.Quoted; n-- {
		name := x.Ref
		for _, o := range x.Options[:n] {
			name.Text += ", " + o.Text
			name.Span = name.Span.To(o.Span)
		}
		if b.find(scope, name.Text) != nil {
			whole := *x
			whole.Ref, whole.Options = name, x.Options[n:]
			return &whole
		}
	}
	return x
}

// lastHelp adds advice to the finding made last.
func (b *builder) lastHelp(format string, args ...any) {
	if d := b.diags.Last(); d != nil {
		d.WithHelp(format, args...)
	}
}

// tasks checks what the tasks of a menu name.
func (b *builder) tasks(m *Menu) {
	for _, t := range m.Tasks {
		for _, n := range []Text{t.Before, t.After} {
			if n.IsZero() || m.names(b.fold(n.Text), b.fold) {
				continue
			}
			b.diags.Errorf("U137", n.Span, "the menu has no course or dish called %q", n.Text).
				WithHelp("name a course, or a dish as the menu writes it")
		}
		for _, n := range t.By {
			if m.Kitchen != nil && !slices.ContainsFunc(m.Kitchen.Cooks, func(c string) bool { return b.fold(c) == b.fold(n.Text) }) {
				b.diags.Errorf("U133", n.Span, "%s is no cook of %s", n.Text, m.Kitchen.Name).
					WithHelp("its cooks are %s", strings.Join(m.Kitchen.Cooks, ", "))
			}
		}
	}
}

func (m *Menu) names(key string, fold func(string) string) bool {
	for _, c := range m.Courses {
		if fold(c.Name) == key {
			return true
		}
		for _, s := range c.Servings {
			if fold(s.Name) == key {
				return true
			}
		}
	}
	return false
}
