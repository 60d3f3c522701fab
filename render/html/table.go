package html

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"tamis/compiler/sheets"
	"tamis/render/amount"
	"tamis/render/runes"
)

// table writes a table. Its caption, for those who hear it, is the heading
// above it or the title of the sheet.
func (p *printer) table(b *sheets.Table) {
	b = b.OffPaper()
	cols := append([]sheets.Column(nil), b.Columns...)
	for _, g := range b.Groups {
		for _, r := range g.Rows {
			for len(cols) < len(r.Cells) {
				cols = append(cols, sheets.Column{})
			}
		}
	}
	if len(cols) == 0 && len(b.Groups) > 0 {
		cols = append(cols, sheets.Column{Weight: 1}) // headings without rows
	}
	if len(cols) == 0 {
		return
	}
	head := -1 // the column that names the row: the first of words that is not narrow
	for i, c := range cols {
		if c.Kind == sheets.TextColumn && (head < 0 || cols[head].Weight == 0 && c.Weight > 0) {
			head = i
		}
	}
	class := "" // tables that a narrow screen cannot show as a grid
	if len(cols) > 4 || cols[0].Kind == sheets.TickColumn {
		class = " class=\"many\""
	}
	if b.Plain {
		class = " class=\"plain\""
	}
	p.raw("<table%s>\n<caption class=\"vh\"%s>%s</caption>\n<thead><tr>", class, dir(p.title), esc(p.title))
	for i, c := range cols {
		title := strings.TrimSpace(runes.Clean(c.Title))
		hidden := title == ""
		if hidden {
			title = unsaid(c.Kind, i == head)
		}
		p.raw("<th scope=\"col\"%s>", kindClass(c, i == head))
		if hidden {
			p.raw("<span class=\"vh\">%s</span>", title)
		} else {
			p.text(title)
		}
		p.raw("</th>")
	}
	p.raw("</tr></thead>\n")
	for _, g := range b.Groups {
		if len(g.Rows) == 0 && g.Title == "" && g.Note == "" {
			continue
		}
		day := p.day(g.Title)
		if day == "" {
			day = p.day(g.Note)
		}
		if day != "" {
			p.raw("<tbody data-day=\"%s\">\n", day)
		} else {
			p.raw("<tbody>\n")
		}
		if g.Title != "" || g.Note != "" {
			p.raw("<tr class=\"group\"><th scope=\"rowgroup\" colspan=\"%d\">", len(cols))
			p.raw("<span class=\"name\"%s>%s</span>", dir(g.Title), esc(orBlank(g.Title)))
			if g.Note != "" {
				p.raw(" <span class=\"note\">%s</span>", esc(g.Note))
			}
			p.raw("</th></tr>\n")
		}
		for _, r := range g.Rows {
			p.row(cols, r, head, day != "")
		}
		p.raw("</tbody>\n")
	}
	p.raw("</table>\n")
}

// unsaid names a column that has no title, for those who hear it.
func unsaid(k sheets.ColumnKind, head bool) string {
	switch {
	case k == sheets.TickColumn:
		return "Done"
	case k == sheets.MarkColumn:
		return "Dish"
	case k == sheets.AmountColumn:
		return "Amount"
	case k == sheets.ClockColumn:
		return "Time"
	case k == sheets.PencilColumn:
		return "To write"
	case head:
		return "What"
	}
	return "Note"
}

// brief is how many letters of a cell still stand beside the name on a telephone: a
// dish, a step, a time.
const brief = 8

func kindClass(c sheets.Column, head bool) string {
	name := [...]string{"words", "box", "marks", "amount", "clock", "pencil"}[min(max(int(c.Kind), 0), 5)]
	if head {
		name += " what"
	}
	return fmt.Sprintf(" class=\"%s\"", name)
}

func (p *printer) row(cols []sheets.Column, r sheets.Row, head int, dated bool) {
	p.raw("<tr")
	if r.Strong {
		p.raw(" class=\"strong\"")
	}
	if dated && len(r.Cells) > 0 && cols[0].Kind == sheets.ClockColumn {
		if at := minuteOf(sheets.Words(r.Cells[0].Runs)); at >= 0 {
			p.raw(" data-at=\"%d\"", at)
		}
	}
	p.raw(">")
	for i, c := range cols {
		var cell sheets.Cell
		if i < len(r.Cells) {
			cell = r.Cells[i]
		}
		tag, scope := "td", ""
		if i == head && strings.TrimSpace(sheets.Words(cell.Runs)) != "" {
			tag, scope = "th", " scope=\"row\""
		}
		label := ""
		if c.Title != "" && i != head && (strings.TrimSpace(sheets.Words(cell.Runs)) != "" || c.Kind == sheets.PencilColumn) {
			label = fmt.Sprintf(" data-label=\"%s\"", esc(c.Title))
		}
		class := kindClass(c, i == head)
		if n := utf8.RuneCountInString(sheets.Words(cell.Runs)); c.Kind == sheets.TextColumn && i != head && n > 0 && n <= brief && len(cell.Sub) == 0 && cols[0].Kind == sheets.TickColumn {
			class = strings.TrimSuffix(class, "\"") + " brief\""
			if n > 6 { // a step and its time
				class = strings.TrimSuffix(class, "\"") + " timed\""
			}
		}
		p.raw("<%s%s%s%s%s>", tag, scope, class, label, dir(sheets.Words(cell.Runs)))
		switch c.Kind {
		case sheets.TickColumn:
			p.ticks++
			name := ""
			if head >= 0 && head < len(r.Cells) {
				name = sheets.Words(r.Cells[head].Runs)
			}
			p.raw("<label class=\"tick\" for=\"t%d\"><input type=\"checkbox\" id=\"t%d\"><span class=\"vh\"%s>%s</span></label>", p.ticks, p.ticks, dir(name), esc(orBlank(name)))
			p.runs(cell.Runs)
		case sheets.MarkColumn:
			p.markList(runes.Clean(sheets.Words(cell.Runs)))
		case sheets.AmountColumn:
			p.amount(sheets.Words(cell.Runs))
		default:
			p.runs(cell.Runs)
		}
		if len(cell.Sub) > 0 {
			p.raw(" <span class=\"sub\">")
			p.runs(cell.Sub)
			p.raw("</span>")
		}
		p.raw("</%s>", tag)
	}
	p.raw("</tr>\n")
}

// amount writes a figure and its unit so that both line up down the column.
func (p *printer) amount(s string) {
	fig, unit := amount.Split(runes.Clean(s))
	if fig == "" && unit == "" {
		return
	}
	p.raw("<span class=\"am\"><b>%s</b>", esc(fig))
	if unit != "" {
		p.raw(" <span>%s</span>", esc(unit))
	}
	p.raw("</span>")
}
