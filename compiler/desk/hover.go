package desk

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/check"
	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/figures"
	"tamis/compiler/hazard"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/parse"
	"tamis/lang/source"
)

// card is what a hover says: headed paragraphs and lists, in Markdown.
type card struct {
	parts []string
	at    source.Span
}

// plain keeps a writer's words from being read as Markdown, and hides nothing.
var plain = strings.NewReplacer(`\`, `\\`, "*", `\*`, "_", `\_`, "`", "\\`", "[", `\[`, "]", `\]`, "<", `\<`, "#", `\#`, "|", `\|`, "~", `\~`, "&", `\&`, "\n", " ")

func safe(text string) string { return plain.Replace(diag.Visible(text)) }

func (c *card) say(format string, args ...any) {
	for i, a := range args {
		if s, ok := a.(string); ok {
			args[i] = safe(s)
		}
	}
	c.parts = append(c.parts, fmt.Sprintf(format, args...))
}

func (c *card) list(lines []string) {
	if len(lines) == 0 {
		return
	}
	for i := range lines {
		lines[i] = "- " + safe(lines[i])
	}
	c.parts = append(c.parts, strings.Join(lines, "\n"))
}

func (c *card) String() string { return strings.Join(c.parts, "\n\n") }

// hover says what stands at a place: a thing, a sentence, a word of the notation;
// and, where a finding has a source, who says so.
func (s *server) hover(raw json.RawMessage) (any, error) {
	sh, offset, err := s.asked(raw)
	if err != nil {
		return nil, err
	}
	c := sh.card(offset)
	if len(c.parts) == 0 {
		return nil, nil
	}
	return hover{markup{"markdown", c.String()}, rangeOf(c.at)}, nil
}

// card is what is said of a place.
func (sh *sheet) card(offset int) *card {
	c := &card{}
	if m, ok := sh.room.names().at(sh.text, offset); ok {
		c.at = m.at
		sh.thing(c, m, offset)
	}
	if st := sh.stepAt(offset); st != nil && len(c.parts) == 0 {
		sh.step(c, st)
	} else if st != nil {
		sh.take(c, st)
	}
	if len(c.parts) == 0 {
		sh.word(c, offset)
	}
	sh.sources(c, offset)
	return c
}

// word explains a word of the notation, from the one table of words; one that joins
// the parts of a line or a clause by what begins it.
func (sh *sheet) word(c *card, offset int) {
	text := sh.text.Text
	from, to := offset, offset
	for from > 0 && isLetter(text[from-1]) {
		from--
	}
	for to < len(text) && isLetter(text[to]) {
		to++
	}
	joins := slices.ContainsFunc(parse.Joining(), func(j string) bool {
		return slices.Contains(strings.Fields(j), strings.ToLower(text[from:to]))
	})
	for _, m := range slices.Backward(sh.file.Outline().Marks) {
		if m.Word == nil || m.Span.Start > offset {
			continue
		}
		if between := text[m.Span.End:max(m.Span.End, offset)]; between == "" || joins && !strings.ContainsAny(between, "|\n") {
			c.at = sh.text.Span(from, to)
			if between == "" {
				c.at = m.Span
			}
			c.say("**%s**: %s.", m.Word.Text, m.Word.Help)
			c.parts = append(c.parts, "`"+m.Word.Form+"`")
		}
		return
	}
}

func isLetter(c byte) bool { return 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || c == '-' }

// sources are who says what a finding at a place says.
func (sh *sheet) sources(c *card, offset int) {
	var told []string
	for _, d := range sh.result.Diags.Sorted() {
		if d.At.Span.File != sh.text || offset < d.At.Span.Start || offset > d.At.Span.End || slices.Contains(told, d.Code) {
			continue
		}
		rule := check.Find(d.Code)
		if rule == nil || len(rule.Sources) == 0 {
			continue
		}
		told = append(told, d.Code)
		if c.at.IsZero() {
			c.at = d.At.Span
		}
		c.say("%s: %s Source: %s.", d.Code, rule.Title, strings.TrimSuffix(strings.Join(rule.Sources, "; "), "."))
	}
}

// thing says what is named: a base or a dish, a by-product, a gathered line, a kitchen.
func (sh *sheet) thing(c *card, m mention, offset int) {
	switch t := m.of; {
	case t.recipe != nil:
		sh.recipe(c, t.recipe)
	case t.product != nil:
		c.say("**%s**: made in %s.", t.product.Name, t.product.Recipe.Name)
		sh.supply(c, t.product.Recipe, t.product)
	case t.kitchen != nil:
		c.say("**kitchen %s**: cooks %s; %d ovens, %d rings.", t.kitchen.Name, strings.Join(t.kitchen.Cooks, ", "), len(t.kitchen.Ovens), t.kitchen.Rings)
	}
	if l := sh.lineAt(m.at, offset); l != nil {
		sh.gathered(c, l)
	}
}

// lineAt is the gathered line that is named at a place, there or in a sentence.
func (sh *sheet) lineAt(at source.Span, offset int) *resolve.Line {
	for _, r := range sh.result.Model.Recipes {
		if r.Span.File != at.File || offset < r.Span.Start || offset > r.Span.End {
			continue
		}
		for _, l := range r.Lines {
			if l.NameAt.File == at.File && l.NameAt.Start <= at.Start && at.End <= l.NameAt.End {
				return l
			}
		}
		for _, rd := range r.Readings {
			for _, sr := range rd.Steps {
				for _, t := range sr.Takes {
					if t.Line != nil && unquoted(t.NameAt) == at {
						return t.Line
					}
				}
			}
		}
	}
	return nil
}

func (sh *sheet) recipe(c *card, r *resolve.Recipe) {
	kind := "dish"
	if r.Base {
		kind = "base"
	}
	c.say("**%s %s**", kind, r.Name)
	switch {
	case r.Makes != nil && r.Own.Yield != nil:
		c.say("Makes %s as it is written.", strings.TrimSpace(r.Own.Yield.String()+" "+r.Makes.What))
	case r.Serves != nil:
		c.say("Serves %s as it is written.", r.Serves.String())
	}
	for _, m := range sh.makings(r) {
		if m.Serving != nil && m.Portions.Sign() > 0 {
			c.say("%s: for %s.", m.meal.Title, m.Portions.String())
		}
	}
	sh.supply(c, r, nil)
}

// supply says how much is made of a recipe or a by-product in each meal, and who
// draws on it.
func (sh *sheet) supply(c *card, r *resolve.Recipe, p *resolve.Product) {
	for _, meal := range sh.result.Meals {
		if meal.Menu == nil && len(meal.Makings) > 0 && meal.Makings[len(meal.Makings)-1].Recipe != r && meal.Makings[0].Recipe != r {
			continue
		}
		set := figures.Of(meal, figures.Options{})
		for _, of := range meal.Supplies {
			if of.Making.Recipe != r || of.Product != p || len(of.Draws) == 0 {
				continue
			}
			f := set.Supply(of)
			c.say("For %s, %s is made, of which", meal.Title, f.Made.String())
			var draws []string
			for _, d := range of.Draws {
				draws = append(draws, fmt.Sprintf("%s goes into %s", set.Line(d.By).String(), d.By.Making.Recipe.Name))
			}
			c.list(draws)
		}
	}
	if p == nil {
		sh.drawn(c, r)
	}
}

// drawn names the recipes that draw on a base, whatever is cooked of them.
func (sh *sheet) drawn(c *card, r *resolve.Recipe) {
	var by []string
	for _, o := range sh.result.Model.Recipes {
		for _, l := range o.Lines {
			if l.From == r {
				by = append(by, strings.TrimSpace(o.Name+": "+l.AmountText))
			}
		}
	}
	if len(by) > 0 {
		c.say("As they are written, these draw on it:")
		c.list(by)
	}
}

// making is a recipe as it is made for a meal, at another size than it is written for.
type making struct {
	*demand.Making
	meal *demand.Meal
	set  *figures.Set
}

// makings are how a recipe is made for the menus that serve it.
func (sh *sheet) makings(r *resolve.Recipe) (out []making) {
	for _, meal := range sh.result.Meals {
		if meal.Menu == nil {
			continue
		}
		set := figures.Of(meal, figures.Options{})
		for _, m := range meal.Makings {
			if m.Recipe == r {
				out = append(out, making{m, meal, set})
			}
		}
	}
	return out
}

// gathered says how much of a gathered line is wanted.
func (sh *sheet) gathered(c *card, l *resolve.Line) {
	if l.AmountText != "" {
		c.say("**%s %s** in %s", l.AmountText, l.Name, l.Recipe.Name)
	} else if l.From == nil && l.Product == nil {
		c.say("**%s** in %s", l.Name, l.Recipe.Name)
	}
	for _, m := range sh.makings(l.Recipe) {
		if a := m.Of(l); a != nil && a.Quantity != nil {
			c.say("%s: %s", m.meal.Title, m.set.Line(a).String())
		}
	}
	for _, w := range l.Cautions {
		c.say("Caution: %s", w.Text)
	}
}

// stepAt is the step in whose sentence or margin a place stands.
func (sh *sheet) stepAt(offset int) *resolve.Step {
	for _, r := range sh.result.Model.Recipes {
		if r.Span.File != sh.text || offset < r.Span.Start || offset > r.Span.End {
			continue
		}
		for _, s := range r.Steps {
			if s.Span.File != sh.text {
				continue
			}
			if r.Reading != nil && slices.ContainsFunc(s.Lines, func(l resolve.Text) bool { return l.Span.Start <= offset && offset <= l.Span.End }) {
				return s
			}
		}
	}
	return nil
}

// step says what a sentence takes, and when it is done.
func (sh *sheet) step(c *card, s *resolve.Step) {
	sr := s.Recipe.Reading.Of(s)
	if sr == nil {
		return
	}
	c.at = s.Lines[0].Span
	c.say("Step %d of %s", s.Index+1, s.Recipe.Name)
	c.list(sr.Lines())
	for _, m := range sh.makings(s.Recipe) {
		own := m.Reading.Of(s)
		if own == nil || m.Factor.String() == "1" {
			continue
		}
		var takes []string
		for i := range own.Takes {
			t := &own.Takes[i]
			if f := m.set.Take(m.Making, t); f.Text != "" && t.Line != nil {
				takes = append(takes, f.String()+" "+t.Line.Name)
			}
		}
		if len(takes) > 0 {
			c.say("For %s:", m.meal.Title)
			c.list(takes)
		}
	}
	for _, o := range s.Recipe.Offers {
		if len(o.Steps) > 0 && o.Steps[0].Span == s.Span && o.Margin != "" {
			c.say("Read from the sentence, and not confirmed: %s", o.Margin)
		}
	}
	for _, h := range sh.clock(s) {
		c.say("%s", h.String())
	}
	sh.cautions(c, s)
}

// cautions are those that the sheets print beside the step, with who says so.
func (sh *sheet) cautions(c *card, s *resolve.Step) {
	for _, w := range hazard.NewTracer().Recipe(s.Recipe).Beside(s, 1) {
		c.say("Caution: %s Source: %s.", diag.Sentence(w.Text), strings.TrimSuffix(w.Source, "."))
	}
}

// take says what the sentence takes in which a thing is named.
func (sh *sheet) take(c *card, s *resolve.Step) {
	if sr := s.Recipe.Reading.Of(s); sr != nil {
		c.say("This sentence")
		c.list(sr.Lines())
	}
	for _, h := range sh.clock(s) {
		c.say("%s", h.String())
	}
	sh.cautions(c, s)
}

// hour is when the plan of a meal has a step.
type hour struct{ meal, when string }

func (h hour) String() string { return h.meal + ": " + h.when }

// clock is when the plan has a step, meal by meal.
func (sh *sheet) clock(s *resolve.Step) (out []hour) {
	plan := sh.room.schedule()
	if plan == nil {
		return nil
	}
	for i, meal := range plan.Meals {
		t := plan.Timelines[i]
		if t == nil {
			continue
		}
		l := events.Of(t)
		for _, m := range meal.Makings {
			if m.Recipe.NameAt != s.Recipe.NameAt {
				continue
			}
			for _, sr := range m.Reading.Steps {
				if e := l.First(m, sr.Step); e != nil && sr.Step.Span == s.Span {
					out = append(out, hour{meal.Title, l.ClockFrom(l.Zero, e.At) + " to " + l.ClockFrom(e.At, e.End)})
					break
				}
			}
		}
	}
	return out
}
