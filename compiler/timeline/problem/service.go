package problem

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/plan"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
)

// Service is work: plating, clearing and cleaning down, where the menu or its kitchen says
// how long they take, and breaks.

const (
	// platedBy is how many minutes of plating are one pair of hands' at most, before another
	// helps: common practice, no source.
	platedBy = 5
	// standsPlated is how many minutes plates may stand before they go out: common practice,
	// no source.
	standsPlated = 3
	// clearedBefore is how long before the next course of a meal the table is cleared at the
	// earliest, in minutes: common practice, no source.
	clearedBefore = 15

	breakMinutes = 10     // common practice, no source
	breakEvery   = 4 * 60 // common practice, no source
)

// service is what the menu, else its kitchen, says of one thing of service; nil when
// neither does.
func (d *Draft) service(kind resolve.ServiceKind) *resolve.Service {
	if m := d.Meal.Menu; m != nil {
		for i := range m.Service {
			if m.Service[i].Kind == kind {
				return &m.Service[i]
			}
		}
	}
	if k := d.Meal.Kitchen; k != nil {
		for i := range k.Service {
			if k.Service[i].Kind == kind {
				return &k.Service[i]
			}
		}
	}
	return nil
}

// addService makes jobs of plating and of clearing between courses, and of breaks.
func (d *Draft) addService() {
	for _, c := range d.Courses {
		d.plate(c)
	}
	if s := d.service(resolve.Clears); s != nil {
		inTime := slices.Clone(d.Courses)
		slices.SortStableFunc(inTime, func(a, b *Job) int { return cmp.Compare(a.At, b.At) })
		for i, c := range inTime[1:] {
			if last := inTime[i]; c.At > last.At {
				j := d.serviceJob("Clear "+courseName(last, i), s, timeline.Minutes(s.Time.High), 1, nil)
				after, before := -1, clearedBefore
				if c.At-last.At >= mealsApart {
					after, before = seated, -1
				}
				d.Link(last.Begin(), j.Begin(), 0, after, ForTask)
				d.Link(j.End(), c.Begin(), d.room(c, before, 0), before, ForTask)
			}
		}
	}
	for _, b := range d.Set.Habits.Breaks {
		b.job = d.serviceJob(b.title(d), nil, d.BreakMinutes(), 1, []string{b.Cook})
	}
}

func courseName(c *Job, i int) string {
	if c.Course != "" {
		return c.Course
	}
	return fmt.Sprintf("course %d", i+1)
}

// plating is how long plating a course takes, and by how many hands at once; 0 where
// nobody says, or where it has no covers.
func (d *Draft) plating(c *Job) (minutes, hands int) {
	s := d.service(resolve.Plates)
	if s == nil {
		return 0, 0
	}
	covers := 0
	for _, mk := range d.Makings {
		if mk.Course == c && mk.M.Serving != nil {
			covers = max(covers, mk.M.Serving.Covers)
		}
	}
	all := timeline.CeilDiv(int(s.Time.High.Seconds())*covers, 60)
	hands = max(1, min(len(d.Hands(nil)), timeline.CeilDiv(all, platedBy)))
	return timeline.CeilDiv(all, hands), hands
}

// plate has a course plated, as it goes out, by as many hands as that takes: when all that
// goes to the table with it is ready, but for what is written to be done at the pass.
func (d *Draft) plate(c *Job) {
	minutes, hands := d.plating(c)
	if minutes == 0 {
		return
	}
	j := d.serviceJob("Plate "+courseName(c, slices.Index(d.Courses, c)), d.service(resolve.Plates), minutes, hands, nil)
	d.plates[c] = j
	sooner := d.platedSooner(c, minutes)
	d.Link(j.End(), c.Begin(), sooner, max(d.Grid, standsPlated), ForTask)
	for _, l := range slices.Clone(d.Links) {
		if l.Why == toTable && l.To.Job == c && !d.atThePass(l.From.Job, minutes) {
			d.Link(l.From, j.Begin(), d.room(c, l.Max, minutes+sooner), -1, Plated, l.When...)
		}
	}
}

// platedSooner is how many minutes of the room before a course lie behind its plating: a few,
// where everything that is plated may wait so long.
func (d *Draft) platedSooner(c *Job, minutes int) int {
	if !d.Set.Habits.AtPass {
		return 0
	}
	n := min(standsPlated, d.room(c, -1, 0))
	for _, l := range d.Links {
		if l.Why == toTable && l.To.Job == c && l.Max >= 0 {
			n = min(n, l.Max-minutes)
		}
	}
	return max(0, timeline.FloorDiv(n, d.Grid)*d.Grid)
}

// Plating is the job of plating a course; nil where nobody says how long that takes.
func (d *Draft) Plating(course *Job) *Job { return d.plates[course] }

// atThePass tells whether a step is written to end so shortly before serving that plating,
// of so many minutes, has begun.
func (d *Draft) atThePass(j *Job, minutes int) bool {
	return slices.ContainsFunc(d.out[j.First()], func(l *Link) bool {
		return l.Why == BeforeServing && l.Max >= 0 && l.From == j.Begin() && l.Max-j.Length < timeline.CeilDiv(minutes, d.Grid)*d.Grid
	})
}

// serviceJob is work of service for some hands at once; s is the line that says so.
func (d *Draft) serviceJob(title string, s *resolve.Service, minutes, hands int, by []string) *Job {
	j := &Job{}
	j.Piece = timeline.Piece{Kind: timeline.TaskJob, Title: title}
	l := Length{Most: max(1, minutes), Least: max(1, minutes)}
	if s != nil {
		j.Place, l.About = s.Span, s.Time.About
	}
	j.AddPhase(resolve.Work, "", l)
	j.Lengthen(d.More(j))
	var uses []plan.Use
	var roles []RoleKind
	if set := d.Hands(by); len(set) > 0 {
		for n := range hands {
			uses, roles = append(uses, plan.Use{Of: set, Amount: d.Grid}), append(roles, CookRole)
			if n > 0 {
				roles[n] = HelpRole
			}
		}
	}
	d.Activity(j, uses, roles)
	d.Jobs = append(d.Jobs, j)
	return j
}

// afterMeal leaves clearing the last course and cleaning down until after serving.
func (d *Draft) afterMeal() {
	set := d.Hands(nil)
	if len(set) == 0 || d.Meal.Menu == nil {
		return
	}
	if s := d.service(resolve.Clears); s != nil {
		d.After = slices.Insert(d.After, 0, AfterWash{Title: "Clear the table", Asked: s.Words(), Minutes: timeline.Minutes(s.Time.High), Set: set})
	}
	if s := d.service(resolve.CleansDown); s != nil {
		d.After = append(d.After, AfterWash{Title: "Clean down", Asked: s.Words(), Minutes: timeline.Minutes(s.Time.High), Set: set})
	}
}

// Break is a break that a cook is to have, begun at some time between two moments.
type Break struct {
	Cook     string // by key
	From, To timeline.Minute
	N        int // which of the cook's, from 0
	job      *Job
}

func (b *Break) title(d *Draft) string {
	name := b.Cook
	for _, c := range d.Kit.Cooks {
		if c.Key == b.Cook {
			name = c.Name
		}
	}
	if b.N > 0 {
		return fmt.Sprintf("Break for %s, number %d", name, b.N+1)
	}
	return "Break for " + name
}

// BreakMinutes is how long a break is, in minutes.
func (d *Draft) BreakMinutes() int {
	if s := d.service(resolve.Breaks); s != nil {
		return max(1, timeline.Minutes(s.Time.High))
	}
	return breakMinutes
}

// BreakEvery is in how many minutes of work there is a break.
func (d *Draft) BreakEvery() int {
	if s := d.service(resolve.Breaks); s != nil && s.Every != nil {
		return max(1, timeline.Minutes(s.Every.High))
	}
	return breakEvery
}

// IsBreak tells whether a job is a break.
func (j *Job) IsBreak() bool {
	return j.Kind == timeline.TaskJob && strings.HasPrefix(j.Title, "Break for ")
}

// timeBreaks says when each break may be.
func (d *Draft) timeBreaks() {
	for _, b := range d.Set.Habits.Breaks {
		act := &d.P.Activities[b.job.Block.Act]
		act.Release = max(0, timeline.CeilDiv(b.From-d.Origin, d.Grid))
		act.Deadline = max(act.Release, timeline.FloorDiv(b.To-d.Origin, d.Grid)) + act.Modes[0].Duration
	}
}
