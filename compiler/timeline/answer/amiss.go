package answer

import (
	"slices"
	"time"

	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/compiler/timeline/problem"
	"tamis/lang/quantity"
)

// What a head chef would strike out of a plan that is on time: each is named in the plan,
// with what would mend it.

// Amiss is what is amiss in one way.
type Amiss struct {
	Kind AmissKind
	What []string // what it is, with its time: "Spinach pies (19:25)"
}

// AmissKind is a way in which a plan is not as a kitchen would have it.
type AmissKind int

// The ways.
const (
	ChangesHands AmissKind = iota // a dish goes from one cook to another while it is made
	KnivesOut                     // knife work that could be done before runs on into service
	CutTwice                      // the same cut is made twice
	EndsLate                      // the last job of a day before ends when its hours do
	NoBreak                       // somebody works too long without a break
	OneBoard                      // raw flesh, then what is eaten raw, at one board with nothing between
	DayUnused                     // idle hours of the day before are not used, and the day is full
)

// Amiss lists what is amiss in a plan.
func (r *Result) Amiss() (out []Amiss) {
	add := func(kind AmissKind, what []string) {
		if len(what) > 0 {
			out = append(out, Amiss{kind, what})
		}
	}
	_, _, hands := r.keepers()
	add(ChangesHands, hands)
	add(KnivesOut, r.knivesOut())
	add(CutTwice, r.cutTwice())
	add(EndsLate, r.endsLate())
	add(NoBreak, r.noBreak())
	add(OneBoard, r.oneBoard())
	add(DayUnused, r.dayUnused())
	return out
}

// HowMuchAmiss is how many things are amiss in a plan.
func (r *Result) HowMuchAmiss() (n int) {
	for _, a := range r.Amiss() {
		n += len(a.What)
	}
	return n
}

func (r *Result) named(what string, at timeline.Minute) string {
	return what + " (" + r.clockText(at) + ")"
}

// preps are the preparations with the knife, in order of time.
func (r *Result) knifeWork() (out []*problem.Job) {
	for _, j := range r.Draft.Jobs {
		if j.Kind == timeline.PrepJob && r.On(j) && r.Draft.PlainKnife(j) {
			out = append(out, j)
		}
	}
	slices.SortStableFunc(out, func(a, b *problem.Job) int { return r.Start(a) - r.Start(b) })
	return out
}

// usedAt is when what is prepared is taken.
func (r *Result) usedAt(j *problem.Job) timeline.Minute {
	if u := j.Mk.FirstTaker(j.Line.Line); u != nil && r.On(u) {
		return r.Start(u.First())
	}
	return r.Start(j.Mk.Course)
}

func (r *Result) knivesOut() (what []string) {
	d := r.Draft
	for _, j := range r.knifeWork() {
		shut := r.Start(d.SittingFor(r.usedAt(j)).First) - d.KnivesDown()
		if !j.Fresh() && r.Start(j)+j.Length > shut && r.usedAt(j)-shut <= d.KeepsFor(j) {
			what = append(what, r.named(j.Title, r.Start(j)))
		}
	}
	return what
}

// soonAfter is how soon after one another two spells at the board are one, in minutes.
const soonAfter = 5

func (r *Result) cutTwice() (what []string) {
	last := map[string]*problem.Job{}
	for _, j := range r.knifeWork() {
		key := problem.CutKey(j.Line.Line)
		was := last[key]
		last[key] = j
		if was == nil || was.Block == j.Block {
			continue
		}
		keeps := r.Draft.KeepsFor(j)
		if j.Fresh() {
			keeps = problem.FreshKeeps
		}
		gap := r.Start(j) - r.Start(was) - was.Length
		if (gap > soonAfter || !r.oneCook(was.Block, j.Block)) && r.usedAt(j)-r.Start(was)-was.Length <= keeps && timeline.FloorDiv(r.Start(j), timeline.Day) == timeline.FloorDiv(r.Start(was), timeline.Day) {
			what = append(what, r.named(j.Title, r.Start(was))+" and at "+r.clockText(r.Start(j)))
		}
	}
	return what
}

func (r *Result) endsLate() (what []string) {
	d := r.Draft
	for _, w := range d.DaysBeforeHours() {
		last := timeline.Minute(-timeline.MaxMinutes)
		for _, j := range d.Jobs {
			if !r.On(j) {
				continue
			}
			for _, p := range j.Parts {
				if end := r.Start(j) + int(p.To); p.Kind != resolve.Leave && w.From <= r.Start(j)+int(p.From) && end <= w.To {
					last = max(last, end)
				}
			}
			for _, x := range j.Touches {
				if end := r.Start(j) + int(x.To); w.From <= end && end <= w.To {
					last = max(last, end)
				}
			}
		}
		if last > w.To-problem.EndsBefore {
			what = append(what, r.clockText(last))
		}
	}
	return what
}

func (r *Result) noBreak() (what []string) {
	for _, s := range r.tooLong() {
		c, _ := r.Draft.Kit.CookOf(r.Draft.Hands([]string{s.cook})[0])
		what = append(what, r.named(c.Name, s.From))
	}
	return what
}

func (r *Result) oneBoard() (what []string) {
	for _, a := range r.Blocks() {
		for _, b := range r.Blocks() {
			if a != b && r.oneCook(a, b) && r.soils(a, b) {
				what = append(what, r.named(b.Jobs[0].Title+" after "+a.Jobs[0].Title, r.Start(b.Jobs[0])))
			}
		}
	}
	return what
}

func (r *Result) dayUnused() (what []string) {
	may := r.Draft.MayBeAhead(false)
	if len(may) == 0 || r.OnTime() && !r.Full() {
		return nil
	}
	for _, m := range may {
		what = append(what, m.Recipe.Name)
	}
	return what
}

// Words say what is amiss, and what would mend it: cure is what was tried and did, tried
// what did not.
func (a Amiss) Words(cure string, tried []string) string {
	all := timeline.Listed(a.What)
	one := len(a.What) == 1
	be := func(single, several string) string {
		if one {
			return single
		}
		return several
	}
	text, mended := "", ""
	switch a.Kind {
	case ChangesHands:
		text, mended = be("One dish changes", "Dishes change")+" hands: "+all, be("it would stay with its cook", "they would stay with their cooks")
	case KnivesOut:
		text, mended = "In service "+be("is", "are")+" still cut: "+all, "the boards would be clear before"
	case CutTwice:
		text, mended = "Cut twice: "+all, "it would be one job"
	case EndsLate:
		text, mended = "Work ends with the hours at "+all, "it would end "+quantity.TimeText(problem.EndsBefore*time.Minute)+" before"
	case NoBreak:
		text, mended = "No break in a long stretch of work, from: "+all, "there would be one"
	case OneBoard:
		text, mended = "Wash hands, board and knife between: "+all, "no raw meat or fish would come to a board just before what is eaten raw"
	case DayUnused:
		text, mended = all+" "+be("is", "are")+" not made the day before, though hands are idle then", be("it would be", "they would be")
	}
	switch {
	case cure != "":
		return text + "; tried: " + cure + ", and " + mended + "."
	case len(tried) > 0:
		return text + "; tried, and no better: " + timeline.Listed(tried) + "."
	}
	return text + "."
}
