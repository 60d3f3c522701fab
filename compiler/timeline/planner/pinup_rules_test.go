package planner

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/quantity"
)

// The rules of a plan that a head chef would pin up unchanged. They read the meal, the
// times of the plan and what is printed of it, and share no code with the planner.
// Where no source is named a rule is common practice, no source.
const (
	oneAtOnce    = "01 no name in two places"
	inHours      = "02 nobody works outside the hours"
	putIn        = "03 somebody puts it in"
	takeOut      = "04 somebody takes it out"
	lit          = "05 somebody lights and turns the oven"
	ovenOff      = "06 somebody turns the oven off"
	servedBy     = "07 somebody serves"
	courseOrder  = "08 courses in their order, with their gaps"
	limits       = "09 hold, rest, within, keeps and all capacities as written"
	hotInAll     = "10 hot food waits no longer in all than it may"
	oneStay      = "11 two heats of one thing in one oven are one stay"
	inTurn       = "12 a step that nothing waits for is done before its follower"
	cutOnce      = "13 the same thing cut the same way is one job"
	listTime     = "14 what is cut once is cut by the time of the mise list, within what it keeps"
	closedKnives = "15 knife work is over 45 min before the first serving of each meal of the day"
	rawApart     = "16 raw meat and fish away from what is eaten raw"
	calmBefore   = "17 the last half hour before the first serving is at most 80 per cent full, where idle hours lie before it"
	coldEarly    = "18 cold work is not left to the rush while a cook stood idle"
	stands       = "19 what may stand longer stands, and does not just wait"
	sameCook     = "20 a dish stays with its cook"
	watcher      = "21 a pot is watched by one cook"
	breaks       = "22 10 min of break in every 4 h"
	dayEnds      = "23 the last job of a day before ends 15 min before its hours"
	washed       = "24 washing up that is asked for is planned, or named"
	noReheat     = "25 nothing is chilled to be heated at once"
	idleDay      = "26 idle hours of the day before are used"
	ovenMemory   = "27 an oven remembers its heat"
	honest       = "28 the chance says that hands vary"
	trueWords    = "29 what keeps a job is true"
	atOnceLate   = "30 a late plan begins at once"
)

// pinup gathers the breaches of one plan, by rule.
type pinup struct {
	line    *timeline.Timeline
	list    *events.List
	kit     *resolve.Kitchen
	said    string // all that the findings and the note say
	found   map[string][]string
	owned   map[string][]string // breaches that the plan names itself
	first   timeline.Minute
	full    bool           // more than half of the hands are at work in the four hours before the first serving
	measure map[string]int // what the table of the examples shows besides
}

func (p *pinup) say(rule, format string, args ...any) {
	p.found[rule] = append(p.found[rule], fmt.Sprintf(format, args...))
}

// owns is how the plan itself names a breach of a rule: the words that say it, and after
// them what was tried to avoid it.
var owns = map[string]*regexp.Regexp{
	sameCook:     regexp.MustCompile(`(?:One dish changes|Dishes change) hands: ([^;]*)(?:; tried[^.]*)?\.`),
	closedKnives: regexp.MustCompile(`In service (?:is|are) still cut: ([^;]*)(?:; tried[^.]*)?\.`),
	cutOnce:      regexp.MustCompile(`Cut twice: ([^;]*)(?:; tried[^.]*)?\.`),
	dayEnds:      regexp.MustCompile(`Work ends with the hours at ([^;]*)(?:; tried[^.]*)?\.`),
	putIn:        regexp.MustCompile(`Nobody is free for a minute at (.*put in[^.]*)\.`),
	takeOut:      regexp.MustCompile(`Nobody is free for a minute at (.*take off[^.]*)\.`),
	lit:          regexp.MustCompile(`Nobody is free for a minute at (.*(?:light|turn) the[^.]*)\.`),
	rawApart:     regexp.MustCompile(`Wash hands, board and knife between: ([^;]*)(?:; tried[^.]*)?\.`),
	breaks:       regexp.MustCompile(`No break in a long stretch of work, from: ([^;]*)(?:; tried[^.]*)?\.`),
	idleDay:      regexp.MustCompile(`([^.]*) (?:is|are) not made the day before, though hands are idle then(?:; tried[^.]*)?\.`),
	atOnceLate:   regexp.MustCompile(`([^.]*) (?:is|are) not made the day before, though hands are idle then(?:; tried[^.]*)?\.`),
}

// own puts the breaches aside that the plan names itself.
func (p *pinup) own() {
	p.owned = map[string][]string{}
	for rule, list := range p.found {
		words := owns[rule]
		if words == nil {
			continue
		}
		m := words.FindStringSubmatch(p.said)
		if m == nil {
			continue
		}
		var left []string
		for _, s := range list {
			// the dish, the thing or the hour that the breach is of
			thing := strings.TrimSpace(strings.FieldsFunc(s, func(r rune) bool { return r == ',' || r == '|' || r == ':' })[0])
			thing, _, _ = strings.Cut(thing, " goes ")
			thing, _, _ = strings.Cut(thing, " works ")
			if rule == dayEnds || rule == atOnceLate || rule == putIn || rule == takeOut || rule == lit || strings.Contains(m[1], thing) || strings.Contains(m[1], thing+"s") || strings.Contains(m[1], thing+"es") {
				p.owned[rule] = append(p.owned[rule], s)
			} else {
				left = append(left, s)
			}
		}
		if p.found[rule] = left; len(left) == 0 {
			delete(p.found, rule)
		}
		if minute := strings.HasPrefix(m[0], "Nobody is free"); !minute && !strings.Contains(m[0], "; tried") && p.line.Late == 0 && len(p.line.Jobs) <= 70 {
			p.say(rule, "named, and nothing was tried to avoid it: %s", m[0])
		}
	}
}

// busy is a time in which somebody is at something.
type busy struct {
	from, to timeline.Minute
	who      string
	of       *events.Event
}

func breaches(line *timeline.Timeline, said string) *pinup {
	p := &pinup{line: line, list: events.Of(line), kit: line.Meal.Kitchen, said: said + " " + line.Note, found: map[string][]string{}, measure: map[string]int{}}
	if p.kit == nil {
		p.kit = &resolve.Kitchen{WaitHot: resolve.WaitHot, WaitCold: resolve.WaitCold, WaitPrepared: resolve.WaitPrepared}
	}
	p.first = 1 << 30
	for _, s := range line.Servings {
		p.first = min(p.first, s.Served)
	}
	for _, f := range faults(line) {
		p.say(limits, "%s", f)
	}
	at := p.atWork()
	p.hands(at)
	p.touches()
	p.courses()
	p.ovens()
	p.fills(at)
	for _, m := range line.Meal.Makings {
		p.hotWaits(m)
		p.stays(m)
		p.turns(m)
		p.keepers(m)
		p.pauses(m)
		p.begins(m)
		p.standsOver(m, at)
	}
	p.spare(at)
	p.calls(at)
	p.service()
	p.knives()
	p.rush(at)
	p.days(at)
	p.sink()
	p.words()
	p.own()
	return p
}

// atWork is when each cook is at what, by what is printed.
func (p *pinup) atWork() (out []busy) {
	for _, e := range p.list.Events {
		switch e.Kind {
		case events.Job:
			if strings.HasPrefix(e.Title, "Break for ") {
				continue
			}
			for _, ph := range e.Phases {
				for _, w := range ph.Who {
					out = append(out, busy{int(ph.Start), int(ph.End), w, e})
				}
			}

		case events.Touch, events.Serve, events.Heat, events.Off:
			to := int(e.Start) + 1
			if e.Kind == events.Touch {
				to = max(to, int(e.End))
			}
			for _, w := range e.Who {
				out = append(out, busy{int(e.Start), to, w, e})
			}
		}
	}
	for _, j := range p.line.Jobs {
		for _, x := range j.Puts {
			for _, w := range x.Cooks {
				out = append(out, busy{x.Start, x.End, w, p.list.JobOf(j)})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b busy) int { return cmp.Compare(a.from, b.from) })
	return out
}

func jobOf(e *events.Event) *events.Event {
	if e.Of != nil {
		return e.Of
	}
	return e
}

func (p *pinup) hands(at []busy) {
	hours := func(who string, m timeline.Minute) bool {
		return slices.ContainsFunc(p.line.Hours[who], func(s timeline.Spell) bool { return s.From <= m && m < s.To })
	}
	said := map[string]bool{}
	for i, a := range at {
		for _, b := range at[i+1:] {
			key := a.who + a.of.Title + b.of.Title
			if a.who == b.who && (a.of.Kind != events.Serve || b.of.Kind != events.Serve) && a.from < b.to && b.from < a.to && jobOf(a.of) != jobOf(b.of) && !said[key] {
				said[key] = true
				p.say(oneAtOnce, "%s at %s: %s and %s", a.who, p.line.TimeText(max(a.from, b.from)), a.of.Words, b.of.Words)
			}
		}
		if p.line.Hours != nil && p.line.Late == 0 && (!hours(a.who, a.from) || !hours(a.who, a.to-1)) {
			p.say(inHours, "%s: %s at %s", a.who, a.of.Words, p.line.TimeText(a.from))
		}
	}
}

// touches are the puttings in, takings out, lightings and servings without a name.
func (p *pinup) touches() {
	last := map[string]*events.Event{}
	for _, e := range p.list.Events {
		switch e.Kind {
		case events.Job:
			ph := e.Phases[0]
			if ph.Left() && (e.Where.Oven != "" || e.Where.Rings > 0 || e.Where.Grill) && len(e.Who) == 0 && !p.named(e, events.In) {
				p.say(putIn, "%s at %s", e.Words, p.list.Clock(e.Start))
			}
			end := e.Phases[len(e.Phases)-1]
			if end.Left() && (e.Where.Oven != "" || e.Where.Rings > 0) && !p.named(e, events.Out) && !p.goesOn(e) && !p.staysFor(e) {
				p.say(takeOut, "%s at %s", e.Words, p.list.Clock(e.End))
			}
			if e.Where.Oven != "" {
				if l := last[e.Where.Oven]; l == nil || l.End < e.End {
					last[e.Where.Oven] = e
				}
			}
		case events.Heat:
			if len(e.Who) == 0 {
				p.say(lit, "%s at %s", e.Words, p.list.Clock(e.Start))
			}
		case events.Serve:
			if len(e.Who) == 0 {
				p.say(servedBy, "%s at %s", e.Words, p.list.Clock(e.Start))
			}
		}
	}
	for oven, e := range last {
		if !slices.ContainsFunc(p.list.Events, func(o *events.Event) bool {
			return o.Where.Oven == oven && strings.Contains(strings.ToLower(o.Words), "off") && o.Start >= e.End && len(o.Who) > 0
		}) {
			p.say(ovenOff, "the %s after %s", oven, p.list.Clock(e.End))
		}
	}
}

// named tells whether a putting in or taking out of a job has a name.
func (p *pinup) named(job *events.Event, kind events.Kind) bool {
	return slices.ContainsFunc(p.list.Events, func(e *events.Event) bool { return e.Of == job && e.Kind == kind && len(e.Who) > 0 })
}

// goesOn tells whether somebody is at the next step of the dish when a job ends: who
// begins it takes the pot off, or leaves it standing.
func (p *pinup) goesOn(job *events.Event) bool {
	return slices.ContainsFunc(p.list.Events, func(e *events.Event) bool {
		return e.Kind == events.Job && e != job && e.Dish == job.Dish && e.Start >= job.End && e.Start <= job.End.Add(4) &&
			(len(e.Phases[0].Who) > 0 || p.named(e, events.In) || e.Where.Vessel == job.Where.Vessel && e.Where.Oven == job.Where.Oven && e.Where.Rings == job.Where.Rings)
	})
}

// staysFor tells whether the next step of a dish stands in the same vessel on the ring,
// or in the same oven, and begins soon: nobody takes it off.
func (p *pinup) staysFor(job *events.Event) bool {
	next := (*events.Event)(nil)
	for _, e := range p.list.Events {
		if e.Kind == events.Job && e.Dish == job.Dish && e.Step != nil && e.Step != job.Step && e.Start >= job.End && !e.Step.Step.Meanwhile && (next == nil || e.Start < next.Start) {
			next = e
		}
	}
	return next != nil && next.Where.Vessel == job.Where.Vessel && next.Where.Oven == job.Where.Oven && (next.Where.Rings > 0) == (job.Where.Rings > 0) &&
		next.Start <= job.End.Add(10)
}

func (p *pinup) courses() {
	menu := p.line.Meal.Menu
	if menu == nil {
		return
	}
	at := map[string]timeline.Minute{}
	for _, s := range p.line.Servings {
		at[s.Course] = s.Served
	}
	for _, c := range menu.Courses {
		if first := c.After; first != nil && at[c.Name] != 0 && at[c.Name]-at[first.Name] < c.At-first.At {
			p.say(courseOrder, "%s comes %d min after %s", c.Name, at[c.Name]-at[first.Name], first.Name)
		}
		for _, o := range menu.Courses {
			if o.At < c.At && at[o.Name] > at[c.Name] {
				p.say(courseOrder, "%s comes before %s", c.Name, o.Name)
			}
		}
	}
}

func (p *pinup) ovens() {
	last := map[string]*timeline.Heat{}
	for _, h := range p.line.Heats {
		if was := last[h.Oven]; was != nil && !h.Turned && h.Preheat-was.End < 20 {
			p.say(ovenMemory, "the %s is lit at %s and was at %d until %s", h.Oven, p.line.TimeText(h.Preheat), was.Celsius, p.line.TimeText(was.End))
		}
		last[h.Oven] = h
	}
}

// stepsOf lists the steps of a making in the order of its method, loads apart.
func (p *pinup) stepsOf(m *demand.Making) (out []*timeline.Job) {
	for _, j := range p.line.Jobs {
		if j.Making == m && j.Kind == timeline.StepJob {
			out = append(out, j)
		}
	}
	slices.SortStableFunc(out, func(a, b *timeline.Job) int {
		return cmp.Or(cmp.Compare(a.Step.Step.Index, b.Step.Step.Index), cmp.Compare(a.Load, b.Load))
	})
	return out
}

func hotStep(s *resolve.Step) bool { return len(s.Heats) > 0 || s.Rings > 0 || s.Grill }

// hotWaits adds up how long a dish that is served hot waits from its last fire to the
// table, past the work on it, and holds it against the longest that any of its steps
// or its serving allows.
func (p *pinup) hotWaits(m *demand.Making) {
	how := m.Recipe.ServeHow
	if m.Serving == nil || how == nil || how.State != "hot" {
		return
	}
	served := p.first
	for _, s := range p.line.Servings {
		if s.Making == m {
			served = s.Served
		}
	}
	steps := p.stepsOf(m)
	fire := -1
	for i, j := range steps {
		if hotStep(j.Step.Step) && (j.Load == 0 || j.Load == j.Loads) && !j.Step.Step.Meanwhile {
			fire = i
		}
	}
	if fire < 0 {
		return
	}
	allowed := int(p.kit.WaitHot.Minutes())
	if how.Within != nil {
		allowed = max(allowed, int(max(how.Within.High, how.Within.UpTo).Minutes()))
	}
	at, waits := steps[fire].End(), 0
	count := func(j *timeline.Job) {
		if n, ok := heldFor(j.Step.Step); ok {
			allowed = max(allowed, int(n.Minutes()))
		}
		for _, sp := range j.Step.Step.Phases {
			if sp.Fixed != nil && sp.Fixed.UpTo > sp.Fixed.High {
				allowed += int((sp.Fixed.UpTo - sp.Fixed.High).Minutes())
			}
		}
	}
	count(steps[fire])
	for _, j := range steps[fire+1:] {
		if j.Step.Step.Meanwhile {
			continue
		}
		count(j)
		waits += max(0, j.Start()-at)
		for _, ph := range j.Phases {
			waits += ph.Stretch
		}
		at = max(at, j.End())
	}
	waits += max(0, served-at)
	p.measure["hot waiting"] += waits
	if waits > allowed && p.line.Late == 0 && how.Within != nil {
		p.say(hotInAll, "%s waits %d min in all, and may %d", m.Recipe.Name, waits, allowed)
	}
}

// stays looks at oven steps that follow one another.
func (p *pinup) stays(m *demand.Making) {
	steps := p.stepsOf(m)
	for i := 1; i < len(steps); i++ {
		a, b := steps[i-1], steps[i]
		straight := a.Phases[len(a.Phases)-1].Kind != resolve.Work && b.Phases[0].Kind != resolve.Work
		if a.Oven != "" && b.Oven != "" && a.Step != b.Step && straight && b.Start()-a.End() > 1 {
			p.say(oneStay, "%s stands %d min outside between %d and %d", m.Recipe.Name, b.Start()-a.End(), a.Number, b.Number)
		}
	}
	for i := 1; i < len(steps); i++ {
		a, b := steps[i-1], steps[i]
		last := a.Phases[len(a.Phases)-1]
		if a.Step.Step.Pause != b.Step.Step.Pause || b.Step.Step.Meanwhile || len(a.Step.Step.Phases) == 0 {
			continue
		}
		f := a.Step.Step.Phases[len(a.Step.Step.Phases)-1].Fixed
		if wait := b.Start() - a.End(); last.Kind == resolve.Leave && f != nil && f.UpTo > f.High && wait > 0 && last.Stretch < int((f.UpTo-f.High).Minutes()) {
			p.say(stands, "%s: step %d waits %d min though it may stand", m.Recipe.Name, a.Number, wait)
		}
	}
}

// turns looks for a plain step that is done after a later plain step of its method
// has begun, though neither `any time` nor `meanwhile` says so.
func (p *pinup) turns(m *demand.Making) {
	steps := p.stepsOf(m)
	for i, a := range steps {
		for _, b := range steps[i+1:] {
			s, n := a.Step.Step, b.Step.Step
			if s != n && !s.AnyTime && !s.Meanwhile && !n.AnyTime && !n.Meanwhile && len(n.After) > 0 && a.End() > b.Start() && !strings.Contains(p.said, s.Title) {
				p.say(inTurn, "%s: step %d ends at %s, step %d begins at %s", m.Recipe.Name, a.Number, p.line.TimeText(a.End()), b.Number, p.line.TimeText(b.Start()))
			}
		}
	}
}

// keepers looks at who has the dish.
func (p *pinup) keepers(m *demand.Making) {
	was := ""
	var done timeline.Minute
	for _, j := range p.stepsOf(m) {
		if len(j.Cooks) == 0 || j.Step.Step.Meanwhile {
			continue
		}
		if was != "" && !slices.Contains(j.Cooks, was) && len(j.Step.Step.By) == 0 && j.Start()-done < 60 {
			p.say(sameCook, "%s goes from %s to %s at %s", m.Recipe.Name, was, j.Cooks[0], p.line.TimeText(j.Start()))
		}
		was, done = j.Cooks[0], j.End()
		for _, ph := range j.Phases {
			if ph.Kind == resolve.Watch && len(ph.Cooks) > 1 {
				p.say(watcher, "%s is watched by %v", j.Title, ph.Cooks)
			}
		}
		var by []string
		for _, t := range j.Touches {
			for _, w := range t.Cooks {
				if !slices.Contains(by, w) {
					by = append(by, w)
				}
			}
		}
		if len(by) > 1 {
			p.say(watcher, "%s is seen to by %s", j.Title, strings.Join(by, " and "))
		}
	}
}

// pauses looks at what is chilled and brought back, and at idle hours before the day.
func (p *pinup) pauses(m *demand.Making) {
	taken := false
	for _, ps := range m.Recipe.Pauses {
		if !p.line.Paused[ps][m] {
			continue
		}
		taken = true
		var before, after *timeline.Job
		for _, j := range p.stepsOf(m) {
			if j.Step.Step.Index < ps.After {
				before = j
			} else if after == nil {
				after = j
			}
		}
		if before != nil && after != nil && after.Start()-before.End() < 60 && slices.ContainsFunc(m.Recipe.Steps, func(s *resolve.Step) bool { return hotStep(s) && s.Index >= ps.After }) {
			p.say(noReheat, "%s is put away at %s and brought back at %s", m.Recipe.Name, p.line.TimeText(before.End()), p.line.TimeText(after.Start()))
		}
	}
	free := !slices.ContainsFunc(m.Recipe.Steps, func(s *resolve.Step) bool { return len(s.If) > 0 }) // no more work for it
	if taken || m.Serving == nil || m.Serving.Straight || len(m.Recipe.Pauses) == 0 || p.line.Hours == nil || p.line.Late == 0 && !p.full && !free {
		return
	}
	work := 0
	for _, j := range p.stepsOf(m) {
		if j.Step.Step.Pause < len(m.Recipe.Pauses) && j.Start() > 0 {
			for _, ph := range j.Phases {
				if ph.Kind != resolve.Leave {
					work += ph.End - ph.Start
				}
			}
		}
	}
	// Idle on a day within the pause's reach, on which the dish could be made whole.
	length := 0
	for _, j := range p.stepsOf(m) {
		if j.Step.Step.Pause == 0 {
			length += j.End() - j.Start()
		}
	}
	reach := 0
	for _, ps := range m.Recipe.Pauses {
		reach = max(reach, int(ps.UpTo.Minutes()))
	}
	for who, spells := range p.line.Hours {
		for _, s := range spells {
			if s.To > 0 || s.To-s.From < length+30 || p.first-s.To > reach {
				continue
			}
			used := 0
			for _, j := range p.line.Jobs {
				for _, ph := range j.Phases {
					if slices.Contains(ph.Cooks, who) && ph.Start >= s.From && ph.Start < s.To {
						used += ph.End - ph.Start
					}
				}
			}
			if work > 0 && s.To-s.From-used > length+30 {
				p.say(idleDay, "%s: %d min of work on the day, while %s has %d idle on the day before", m.Recipe.Name, work, who, s.To-s.From-used)
				return
			}
		}
	}
}

// freshCut are words of what is cut at the last moment: it wilts, browns or weeps.
var freshCut = regexp.MustCompile(`(?i)avocado|coriander|basil|mint|parsley|chive|herb|dill|tarragon|lettuce|leaves|salad|rocket|cress|apple|pear|banana|oyster|whipped|beaten|slaked|zest|melted|toasted|fresh`)

var rawFlesh = regexp.MustCompile(`(?i)\b(chicken|pork|beef|lamb|goose|turkey|duck|fish|salmon|cod|haddock|prawns?|crab|oysters?|mince|minced|liver|veal|mackerel|mussels|squid)\b`)

// cutKey is what a preparation does to what, as the mise list has it.
func cutKey(j *timeline.Job) string {
	return j.Line.Line.Key + "|" + larder.Fold(strings.TrimSpace(j.Line.Line.Note.Text))
}

func (p *pinup) knives() {
	byCut := map[string][]*timeline.Job{}
	var preps []*timeline.Job
	for _, j := range p.line.Jobs {
		if j.Kind != timeline.PrepJob {
			continue
		}
		preps = append(preps, j)
		k := cutKey(j)
		byCut[k] = append(byCut[k], j)
	}
	slices.SortStableFunc(preps, func(a, b *timeline.Job) int { return cmp.Compare(a.Start(), b.Start()) })
	for _, k := range sortedKeys(byCut) {
		jobs := byCut[k]
		keeps := int(p.kit.WaitPrepared.Minutes())
		if freshCut.MatchString(jobs[0].Title) {
			keeps = 60 // what is cut fresh is not cut for the evening
		}
		for i := 1; i < len(jobs); i++ {
			a, b := jobs[i-1], jobs[i]
			// One job may be told in several lines, one after the other by one cook.
			one := b.Start()-a.End() <= 5 && len(a.Cooks) > 0 && len(b.Cooks) > 0 && a.Cooks[0] == b.Cooks[0]
			if !one && b.Start() != a.Start() && a.Start()/1440 == b.Start()/1440 {
				p.measure["cut again"]++
			}
			if use := p.usedAt(b); !one && b.Start() != a.Start() && use-a.End() <= keeps && a.Start()/1440 == b.Start()/1440 {
				p.say(cutOnce, "%s at %s and at %s", k, p.line.TimeText(a.Start()), p.line.TimeText(b.Start()))
			}
		}
	}
	for _, j := range preps {
		if use := p.usedAt(j); j.End() > use {
			p.say(listTime, "%s is ready at %s and wanted at %s", j.Title, p.line.TimeText(j.End()), p.line.TimeText(use))
		}
		mins, shut := 0, p.mealOf(p.usedAt(j))-45
		for _, ph := range j.Phases {
			if ph.Kind != resolve.Leave {
				mins += max(0, ph.End-max(ph.Start, shut))
			}
		}
		if mins > 0 {
			p.measure["knife in window"] += mins
		}
		fresh := freshCut.MatchString(j.Title)
		if mins > 0 && !fresh && j.Start() > shut && p.usedAt(j)-shut <= int(p.kit.WaitPrepared.Minutes()) {
			p.say(closedKnives, "%s at %s", j.Title, p.line.TimeText(j.Start()))
		}
	}
	// Raw flesh, then something eaten raw for another dish, at the same board with no washing
	// between: what goes into one dish meets there anyhow.
	by := map[string]*timeline.Job{}
	for _, j := range p.line.Jobs {
		for _, c := range j.Cooks {
			if j.Kind == timeline.WashJob {
				by[c] = nil
			}
			if j.Kind != timeline.PrepJob {
				continue
			}
			if was := by[c]; was != nil && was.Making != j.Making && p.eatenRaw(j) && j.Start()-was.End() < 5 {
				p.say(rawApart, "%s | %s, then %s", j.Title, c, was.Title)
			}
			if rawFlesh.MatchString(j.Line.Line.Name) {
				by[c] = j
			} else {
				by[c] = nil
			}
		}
	}
}

// usedAt is when the first step takes what is prepared; the serving for none.
func (p *pinup) usedAt(j *timeline.Job) timeline.Minute {
	at := timeline.Minute(1 << 30)
	for _, u := range p.stepsOf(j.Making) {
		if slices.ContainsFunc(u.Step.Takes, func(t resolve.Take) bool { return t.Line == j.Line.Line && !t.Refers }) {
			at = min(at, u.Start())
		}
	}
	for _, s := range p.line.Servings {
		if s.Making == j.Making {
			at = min(at, s.Served)
		}
	}
	return at
}

// eatenRaw tells whether no step of a dish that takes from a line uses heat.
func (p *pinup) eatenRaw(j *timeline.Job) bool {
	return !rawFlesh.MatchString(j.Line.Line.Name) && !slices.ContainsFunc(j.Making.Recipe.Steps, hotStep)
}

// rush looks at the last half hour before the first serving, and at cold work in it.
func (p *pinup) rush(at []busy) {
	load, cooks := 0, max(1, len(p.line.Cooks))
	earlier, from := 0, p.first-4*60
	for _, b := range at {
		load += max(0, min(b.to, p.first)-max(b.from, p.first-30))
		earlier += max(0, min(b.to, p.first-30)-max(b.from, from))
	}
	p.measure["peak load"] = load * 100 / (30 * cooks)
	open := 0
	for _, who := range p.line.Cooks {
		for _, s := range p.line.Hours[who] {
			open += max(0, min(s.To, p.first-30)-max(s.From, from))
		}
	}
	p.measure["idle before rush"] = max(0, open-earlier)
	cold := 0
	for _, j := range p.line.Jobs {
		if j.Kind == timeline.StepJob && hotStep(j.Step.Step) || j.Kind == timeline.TaskJob {
			continue
		}
		if freshCut.MatchString(j.Title) || !p.mayStandCold(j) || p.afterFresh(j) { // what is cut fresh stays, and is strewn fresh
			continue
		}
		mins := 0
		for _, ph := range j.Phases {
			if ph.Kind != resolve.Leave {
				mins += max(0, min(ph.End, p.first)-max(ph.Start, p.first-30))
			}
		}
		if mins >= 5 && open-earlier > 2*mins {
			p.say(coldEarly, "%s at %s, with %d min idle before", j.Title, p.line.TimeText(j.Start()), open-earlier)
			cold += mins
		}
	}
	if load*100 > 80*30*cooks && open-earlier > 60 && cold > 0 {
		p.say(calmBefore, "%d per cent", load*100/(30*cooks))
	}
}

// afterFresh tells whether a step takes what has been cut fresh for it just before.
func (p *pinup) afterFresh(j *timeline.Job) bool {
	return j.Kind == timeline.StepJob && slices.ContainsFunc(p.line.Jobs, func(o *timeline.Job) bool {
		return o.Kind == timeline.PrepJob && o.Making == j.Making && freshCut.MatchString(o.Title) && o.End() <= j.Start() && j.Start()-o.End() < 30
	})
}

// fills works out whether the day is full.
func (p *pinup) fills(at []busy) {
	busy, there := 0, 0
	for _, b := range at {
		busy += max(0, min(b.to, p.first)-max(b.from, p.first-240))
	}
	for _, all := range p.line.Hours {
		for _, s := range all {
			there += max(0, min(s.To, p.first)-max(s.From, p.first-240))
		}
	}
	p.full = 2*busy > there+30 // by a little it may be counted either way
}

// mayStandCold tells whether what a job leaves may stand for half an hour and more.
func (p *pinup) mayStandCold(j *timeline.Job) bool {
	switch j.Kind {
	case timeline.PrepJob:
		return p.usedAt(j)-(p.first-30) < int(p.kit.WaitPrepared.Minutes())
	case timeline.StepJob:
		s := j.Step.Step
		how := j.Making.Recipe.ServeHow
		last := s.Index == len(j.Making.Recipe.Steps)-1
		if last && how != nil && how.Within != nil && how.Within.High.Minutes() < 45 {
			return false
		}
		for i, u := range p.stepsOf(j.Making) { // nothing hot lies before it
			if u.Step.Step.Index < s.Index && hotStep(u.Step.Step) {
				return false
			}
			_ = i
		}
		if k := resolve.First[*resolve.Keeping](s.Margin); k != nil && k.Keep.Time.High.Minutes() >= 60 {
			return true
		}
		for _, mk := range s.Makes {
			if mk.Keeps != nil && mk.Keeps.Time.High.Minutes() >= 60 {
				return true
			}
		}
		return last && (how == nil || how.Within == nil || how.Within.High.Minutes() >= 60)
	}
	return false
}

// days looks at breaks and at how a day ends.
func (p *pinup) days(at []busy) {
	byCook := map[string][]busy{}
	for _, b := range at {
		byCook[b.who] = append(byCook[b.who], b)
	}
	for _, who := range sortedKeys(byCook) {
		from, to := 0, -1<<30
		for _, b := range byCook[who] {
			if b.from-to >= 10 {
				from = b.from
			}
			to = max(to, b.to)
			if to-from > 4*60 {
				p.say(breaks, "%s works from %s to %s", who, p.line.TimeText(from), p.line.TimeText(to))
				from = to
			}
		}
		for _, s := range p.line.Hours[who] {
			if s.To >= p.first-12*60 {
				continue
			}
			last, idle := -1<<30, s.To-s.From
			for _, b := range byCook[who] {
				if s.From <= b.from && b.from < s.To {
					last, idle = max(last, b.to), idle-(b.to-b.from)
				}
			}
			if last > s.To-15 && idle > 30 {
				p.say(dayEnds, "%s ends at %s, the hours at %s", who, p.line.TimeText(last), p.line.TimeText(s.To))
			}
		}
	}
}

func (p *pinup) sink() {
	if p.line.Meal.Kitchen == nil {
		return
	}
	for _, w := range p.line.Meal.Kitchen.WashUps {
		words := w.Words()
		if !slices.ContainsFunc(p.line.Jobs, func(j *timeline.Job) bool { return j.Kind == timeline.WashJob && j.Asked == words }) && !strings.Contains(p.said, "washing up") {
			p.say(washed, "%s", words)
		}
	}
}

var clockAt = regexp.MustCompile(`^(.*) (?:begins|is served) at (\d\d:\d\d)`)

// words holds what is said to keep a job against the plan, and the chance against the
// work there is.
func (p *pinup) words() {
	starts := map[string]bool{}
	for _, j := range p.line.Jobs {
		starts[quantity.ClockText(true, ((j.Start()%1440)+1440)%1440)] = true
	}
	for _, s := range p.line.Servings {
		starts[quantity.ClockText(true, ((s.Served%1440)+1440)%1440)] = true
	}
	work := 0
	for _, j := range p.line.Jobs {
		for _, h := range j.Holds {
			if m := clockAt.FindStringSubmatch(h); p.line.Clock && m != nil && !starts[m[2]] {
				p.say(trueWords, "%s: %s", j.Title, h)
			}
		}
		for _, ph := range j.Phases {
			if ph.Kind != resolve.Leave {
				work += ph.End - ph.Start
			}
		}
	}
	if work > 0 && p.line.Odds == nil {
		p.say(honest, "%d min of work and no chance", work)
	}
	if p.line.Late > 0 && !p.line.Proven && p.line.Hours != nil { // where nothing is less late, hours are not what it lacks
		opens := timeline.Minute(1 << 30)
		for _, all := range p.line.Hours {
			for _, s := range all {
				opens = min(opens, s.From)
			}
		}
		if p.line.Start > opens+60 {
			p.say(atOnceLate, "late by %d min, begins at %s", p.line.Late, p.line.TimeText(p.line.Start))
		}
	}
}

func sortedKeys[V any](m map[string]V) (out []string) {
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}
