package build

import (
	"fmt"

	"tamis/compiler/demand"
	"tamis/compiler/sheets"
	"tamis/lang/quantity"
)

// figures lists every amount of the meal.
func (b *builder) figures() (out []sheets.Figure) {
	for _, m := range b.inOrder() {
		for _, a := range m.Lines {
			if a.Quantity == nil {
				continue
			}
			f := figure("line", *a.Quantity, b.showLine(a))
			f.Sheet, f.Recipe, f.Thing, f.How = b.links[m], m.Recipe.Name, b.nameOf(a), a.How
			if a.Source != nil {
				f.Source = a.Source.Recipe.Name
			}
			out = append(out, f)
		}
	}
	for _, s := range b.meal.Supplies {
		of := b.fig.Supply(s)
		for _, part := range []struct {
			of   string
			q    quantity.Quantity
			text string
		}{{"made", s.Made, of.Made.Text}, {"drawn", s.Drawn, of.Drawn.Text}, {"left", s.Left, of.Left.Text}} {
			if part.q.IsZero() && part.of != "left" {
				continue
			}
			f := figure(part.of, part.q, part.text)
			f.Sheet, f.Recipe, f.Thing = b.links[s.Making], s.Making.Recipe.Name, s.Name
			if part.of == "drawn" {
				f.How = draws(b, s)
			}
			out = append(out, f)
		}
	}
	for _, it := range b.buying().Items {
		for i, q := range it.Buy {
			text := it.Print()
			if it.Packs != nil {
				text = it.Needed()
			}
			f := figure("buy", q, b.dash(text))
			f.Thing = it.Name
			for _, u := range it.Uses {
				f.How = append(f.How, fmt.Sprintf("%s for %s", orSome(b.showLine(u.Amount)), u.Amount.Making.Recipe.Name))
			}
			for _, how := range it.How {
				f.How = append(f.How, how.Text)
			}
			if i > 0 {
				f.How = append(f.How, "measured in a way that cannot be added to the above")
			}
			out = append(out, f)
		}
	}
	return out
}

func draws(b *builder, s *demand.Supply) (out []string) {
	for i, d := range s.Draws {
		out = append(out, fmt.Sprintf("%s for %s", b.fig.Supply(s).Draws[i].Text, d.By.Making.Recipe.Name))
	}
	return out
}

func orSome(s string) string {
	if s == "" {
		return "some"
	}
	return s
}

func figure(of string, q quantity.Quantity, printed string) sheets.Figure {
	f := sheets.Figure{Of: of, Exact: q.Value.Low.String(), Printed: printed}
	if q.Value.IsRange() {
		f.High = q.Value.High.String()
	}
	switch q.Dim {
	case quantity.Mass:
		f.Unit = "g"
	case quantity.Volume:
		f.Unit = "ml"
	case quantity.Length:
		f.Unit = "mm"
	default:
		if q.Unit != nil {
			f.Unit = q.Unit.Name
		}
	}
	return f
}
