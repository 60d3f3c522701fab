// Package advice says why a meal is late or has no plan, and what would mend it. A
// cure is never offered unless a plan was made with it and everything was on time.
//
// Read ExplainConflict and ExplainLate in conflict.go first; cures.go tries what
// cures_of.go proposes; replan.go makes the rest of a plan again when a step has taken
// longer than it should.
package advice

import (
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/plan"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/answer"
	"tamis/compiler/timeline/attempt"
	"tamis/compiler/timeline/problem"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// What cannot be kept. Codes: P201 a serving is late, P202 no plan keeps what
// was asked, P203 none was found.

// Clash is a conflict of the engine's in the meal's words.
type Clash struct {
	jobs      []*problem.Job
	resources []int
	limits    []*problem.Link // those whose upper end takes part
	orders    []*problem.Link // those whose lower end does
	courses   []*problem.Job
	proven    bool
}

// clashOf translates a conflict.
func clashOf(d *problem.Draft, c *plan.Conflict) Clash {
	var out Clash
	if c == nil {
		return out
	}
	out.proven = c.Proven
	out.resources = slices.Clone(c.Resources)
	add := func(j *problem.Job) {
		if j.Kind != "" && !slices.Contains(out.jobs, j) {
			out.jobs = append(out.jobs, j)
		}
	}
	for _, j := range d.Jobs {
		if slices.Contains(c.Activities, j.Block.Act) {
			add(j)
		}
	}
	for _, l := range d.Links {
		for i, n := range l.Lags {
			if !slices.Contains(c.Lags, n) {
				continue
			}
			add(l.From.Job)
			add(l.To.Job)
			if i == 0 {
				out.orders = append(out.orders, l)
			} else {
				out.limits = append(out.limits, l)
			}
		}
	}
	for _, n := range c.Dues {
		out.courses = append(out.courses, d.Courses[n])
	}
	return out
}

// ExplainConflict reports a meal for which there is no plan: what cannot be, of all of it
// or of a part.
func ExplainConflict(a *attempt.Attempts) {
	r, part := a.Last, a
	if r.Conflict == nil || !r.Conflict.Proven || len(dishesOf(r)) > mostBlamed {
		if sub, n := narrow(a, r); n != nil {
			r, part = n, sub
		}
	}
	d := r.Draft
	c := clashOf(d, r.Conflict)
	at := spanOf(d, c)
	over := nearest(part, r, c)
	if r.Conflict == nil || !c.proven {
		why := "the search gave up; there may be one"
		if len(over) > 0 {
			why += "; the nearest there is: " + strings.Join(over, "; ")
		}
		found := a.Diags.Errorf("P203", at, "no plan was found for %s", d.Meal.Title).Because("%s", why)
		if cures(a, r, c, helps(found)) == 0 {
			sayTried(a, r, helps(found))
		}
		return
	}
	why := c.because(d, "")
	if len(over) > 0 {
		why += "; the nearest there is: " + strings.Join(over, "; ")
	}
	found := a.Diags.Errorf("P202", at, "%s", c.headline(d)).Because("%s", why)
	see(d, c, at, func(span source.Span, text string) { found.See(span, "%s", text) })
	say := helps(found)
	if cures(a, a.Last, c.in(d, a.Last.Draft), say) > 0 {
		return
	}
	if part != a { // what mends these, at least
		cures(part, r, c, func(text string, _ []diag.Edit) {
			say("for these alone, though more of the meal cannot be: "+text, nil)
		})
	}
	sayTried(a, a.Last, say)
}

// in is a conflict of a part of a meal in the words of all of it.
func (c Clash) in(part, all *problem.Draft) Clash {
	if part == all {
		return c
	}
	resources := c.resources
	c.resources = nil
	for _, n := range resources {
		name := part.P.Resources[n].Name
		if i := slices.IndexFunc(all.P.Resources, func(o plan.Resource) bool { return o.Name == name }); i >= 0 {
			c.resources = append(c.resources, i)
		}
	}
	return c
}

// helps adds what would help to a finding, and what writes it into the text.
func helps(d *diag.Diagnostic) func(text string, write []diag.Edit) {
	return func(text string, write []diag.Edit) {
		d.WithHelp("%s", text)
		if write != nil {
			d.Fixes = append(d.Fixes, diag.Fix{Title: text, Edits: write})
		}
	}
}

// nearest plans a meal without a plan as if things might wait longer than they
// may, as little as there must be of it, and says by how much they do. It is empty
// where no limit on waiting stands in the way.
func nearest(a *attempt.Attempts, r *answer.Result, c Clash) []string {
	if r.Set.Keep != nil || c.proven && len(c.limits) == 0 {
		return nil
	}
	set := r.Set
	set.Grid, set.Eased, set.Wash = 1, true, problem.WashSet{None: true}
	n := a.Trial(set, 1)
	if n == nil {
		return nil
	}
	var blamed []*demand.Making
	for _, j := range c.jobs {
		if j.Mk != nil && c.proven {
			blamed = append(blamed, j.Mk.M)
		}
	}
	over := n.Over(blamed...)
	return over[:min(3, len(over))]
}

// TryOnTime asks the engine why the plan is late. It may find that it need not
// be.
func TryOnTime(a *attempt.Attempts) {
	p := &a.Best.Draft.P
	out, err := plan.Explain(a.Ctx, p, a.Budget(a.Best.Draft, 1))
	if err != nil {
		return
	}
	a.WhyLate = out.Conflict
	if s := out.Solution; s != nil && s.Score[plan.Lateness] == 0 && len(plan.Verify(p, s)) == 0 {
		was := a.Best.Solution
		if a.Best.Solution = s; a.Best.Unwashed() {
			a.Best.Solution = was
		}
	}
}

// ExplainLate reports each course that is late.
func ExplainLate(a *attempt.Attempts) {
	r := a.Best
	d := r.Draft
	c, said := clashOf(d, a.WhyLate), false
	for _, course := range d.Courses {
		late := r.Start(course) - course.At
		if late <= 0 {
			continue
		}
		at, dish := latest(r, course)
		what := dish
		if course.Course != "" {
			what = course.Course
			if dish != "" {
				what += " (" + dish + ")"
			}
		}
		if what == "" {
			what = "the meal"
		}
		why := heldUp(r, course)
		if why == "" || !said {
			why = c.because(d, "no better plan was found")
		}
		diag := a.Diags.Errorf("P201", at, "%s is %s late: served at %s instead of %s", what, timeline.SpanWords(late), d.ClockText(r.Start(course)), d.ClockText(course.At)).
			Because("%s", why)
		see(d, c, at, func(span source.Span, text string) { diag.See(span, "%s", text) })
		if !said && (len(c.courses) == 0 || slices.Contains(c.courses, course)) {
			if cures(a, r, c, helps(diag)) == 0 {
				sayTried(a, r, helps(diag))
			}
			c, said = Clash{courses: []*problem.Job{}}, true // once
		}
	}
}

// heldUp says which earlier course makes one late; empty when none does.
func heldUp(r *answer.Result, course *problem.Job) string {
	for _, l := range r.Draft.Links {
		if l.Why != problem.CourseAfter || l.To.Job != course || r.Start(l.From.Job) <= l.From.Job.At || r.Start(course)-r.Start(l.From.Job) > l.Gap+r.Draft.Grid {
			continue
		}
		if l.Gap > 0 {
			return fmt.Sprintf("it is served %s after %s, which is late", timeline.SpanWords(l.Gap), l.From.Job.Course)
		}
		return fmt.Sprintf("it is not served before %s, which is late", l.From.Job.Course)
	}
	return ""
}

// latest finds the dish that ends last in a course and where the menu has it.
func latest(r *answer.Result, course *problem.Job) (at source.Span, dish string) {
	last := -1 << 30
	for _, mk := range r.Draft.Makings {
		if mk.Course != course || mk.M.Serving == nil && mk.Used {
			continue
		}
		for _, j := range mk.Steps {
			if end := r.Start(j) + j.Length; r.On(j) && end > last {
				last, dish, at = end, mk.M.Recipe.Name, span(mk)
			}
		}
	}
	return at, dish
}

// span is where the menu, or else the book, has a dish.
func span(mk *problem.Making) source.Span {
	if s := mk.M.Serving; s != nil && !s.Span.IsZero() {
		return s.Span
	}
	if r := mk.M.Recipe; !r.Span.IsZero() {
		return r.NameAt
	}
	return source.Span{}
}

// spanOf is the place a conflict is best shown at: its last job, a task or plating only where
// there is no other.
func spanOf(d *problem.Draft, c Clash) source.Span {
	for _, any := range []bool{false, true} {
		for _, j := range slices.Backward(c.jobs) {
			if !j.Place.IsZero() && (any || j.Kind != timeline.TaskJob) {
				return j.Place
			}
		}
	}
	for _, mk := range d.Makings {
		if s := span(mk); !s.IsZero() {
			return s
		}
	}
	return source.Span{}
}

// see names the other steps of a conflict where they stand.
func see(d *problem.Draft, c Clash, at source.Span, say func(source.Span, string)) {
	n := 0
	for _, j := range c.jobs {
		if j.Place.IsZero() || j.Place == at || n == 3 {
			continue
		}
		n++
		say(j.Place, j.Of())
	}
}

// headline says what cannot be done at once.
func (c Clash) headline(d *problem.Draft) string {
	var dishes []string
	for _, j := range c.jobs {
		if j.Mk != nil && !slices.Contains(dishes, j.Mk.M.Recipe.Name) {
			dishes = append(dishes, j.Mk.M.Recipe.Name)
		}
	}
	if slices.ContainsFunc(c.jobs, func(j *problem.Job) bool { return j.Wash != nil }) {
		dishes = append(dishes, "the washing up")
	}
	what := d.Meal.Title
	switch {
	case len(dishes) == 1:
		what = dishes[0]
	case len(dishes) > 1:
		what = timeline.Listed(dishes)
		return fmt.Sprintf("%s cannot all be done in time together", what)
	}
	return fmt.Sprintf("%s cannot be done as it is written", what)
}

// because names the resource, the limits and the hours of a conflict.
func (c Clash) because(d *problem.Draft, otherwise string) string {
	var parts []string
	var things []string
	for _, r := range c.resources {
		if r != d.Kit.Here {
			things = append(things, resourceWords(d, r))
		}
	}
	if len(things) > 0 {
		parts = append(parts, "all there is for it is "+timeline.Listed(things)+c.heats(d))
	}
	for i, l := range c.limits {
		if i < 3 && l.Max <= 12*60 {
			parts = append(parts, fmt.Sprintf("%s must come within %s of %s", l.To.Job.Of(), timeline.SpanWords(l.Max), l.From.Job.Of()))
		}
	}
	if len(parts) == 0 {
		for i, l := range c.orders {
			if i < 3 && l.From.Job.Kind != "" {
				parts = append(parts, fmt.Sprintf("%s waits for %s", l.To.Job.Of(), l.From.Job.Of()))
			}
		}
	}
	long := tooLong(d)
	if long != "" {
		parts = append(parts, long)
	} else if text := c.oneByOne(); text != "" && c.hoursBind(d) {
		parts = append(parts, text)
	}
	if hours := hoursWords(d); hours != "" && (c.hoursBind(d) || long != "" || len(parts) == 0) {
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

// heats says which heats are wanted at once, where those of a conflict differ and ovens take
// part in it.
func (c Clash) heats(d *problem.Draft) string {
	if !slices.ContainsFunc(c.resources, func(n int) bool { _, oven := d.Kit.OvenOf(n); return oven }) {
		return ""
	}
	var wanted, all []string
	for _, j := range c.jobs {
		if j.Step == nil || j.Mk == nil || len(j.Step.Step.Heats) == 0 {
			continue
		}
		heat := j.Step.Step.Heats[0].Written.Print(quantity.HeatStyle{})
		if !slices.Contains(all, heat) {
			all = append(all, heat)
		}
		wanted = append(wanted, heat+" for "+j.Mk.M.Recipe.Name)
	}
	if len(all) < 2 {
		return ""
	}
	return ", and wanted is " + timeline.Listed(wanted)
}

// tooLong says what takes longer to the table than the menu's hours reach back,
// and when it would have to begin.
func tooLong(d *problem.Draft) string {
	head, chain := d.ChainHead()
	at := d.FirstCourse().At
	if !d.Clock || len(d.Open) == 0 || len(d.Meal.Menu.Hours) == 0 || head == nil || head.Mk == nil || at-chain >= d.Open[0].From {
		return ""
	}
	return fmt.Sprintf("from %s to the table it takes at least %s, so that it would have to begin by %s", head.Of(), timeline.SpanWords(chain), d.ClockText(at-chain))
}

// oneByOne says how long the jobs of one dish take one after the other.
func (c Clash) oneByOne() string {
	sum, stands := 0, ""
	for _, j := range c.jobs {
		if j.Mk == nil || j.Mk != c.jobs[0].Mk {
			return ""
		}
		if j.Length >= problem.LongLeave {
			stands = ", besides standing,"
			continue
		}
		sum += j.Length
	}
	if len(c.jobs) < 2 {
		return ""
	}
	return fmt.Sprintf("one after the other, what is named here takes%s %s", stands, timeline.SpanWords(sum))
}

// hoursBind tells whether something that has hours takes part in a conflict.
func (c Clash) hoursBind(d *problem.Draft) bool {
	return slices.ContainsFunc(c.resources, func(res int) bool { return len(d.P.Resources[res].Calendar) > 0 })
}

// hoursWords says when the cooks are there.
func hoursWords(d *problem.Draft) string {
	if !d.Clock || len(d.Open) == 0 {
		return ""
	}
	if len(d.Meal.Menu.Hours) == 0 {
		out := "the menu gives no hours, so work begins at " + d.ClockText(dayOpens(d))
		if n := d.DaysBefore(); n > 0 {
			out = fmt.Sprintf("the menu gives no hours, so work may begin at %s", d.ClockText(d.Open[0].From))
		}
		return out
	}
	var out []string
	for i, w := range d.Open {
		if i == 4 {
			out = append(out, "so on")
			break
		}
		out = append(out, windowText(d, w))
	}
	return "the hours are " + timeline.Listed(out)
}

// windowText is a spell of hours, its day said once.
func windowText(d *problem.Draft, w problem.Window) string {
	if from, to := d.Meal.Shown(w.From), d.Meal.Shown(w.To); timeline.FloorDiv(from, timeline.Day) == timeline.FloorDiv(to, timeline.Day) {
		return timeline.ClockText(true, from) + " to " + d.ClockText(w.To)
	}
	return d.ClockText(w.From) + " to " + d.ClockText(w.To)
}

// resourceWords names a resource with how much of it there is.
func resourceWords(d *problem.Draft, res int) string {
	if c, ok := d.Kit.CookOf(res); ok {
		if len(d.Kit.Cooks) == 1 {
			return "one cook"
		}
		return c.Name
	}
	if o, ok := d.Kit.OvenOf(res); ok {
		return fmt.Sprintf("one %s with %s, at one heat at a time", timeline.OvenWords(o.Name), timeline.Counted(o.Shelves, "shelf", "shelves"))
	}
	if res == d.Kit.Rings {
		return timeline.Counted(d.Kit.RingCount, "ring", "rings")
	}
	return timeline.Counted(d.P.Resources[res].Capacity, d.P.Resources[res].Name, d.P.Resources[res].Name+"s")
}
