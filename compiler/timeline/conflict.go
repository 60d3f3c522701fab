package timeline

import (
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/plan"
	"tamis/lang/source"
)

// What cannot be kept. Codes: P201 a serving is late, P202 no plan keeps what
// was asked, P203 none was found.

// clash is a conflict of the engine's in the meal's words.
type clash struct {
	jobs      []*job
	resources []int
	limits    []*link // those whose upper end takes part
	orders    []*link // those whose lower end does
	courses   []*job
	proven    bool
}

// clashOf translates a conflict.
func (d *draft) clashOf(c *plan.Conflict) clash {
	var out clash
	if c == nil {
		return out
	}
	out.proven = c.Proven
	out.resources = slices.Clone(c.Resources)
	add := func(j *job) {
		if j.Kind != "" && !slices.Contains(out.jobs, j) {
			out.jobs = append(out.jobs, j)
		}
	}
	for _, j := range d.jobs {
		if slices.Contains(c.Activities, j.block.act) {
			add(j)
		}
	}
	for _, l := range d.links {
		for i, n := range l.lags {
			if !slices.Contains(c.Lags, n) {
				continue
			}
			add(l.from.job)
			add(l.to.job)
			if i == 0 {
				out.orders = append(out.orders, l)
			} else {
				out.limits = append(out.limits, l)
			}
		}
	}
	for _, n := range c.Dues {
		out.courses = append(out.courses, d.courses[n])
	}
	return out
}

// explainConflict reports a meal for which there is no plan.
func (a *attempts) explainConflict() {
	r := a.last
	d := r.draft
	c := d.clashOf(r.conflict)
	at := d.spanOf(c)
	if r.conflict == nil || !c.proven {
		diag := a.diags.Errorf("P203", at, "no plan was found for %s", d.meal.Title).
			Because("%s", c.because(d, "the search gave up; there may be one"))
		a.cures(r, c, func(text string) { diag.WithHelp("%s", text) })
		return
	}
	why := c.because(d, "")
	if over := a.nearest(r, c); len(over) > 0 {
		why += "; the nearest there is: " + strings.Join(over, "; ")
	}
	diag := a.diags.Errorf("P202", at, "%s", c.headline(d)).Because("%s", why)
	d.see(c, at, func(span source.Span, text string) { diag.See(span, "%s", text) })
	a.cures(r, c, func(text string) { diag.WithHelp("%s", text) })
}

// nearest plans a meal without a plan as if things might wait longer than they
// may, as little as there must be of it, and says by how much they do. It is empty
// where no limit on waiting stands in the way.
func (a *attempts) nearest(r *result, c clash) []string {
	if r.set.keep != nil || len(c.limits) == 0 {
		return nil
	}
	set := r.set
	set.grid, set.eased, set.wash = 1, true, washSet{none: true}
	n := a.trial(set, 1)
	if n == nil {
		return nil
	}
	over := n.over()
	return over[:min(3, len(over))]
}

// tryOnTime asks the engine why the plan is late. It may find that it need not
// be.
func (a *attempts) tryOnTime() {
	p := &a.best.draft.p
	out, err := plan.Explain(a.ctx, p, plan.Budget{Seed: a.opt.Seed, Steps: a.opt.Steps})
	if err != nil {
		return
	}
	a.whyLate = out.Conflict
	if s := out.Solution; s != nil && s.Score[plan.Lateness] == 0 && len(plan.Verify(p, s)) == 0 {
		was := a.best.solution
		if a.best.solution = s; a.best.unwashed() {
			a.best.solution = was
		}
	}
}

// explainLate reports each course that is late.
func (a *attempts) explainLate() {
	r := a.best
	d := r.draft
	c, said := d.clashOf(a.whyLate), false
	for _, course := range d.courses {
		late := r.start(course) - course.at
		if late <= 0 {
			continue
		}
		at, dish := r.latest(course)
		what := dish
		if course.course != "" {
			what = course.course
			if dish != "" {
				what += " (" + dish + ")"
			}
		}
		if what == "" {
			what = "the meal"
		}
		why := r.heldUp(course)
		if why == "" || !said {
			why = c.because(d, "no better plan was found")
		}
		diag := a.diags.Errorf("P201", at, "%s is %s late: served at %s instead of %s", what, spanWords(late), d.clockText(r.start(course)), d.clockText(course.at)).
			Because("%s", why)
		d.see(c, at, func(span source.Span, text string) { diag.See(span, "%s", text) })
		if !said && (len(c.courses) == 0 || slices.Contains(c.courses, course)) {
			a.cures(r, c, func(text string) { diag.WithHelp("%s", text) })
			c, said = clash{courses: []*job{}}, true // once
		}
	}
}

// heldUp says which earlier course makes one late; empty when none does.
func (r *result) heldUp(course *job) string {
	for _, l := range r.draft.links {
		if l.why != courseAfter || l.to.job != course || r.start(l.from.job) <= l.from.job.at || r.start(course)-r.start(l.from.job) > l.gap+r.draft.grid {
			continue
		}
		if l.gap > 0 {
			return fmt.Sprintf("it is served %s after %s, which is late", spanWords(l.gap), l.from.job.course)
		}
		return fmt.Sprintf("it is not served before %s, which is late", l.from.job.course)
	}
	return ""
}

// latest finds the dish that ends last in a course and where the menu has it.
func (r *result) latest(course *job) (at source.Span, dish string) {
	last := -1 << 30
	for _, mk := range r.draft.makings {
		if mk.course != course || mk.m.Serving == nil && mk.used {
			continue
		}
		for _, j := range mk.steps {
			if end := r.start(j) + j.length; r.on(j) && end > last {
				last, dish, at = end, mk.m.Recipe.Name, mk.span()
			}
		}
	}
	return at, dish
}

// span is where the menu, or else the book, has a dish.
func (mk *making) span() source.Span {
	if s := mk.m.Serving; s != nil && !s.Span.IsZero() {
		return s.Span
	}
	if r := mk.m.Recipe; !r.Span.IsZero() {
		return r.NameAt
	}
	return source.Span{}
}

// spanOf is the place a conflict is best shown at: its last step.
func (d *draft) spanOf(c clash) source.Span {
	for _, j := range slices.Backward(c.jobs) {
		if !j.place.IsZero() {
			return j.place
		}
	}
	for _, mk := range d.makings {
		if s := mk.span(); !s.IsZero() {
			return s
		}
	}
	return source.Span{}
}

// see names the other steps of a conflict where they stand.
func (d *draft) see(c clash, at source.Span, say func(source.Span, string)) {
	n := 0
	for _, j := range c.jobs {
		if j.place.IsZero() || j.place == at || n == 3 {
			continue
		}
		n++
		say(j.place, j.of())
	}
}

// headline says what cannot be done at once.
func (c clash) headline(d *draft) string {
	var dishes []string
	for _, j := range c.jobs {
		if j.mk != nil && !slices.Contains(dishes, j.mk.m.Recipe.Name) {
			dishes = append(dishes, j.mk.m.Recipe.Name)
		}
	}
	if slices.ContainsFunc(c.jobs, func(j *job) bool { return j.wash != nil }) {
		dishes = append(dishes, "the washing up")
	}
	what := d.meal.Title
	switch {
	case len(dishes) == 1:
		what = dishes[0]
	case len(dishes) > 1:
		what = listed(dishes)
		return fmt.Sprintf("%s cannot all be done in time together", what)
	}
	return fmt.Sprintf("%s cannot be done as it is written", what)
}

// because names the resource, the limits and the hours of a conflict.
func (c clash) because(d *draft, otherwise string) string {
	var parts []string
	var things []string
	for _, r := range c.resources {
		if r != d.kit.here {
			things = append(things, d.resourceWords(r))
		}
	}
	if len(things) > 0 {
		parts = append(parts, "all there is for it is "+listed(things))
	}
	for i, l := range c.limits {
		if i < 3 && l.max <= 12*60 {
			parts = append(parts, fmt.Sprintf("%s must come within %s of %s", l.to.job.of(), spanWords(l.max), l.from.job.of()))
		}
	}
	if len(parts) == 0 {
		for i, l := range c.orders {
			if i < 3 && l.from.job.Kind != "" {
				parts = append(parts, fmt.Sprintf("%s waits for %s", l.to.job.of(), l.from.job.of()))
			}
		}
	}
	long := d.tooLong()
	if long != "" {
		parts = append(parts, long)
	} else if text := c.oneByOne(); text != "" && slices.ContainsFunc(c.resources, d.keepsHours) {
		parts = append(parts, text)
	}
	if hours := d.hoursWords(); hours != "" && (slices.ContainsFunc(c.resources, d.keepsHours) || long != "" || len(parts) == 0) {
		parts = append(parts, hours)
	}
	if len(parts) == 0 {
		if otherwise != "" {
			return otherwise
		}
		return "what has to be done takes longer than there is"
	}
	return strings.Join(parts, "; ")
}

// tooLong says what takes longer to the table than the menu's hours reach back,
// and when it would have to begin.
func (d *draft) tooLong() string {
	head, chain := d.chainHead()
	at := d.firstCourse().at
	if !d.clock || len(d.open) == 0 || len(d.meal.Menu.Hours) == 0 || head == nil || head.mk == nil || at-chain >= d.open[0].from {
		return ""
	}
	return fmt.Sprintf("from %s to the table it takes at least %s, so that it would have to begin by %s", head.of(), spanWords(chain), d.clockText(at-chain))
}

// oneByOne says how long the jobs of one dish take one after the other.
func (c clash) oneByOne() string {
	sum, stands := 0, ""
	for _, j := range c.jobs {
		if j.mk == nil || j.mk != c.jobs[0].mk {
			return ""
		}
		if j.length >= longLeave {
			stands = ", besides standing,"
			continue
		}
		sum += j.length
	}
	if len(c.jobs) < 2 {
		return ""
	}
	return fmt.Sprintf("one after the other, what is named here takes%s %s", stands, spanWords(sum))
}

func (d *draft) keepsHours(res int) bool { return len(d.p.Resources[res].Calendar) > 0 }

// hoursWords says when the cooks are there.
func (d *draft) hoursWords() string {
	if !d.clock || len(d.open) == 0 {
		return ""
	}
	if len(d.meal.Menu.Hours) == 0 {
		out := "the menu gives no hours, so work begins at " + d.clockText(d.dayOpens())
		if n := d.daysBefore(); n > 0 {
			out = fmt.Sprintf("the menu gives no hours, so work may begin at %s", d.clockText(d.open[0].from))
		}
		return out
	}
	var out []string
	for i, w := range d.open {
		if i == 4 {
			out = append(out, "so on")
			break
		}
		out = append(out, d.windowText(w))
	}
	return "the hours are " + listed(out)
}

// windowText is a spell of hours, its day said once.
func (d *draft) windowText(w window) string {
	if floorDiv(w.from, day) == floorDiv(w.to, day) {
		return ClockText(true, w.from) + " to " + d.clockText(w.to)
	}
	return d.clockText(w.from) + " to " + d.clockText(w.to)
}

// resourceWords names a resource with how much of it there is.
func (d *draft) resourceWords(res int) string {
	if c, ok := d.kit.cookOf(res); ok {
		if len(d.kit.cooks) == 1 {
			return "one cook"
		}
		return c.name
	}
	if o, ok := d.kit.ovenOf(res); ok {
		return fmt.Sprintf("one %s with %s, at one heat at a time", ovenWords(o.name), counted(o.shelves, "shelf", "shelves"))
	}
	if res == d.kit.rings {
		return counted(d.kit.ringCount, "ring", "rings")
	}
	return counted(d.p.Resources[res].Capacity, d.p.Resources[res].Name, d.p.Resources[res].Name+"s")
}

func counted(n int, one, more string) string {
	if n == 1 {
		return "one " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

// listed joins words as a sentence does.
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
