package check

import (
	"slices"
	"strings"
	"time"

	"tamis/compiler/larder"

	"tamis/compiler/demand"
	"tamis/compiler/hazard"
	"tamis/compiler/practice"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// plate is one recipe in one reading, followed through its method, with the
// practice it is cooked by.
type plate struct {
	*hazard.Trace
	recipe *resolve.Recipe
	choice practice.Choice
	making *demand.Making     // nil: by itself
	line   *timeline.Timeline // nil: no plan
	meal   *demand.Meal       // nil: by itself
	eats   *hazard.Eaters
}

// dishes are the recipes to look at: those of every menu, as it makes them, and
// those asked for that no menu makes, by themselves.
func (p *Pass) dishes() []*plate { return p.plates() }

// frailFirst are the same, those for the frail before the others: what is said once of
// a place is said as gravely as any of its eaters asks.
func (p *Pass) frailFirst() []*plate {
	plates := slices.Clone(p.dishes())
	slices.SortStableFunc(plates, func(a, b *plate) int {
		switch af, bf := a.who().Frail, b.who().Frail; {
		case af == bf:
			return 0
		case af:
			return -1
		}
		return 1
	})
	return plates
}

func (p *Pass) followed(tracer *hazard.Tracer) (plates []*plate) {
	for i, meal := range p.Meals {
		if meal.Menu == nil {
			continue
		}
		choice := practice.OfMeal(p.Model.Books, meal)
		var line *timeline.Timeline
		if i < len(p.Timelines) {
			line = p.Timelines[i]
		}
		for _, m := range meal.Makings {
			plates = append(plates, &plate{Trace: tracer.Reading(m.Reading), recipe: m.Recipe, choice: choice, making: m, line: line, meal: meal})
		}
	}
	for _, r := range p.Recipes() {
		if !p.shared.made[r] && r.Reading != nil {
			plates = append(plates, &plate{Trace: tracer.Recipe(r), recipe: r, choice: practice.OfRecipe(p.Model.Books, r)})
		}
	}
	return plates
}

// once keeps a rule from saying the same twice of one place, when several menus
// make the same dish.
type once map[source.Span]bool

func (o once) again(at source.Span) bool {
	if o[at] {
		return true
	}
	o[at] = true
	return false
}

// cite says whose figure a finding compares with, how it was seen, whether it is
// contested, and who comes before it.
func (p *Pass) cite(d *diag.Diagnostic, r practice.Ruling, l *practice.Limit) *diag.Diagnostic {
	mind := l.Mind()
	if mind != "" {
		mind += ". "
	}
	return d.Because("%s %s: %s. %s%s", p.rule.Why, larder.Capital(r.Whose(l)), l.Credit(), mind, comeFirst)
}

// common is cite for what no figure stands behind.
func (p *Pass) common(d *diag.Diagnostic) *diag.Diagnostic {
	return d.Because("%s This is common practice, no source. %s", p.rule.Why, comeFirst)
}

// advised is cite for the advice of somebody, with how it was seen.
func (p *Pass) advised(d *diag.Diagnostic, source string) *diag.Diagnostic {
	if source == noSource {
		return p.common(d)
	}
	return d.Because("%s This is advice of %s. %s", p.rule.Why, source, comeFirst)
}

const (
	comeFirst = "Local rules and qualified people come first."
	noSource  = "common practice, no source"
)

// softer is the severity of a finding where the chosen practice has no figure
// of its own that was seen: only a hint, since another country's limit is no law.
func softer(s diag.Severity, r practice.Ruling) diag.Severity {
	if r.Basis == practice.NoneSeen {
		return diag.Hint
	}
	return s
}

// heatAt is the place of what heats a step: its clause, else its first line.
func heatAt(st *hazard.Stage) source.Span {
	if c := st.Clause(resolve.WordOven, resolve.WordRing, resolve.WordGrill); c != nil {
		return c.Where()
	}
	return wordsAt(st.Step)
}

// wordsAt is the first line of a step's sentence.
func wordsAt(s *resolve.Step) source.Span {
	if len(s.Lines) > 0 {
		return s.Lines[0].Span
	}
	return s.Prose.Span
}

// saidAt is the place of the first of some words in a step, else of its sentence. Of
// words that run on into the next line it is the part in the first.
func saidAt(s *resolve.Step, words ...string) source.Span {
	for n, l := range s.Lines {
		low := strings.ToLower(l.Text)
		if len(low) != len(l.Text) {
			continue
		}
		whole := low
		if n+1 < len(s.Lines) {
			whole += " " + strings.ToLower(s.Lines[n+1].Text)
		}
		for _, w := range words {
			if i := strings.Index(whole, w); w != "" && i >= 0 && i < len(low) {
				return source.Span{File: l.Span.File, Start: l.Span.Start + i, End: l.Span.Start + min(i+len(w), len(low))}
			}
		}
	}
	return wordsAt(s)
}

// stay is a time that food spends in a place: a pause, a stand, a `keeps`.
type stay struct {
	at    source.Span
	pot   hazard.Pot
	place string
	time  time.Duration
	n     int  // the number of the stage it begins after, or in
	keeps bool // it may be so long: nobody says that it is
	what  string
	said  string // how long, where only words say it: "for weeks"
}

// long is how long it is, in print.
func (s stay) long() string {
	if s.said != "" {
		return s.said
	}
	return "for " + lengthOf(s.time)
}

// stays are all times of a recipe in which food waits in a place.
func (d *plate) stays() (out []stay) {
	for _, b := range d.Breaks {
		out = append(out, stay{at: b.Pause.Span, pot: b.Pot, place: b.Pause.Place, time: b.Pause.UpTo, n: b.N, what: "pause"})
	}
	for _, st := range d.Stages {
		for _, c := range st.Step.Margin {
			switch c := c.(type) {
			case *resolve.Spell:
				if c.Word != resolve.WordStand {
					continue
				}
				pot := st.Before
				if st.Cools || st.Heats {
					pot = st.After
				}
				out = append(out, stay{at: c.Span, pot: pot, place: c.Place, time: longestOf(c.Fixed), n: st.N, what: "stand"})
			case *resolve.Keeping:
				out = append(out, stay{at: c.Span, pot: st.After, place: c.Keep.Place, time: longestOf(&c.Keep.Time), n: st.N, keeps: true, what: "keeps"})
			}
		}
	}
	if at, k := d.recipe.Own.Keeps, d.recipe.Keeps; !at.IsZero() && len(d.Stages) > 0 {
		out = append(out, stay{at: at, pot: d.End, place: k.Place, time: longestOf(&k.Time), n: len(d.Stages), keeps: true, what: "keeps"})
	}
	for _, st := range d.Stages { // what only a sentence keeps somewhere
		if s, ok := d.saidStay(st); ok {
			out = append(out, stay{at: saidAt(st.Step, s.Words), pot: st.After, place: s.Place, time: s.Time, n: st.N, what: "said", said: s.Long})
		}
	}
	return out
}

// saidStay is the stay that the sentence of a step speaks of and none of its clauses.
func (d *plate) saidStay(st *hazard.Stage) (hazard.SaidStay, bool) {
	if st.Step.Place != "" || st.Chills || st.Cools || cures(st) || st.Has(resolve.WordStand, resolve.WordRest, resolve.WordLeave, resolve.WordThaw, resolve.WordKeeps, resolve.WordHold) && !st.Heats || st.Has(resolve.WordStand, resolve.WordThaw, resolve.WordKeeps, resolve.WordHold) {
		return hazard.SaidStay{}, false
	}
	return st.SaidStay()
}

// longestOf is the longest that a time allows; 0 where there is none.
func longestOf(t *quantity.Span) time.Duration {
	if t == nil {
		return 0
	}
	return max(t.High, t.UpTo)
}

// coreTime is how long a `core` is to last.
func coreTime(c *resolve.Target) time.Duration {
	if c.For == nil {
		return 0
	}
	return c.For.Low
}

// foods prints up to three names: "the chicken", "the eggs and the cream".
func foods(items []*hazard.Item) string {
	var out []string
	for _, i := range items {
		if n := "the " + i.Line.Name; !slices.Contains(out, n) {
			out = append(out, n)
		}
	}
	if len(out) > 3 {
		return "the food"
	}
	if len(out) < 2 {
		return strings.Join(out, "")
	}
	return strings.Join(out[:len(out)-1], ", ") + " and " + out[len(out)-1]
}

// coreText is a limit as a `core` clause has it: "70 C for 2 min".
func coreText(r practice.Ruling, l *practice.Limit) string {
	if l.Stays() < time.Minute {
		return r.Clause(l)
	}
	return r.Clause(l) + " for " + lengthOf(l.Stays())
}

type span = source.Span

const (
	halfHour = 30 * time.Minute
	halfDay  = 12 * time.Hour
)

// theFood names what waits by the first thing in it that germs like.
func theFood(s stay) string {
	if s.keeps {
		return "this"
	}
	for _, i := range s.pot.Items {
		if i.Strong && i.Heated {
			return "the " + i.Line.Name
		}
	}
	return "what was cooked"
}

// plainFat tells whether a stay is of fat or oil that was lifted out.
func plainFat(s stay, d *plate) bool {
	if s.what != "keeps" {
		return false
	}
	for _, st := range d.Stages {
		for _, m := range st.Step.Makes {
			if c := st.Clause(resolve.WordKeeps); m.Made.Span.Start < s.at.Start && hazard.IsFat(m.Name) && c != nil && c.Where() == s.at {
				return true
			}
		}
	}
	return false
}

// lengthOf is a length of time in print: "90 min", "3 days".
func lengthOf(d time.Duration) string { return quantity.TimeText(d) }
