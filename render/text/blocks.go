package text

import (
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/sheets"
	"tamis/render/amount"
	"tamis/render/runes"
)

func (p *printer) block(b sheets.Block) {
	switch b := b.(type) {
	case *sheets.Heading:
		p.heading(b.Text, b.Note)
	case *sheets.Prose:
		p.prose(b)
	case *sheets.Table:
		p.table(b)
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
		p.heading("Take care", "")
		for _, c := range b.Items {
			p.para("! ", "  ", c.Text)
			p.para("  ", "  ", bracket(c.Source))
		}
	case *sheets.Picture:
		p.gap()
		p.para("", "", fmt.Sprintf("[Picture: %s (%s)]", b.Alt, b.Name))
	case *sheets.Alphabet:
		for _, l := range b.Letters {
			p.heading(l.Letter, "")
			for _, e := range l.Entries {
				line := e.Name
				if at := e.Places(); len(at) > 0 {
					line += ": " + strings.Join(at, "; ")
				}
				p.para("", "    ", line)
			}
		}
	case *sheets.Masthead:
		p.gap()
		p.para("", "", b.Series+", "+b.Part)
		if b.Watch != "" {
			p.para("", "", "Watch it at "+b.Watch)
		}
		for _, pic := range []*sheets.Picture{b.Picture, b.Code} {
			if pic != nil {
				p.para("", "", fmt.Sprintf("[Picture: %s]", pic.Alt))
			}
		}
	case *sheets.List:
		p.gap()
		for _, item := range b.Items {
			if b.Tick {
				p.para("[ ] ", "    ", plain(item))
			} else {
				p.para("- ", "  ", plain(item))
			}
		}
	}
}

func bracket(s string) string {
	if s == "" {
		return ""
	}
	return "(" + s + ")"
}

// plain is the words of runs; the address of a link of the writer's stands
// behind its words.
func plain(list []sheets.Run) string {
	var b strings.Builder
	for _, r := range list {
		b.WriteString(r.Text)
		if r.Outside() {
			fmt.Fprintf(&b, " <%s>", r.Link)
		}
	}
	return b.String()
}

func (p *printer) prose(b *sheets.Prose) {
	last := sheets.ParaKind(-1)
	for _, q := range b.Paras {
		if q.Kind != last || q.Kind == sheets.Paragraph || q.Kind == sheets.Quote {
			p.gap()
		}
		last = q.Kind
		words := plain(q.Runs)
		switch q.Kind {
		case sheets.Item:
			p.para("- ", "  ", words)
		case sheets.Numbered:
			no := fmt.Sprintf("%d. ", q.Number)
			p.para(no, strings.Repeat(" ", len(no)), words)
		case sheets.Quote:
			p.para("  | ", "  | ", words)
		case sheets.Subhead:
			p.para("", "", words)
			last = sheets.Subhead
		default:
			p.para("", "", words)
		}
	}
}

// steps writes a method: number and clock, the things taken one a line with
// figures above each other, the sentence, the margin.
func (p *printer) steps(b *sheets.Steps) {
	fig, unit := 0, 0
	for _, i := range b.Items {
		if s, ok := i.(*sheets.Step); ok {
			for _, k := range s.Takes {
				f, u := amount.Split(runes.Clean(k.Amount))
				fig, unit = max(fig, min(width(f), 10)), max(unit, min(width(u), 10))
			}
		}
	}
	const in = "     "
	for _, i := range b.Items {
		p.gap()
		switch s := i.(type) {
		case *sheets.Break:
			p.para("--- ", "    ", s.Text+" ---")
		case *sheets.Step:
			head := fmt.Sprintf("%3d. ", s.Number)
			first := head
			if side := s.Side(); len(side) > 0 {
				p.para(head, in, strings.Join(side, " · "))
				first = in
			}
			for _, k := range s.Takes {
				f, u := amount.Split(runes.Clean(k.Amount))
				lead := first + padLeft(f, fig)
				if fig > 0 {
					lead += " "
				}
				if unit > 0 {
					lead += pad(u, unit) + "  "
				}
				name := k.Name
				if k.Note != "" {
					name += " (" + k.Note + ")"
				}
				p.para(lead, strings.Repeat(" ", width(lead)), name)
				first = in
			}
			if first != in && len(s.Look)+len(s.Margin) > 0 {
				p.line(head)
				first = in
			}
			p.margin(in, slices.Concat(s.Look, s.Margin))
			if len(s.Runs) > 0 {
				p.para(first, in, plain(s.Runs))
				first = in
			}
			if first != in {
				p.line(head)
			}
			for _, m := range s.Moments {
				at := in + "@ "
				if m.At != "" {
					at = in + "@ " + runes.Clean(m.At) + ": "
				}
				p.para(at, in+"  ", orDash(plain(m.Runs)))
				p.margin(in+"  ", m.Margin)
			}
		}
	}
}

func orDash(s string) string {
	if strings.TrimSpace(s) == "" {
		return "–"
	}
	return s
}

func (p *printer) margin(in string, facts []string) {
	if len(facts) > 0 {
		p.facts(in+"| ", facts)
	}
}

// chart writes the timeline in words, then lane by lane.
func (p *printer) chart(b *sheets.Chart) {
	if b.Text != "" {
		p.gap()
		p.para("", "", b.Text)
	}
	if b.Note != "" {
		p.para("", "", b.Note+".")
	}
	for _, panel := range b.Panels {
		p.heading(orDash(panel.Title), "")
		for _, f := range panel.Flags {
			p.para(panel.Time(f.At)+"  ", "       ", "* "+f.Label)
		}
		for _, l := range panel.Lanes {
			name := strings.TrimSpace(l.Letter + " " + l.Name)
			p.gap()
			p.para("", "", name)
			p.bars(&panel, l.Bars)
		}
		for _, u := range panel.Uses {
			p.gap()
			p.para("", "", u.Name)
			p.bars(&panel, u.Bars)
		}
	}
}

func (p *printer) bars(panel *sheets.Panel, bars []sheets.Bar) {
	for _, x := range bars {
		how := x.Kind.Said()
		if x.Who != "" {
			how += ", " + x.Who
		}
		p.para("  "+panel.Time(x.Start)+"–"+panel.Time(x.End)+"  ", "               ", strings.TrimSpace(strings.TrimSpace(x.Said())+" ("+how+")"))
	}
}
