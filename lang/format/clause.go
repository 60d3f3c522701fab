package format

import (
	"strings"

	"tamis/lang/ast"
	"tamis/lang/parse"
	"tamis/lang/quantity"
)

// The two kinds of margin.
const (
	gathered = parse.OnLine
	step     = parse.OnStep
)

// margin writes clauses on one line, in their order.
func (p *printer) margin(place parse.Place, clauses []*ast.Clause) string {
	var b strings.Builder
	for i, c := range sortedClauses(place, clauses) {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString("| ")
		b.WriteString(p.clause(c))
	}
	return b.String()
}

func (p *printer) clause(c *ast.Clause) string {
	if c.Key == "bad" {
		return c.Span.Text()
	}
	text := p.plainClause(c)
	if c.Offered {
		text += " ?"
	}
	return text
}

func (p *printer) plainClause(c *ast.Clause) string {
	switch c.Key {
	case "work", "watch", "leave", "rest":
		return c.Key + " " + p.spell(c.Spell)
	case "stand", "thaw", "keeps":
		return c.Key + " " + c.Spell.Fixed.String() + ", " + c.Place
	case "oven":
		return p.oven(c)
	case "ring":
		if c.Count > 1 {
			return itoa(c.Count) + " rings " + c.Level
		}
		return "ring " + c.Level
	case "grill":
		return strings.TrimSpace("grill " + c.Level)
	case "fridge", "freezer", "room", "larder", "warm place":
		if c.Temp != nil {
			return c.Key + ", " + c.Temp.String()
		}
		return c.Key
	case "tool", "after", "if", "unless":
		return c.Key + " " + title(c.Name)
	case "in":
		text := "in " + title(c.Name)
		if c.Count > 0 {
			text = "in " + itoa(c.Count) + " " + title(c.Name)
		}
		if !c.Measure.IsZero() {
			text += ", holds " + p.measure(c.Measure)
		}
		return text
	case "into":
		text := "into " + itoa(c.Count) + " " + title(c.Name)
		if !c.Measure.IsZero() {
			text += ", " + p.measure(c.Measure) + " each"
		}
		return text
	case "core", "reach", "never above":
		text := c.Key + " " + c.Temp.String()
		if c.Spell != nil {
			text += " for " + c.Spell.Fixed.String()
		}
		return text
	case "uses", "makes", "draws":
		return p.takes(c)
	case "hold":
		text := "hold "
		if c.Level != "" {
			text += c.Level + " "
		}
		text += "up to " + c.Spell.Fixed.String()
		if c.Temp != nil {
			text += ", " + c.Bound + " " + c.Temp.String()
		}
		return text
	case "within":
		return "within " + c.Spell.Fixed.String()
	case "start", "done":
		return c.Key + " " + c.Spell.Fixed.String() + " before serving"
	case "by":
		return "by " + names(c.Names)
	case "with":
		if c.Count == 1 {
			return "with 1 cook"
		}
		return "with " + itoa(c.Count) + " cooks"
	case "caution", "plus extra", "left from":
		return strings.TrimSpace(c.Key + " " + c.Text.Text)
	case "drained", "bought as":
		return c.Key + " " + p.measure(c.Measure)
	case "made in part":
		return c.Key + " " + itoa(c.Count)
	}
	return c.Key
}

func (p *printer) spell(s *ast.Spell) string {
	if s.Until.Text != "" {
		say := *s.Fixed
		say.About = false
		return "until " + s.Until.Text + ", say " + say.String()
	}
	if s.Per == nil {
		text := s.Fixed.String()
		if s.Every != nil {
			text += " every " + s.Every.String()
		}
		return text
	}
	text := s.Per.String() + " per " + p.each(s.Each)
	if s.Fixed != nil {
		text = s.Fixed.String() + " plus " + text
	}
	return text
}

func (p *printer) each(e ast.Each) string {
	if e.Load {
		return "load"
	}
	text := ""
	if !e.Measure.IsZero() {
		text = p.measure(e.Measure)
		// A word that also counts is a unit before a name only.
		if u, ok := oneUnit(e.Measure); ok && (!e.Name.IsZero() || u.Dim == quantity.Mass || u.Dim == quantity.Volume || u.Dim == quantity.Length) {
			text = u.Name
		}
	}
	if e.Name.IsZero() {
		return text
	}
	return strings.TrimSpace(text + " " + title(e.Name))
}

func (p *printer) oven(c *ast.Clause) string {
	text := "oven "
	for i, h := range c.Heats {
		if i > 0 {
			text += " then "
		}
		switch {
		case h.Gas != "":
			text += "gas " + h.Gas
		case h.Word != "":
			text += h.Word
		default:
			if h.Fan {
				text += "fan "
			}
			text += h.Temp.String()
		}
		if h.For != nil {
			text += " for " + h.For.String()
		}
	}
	if !c.Name.IsZero() {
		text += ", in " + title(c.Name)
	}
	if c.Shelf != "" {
		text += ", " + c.Shelf + " shelf"
	}
	if c.Shelves > 0 {
		text += ", " + shelves(c.Shelves)
	}
	return text
}

func (p *printer) takes(c *ast.Clause) string {
	text := c.Key + " "
	switch {
	case c.Nothing:
		return text + "nothing"
	case c.Share != nil:
		text += share(c.Share) + " "
	case c.Amount != nil:
		text += c.Amount.Text(p.comma) + " "
	}
	return text + title(c.Name)
}

func share(s *ast.Share) string {
	switch {
	case s.Rest:
		return "the rest of the"
	case s.Some:
		return "some of the"
	}
	text := s.Fraction.String() + " of the"
	for name, n := range map[string]quantity.Number{"half": quantity.Frac(1, 2), "a third of": quantity.Frac(1, 3), "a quarter of": quantity.Frac(1, 4)} {
		if s.Fraction.Equal(n) {
			text = name + " the"
		}
	}
	if s.OfRest {
		text += " rest of the"
	}
	return text
}
