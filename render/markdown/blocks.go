package markdown

import (
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/sheets"
)

func (p *printer) block(b sheets.Block) {
	switch b := b.(type) {
	case *sheets.Heading:
		text := word(b.Text)
		if b.Note != "" {
			text += " – " + word(b.Note)
		}
		p.heading(text)
	case *sheets.Prose:
		p.prose(b)
	case *sheets.Table:
		p.table(b.OffPaper())
	case *sheets.Steps:
		p.steps(b)
	case *sheets.Chart:
		p.chart(b)
	case *sheets.Board:
		p.board(b)
	case *sheets.Cautions:
		if len(b.Items) == 0 {
			return
		}
		p.heading("Take care")
		p.gap()
		for _, c := range b.Items {
			text := "- " + word(c.Text)
			if c.Source != "" {
				text += " (" + word(c.Source) + ")"
			}
			p.line(text)
		}
	case *sheets.Picture:
		p.para(fmt.Sprintf("Picture: %s (%s)", word(b.Alt), word(b.Name)))
	case *sheets.Alphabet:
		for _, l := range b.Letters {
			p.heading(word(l.Letter))
			p.gap()
			for _, e := range l.Entries {
				line := word(e.Name)
				if at := e.Places(); len(at) > 0 {
					line += ": " + word(strings.Join(at, "; "))
				}
				p.line("- " + first(line))
			}
		}
	case *sheets.Masthead:
		p.para(word(b.Series + ", " + b.Part))
		if b.Watch != "" {
			p.para("Watch it at " + words([]sheets.Run{{Text: b.Watch, Link: b.Link}}))
		}
		if q := b.Picture; q != nil {
			p.para(fmt.Sprintf("Picture: %s (%s)", word(q.Alt), word(q.Name)))
		}
	case *sheets.List:
		p.gap()
		for _, item := range b.Items {
			if b.Tick {
				p.line("- [ ] " + words(item))
			} else {
				p.line("- " + words(item))
			}
		}
	}
}

func (p *printer) heading(text string) {
	p.gap()
	p.line("### " + text)
}

func (p *printer) prose(b *sheets.Prose) {
	last := sheets.ParaKind(-1)
	for _, q := range b.Paras {
		if q.Kind != last || q.Kind == sheets.Paragraph || q.Kind == sheets.Quote {
			p.gap()
		}
		last = q.Kind
		text := words(q.Runs)
		switch q.Kind {
		case sheets.Item:
			p.line("- " + first(text))
		case sheets.Numbered:
			p.line(fmt.Sprintf("%d. %s", q.Number, first(text)))
		case sheets.Quote:
			p.line("> " + first(text))
		case sheets.Subhead:
			p.line("#### " + text)
			p.gap()
		default:
			p.para(text)
		}
	}
}

// table writes a table; a group is a row of its own with its title in bold.
func (p *printer) table(t *sheets.Table) {
	if len(t.Columns) == 0 {
		return
	}
	p.gap()
	head, rule := "|", "|"
	for _, c := range t.Columns {
		title := word(c.Title)
		if c.Kind == sheets.TickColumn {
			title = "☐"
		}
		head += " " + title + " |"
		if c.Kind == sheets.AmountColumn || c.Kind == sheets.ClockColumn {
			rule += " ---: |"
		} else {
			rule += " --- |"
		}
	}
	p.line(head)
	p.line(rule)
	for _, g := range t.Groups {
		if g.Title != "" {
			text := "**" + word(g.Title) + "**"
			if g.Note != "" {
				text += " " + word(g.Note)
			}
			at := slices.IndexFunc(t.Columns, func(c sheets.Column) bool { return c.Weight > 0 })
			p.line("|" + strings.Repeat(" |", max(at, 0)) + " " + text + " |" + strings.Repeat(" |", len(t.Columns)-max(at, 0)-1))
		}
		for _, r := range g.Rows {
			row := "|"
			for i := range t.Columns {
				text := ""
				if i < len(r.Cells) {
					text = words(r.Cells[i].Runs)
					if sub := words(r.Cells[i].Sub); sub != "" {
						text = strings.TrimSpace(text + " (" + sub + ")")
					}
				}
				row += " " + text + " |"
			}
			p.line(row)
		}
	}
}

func (p *printer) steps(b *sheets.Steps) {
	const in = "   "
	for _, i := range b.Items {
		p.gap()
		switch s := i.(type) {
		case *sheets.Break:
			p.line("*" + word(s.Text) + "*")
		case *sheets.Step:
			text := words(s.Runs)
			if side := s.Side(); len(side) > 0 {
				text = "*" + word(strings.Join(side, " · ")) + "* " + text
			}
			p.line(fmt.Sprintf("%d. %s", s.Number, first(text)))
			for _, k := range s.Takes {
				note := ""
				if k.Note != "" {
					note = ", " + word(k.Note)
				}
				p.line(in + "- " + strings.TrimSpace(word(k.Amount)+" **"+word(k.Name)+"**") + note)
			}
			if m := slices.Concat(s.Look, s.Margin); len(m) > 0 {
				for i := range m {
					m[i] = word(m[i])
				}
				p.line(in + "- " + first(strings.Join(m, " · ")))
			}
			for _, m := range s.Moments {
				text := words(m.Runs)
				if m.At != "" {
					text = "*" + word(m.At) + ":* " + text
				}
				for _, x := range m.Margin {
					text += " · " + word(x)
				}
				p.line(in + "- " + first(text))
			}
		}
	}
}

func (p *printer) chart(b *sheets.Chart) {
	p.para(word(b.Text))
	p.para(word(b.Note))
	for i := range b.Panels {
		panel := &b.Panels[i]
		if panel.Title != "" {
			p.heading(word(panel.Title))
		}
		p.gap()
		p.line("| From | To | What | How |")
		p.line("| ---: | ---: | --- | --- |")
		for _, f := range panel.Flags {
			p.line("| " + panel.Time(f.At) + " | | **" + word(f.Label) + "** | |")
		}
		bars := func(name string, list []sheets.Bar) {
			for _, x := range list {
				how := x.Kind.Said()
				if x.Who != "" {
					how += ", " + word(x.Who)
				}
				p.line("| " + panel.Time(x.Start) + " | " + panel.Time(x.End) + " | " + strings.TrimSpace(name+" "+word(x.Said())) + " | " + how + " |")
			}
		}
		for _, l := range panel.Lanes {
			bars("**"+strings.TrimSpace(word(l.Letter)+" "+word(l.Name))+"**", l.Bars)
		}
		for _, u := range panel.Uses {
			bars("**"+word(u.Name)+"**", u.Bars)
		}
	}
}

func (p *printer) board(b *sheets.Board) {
	p.gap()
	head, rule := "| |", "| ---: |"
	for _, c := range b.Columns {
		head += " " + word(c) + " |"
		rule += " --- |"
	}
	p.line(head)
	p.line(rule)
	for _, r := range b.Rows {
		if r.Bar != "" {
			p.line("| " + word(r.At) + " | **" + word(r.Bar) + "** |" + strings.Repeat(" |", max(len(b.Columns)-1, 0)))
			continue
		}
		row := "| " + word(r.At) + " |"
		for i := range b.Columns {
			var posts []string
			if i < len(r.Cells) {
				for _, x := range r.Cells[i] {
					text := strings.TrimSpace(word(x.Mark) + " " + word(x.Words))
					if x.Until != "" {
						text += ", until " + word(x.Until)
					}
					if x.Looks != "" {
						text += ", " + word(x.Looks)
					}
					posts = append(posts, text)
				}
			}
			row += " " + strings.Join(posts, "; ") + " |"
		}
		p.line(row)
	}
}
