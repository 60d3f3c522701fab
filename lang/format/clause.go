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
func (p *printer) margin(place parse.Place, clauses []ast.Clause) string {
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

func (p *printer) clause(c ast.Clause) string {
	if _, ok := c.(*ast.Unread); ok {
		return c.Base().Span.Text()
	}
	text := p.plainClause(c)
	if c.Base().Offered {
		text += " ?"
	}
	return text
}

func (p *printer) plainClause(c ast.Clause) string {
	word := c.Base().Word
	switch c := c.(type) {
	case *ast.Timed:
		return word + " " + p.spell(&c.Spell)
	case *ast.Stay:
		return word + " " + c.Keep.Time.String() + ", " + c.Keep.Place
	case *ast.Heat:
		return p.oven(c)
	case *ast.Ring:
		if c.Count > 1 {
			return itoa(c.Count) + " rings " + c.Level
		}
		return strings.TrimSpace(word + " " + c.Level)
	case *ast.InPlace:
		if c.Temp != nil {
			return word + ", " + c.Temp.String()
		}
	case *ast.Named:
		return word + " " + title(c.Name)
	case *ast.InVessel:
		return p.vessel(c)
	case *ast.Degrees:
		text := word + " " + c.Temp.String()
		if c.For != nil {
			text += " for " + c.For.String()
		}
		return text
	case *ast.Taking:
		return p.takes(c)
	case *ast.Hold:
		text := word + " "
		if c.State != "" {
			text += c.State + " "
		}
		text += "up to " + c.UpTo.String()
		if c.Temp != nil {
			text += ", " + c.Bound + " " + c.Temp.String()
		}
		return text
	case *ast.Timing:
		text := word + " " + c.Time.String()
		if word != "within" {
			text += " before serving"
		}
		return text
	case *ast.Hands:
		switch {
		case word == "by":
			return word + " " + names(c.Cooks)
		case c.Count == 1:
			return word + " 1 cook"
		}
		return word + " " + itoa(c.Count) + " cooks"
	case *ast.Note:
		return strings.TrimSpace(word + " " + c.Text.Text)
	case *ast.Weighed:
		return word + " " + p.measure(c.Measure)
	case *ast.Buy:
		text := word + " " + p.measure(c.Measure)
		if !c.Name.IsZero() {
			text += " " + title(c.Name)
		}
		return text
	case *ast.From:
		return seller(c.Seller)
	case *ast.InPart:
		return word + " " + itoa(c.Part)
	}
	return word
}

func (p *printer) vessel(c *ast.InVessel) string {
	text := c.Word + " "
	if c.Count > 0 {
		text += itoa(c.Count) + " "
	}
	text += title(c.Name)
	switch {
	case c.Size.IsZero():
	case c.Word == "in":
		text += ", holds " + p.measure(c.Size)
		if !c.Piece.IsZero() {
			text += " " + title(c.Piece)
		}
	default:
		text += ", " + p.measure(c.Size) + " each"
	}
	return text
}

func (p *printer) spell(s *ast.Spell) string {
	if s.Until.Text != "" {
		say := *s.Fixed
		say.About = false
		return "until " + s.Until.Text + ", say " + say.String()
	}
	if len(s.Points) > 0 {
		var parts []string
		for i, pt := range s.Points {
			text := pt.Time.String() + " at " + p.measure(pt.Weight)
			if i == 0 && !s.Each.Name.IsZero() {
				text += " " + title(s.Each.Name)
			}
			parts = append(parts, text)
		}
		if s.AtMost != nil {
			parts = append(parts, "at most "+s.AtMost.String())
		}
		return strings.Join(parts, ", ")
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
	switch {
	case e.Largest:
		return text + " of the largest"
	case e.Name.IsZero():
		return text
	}
	return strings.TrimSpace(text + " " + title(e.Name))
}

func (p *printer) oven(c *ast.Heat) string {
	text := "oven "
	for i, h := range c.Phases {
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
	if !c.Oven.IsZero() {
		text += ", in " + title(c.Oven)
	}
	if c.Fan != "" {
		text += ", fan " + c.Fan
	}
	if c.Shut != nil {
		text += ", shut " + c.Shut.String()
	}
	if c.Shelf != "" {
		text += ", " + c.Shelf + " shelf"
	}
	if c.Shelves > 0 {
		text += ", " + shelves(c.Shelves)
	}
	return text
}

func (p *printer) takes(c *ast.Taking) string {
	text := c.Word + " "
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
