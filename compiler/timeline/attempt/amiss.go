package attempt

import (
	"slices"
	"time"

	"tamis/compiler/timeline"
	"tamis/compiler/timeline/answer"
	"tamis/compiler/timeline/problem"
	"tamis/lang/quantity"
)

// mostNamed is how large a meal is, in jobs, for what is amiss to be tried to mend.
const mostNamed = 70

// NameAmiss names what is amiss in the best plan, and tries what would mend it, the
// cheapest first.
func (a *Attempts) NameAmiss() {
	best := a.Best
	if best.Set.Keep != nil {
		return
	}
	amiss := best.Amiss()
	if len(amiss) == 0 {
		return
	}
	cures, tried := make([]string, len(amiss)), make([][]string, len(amiss))
	for _, c := range a.remedies() {
		wanted := func(i int) bool { return cures[i] == "" && slices.Contains(c.kinds, amiss[i].Kind) }
		if !best.OnTime() || len(best.Draft.Jobs) > mostNamed || a.Ctx.Err() != nil { // what is late has its own cures
			break
		}
		some := false
		for i := range amiss {
			some = some || wanted(i)
		}
		if !some {
			continue
		}
		r := a.mended(c)
		for i, m := range amiss {
			switch {
			case !wanted(i):
			case r != nil && r.Late() <= best.Late() && !slices.ContainsFunc(r.Amiss(), func(l answer.Amiss) bool { return l.Kind == m.Kind }):
				cures[i] = c.text
			default:
				tried[i] = append(tried[i], c.text)
			}
		}
	}
	for i, m := range amiss {
		best.Named = append(best.Named, m.Words(cures[i], tried[i]))
	}
}

// remedy is a change that might mend what is amiss in some ways.
type remedy struct {
	text   string
	kinds  []answer.AmissKind
	change func(*problem.Setup)
	spare  int // weighted minutes that hot food may wait longer
}

// remedies are those of a meal, the cheapest first.
func (a *Attempts) remedies() (out []remedy) {
	d := a.Best.Draft
	none := func(*problem.Setup) {}
	hands, cuts := []answer.AmissKind{answer.ChangesHands}, []answer.AmissKind{answer.KnivesOut, answer.CutTwice, answer.NoBreak, answer.OneBoard}
	for _, n := range []int{10, 30} {
		out = append(out, remedy{"hot food waits up to " + quantity.TimeText(time.Duration(n)*time.Minute) + " longer in all", hands, none, n * answer.AtTable})
	}
	earlier := func(w problem.Window, n int, kinds []answer.AmissKind) {
		if timeline.FloorDiv(w.From-n, timeline.Day) == timeline.FloorDiv(w.From, timeline.Day) {
			out = append(out, remedy{"begin at " + d.ClockText(w.From-n), kinds, func(s *problem.Setup) { s.Opens, s.Earlier = w.From, n }, 0})
		}
	}
	if d.Clock && len(d.Meal.Menu.Hours) > 0 {
		before := d.DaysBeforeHours()
		for _, w := range before {
			earlier(w, problem.EndsBefore, []answer.AmissKind{answer.EndsLate})
		}
		for _, w := range d.Open {
			if w.From >= 0 {
				earlier(w, 60, append(slices.Clone(cuts), hands...))
			}
		}
		for _, n := range []int{60, 120} {
			if k := len(before); k > 0 {
				earlier(before[k-1], n, []answer.AmissKind{answer.DayUnused})
			}
		}
	}
	return append(out, remedy{"one more cook", append(slices.Clone(cuts), answer.ChangesHands, answer.DayUnused), func(s *problem.Setup) { s.Cooks = 1 }, 0})
}

// mended is the plan of a meal with a change, as good as it is made; nil for none.
func (a *Attempts) mended(c remedy) *answer.Result {
	set := a.Best.Set
	set.Habits, set.Wash.Rounds = problem.Habits{Ahead: set.Habits.Ahead}, nil
	c.change(&set)
	sub := &Attempts{Ctx: a.Ctx, Meal: a.Meal, Opt: a.Opt, Said: true, spare: c.spare}
	sub.Habitual(set)
	if sub.Best == nil {
		if sub.Best = a.hotness(set); sub.Best == nil {
			return nil
		}
		sub.SomeHabits()
	} else {
		sub.HotFirst()
	}
	sub.UseDayBefore()
	sub.DishesStay()
	sub.TakeBreaks()
	return sub.Best
}
