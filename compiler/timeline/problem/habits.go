package problem

import (
	"cmp"
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
)

// Habits are how a kitchen likes to work where that costs nobody his dinner: the same
// cut is made once, the boards are clear before service, a day before ends in time. A plan
// is first looked for that keeps them all. The zero value asks for none.
type Habits struct {
	Cuts    [][]Key          // preparations that are one job, a group each, in order
	Fresh   bool             // what is cut fresh waits no longer than FreshKeeps
	Early   []Key            // preparations that are over before service: the first of their block
	Ahead   []*demand.Making // made the day before, though nobody wrote `ahead`
	Breaks  []*Break
	Keepers map[*demand.Making]string // who has a dish from its first step to its last, by key
	Ends    []timeline.Minute         // ends of hours on days before: the last job ends a little sooner
	Room    []int                     // minutes for which what goes to a course is ready before it must be, by its place in the menu; nil: none
	AtPass  bool                      // some of it lies behind the plating
}

// None tells whether nothing is asked for.
func (h *Habits) None() bool {
	return len(h.Cuts) == 0 && !h.Fresh && len(h.Early) == 0 && len(h.Ahead) == 0 && len(h.Keepers) == 0 && len(h.Breaks) == 0 && len(h.Ends) == 0 && len(h.Room) == 0
}

const (
	// KnivesDown is how long before the first serving the boards are clear, where the
	// kitchen does not say, in minutes: common practice, no source.
	KnivesDown = 45
	// FreshKeeps is how long what is cut fresh waits at most, in minutes: common practice, no
	// source.
	FreshKeeps = 60
	// usedSooner is how much sooner than it must be a thing may be used, in minutes: what
	// is cut once is still to keep until then.
	usedSooner = 45
	// EndsBefore is how long before its hours do a day before ends, in minutes: common
	// practice, no source.
	EndsBefore = 15
)

// freshCut is what is cut at the last moment, for it wilts, browns or weeps. Common
// practice, no source.
var freshCut = strings.Fields("avocado avocados apple apples pear pears banana bananas herb herbs coriander basil mint parsley chive chives dill tarragon chervil sorrel lettuce lettuces leaves salad rocket cress watercress oyster oysters zest zested whipped beaten slaked melted toasted warmed")

// Fresh tells whether a preparation is done at the last moment.
func (j *Job) Fresh() bool {
	for word := range strings.FieldsFuncSeq(strings.ToLower(j.Title), func(r rune) bool {
		return r != '_' && (r < '0' || r > '9') && (r < 'a' || r > 'z')
	}) {
		if strings.HasPrefix(word, "fresh") || slices.Contains(freshCut, word) {
			return true
		}
	}
	return false
}

// KnivesDown is how long before the first serving of a meal the boards are clear, in minutes.
func (d *Draft) KnivesDown() int {
	if s := d.service(resolve.KnivesDown); s != nil {
		return timeline.Minutes(s.Time.High)
	}
	return KnivesDown
}

// PlainKnife tells whether a preparation is work with the knife and nothing else, on
// what is there from the beginning.
func (d *Draft) PlainKnife(j *Job) bool {
	return len(j.Parts) == 1 && j.Parts[0].Kind == resolve.Work && d.byMake[j.Line.Source] == nil
}

// CutKey is what is done to what: the same for the same thing cut the same way, whatever
// the order of the words.
func CutKey(l *resolve.Line) string {
	words := strings.FieldsFunc(larder.Fold(l.Note.Text), func(r rune) bool { return r == ' ' || r == ',' })
	words = slices.DeleteFunc(words, func(w string) bool { return w == "and" })
	slices.Sort(words)
	return l.Key + "|" + strings.Join(words, " ")
}

// latestUse is when a preparation is wanted at the latest, by what waits for what: its
// step, else the table.
func (d *Draft) latestUse(j *Job, tails map[*Block]int) timeline.Minute {
	to := j.Mk.FirstTaker(j.Line.Line)
	if to == nil {
		return j.Mk.Course.At
	}
	to = to.First()
	at := d.FirstCourse().At - tails[to.Block]
	if due := d.P.Activities[to.Block.Act].Deadline; due > 0 {
		at = min(at, d.Origin+due*d.Grid-to.Length)
	}
	return at
}

// KeepsFor is how long what is prepared may wait for its use, in minutes.
func (d *Draft) KeepsFor(j *Job) int {
	if k := j.Line.Line.Keeps; k != nil {
		return timeline.Minutes(max(k.Time.High, k.Time.UpTo))
	}
	return d.Kit.waitPrepared
}

// Habits are those that a draft without any could keep, going by when each thing is
// wanted at the latest.
func (d *Draft) Habits() (h Habits) {
	tails := d.tails(nil, -timeline.MaxMinutes)
	h.Ahead = d.Set.Habits.Ahead
	for _, w := range d.DaysBeforeHours() {
		h.Ends = append(h.Ends, w.To)
	}
	groups := map[string][]*Job{}
	var keys []string
	for _, mk := range d.Makings {
		for _, a := range mk.M.Lines {
			j := mk.Prep[a.Line]
			if j == nil || !d.PlainKnife(j) || len(j.When) > 0 {
				continue
			}
			key := CutKey(a.Line) + "|" + strings.Join(a.Line.By, ",")
			if groups[key] == nil {
				keys = append(keys, key)
			}
			groups[key] = append(groups[key], j)
		}
	}
	once := map[*Job]bool{}
	for _, key := range keys {
		for _, g := range d.asFew(groups[key], tails) {
			var cut []Key
			for _, j := range g {
				cut, once[j] = append(cut, j.Key()), true
			}
			h.Cuts = append(h.Cuts, cut)
			if d.maybeEarly(g, tails) {
				h.Early = append(h.Early, g[0].Key())
			}
		}
	}
	for _, j := range d.Jobs {
		if j.Kind != timeline.PrepJob || once[j] || !d.PlainKnife(j) {
			continue
		}
		if d.maybeEarly([]*Job{j}, tails) {
			h.Early = append(h.Early, j.Key())
		}
	}
	h.Fresh = slices.ContainsFunc(d.Jobs, func(j *Job) bool { return j.Kind == timeline.PrepJob && d.PlainKnife(j) && j.Fresh() })
	return h
}

// cutOnce tells whether a preparation is one job with the same cut for other uses.
func (h *Habits) cutOnce(k Key) bool {
	return slices.ContainsFunc(h.Cuts, func(g []Key) bool { return slices.Contains(g, k) })
}

// LastingCuts are those cuts of some that are not to be done at the last moment.
func (d *Draft) LastingCuts(cuts [][]Key) [][]Key {
	return slices.DeleteFunc(slices.Clone(cuts), func(g []Key) bool { return d.prepOf(g[0]).Fresh() })
}

// asFew deals the same cut out to jobs: as few as will do, each wanted while it
// keeps, in order of use. One by itself is none.
func (d *Draft) asFew(all []*Job, tails map[*Block]int) (out [][]*Job) {
	use := map[*Job]int{}
	for _, j := range all {
		use[j] = d.latestUse(j, tails)
	}
	slices.SortStableFunc(all, func(a, b *Job) int { return cmp.Compare(use[a], use[b]) })
	var g []*Job
	length, keeps := 0, 0
	flush := func() {
		if len(g) > 1 {
			out = append(out, g)
		}
		g, length = nil, 0
	}
	for _, j := range all {
		most := d.KeepsFor(j)
		if j.Fresh() {
			most = min(most, FreshKeeps+usedSooner)
		}
		if len(g) > 0 && use[j]-use[g[0]]+length+j.Length > min(keeps, most)-usedSooner {
			flush()
		}
		if len(g) == 0 {
			keeps = most
		}
		g, length, keeps = append(g, j), length+j.Length, min(keeps, most)
	}
	flush()
	return out
}

// maybeEarly tells whether preparations may be over before service: they are not cut
// fresh, and keep from then until they are wanted.
func (d *Draft) maybeEarly(g []*Job, tails map[*Block]int) bool {
	close := d.SittingFor(d.latestUse(g[0], tails)).First.At - d.KnivesDown()
	return !slices.ContainsFunc(g, func(j *Job) bool {
		return j.Fresh() || len(j.When) > 0 || d.latestUse(j, tails)-close > d.KeepsFor(j)-usedSooner
	})
}

// inTime tells whether hours are of a day before that is to end in time.
func (h *Habits) inTime(w Window) bool {
	return w.To-w.From > 2*EndsBefore && slices.ContainsFunc(h.Ends, func(end timeline.Minute) bool { return w.To <= end && end-w.To < timeline.Day/2 })
}

// dayBefore tells whether hours are of a day before the first serving.
func (d *Draft) dayBefore(w Window) bool { return w.To < d.FirstCourse().At-timeline.Day/2 }

// closeBoards has the preparations that can be over before service.
func (d *Draft) closeBoards() {
	if d.Set.Keep != nil {
		return // the evening has begun
	}
	if len(d.Set.Habits.Early) == 0 {
		return
	}
	tails := d.tails(nil, -timeline.MaxMinutes)
	for _, k := range d.Set.Habits.Early {
		if j := d.prepOf(k); j != nil {
			last := j.Block.Jobs[len(j.Block.Jobs)-1]
			first := d.SittingFor(d.latestUse(j, tails)).First
			d.Link(last.End(), first.Begin(), d.KnivesDown(), -1, BoardsClear, last.When...)
		}
	}
}

// prepOf finds a preparation; nil when it does not take place.
func (d *Draft) prepOf(k Key) *Job {
	if mk := d.byMake[k.Making]; mk != nil && k.line != nil {
		return mk.Prep[k.line]
	}
	return nil
}

// keeper is who has a dish, where that is to be one cook; nil where anyone may.
func (d *Draft) keeper(mk *Making) []string {
	if k := d.Set.Habits.Keepers[mk.M]; k != "" && d.Set.Keep == nil {
		return []string{k}
	}
	return nil
}

// MayBeAhead lists the dishes that could be made the day before, in working hours there
// are, by a pause that nobody has decided on; free: only those that want no more work for
// it, no chilling and bringing back.
func (d *Draft) MayBeAhead(free bool) (out []*demand.Making) {
	if !d.Clock || len(d.Meal.Menu.Hours) == 0 {
		return nil
	}
	shut, opens, ok := d.Night()
	if !ok {
		return nil
	}
	for _, mk := range d.Makings {
		decided := func(p Pause) bool { return p.State == Paused }
		overnight := func(p Pause) bool { return timeline.Minutes(p.Model.UpTo) >= opens-shut }
		if free && slices.ContainsFunc(mk.M.Recipe.Steps, func(s *resolve.Step) bool { return len(s.If) > 0 }) {
			continue
		}
		if s := mk.M.Serving; s != nil && !s.Straight && !s.Ahead && slices.ContainsFunc(mk.Pauses, overnight) && !slices.ContainsFunc(mk.Pauses, decided) && d.fitsBefore(mk) {
			out = append(out, mk.M)
		}
	}
	return out
}

// fitsBefore tells whether what is done of a dish before its first pause goes into the hours
// of some day before, one step after the other; what is only left at the end goes on past them.
func (d *Draft) fitsBefore(mk *Making) bool {
	var first, last *Job
	long := 0
	for _, j := range mk.Steps {
		s := j.Step.Step
		if straight := slices.ContainsFunc(s.If, func(c resolve.Condition) bool { return c.Pause > 0 && (c.Unless || !c.Paused) }); straight || s.Pause > 0 || s.Meanwhile || s.AnyTime || len(s.After) > 0 {
			continue
		}
		if first == nil {
			first = j
		}
		long, last = long+j.Length, j
	}
	if last == nil {
		return true
	}
	if n := len(last.Parts); n > 0 && last.Parts[n-1].Kind == resolve.Leave {
		long -= last.Parts[n-1].Length()
	}
	knives := 0
	for _, j := range mk.Prep {
		if mk.FirstTaker(j.Line.Line) == first {
			knives = max(knives, j.Length)
		}
	}
	return slices.ContainsFunc(d.DaysBeforeHours(), func(w Window) bool { return w.To-w.From >= knives+long })
}

// MayStandOver are the steps by hand of each dish without a pause after which it may stand
// over night as it is, by what is written.
func (d *Draft) MayStandOver() (out [][]*Job) {
	if !d.Clock || len(d.Meal.Menu.Hours) == 0 {
		return nil
	}
	shut, opens, ok := d.Night()
	for _, mk := range d.Makings {
		if s := mk.M.Serving; !ok || s == nil || s.Straight || len(mk.Pauses) > 0 {
			continue
		}
		steps := slices.DeleteFunc(slices.Clone(mk.Steps[:1+d.standsOver(mk, opens-shut)]), func(j *Job) bool { return j.Parts[0].Kind == resolve.Leave })
		if len(steps) > 0 {
			out = append(out, steps)
		}
	}
	return out
}

// DaysBeforeHours are the hours of days before the first serving.
func (d *Draft) DaysBeforeHours() (out []Window) {
	for _, w := range d.Open {
		if d.Clock && d.dayBefore(w) {
			out = append(out, w)
		}
	}
	return out
}
