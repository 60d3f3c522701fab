package planner

import (
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
)

// More rules of a plan to pin up: what is to spare before the table, when each cook is
// called, what service asks for, and when things begin to stand. As in pinup_rules_test.go
// they share no code with the planner.
const (
	toSpare     = "31 what would often be late has minutes to spare, where hours and limits leave them"
	calledTrue  = "32 each cook is called when they begin, and a day before is done when it is"
	servicePlan = "33 plating, clearing and cleaning down that are asked for are planned"
	standsFrom  = "34 what only stands begins to when it is left"
	aboutThen   = "35 what is to be done some minutes before serving is done about then"
	nightBefore = "36 what may stand over night is not made on a full day"
)

// spare holds a plan that is late more than 5 times in 100 against its hours and limits:
// were five minutes to be had at each course, they should be.
func (p *pinup) spare(at []busy) {
	o := p.line.Odds
	if o == nil || p.line.Late > 0 || p.line.Hours == nil || o.OnTime*100 >= 95*o.Runs || strings.Contains(p.said, "to spare before") {
		return
	}
	from := map[string]timeline.Minute{} // when each begins on the day
	for _, b := range at {
		if was, ok := from[b.who]; b.from >= 0 && (!ok || b.from < was) {
			from[b.who] = b.from
		}
	}
	for who, begins := range from {
		if !slices.ContainsFunc(p.line.Hours[who], func(s timeline.Spell) bool { return s.From <= begins-10 && begins < s.To }) {
			return
		}
	}
	for _, s := range p.line.Servings {
		if s.Making == nil {
			continue
		}
		how := s.Making.Recipe.ServeHow
		steps := p.stepsOf(s.Making)
		if len(steps) == 0 || how == nil || how.Within == nil {
			return
		}
		// 15 min: five to spare, five of plating, and the clock of five
		fire := steps[0]
		for _, j := range steps {
			if hotStep(j.Step.Step) {
				fire = j
			}
		}
		if cold := how.State == "cold"; int(how.Within.High.Minutes()) < 15 || !cold && s.Served-fire.End()+15 > int(how.Within.High.Minutes()) {
			return
		}
	}
	p.say(toSpare, "on time in %d of %d", o.OnTime, o.Runs)
}

// calls reads the call times as they are printed.
func (p *pinup) calls(at []busy) {
	if !p.line.Clock {
		return
	}
	lines := strings.Join(p.list.Calls(), "\n")
	first := map[string]events.Moment{}
	last := map[string]events.Moment{}
	for _, b := range at {
		if b.of == nil || b.of.Title != "" && strings.HasPrefix(b.of.Title, "Break") {
			continue
		}
		day := b.who + "|" + p.list.DayName(p.list.Day(events.Moment(b.from)))
		if was, ok := first[day]; !ok || events.Moment(b.from) < was {
			first[day] = events.Moment(b.from)
		}
		last[day] = max(last[day], events.Moment(b.to))
	}
	for key, from := range first {
		who, day, _ := strings.Cut(key, "|")
		ok := false
		for _, l := range strings.Split(lines, "\n") {
			if strings.Contains(l, who+" "+p.list.Clock(from)) && (!strings.Contains(l, ", the day") || strings.Contains(l, day)) {
				ok = true
			}
		}
		if !ok && from%1440 > 6*60 { // before that it may be of the shift of the evening
			p.say(calledTrue, "%s begins at %s on %s: %s", who, p.list.Clock(from), day, lines)
		}
	}
}

func (p *pinup) service() {
	menu := p.line.Meal.Menu
	if menu == nil {
		return
	}
	asked := slices.Clone(menu.Service)
	for _, s := range p.kit.Service {
		if !slices.ContainsFunc(asked, func(o resolve.Service) bool { return o.Kind == s.Kind }) {
			asked = append(asked, s)
		}
	}
	has := func(title string) bool {
		return slices.ContainsFunc(p.line.Jobs, func(j *timeline.Job) bool { return strings.HasPrefix(j.Title, title) && len(j.Cooks) > 0 })
	}
	if len(p.line.Cooks) == 0 {
		return
	}
	for _, s := range asked {
		title := map[resolve.ServiceKind]string{resolve.Plates: "Plate ", resolve.Clears: "Clear the table", resolve.CleansDown: "Clean down"}[s.Kind]
		if title != "" && !has(title) {
			p.say(servicePlan, "%s", s.Words())
		}
	}
	for _, s := range p.line.Servings { // a table is cleared before the next course, and not hours later
		for _, j := range p.line.Jobs {
			if s.Course != "" && j.Title == "Clear "+s.Course && (j.Start() < s.Served || j.Start() > s.Served+75) {
				p.say(servicePlan, "%s at %s, served at %s", j.Title, p.line.TimeText(j.Start()), p.line.TimeText(s.Served))
			}
		}
	}
	for _, t := range menu.Tasks {
		if t.Done == nil {
			continue
		}
		at := p.first
		for _, s := range p.line.Servings {
			if s.Course == t.Before.Text || s.Name == t.Before.Text {
				at = s.Served
			}
		}
		for _, j := range p.line.Jobs {
			if j.Kind == timeline.TaskJob && j.Title == t.Name && at-j.End() > int(t.Done.High.Minutes())+45 {
				p.say(aboutThen, "%s at %s", t.Name, p.line.TimeText(j.Start()))
			}
		}
	}
}

// mealOf is the first serving of the meal of the day for which something is used at a time:
// a course two hours after the one before it begins another meal.
func (p *pinup) mealOf(use timeline.Minute) timeline.Minute {
	var all []timeline.Minute
	for _, s := range p.line.Servings {
		all = append(all, s.Served)
	}
	slices.Sort(all)
	first := p.first
	for i, at := range all {
		if i > 0 && at-all[i-1] >= 120 {
			first = at
		}
		if at >= use {
			break
		}
	}
	return first
}

// begins looks for steps that need nobody, no oven and no ring, and begin a while after
// somebody has left the thing or the fire has.
func (p *pinup) begins(m *demand.Making) {
	steps := p.stepsOf(m)
	for i := 1; i < len(steps); i++ {
		a, b := steps[i-1], steps[i]
		s := b.Step.Step
		if len(b.Cooks) > 0 || hotStep(s) || s.Meanwhile || s.AnyTime || len(s.After) > 0 || s.Vessel != "" || a.Step.Step.Meanwhile || a.Step.Step.AnyTime || len(a.Phases) == 0 ||
			slices.ContainsFunc(b.Phases, func(ph timeline.Phase) bool { return ph.Kind != resolve.Leave }) {
			continue
		}
		if left := a.Phases[len(a.Phases)-1].Kind == resolve.Leave && !hotStep(a.Step.Step); left || len(b.Puts)+len(b.Touches) > 0 {
			continue
		}
		free := a.End() // and of all that goes in there
		for _, mk := range p.line.Jobs {
			if mk.Making == m && mk.Kind == timeline.PrepJob && p.usedAt(mk) == b.Start() {
				free = max(free, mk.End())
			}
		}
		most := 0 // as long as it may: sooner would be too long
		for _, sp := range s.Phases {
			if sp.Fixed != nil {
				most += int(max(sp.Fixed.High, sp.Fixed.UpTo).Minutes())
			}
		}
		if wait := b.Start() - free; wait >= 5 && wait <= 90 && b.End()-b.Start()+wait <= most {
			p.say(standsFrom, "%s: step %d is left at %s, and step %d begins at %s", m.Recipe.Name, a.Number, p.line.TimeText(a.End()), b.Number, p.line.TimeText(b.Start()))
		}
	}
}

// standsOver looks for dishes without a pause that may stand over night by what is written,
// and are made on a day whose hands are full though they are idle the day before.
func (p *pinup) standsOver(m *demand.Making, at []busy) {
	if !p.full || p.line.Late > 0 || m.Serving == nil || m.Serving.Straight || len(m.Recipe.Pauses) > 0 || p.line.Hours == nil {
		return
	}
	steps := p.stepsOf(m)
	n := -1 // the step after which it may stand for a day
	for i, j := range steps {
		for _, ph := range j.Step.Step.Phases {
			if ph.Kind == resolve.Leave && ph.Fixed != nil && ph.Fixed.UpTo.Hours() >= 24 {
				n = i
			}
		}
	}
	work, length := 0, 0
	for i := 0; i <= n; i++ {
		for _, ph := range steps[i].Phases {
			if length += ph.End - ph.Start; ph.Kind != resolve.Leave {
				work += ph.End - ph.Start
			}
		}
	}
	if n < 1 || work == 0 || steps[0].Start() < 0 {
		return
	}
	for who, spells := range p.line.Hours {
		for _, s := range spells {
			used := 0
			for _, b := range at {
				if b.who == who {
					used += max(0, min(b.to, s.To)-max(b.from, s.From))
				}
			}
			if s.To <= 0 && s.To > -1440 && s.To-s.From-used > 2*length+60 {
				p.say(nightBefore, "%s: %d min of work on the day, while %s has %d idle", m.Recipe.Name, work, who, s.To-s.From-used)
				return
			}
		}
	}
}
