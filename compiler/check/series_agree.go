package check

import (
	"math"
	"regexp"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// partsAgree asks about amounts and states that are one thing in one part of a series and
// another in the next.
var partsAgree = &Rule{
	Code: "M116", Title: "Parts of a series that do not agree.", Family: Menu, Severity: diag.Question,
	What: "What a part makes and what a later one takes of it do not fit: it is measured in another way, its amount is not said, it was frozen and nobody thaws it; " +
		"or the words of a part give an amount that its recipes have not, or another place to keep it; or copies stand ready of what is not shown.",
	Why:     "Who cooks along, or films two parts on two days, has something else on the table than the page says.",
	Fix:     "Say the same in both parts: one measure, one amount, one state.",
	Bad:     strings.Replace(lessons("part 1 Broth", "part 2 Soup", "made in part 1"), "800 ml   root broth", "3        root broth", 1),
	At:      "29:5",
	Good:    lessons("part 1 Broth", "part 2 Soup", "made in part 1"),
	Sources: []string{"common practice, no source"},
	After:   Demanded,
	Whole:   true,
	Check: func(p *Pass) {
		for _, s := range p.Series {
			said := once{}
			for _, part := range s.Parts {
				for _, m := range part.Meal.Makings {
					p.carriedAgree(s, part, m, said)
				}
				p.copiesShown(part)
			}
			if s.Home != nil {
				for _, part := range s.Home.Parts {
					p.wordsAgree(s.Home, part)
					p.placesAgree(s.Home, part)
				}
			}
		}
	},
}

// carriedAgree compares the lines of a part that an earlier one made with what that made.
func (p *Pass) carriedAgree(s *demand.Series, part *demand.Part, m *demand.Making, said once) {
	for _, a := range m.Lines {
		l := a.Line
		from := partNumbered(s, l.InPart)
		if l.InPart == 0 || from == nil || from.Of.Number >= part.Of.Number || !makesThing(from, l) || said.again(l.Span) {
			continue
		}
		var carry *demand.Carry
		for _, c := range s.Carries {
			if c.From == from && c.By != nil && c.By.Line == l {
				carry = c
			}
		}
		made, gives := makerOf(from, l)
		switch {
		case carry == nil && a.Quantity == nil && l.Share == nil:
			p.Report(l.Span, "part %d takes %s of part %d, and does not say how much", part.Of.Number, l.Name, l.InPart).
				See(made.NameAt, "made here").
				WithHelp("write an amount before the name: in part %d nobody knows how much to keep", l.InPart)
		case carry == nil && a.Quantity != nil && gives != "":
			p.Report(l.Span, "part %d takes %s of %s, and part %d makes it as %s", part.Of.Number, l.AmountText, l.Name, l.InPart, gives).
				See(made.NameAt, "made here").
				WithHelp("measure it in one way in both parts, or say what it weighs: `%s | weighs 1 g per ml` in the larder", l.Name)
		case carry != nil && carry.Keeps != nil && carry.Keeps.Place == "freezer" && !thawed(m, l):
			p.Report(l.Span, "%s of part %d was frozen, and nothing in %s thaws it", l.Name, l.InPart, m.Recipe.Name).
				See(made.NameAt, "it keeps %s, freezer", carry.Keeps.Time.String()).
				WithHelp("write a step that thaws it: `thaw 12 h, fridge`, or say that it goes in frozen")
		}
	}
}

// makerOf is the recipe of a part that makes what a line names, and how much it makes.
func makerOf(from *demand.Part, l *resolve.Line) (*resolve.Recipe, string) {
	key := l.Key
	if i := strings.LastIndexByte(l.Name, '/'); i >= 0 {
		key = larder.Fold(l.Name[i+1:])
	}
	for _, m := range from.Meal.Makings {
		if m.StandIn != nil {
			continue
		}
		if m.Recipe.Key == key {
			if y := m.Recipe.Gives(); y != nil {
				return m.Recipe, m.Recipe.Say(y.Quantity)
			}
			return m.Recipe, ""
		}
		for _, pr := range m.Recipe.Products {
			if pr.Key == key && pr.Quantity != nil {
				return m.Recipe, pr.Say(*pr.Quantity)
			}
		}
	}
	return l.Recipe, ""
}

// thawed tells whether a recipe speaks of what is frozen, or has the line thaw on the fire.
func thawed(m *demand.Making, l *resolve.Line) bool {
	for _, sr := range m.Reading.Steps {
		if s := sr.Step; sr.TakesOf(l) && (s.Rings > 0 || len(s.Heats) > 0 || s.Grill) {
			return true
		}
	}
	for _, s := range m.Recipe.Steps {
		for _, line := range s.Lines {
			low := strings.ToLower(line.Text)
			for _, w := range []string{"thaw", "froz", "freez", "defrost"} {
				if strings.Contains(low, w) {
					return true
				}
			}
		}
		for _, c := range s.Margin {
			if sp, ok := c.(*resolve.Spell); ok && sp.Word == resolve.WordThaw {
				return true
			}
		}
	}
	return false
}

// copiesShown asks about copies of what a part does not show.
func (p *Pass) copiesShown(part *demand.Part) {
	for _, in := range part.Of.StandIns {
		shown := false
		for _, m := range part.Shown {
			shown = shown || m.Recipe == in.Recipe
		}
		if !shown {
			p.Report(in.Span, "copies of %s stand ready in part %d, which does not show it", in.Recipe.Name, part.Of.Number).
				See(in.Recipe.NameAt, "the recipe").
				WithHelp("write `shows %s` in the part, or move the copies to the part that does", in.Recipe.Name)
		}
	}
}

// placesAgree asks where the words of a part have something in the fridge that is kept in the
// freezer, or the other way round.
func (p *Pass) placesAgree(s *demand.Series, part *demand.Part) {
	about := part.Of.Notes.About
	asked := once{}
	for _, c := range s.Carries {
		if c.From != part && c.To != part || c.Keeps == nil || placeWords[c.Keeps.Place] == nil {
			continue
		}
		for from := 0; from < len(about.Text); {
			to := len(about.Text)
			if i := sentenceEnd.FindStringIndex(about.Text[from:]); i != nil {
				to = from + i[1]
			}
			sentence := about.Text[from:to]
			for place, said := range placeWords {
				if place == c.Keeps.Place || placeWords[c.Keeps.Place].MatchString(sentence) || !said.MatchString(sentence) || passes(c, said) {
					continue
				}
				if at, ok := standsAt(sentence, c.Name()); ok {
					span := partOf(about, from+at, min(from+at+len(c.Name()), len(about.Text)))
					if asked.again(span) {
						continue
					}
					p.Report(span, "the words of part %d have %s in the %s, and it keeps %s, %s", part.Of.Number, c.Name(), place, c.Keeps.Time.String(), c.Keeps.Place).
						See(c.Making.Recipe.NameAt, "made here").
						WithHelp("say where it is kept, or keep it there: %s", c.Keeps.Place)
				}
			}
			from = to
		}
	}
}

var (
	sentenceEnd = regexp.MustCompile(`[.;:!?]\s`)
	placeWords  = map[string]*regexp.Regexp{ // of the places that are most easily taken for one another
		"fridge":  regexp.MustCompile(`(?i)\b(?:fridge|refrigerator|refrigerated?)\b`),
		"freezer": regexp.MustCompile(`(?i)\b(?:freezer|freezes?|frozen?|freezing)\b`),
	}
)

// passes tells whether something goes through a place on its way: a recipe that makes it or
// takes it speaks of that.
func passes(c *demand.Carry, place *regexp.Regexp) bool {
	says := func(r *resolve.Recipe) bool {
		return r.Span.File != nil && place.MatchString(r.Span.File.Text[r.Span.Start:r.Span.End])
	}
	return says(c.Making.Recipe) || c.By != nil && says(c.By.Making.Recipe)
}

// standsAt is where a name stands in a sentence, word by word.
func standsAt(sentence, name string) (at int, ok bool) {
	for i := range sentence {
		if (i == 0 || sentence[i-1] == ' ') && begins(strings.ToLower(sentence[i:]), strings.ToLower(name)) {
			return i, true
		}
	}
	return 0, false
}

// wordsAgree compares amounts in the words of a part to those who watch with what its recipes
// have at their written size, and with what goes from part to part.
func (p *Pass) wordsAgree(s *demand.Series, part *demand.Part) {
	about := part.Of.Notes.About
	for _, f := range figuresIn(about.Text) {
		if !f.measured {
			continue
		}
		var other *resolve.Line
		agrees := false
		for _, m := range part.Shown {
			l, same := lineMeant(m.Recipe, about.Text, f)
			agrees = agrees || same
			if l != nil && !same && other == nil {
				other = l
			}
		}
		if agrees || p.carriedSo(s, part, about.Text, f) {
			continue
		}
		if other == nil {
			p.yieldAgrees(part, f)
			continue
		}
		p.Report(partOf(about, f.from, f.to), "the words of part %d say %s of %s, and %s has %s", part.Of.Number, about.Text[f.from:f.to], other.Name, other.Recipe.Name, other.AmountText).
			See(other.Span, "gathered here").
			WithHelp("write the amount that the recipe has")
	}
}

// yieldAgrees compares an amount in the words of a part with what is made there of that name. A
// pound or a pint is as good as the grams or millilitres that are nearest to it.
func (p *Pass) yieldAgrees(part *demand.Part, f wordFigure) {
	about := part.Of.Notes.About
	for _, m := range part.Shown {
		y := m.Recipe.Gives()
		a, n, _ := quantity.ReadAmount(about.Text[f.from:], quantity.Options{System: m.Recipe.System})
		if y == nil || n == 0 || !begins(strings.TrimPrefix(strings.ToLower(strings.TrimSpace(about.Text[f.from+n:])), "of "), strings.ToLower(m.Recipe.Name)) {
			continue
		}
		q, problem := a.Measure.Quantity(m.Recipe.System)
		if problem != nil || q.Dim != y.Quantity.Dim || near(q.Value.High, y.Quantity.Value.Low) || near(q.Value.High, y.Quantity.Value.High) {
			continue
		}
		p.Report(partOf(about, f.from, f.to), "the words of part %d say %s of %s, and it makes %s", part.Of.Number, about.Text[f.from:f.to], m.Recipe.Name, m.Recipe.Say(y.Quantity)).
			See(m.Recipe.NameAt, "the recipe").
			WithHelp("write the amount that the recipe makes")
	}
}

// near tells whether two amounts are one within a thirtieth.
func near(x, y quantity.Number) bool {
	return math.Abs(x.Float()-y.Float())*30 <= math.Abs(y.Float())
}

// carriedSo tells whether so much goes from part to part, or is made.
func (p *Pass) carriedSo(s *demand.Series, part *demand.Part, text string, f wordFigure) bool {
	for _, m := range part.Shown {
		a, n, _ := quantity.ReadAmount(text[f.from:], quantity.Options{System: m.Recipe.System})
		if n == 0 {
			continue
		}
		q, problem := a.Measure.Quantity(m.Recipe.System)
		if problem != nil {
			continue
		}
		same := func(o quantity.Quantity) bool { return o.Dim == q.Dim && o.Value.High.Equal(q.Value.High) }
		for _, c := range s.Carries {
			if (c.From == part || c.To == part) && c.Amount != nil && same(*c.Amount) {
				return true
			}
		}
		if y := m.Recipe.Gives(); y != nil && same(y.Quantity) {
			return true
		}
	}
	return false
}
