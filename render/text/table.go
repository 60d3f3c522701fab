package text

import (
	"strings"

	"tamis/compiler/sheets"
	"tamis/render/amount"
	"tamis/render/runes"
)

// table writes a table in columns of letters. A table too wide for that is
// written row by row, each cell behind the title of its column.
func (p *printer) table(b *sheets.Table) {
	b = b.OffPaper()
	cols := append([]sheets.Column(nil), b.Columns...)
	for _, g := range b.Groups {
		for _, r := range g.Rows {
			for len(cols) < len(r.Cells) {
				cols = append(cols, sheets.Column{Weight: 1})
			}
		}
	}
	if len(cols) == 0 && len(b.Groups) > 0 {
		cols = append(cols, sheets.Column{Weight: 1}) // headings without rows
	}
	if len(cols) == 0 {
		return
	}
	g := p.grid(cols, b)
	if g.broken {
		p.rowByRow(cols, b)
		return
	}
	p.gap()
	head, any := make([][]string, len(cols)), false
	for i, c := range cols {
		head[i] = wrap(c.Title, g.w[i])
		any = any || c.Title != ""
	}
	if any && !b.Plain {
		g.lines(head)
	}
	rule := strings.Repeat("-", g.total)
	if !b.Plain {
		p.line(rule)
	}
	for k, gr := range b.Groups {
		if title := gr.Title; title != "" || gr.Note != "" {
			if k > 0 {
				p.line("")
			}
			if gr.Note != "" {
				title = strings.TrimSpace(title + " – " + gr.Note)
			}
			p.para("", "", title)
			p.line(rule)
		}
		for _, r := range gr.Rows {
			cells := make([][]string, len(cols))
			for i, c := range cols {
				var cell sheets.Cell
				if i < len(r.Cells) {
					cell = r.Cells[i]
				}
				cells[i] = g.cell(i, c, cell)
			}
			switch {
			case b.Plain && r.Strong && k > 0:
				p.line("")
			case r.Strong && !b.Plain:
				p.line(strings.Repeat("=", g.total))
			}
			g.lines(cells)
			if r.Strong && !b.Plain {
				p.line(strings.Repeat("=", g.total))
			}
		}
	}
	if !b.Plain {
		p.line(rule)
	}
}

// rowByRow writes each row as a line of its own: what names it, then what else it says,
// each behind the title of its column where that says more than the cell.
func (p *printer) rowByRow(cols []sheets.Column, b *sheets.Table) {
	p.gap()
	rule := strings.Repeat("-", p.width)
	p.line(rule)
	for k, gr := range b.Groups {
		if title := sideBySide(gr.Title, gr.Note); title != "" {
			if k > 0 {
				p.line("")
			}
			p.para("", "", title)
			p.line(rule)
		}
		for _, r := range gr.Rows {
			var name, said []string
			named := false
			for i, c := range cols {
				var cell sheets.Cell
				if i < len(r.Cells) {
					cell = r.Cells[i]
				}
				text := runes.Clean(plain(cell.Runs))
				sub := runes.Clean(plain(cell.Sub))
				switch title := runes.Clean(c.Title); {
				case !named:
					if c.Kind == sheets.TickColumn {
						text = strings.TrimSpace("[ ] " + text)
					}
					if text != "" {
						name = append(name, text)
					}
					named = c.Kind == sheets.TextColumn && text != ""
				case c.Kind == sheets.TickColumn:
					said = append(said, strings.TrimSpace(title+" [ ] "+text))
				case text == "" && c.Kind == sheets.PencilColumn:
					said = append(said, title+" ________")
				case text == "":
				case strings.EqualFold(text, title) || title == "" || strings.HasPrefix(strings.ToLower(text), strings.ToLower(title)+":"):
					said = append(said, text)
				default:
					said = append(said, title+": "+text)
				}
				if sub != "" {
					said = append(said, sub)
				}
			}
			p.para("", "  ", strings.Join(name, "  "))
			p.para("  ", "  ", strings.Join(said, "; "))
		}
	}
	p.line(rule)
}

// sideBySide joins a title and its note.
func sideBySide(title, note string) string {
	if note == "" {
		return title
	}
	return strings.TrimSpace(title + " – " + note)
}

type grid struct {
	p     *printer
	cols  []sheets.Column
	w     []int
	fig   []int
	total int
	// broken: a column is narrower than a word of it, and the table is many columns wide
	broken bool
}

// grid works out the columns: narrow ones as they need, the others by weight.
func (p *printer) grid(cols []sheets.Column, b *sheets.Table) *grid {
	n := len(cols)
	g := &grid{p: p, cols: cols, w: make([]int, n), fig: make([]int, n)}
	need, unit, least := make([]int, n), make([]int, n), make([]int, n)
	for i, c := range cols {
		need[i] = max(width(runes.Clean(c.Title)), 3)
		if c.Kind == sheets.PencilColumn {
			need[i] = max(need[i], 8)
		}
		for _, word := range strings.Fields(runes.Clean(c.Title)) {
			least[i] = max(least[i], min(width(word), 14))
		}
	}
	for _, gr := range b.Groups {
		for _, r := range gr.Rows {
			for i, c := range r.Cells {
				s := runes.Clean(plain(c.Runs))
				need[i] = max(need[i], width(s), width(runes.Clean(plain(c.Sub))))
				for _, word := range strings.Fields(s) {
					least[i] = max(least[i], min(width(word), 14))
				}
				if cols[i].Kind == sheets.AmountColumn {
					f, u := amount.Split(s)
					g.fig[i], unit[i] = max(g.fig[i], width(f)), max(unit[i], width(u))
				}
			}
		}
	}
	free := p.width - 2*(n-1)
	weights := 0
	for i, c := range cols {
		if c.Kind == sheets.AmountColumn {
			need[i] = max(need[i], g.fig[i]+1+unit[i])
		}
		if c.Weight > 0 {
			weights += c.Weight
			continue
		}
		g.w[i] = min(need[i], max(p.width/3, 6))
		free -= g.w[i]
	}
	left := weights
	order := free
	for i, c := range cols {
		if c.Weight > 0 {
			g.w[i] = min(need[i], max(order*c.Weight/max(left, 1), least[i], 4))
			order -= g.w[i]
			left -= c.Weight
		}
	}
	sum := func() (s int) {
		for _, w := range g.w {
			s += w
		}
		return s + 2*(n-1)
	}
	for sum() > p.width {
		k := 0
		spare := func(i int) int { // a column that can be narrower without breaking a word comes first
			switch {
			case g.w[i] <= 4:
				return 0
			case g.w[i] > least[i]:
				return p.width + g.w[i]
			}
			return g.w[i]
		}
		for i := range g.w {
			if spare(i) > spare(k) {
				k = i
			}
		}
		if spare(k) == 0 {
			break
		}
		g.w[k]--
	}
	g.total = min(sum(), p.width)
	for i := range g.w {
		g.broken = g.broken || n > 6 && g.w[i] < least[i]
	}
	return g
}

func (g *grid) cell(i int, c sheets.Column, cell sheets.Cell) []string {
	s := runes.Clean(plain(cell.Runs))
	var out []string
	switch c.Kind {
	case sheets.TickColumn:
		out = wrap(strings.TrimSpace("[ ] "+s), g.w[i])
		if s == "" {
			out = []string{"[ ]"}
		}
	case sheets.PencilColumn:
		if s == "" {
			out = []string{strings.Repeat("_", g.w[i])}
		} else {
			out = wrap(s, g.w[i])
		}
	case sheets.AmountColumn:
		f, u := amount.Split(s)
		line := padLeft(f, g.fig[i])
		if u != "" {
			line += " " + u
		}
		if g.fig[i] == 0 {
			line = u
		}
		if width(line) > g.w[i] {
			out = wrap(s, g.w[i])
		} else if s != "" {
			out = []string{line}
		}
	case sheets.ClockColumn:
		for _, l := range wrap(s, g.w[i]) {
			out = append(out, padLeft(l, g.w[i]))
		}
	default:
		out = wrap(s, g.w[i])
	}
	return append(out, wrap(plain(cell.Sub), g.w[i])...)
}

// lines writes cells side by side.
func (g *grid) lines(cells [][]string) {
	rows := 0
	for _, c := range cells {
		rows = max(rows, len(c))
	}
	for k := range rows {
		var b strings.Builder
		for i, c := range cells {
			s := ""
			if k < len(c) {
				s = c[k]
			}
			if i > 0 {
				b.WriteString("  ")
			}
			b.WriteString(pad(s, g.w[i]))
		}
		g.p.line(b.String())
	}
}
