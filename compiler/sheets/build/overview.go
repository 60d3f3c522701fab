package build

import (
	"fmt"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/events"
	"tamis/compiler/figures"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
)

// overview is the meal at a glance: courses with their dishes, the shared
// bases with who draws on them, and a list of the sheets.
func (b *builder) overview() *sheets.Sheet {
	s := &sheets.Sheet{ID: b.id("overview"), Kind: sheets.Overview, Title: "The meal at a glance", Contents: true}
	if b.plan != nil {
		s.Facts = append(s.Facts, "first job "+b.longMoment(b.plan.Begins))
		if b.plan.Note != "" {
			s.Facts = append(s.Facts, b.plan.Note)
		}
	}
	s.Blocks = append(s.Blocks, b.pictures(b.meal.Menu.Name, b.meal.Menu.Pictures)...)
	s.Blocks = append(s.Blocks, b.courses())
	if t := b.shared(); t != nil {
		s.Blocks = append(s.Blocks, &sheets.Heading{Text: "Made once, used more than once", Note: "bases and what each dish draws"}, t)
	}
	if c := b.cautions(nil); c != nil {
		s.Blocks = append(s.Blocks, c)
	}
	return s
}

func (b *builder) longMoment(m events.Moment) string {
	if !b.plan.Clocked() {
		return b.plan.Clock(m)
	}
	return b.dayName(m) + ", " + b.plan.Clock(m)
}

func (b *builder) courses() *sheets.Table {
	t := &sheets.Table{Columns: []sheets.Column{
		{Kind: sheets.MarkColumn}, {Title: "Dish", Kind: sheets.TextColumn, Weight: 4}, {Title: "For", Kind: sheets.TextColumn}, {Title: "How", Kind: sheets.TextColumn, Weight: 4},
	}}
	for _, c := range b.meal.Menu.Courses {
		g := sheets.Group{Title: c.Name}
		if b.meal.Menu.Serve != nil {
			g.Note = "served " + b.clockOf(c.At)
		}
		for _, s := range c.Servings {
			m := b.makingOf(s)
			row := sheets.Row{Cells: make([]sheets.Cell, 4)}
			if m != nil {
				row.Cells[0] = sheets.Cell{Runs: []sheets.Run{{Text: b.mark(m)}}}
			}
			row.Cells[1] = sheets.Cell{Runs: []sheets.Run{{Text: s.Name, Style: sheets.Thing, Link: b.linkTo(m)}}}
			switch {
			case m != nil && m.Portions.Sign() > 0:
				row.Cells[2] = say(b.eaters(m))
			case m == nil:
				row.Cells[2] = say(b.eatersOf(s))
			}
			row.Cells[3] = sheets.Cell{Runs: []sheets.Run{{Text: strings.Join(b.how(s, m), ", ")}}}
			g.Rows = append(g.Rows, row)
		}
		t.Groups = append(t.Groups, g)
	}
	return t
}

// clockOf writes a course's time, whether or not there is a plan.
func (b *builder) clockOf(m int) string {
	m = b.meal.Shown(m)
	m -= floorDiv(m, 24*60) * 24 * 60
	return fmt.Sprintf("%02d:%02d", m/60, m%60)
}

func (b *builder) makingOf(s *resolve.Serving) *demand.Making {
	for _, m := range b.meal.Makings {
		if m.Serving == s {
			return m
		}
	}
	return nil
}

// sold says who sells a dish that is not made.
func sold(s *resolve.Serving) string {
	if s.Seller == "" {
		return "from the shop"
	}
	return "from " + s.Seller
}

func (b *builder) how(s *resolve.Serving, m *demand.Making) (out []string) {
	switch {
	case s.Bought:
		return []string{sold(s)}
	case s.ToWrite:
		return []string{"to be written"}
	case m == nil:
		return nil
	}
	for _, c := range s.Recipe.Choices {
		if o := s.Chosen[c]; o != nil {
			out = append(out, o.Label)
		}
	}
	for _, p := range s.Recipe.Pauses {
		if taken, known := b.plan.Paused(m, p); known && taken {
			out = append(out, "made ahead")
			break
		} else if !known && s.Ahead {
			out = append(out, "ahead")
			break
		}
	}
	if h := s.Recipe.ServeHow; h != nil {
		text := h.State
		if h.Within != nil {
			text += ", within " + h.Within.String()
		}
		out = append(out, text)
	}
	if s.KeepFor.Text != "" {
		out = append(out, fmt.Sprintf("cooked for %d, the remains for %s", s.CookFor, s.KeepFor.Text))
	}
	return out
}

// shared lists the bases and the by-products that are drawn on or left.
func (b *builder) shared() *sheets.Table {
	t := &sheets.Table{Columns: []sheets.Column{
		{Kind: sheets.MarkColumn},
		{Title: "What", Kind: sheets.TextColumn, Weight: 3},
		{Title: "Made", Kind: sheets.AmountColumn},
		{Title: "Drawn", Kind: sheets.TextColumn, Weight: 5},
		{Title: "Left", Kind: sheets.TextColumn, Weight: 1},
	}}
	g := sheets.Group{}
	for _, s := range b.meal.Supplies {
		if s.Product != nil && len(s.Draws) == 0 {
			continue
		}
		var draws []string
		of := b.fig.Supply(s)
		for i, d := range s.Draws {
			draws = append(draws, of.Draws[i].Text+" "+b.mark(d.By.Making)+" "+d.By.Making.Recipe.Name)
		}
		what := sheets.Cell{Runs: []sheets.Run{{Text: s.Name, Style: sheets.Thing, Link: b.linkTo(s.Making)}}}
		if s.Product != nil {
			what.Sub = []sheets.Run{{Text: "from " + s.Making.Recipe.Name, Style: sheets.Quiet}}
		} else if k := s.Keeps(); k != nil {
			what.Sub = []sheets.Run{{Text: "keeps " + k.String(), Style: sheets.Quiet}}
		}
		made := of.Made.Text
		if s.Made.Value.High.IsZero() {
			made = ""
		}
		left := "nothing"
		if of.Left.Quantity.Value.High.Sign() > 0 {
			left = of.Left.Text
		}
		g.Rows = append(g.Rows, sheets.Row{Cells: []sheets.Cell{
			{Runs: []sheets.Run{{Text: b.mark(s.Making)}}},
			what,
			{Runs: []sheets.Run{{Text: made, Style: sheets.Amount}}},
			{Runs: []sheets.Run{{Text: figures.Join(draws)}}},
			{Runs: []sheets.Run{{Text: left}}},
		}})
	}
	if len(g.Rows) == 0 {
		return nil
	}
	t.Groups = []sheets.Group{g}
	return t
}
