package problem

import (
	"fmt"
	"strings"

	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/quantity"
)

// What translating finds wrong. Codes: P101 a step without a time, P102 a time
// that grows with something that cannot be counted, P103 a wait that rests on
// no `keeps`, P104 more wanted than the kitchen has, P105 nobody to do it,
// P106 hours that do not count, P107 a strand longer
// than what it runs beside, P108 a weight counted, or a count weighed, P109 washing up
// left until after serving, P112 a weight beyond those that a time is written for.

// sayAssumed asks once a recipe for the times that are missing.
func (d *Draft) sayAssumed() {
	if d.diags == nil {
		return
	}
	said := map[*resolve.Recipe]bool{}
	for _, mk := range d.Makings {
		r := mk.M.Recipe
		if said[r] {
			continue
		}
		said[r] = true
		var without []*Job
		for _, j := range mk.Steps {
			if j.Assumed {
				without = append(without, j)
			}
		}
		if len(without) == 0 {
			continue
		}
		what := "a step of %s has no time"
		if len(without) > 1 {
			what = fmt.Sprintf("%d steps of %%s have no time", len(without))
		}
		q := d.diags.Askf("P101", without[0].Place, what, r.Name).
			Because("a plan needs one; 5 minutes are allowed for each, and printed with a question mark").
			WithHelp("write what you know: `| work 5 min`, `| leave about 40 min`, `| watch until brown, say 20 min`")
		for i, j := range without[1:] {
			if i == 4 {
				break
			}
			q.See(j.Place, "this one too")
		}
	}
	if menu := d.Meal.Menu; menu != nil && !d.Clock && len(menu.Hours) > 0 {
		d.diags.Hintf("P106", menu.Hours[0].Span, "these hours do not count, for the menu has no serving time").
			WithHelp("write `serve` with a date and a time in the menu")
	}
}

// sayLongStrand asks about what is done meanwhile and takes longer than the step
// it is done beside.
func (d *Draft) sayLongStrand(mk *Making, host *Job, strand []*Job) {
	if d.diags == nil || len(strand) == 0 {
		return
	}
	sum := 0
	for _, j := range strand {
		sum += j.Length
	}
	if sum <= host.Length {
		return
	}
	d.diags.Askf("P107", strand[len(strand)-1].Place, "what is done meanwhile takes %s, and step %d of %s lasts %s", timeline.SpanWords(sum), host.Step.Step.Index+1, mk.M.Recipe.Name, timeline.SpanWords(host.Length)).
		Because("the next step then waits for what was to be done beside it").
		See(host.Place, "the step it runs beside").
		WithHelp("let it begin earlier, or write it as a step of its own without `meanwhile`")
}

func (d *Draft) cannotCount(mk *Making, sp *resolve.Spell) {
	if d.diags == nil || sp.Span.IsZero() {
		return
	}
	each := "what it says"
	if n := sp.Each.Name.Text; n != "" {
		each = n
	}
	d.diags.Askf("P102", sp.Span, "%s: this time grows with %s, and how much of that there is cannot be told", mk.M.Recipe.Name, each).
		Because("the amount gathered and the amount after `per` must be of one kind: both weighed, both measured or both counted").
		WithHelp("say it by the amount that is gathered: `work 3 min per 200 g onion`")
}

// sayOutside asks about a weight that lies beyond those a time is written for.
func (d *Draft) sayOutside(mk *Making, sp *resolve.Spell, grams quantity.Number) {
	side := sp.Outside(grams)
	if d.diags == nil || side == 0 || sp.Span.IsZero() {
		return
	}
	end, than := sp.Points[0], "lighter than the lightest"
	how := "the time is in proportion to the first"
	if side > 0 {
		end, than = sp.Points[len(sp.Points)-1], "heavier than the heaviest"
		how = "the time goes on as between the last two"
	}
	_, most := sp.Minutes(quantity.Int(1), grams)
	d.diags.Askf("P112", sp.Span, "%s: this weighs %s, %s that a time is written for, %s", mk.M.Recipe.Name,
		quantity.Grams(grams).Print(quantity.Style{System: mk.M.Recipe.System}), than, end.Weight.String()).
		Because("%s, and comes to %s; what the heat has to go through does not grow as the weight does", how, timeline.SpanWords(wholeMinutes(most))).
		WithHelp("write a time for such a weight too, or the longest it may be: `at most 5 h`").
		WithHelp("of meat say what its middle must reach, and go by a thermometer: `core 75 C`")
}

// noLoad asks how much a load is, and says why that cannot be told.
func (d *Draft) noLoad(mk *Making, s *resolve.Step, why string) {
	if d.diags == nil {
		return
	}
	for _, sp := range s.Phases {
		if sp.Per != nil && sp.Each.Load && !sp.Span.IsZero() {
			d.diags.Askf("P111", sp.Span, "%s: how much is a load", mk.M.Recipe.Name).
				Because("%s, so it goes round once for each time the written size is made", why).
				WithHelp("say what it is done in: `in deep pan, holds 1 litre`").
				WithHelp("or into how many pieces it goes: `into 24 fritters`")
			return
		}
	}
}

// sayCounted hints at a count that a time goes by as a weight, or a weight as a
// count.
func (d *Draft) sayCounted(mk *Making, sp *resolve.Spell, line *resolve.Line, one quantity.Quantity, from string) {
	if d.diags == nil || sp.Span.IsZero() {
		return
	}
	d.diags.Hintf("P108", sp.Span, "%s: this time goes by %s, each counted as %s (%s)", mk.M.Recipe.Name, line.Name, one.Print(quantity.Style{System: mk.M.Recipe.System}), from).
		Because("the weight is the larder's, and yours may be heavier").
		WithHelp("say it as it is gathered, or write what one weighs in the larder: `%s | piece 120 g`", line.Name)
}

// tooFew reports a step that wants more than the kitchen has.
func (d *Draft) tooFew(j *Job, what string, want, have int) {
	if d.diags == nil {
		return
	}
	where := "this kitchen"
	if k := d.Meal.Kitchen; k != nil {
		where = k.Name
	}
	d.diags.Errorf("P104", j.Place, "%s wants %d %s, and %s has %d", j.Of(), want, what, where, have).
		WithHelp("let it go in turns, `| leave 20 min per load`, or plan it in a kitchen with more %s", what)
}

// nobody reports work that none of the cooks who may do it is there for; when
// no cook is there at all, once.
func (d *Draft) nobody(j *Job, by []string) {
	if d.diags == nil {
		return
	}
	if len(by) == 0 {
		if d.saidNobody {
			return
		}
		d.saidNobody = true
		d.diags.Errorf("P105", j.Place, "nobody is there for %s", j.Of()).
			WithHelp("give the cooks hours in the menu: `hours on the day, 09:00 to 14:00`")
		return
	}
	var names []string
	for _, key := range by {
		name := key
		for _, c := range d.Kit.Cooks {
			if c.Key == key {
				name = c.Name
			}
		}
		names = append(names, name)
	}
	d.diags.Errorf("P105", j.Place, "%s is for %s, who has no hours on this menu", j.Of(), strings.Join(names, " or ")).
		WithHelp("give %s hours: `hours on the day, 09:00 to 14:00, %s`", names[0], names[0])
}

// Of names a job for a message: "step 2 of Barley pilaf (Toast the barley)".
func (j *Job) Of() string {
	switch {
	case j.Step != nil:
		return fmt.Sprintf("step %d of %s (%s)", j.Step.Step.Index+1, j.Mk.M.Recipe.Name, j.Title)
	case j.Line != nil:
		return fmt.Sprintf("preparing %s for %s", j.Line.Line.Name, j.Mk.M.Recipe.Name)
	case j.Kind == timeline.TaskJob:
		return "the task " + j.Title
	case j.Wash != nil:
		return j.Wash.of()
	case j.Course != "":
		return "serving " + j.Course
	}
	return "serving"
}
