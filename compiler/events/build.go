package events

import (
	"cmp"
	"regexp"
	"slices"
	"strings"
	"time"

	"tamis/compiler/demand"
	"tamis/compiler/figures"
	"tamis/compiler/larder"
	"tamis/compiler/practice"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/quantity"
)

// List is a planned meal as what happens. It is made by Of and not changed
// after.
type List struct {
	Events []*Event // in order of time, those of one minute in the order of their kinds
	Title  string   // the meal's
	Cooks  []string // the kitchen's in its order, then whoever else has a job
	Ovens  []string // those that are used, by name
	Zero   Moment   // the first serving
	Begins Moment   // the first hands at work
	Note   string   // what the plan could not keep; may be empty
	Bound  string   // how good the plan is; may be empty
	Why    string   // what Bound means
	Chain  string   // what the mark of the critical chain means; empty when there is none

	Critical []*Event           // the critical chain, in order of time
	Leeway   string             // what two guests more would cost; may be empty
	Odds     *Odds              // nil when nothing in it is uncertain
	Slips    []string           // what to do when a job is late, in a few words each; empty unless worked out
	Hours    map[string][]Spell // when each cook is there, in order and apart; nil when the menu gives no hours

	clock bool
	date  *time.Time // the day of serving; nil when nobody knows
	jobs  map[stepKey][]*Event
	byJob map[*timeline.Job]*Event
	busy  map[string][]Spell // when each cook is at something
	taken map[*resolve.Pause]map[*demand.Making]bool
	meal  *demand.Meal
	fig   *figures.Set
}

type stepKey struct {
	dish *demand.Making
	step *resolve.Step
}

// ChainMark stands before the jobs of the critical chain.
const ChainMark = "•"

// shortest is the fewest minutes after which what is left is fetched by a row of
// its own: who has just put a thing down need not be told. Common practice, no
// source.
const shortest = 5

// Of makes the list of a plan: its ovens in the degrees of the meal's practice, the
// amounts in its sentences as their writers wrote them, made over.
func Of(t *timeline.Timeline) *List { return Printed(t, figures.Options{}) }

// Printed is Of with degrees and amounts as they are printed.
func Printed(t *timeline.Timeline, opt figures.Options) *List {
	l := &List{
		Title: t.Meal.Title, Cooks: slices.Clone(t.Cooks), Begins: Moment(t.Start), Note: t.Note,
		clock: t.Clock, meal: t.Meal, fig: figures.Of(t.Meal, opt), taken: t.Paused, jobs: map[stepKey][]*Event{}, byJob: map[*timeline.Job]*Event{},
	}
	l.Leeway = t.Leeway
	l.Bound, l.Why = t.BoundWords()
	if m := t.Meal.Menu; m != nil {
		l.date = m.Serve
	}
	if len(t.Chain) > 0 {
		l.Chain = t.ChainWords()
	}
	for _, j := range t.Jobs {
		l.job(j)
	}
	l.reasons(t)
	l.outs()
	fahrenheit := opt.Units == quantity.US || opt.Units == quantity.NoSystem && larder.Practice(practice.OfMeal(nil, t.Meal).Written) == "US"
	for _, h := range t.Heats {
		l.Events = append(l.Events, heat(h, fahrenheit))
		if len(h.OffBy) > 0 {
			l.Events = append(l.Events, &Event{
				Kind: Off, At: Moment(h.Off), Start: Moment(h.Off), End: Moment(h.Off), Where: Place{Oven: h.Oven}, Who: h.OffBy,
				Title: "oven off", Words: "Turn off the " + timeline.OvenWords(h.Oven),
			})
		}
	}
	for i, s := range t.Servings {
		e := serving(s)
		if i == 0 || e.Start < l.Zero {
			l.Zero = e.Start
		}
		l.Events = append(l.Events, e)
	}
	slices.SortStableFunc(l.Events, func(x, y *Event) int {
		return cmp.Or(cmp.Compare(x.At, y.At), cmp.Compare(rank[x.Kind], rank[y.Kind]))
	})
	l.slots()
	l.names()
	return l
}

// words are the title of a job and the line it has on a list, in the units that were
// asked for.
func (l *List) words(j *timeline.Job) (title, line string) {
	if j.Step == nil {
		if a := j.Line; a != nil && a.Line.Note.Text != "" {
			return strings.Replace(j.Title, a.Line.Note.Text, l.fig.Note(a.Line), 1), ""
		}
		return j.Title, ""
	}
	title, line = l.fig.StepWords(j.Making, j.Step)
	if load := j.LoadText(); load != "" {
		title += ", " + load
	}
	return title, line
}

// offered tells whether one of the times is only offered.
func offered(spells []resolve.Spell) bool {
	return slices.ContainsFunc(spells, func(sp resolve.Spell) bool { return sp.Offered })
}

// job adds the events of a job but for its taking out.
func (l *List) job(j *timeline.Job) {
	title, line := l.words(j)
	e := &Event{
		Kind: Job, At: Moment(j.Start()), Start: Moment(j.Start()), End: Moment(j.End()),
		Dish: j.Making, Step: j.Step, Number: j.Number, Load: j.Load, Loads: j.Loads,
		Who: j.Cooks, Title: title, Words: larder.Capital(title), Does: larder.Capital(title),
		Where:    Place{Oven: j.Oven, Rings: j.Rings, Vessel: j.Vessel, Vessels: j.Vessels, Tools: j.Tools},
		Critical: j.Critical, Assumed: j.Assumed, Waits: Minutes(j.Waits),
		stays: j.Stays, shelves: j.Shelves, loadText: j.LoadText(), mark: j.Mark(), say: j.SayAs(title), sentence: j.LineAs(title, line),
	}
	l.byJob[j] = e
	if j.Step != nil {
		s := j.Step.Step
		e.Where.Level, e.Where.Grill, e.Where.Room = s.Level, s.Grill, s.Place
		if (s.Rings > 0 || s.Grill) && s.FireOffered() {
			e.Where.Level += "?"
		}
		e.Unsure = offered(s.Phases)
		e.IfNeeded = s.OnlyIfNeeded
		e.Words, e.Does = larder.Capital(stepWords(j, line)), larder.Capital(line)
		key := stepKey{j.Making, s}
		l.jobs[key] = append(l.jobs[key], e)
	}
	if a := j.Line; a != nil {
		e.Line, e.Thing, e.Cut, e.Amount = a, a.Line.Name, l.fig.Note(a.Line), a.Quantity
		e.Unsure = offered(a.Line.Prep)
	}
	for _, p := range j.Phases {
		e.Phases = append(e.Phases, Phase{
			Kind: p.Kind, Start: Moment(p.Start), End: Moment(p.End), Least: Minutes(p.Least), Stretch: Minutes(p.Stretch), Place: p.Place, Who: p.Cooks,
		})
	}
	l.Events = append(l.Events, e)
	what := e.Words
	if first := e.Phases[0]; first.Left() && e.Where.Oven != "" && e.Load < 2 && !goesOn(j) {
		e.Words = "Put in: " + e.Words
	}
	for _, t := range j.Touches {
		l.Events = append(l.Events, l.touch(e, t))
	}
	var put *timeline.Touch
	for i, t := range j.Puts {
		switch t.Put {
		case timeline.PutIn:
			put, e.At, e.PutBy = &j.Puts[i], Moment(t.Start), t.Cooks
		case timeline.TakeOut:
			e.takenOut, e.outAt = t.Cooks, Moment(t.End)
		}
	}
	for i, p := range e.Phases {
		if i > 0 && e.Step != nil && p.Kind == resolve.Work && e.Phases[i-1].Kind != resolve.Work {
			l.Events = append(l.Events, l.then(e, p))
		}
	}
	if e.Where.Oven != "" {
		in := putIn(e, what, into(e), Moment(j.Cooked()), put)
		in.Where.Rings = 0
		l.Events = append(l.Events, in)
	}
	if e.Where.Rings > 0 {
		in := putIn(e, what, e.Start, Moment(j.Cooked()), put)
		in.Where.Oven = ""
		l.Events = append(l.Events, in)
	}
}

// goesOn tells whether a job goes on with what stays in its oven from the step before.
func goesOn(j *timeline.Job) bool {
	return slices.ContainsFunc(j.After, func(o *timeline.Job) bool { return o.Stays && o.Making == j.Making && o.Oven == j.Oven })
}

// of is an event that belongs to a job.
func of(job *Event, kind Kind, start, end Moment) *Event {
	return &Event{
		Kind: kind, At: start, Start: start, End: end, Of: job,
		Dish: job.Dish, Step: job.Step, Number: job.Number, Load: job.Load, Loads: job.Loads,
		Where: job.Where, Title: job.Title, shelves: job.shelves, loadText: job.loadText, mark: job.mark, say: job.say, sentence: job.sentence,
	}
}

func (l *List) touch(job *Event, t timeline.Touch) *Event {
	e := of(job, Touch, Moment(t.Start), Moment(t.End))
	e.Who, e.Text, e.Swap, e.Moment = t.Cooks, t.Text, t.Swap, t.Moment
	if t.Moment != nil {
		e.Text = t.Moment.SaysSo(l.fig.Words(job.Dish, t.Moment.Lines, job.Step))
	}
	e.Words = e.Text
	if e.Words == "" {
		e.Words = "See to it: " + larder.Small(job.Title)
	}
	return e
}

// then is the row of what is worked when a step has been watched or left: who
// has it comes back for it.
func (l *List) then(job *Event, p Phase) *Event {
	e := of(job, Touch, p.Start, p.End)
	e.Who, e.Then = p.Who, true
	if s := job.Step.Step; s.Times > 1 {
		e.Words, e.Text = "Again: "+larder.Small(job.Title), "again"
		return e
	}
	e.Text = resolve.ThenOf(l.fig.Words(job.Dish, job.Step.Step.Lines, job.Step))
	switch {
	case job.Where.Oven != "":
		e.Words = "Out of the oven"
	case job.Where.Rings > 0:
		e.Words = "Off the ring"
	}
	e.Where.Oven, e.Where.Rings, e.Where.Level, e.Where.Grill = "", 0, "", false
	switch {
	case e.Text == "" && e.Words == "":
		e.Words = "See to it: " + larder.Small(job.Title)
	case e.Text == "":
		e.Words += ": " + larder.Small(job.Title)
	case e.Words == "":
		e.Words = larder.Capital(e.Text)
	default:
		e.Words += ": " + e.Text
	}
	return e
}

// into is when a job goes into its oven: after the work on it.
func into(job *Event) Moment {
	for _, p := range job.Phases {
		if p.Kind != resolve.Work {
			return p.Start
		}
	}
	return job.Start
}

// putIn is how long a job has its oven or its rings: one that has both is two
// such events. Whoever puts in what is only left has a minute for it, which may be
// later than the plan's.
func putIn(job *Event, what string, at, off Moment, put *timeline.Touch) *Event {
	e := of(job, In, at, off)
	e.Words = what
	if put != nil {
		e.Start, e.Who = Moment(put.Start), put.Cooks
	}
	e.At = e.Start
	return e
}

// outs adds the takings out: of what is left in the oven or on a ring, long
// enough to be forgotten, and does not stay there for the next step.
func (l *List) outs() {
	var jobs []*Event
	for _, e := range l.Events {
		if e.Kind == Job {
			jobs = append(jobs, e)
		}
	}
	for _, e := range jobs {
		last := e.Last()
		if last.Kind != resolve.Leave || last.Length() < shortest || e.Where.Oven == "" && e.Where.Rings == 0 || e.Dish == nil || e.stays || fetched(e, jobs) {
			continue
		}
		at := e.End
		if len(e.takenOut) > 0 {
			at = e.outAt
		}
		out := of(e, Out, at, at)
		out.Who = e.takenOut
		out.Words = "Take off the ring"
		if e.Where.Oven != "" {
			out.Words = "Take out of the oven"
		}
		l.Events = append(l.Events, out)
	}
}

// fetched tells whether somebody begins the step that waits for a job at that minute, or
// soon after one that begins with taking it off: a row of its own would say it twice.
func fetched(e *Event, jobs []*Event) bool {
	return slices.ContainsFunc(jobs, func(o *Event) bool {
		return slices.Contains(o.After, e) && o.Dish == e.Dish && o.Step != nil && o.Step != e.Step &&
			o.Start >= e.End && (o.Start <= e.End.Add(2) || o.Start < e.End.Add(shortest) && takesOff.MatchString(o.Step.Step.Line)) && len(o.Who) > 0 && !o.Phases[0].Left()
	})
}

// takesOff is how a step begins that says itself that the thing comes off the heat.
var takesOff = regexp.MustCompile(`(?i)^(take|lift|turn|pull)\b( (off|out)\b|[^.;,]* (off|from) the (heat|ring|hob|fire)\b|[^.;,]* (out of|from) the oven\b)`)

func heat(h *timeline.Heat, fahrenheit bool) *Event {
	s := Setting{Celsius: h.Celsius, Fan: h.Fan, Turned: h.Turned, Until: Moment(h.End), Words: timeline.Setting(h.Celsius, h.Fan, fahrenheit)}
	return &Event{
		Kind: Heat, At: Moment(h.Preheat), Start: Moment(h.Preheat), End: Moment(h.Start), Where: Place{Oven: h.Oven}, Setting: s,
		Who: h.By, Title: larder.Small(s.Verb()) + " to " + s.Words, Words: s.Verb() + " the " + timeline.OvenWords(h.Oven) + " to " + s.Words,
	}
}

func serving(s *timeline.Serving) *Event {
	e := &Event{
		Kind: Serve, At: Moment(s.Served), Start: Moment(s.Served), End: Moment(s.Served), Due: Moment(s.At),
		Dish: s.Making, Thing: s.Name, Course: s.Course, Title: s.Name, Words: "Serve: " + s.Name, Who: s.By,
	}
	if s.Making != nil {
		e.mark = s.Making.Letter
	}
	return e
}

// names lists who and what ovens there are.
func (l *List) names() {
	for _, e := range l.Events {
		for _, c := range e.Who {
			if e.Kind == Job && !slices.Contains(l.Cooks, c) {
				l.Cooks = append(l.Cooks, c)
			}
		}
		if o := e.Where.Oven; e.Kind == Job && o != "" && !slices.Contains(l.Ovens, o) {
			l.Ovens = append(l.Ovens, o)
		}
	}
	slices.Sort(l.Ovens)
}

// stepWords is what a step says, with the load of it that is meant.
func stepWords(j *timeline.Job, line string) string {
	if j.Step.Step.OnlyIfNeeded {
		return strings.TrimSuffix(line, ".") + ", only if needed"
	}
	if load := j.LoadText(); load != "" {
		return strings.TrimSuffix(line, ".") + ": " + load
	}
	return line
}

// OvenName is an oven's name as it stands alone: "Main oven".
func OvenName(name string) string { return larder.Capital(timeline.OvenWords(name)) }
