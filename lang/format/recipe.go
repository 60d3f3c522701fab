package format

import (
	"strings"

	"tamis/lang/ast"
)

func (p *printer) recipeItem(it ast.RecipeItem) {
	m := it.Base()
	switch it := it.(type) {
	case *ast.Serves:
		text := "serves " + p.ranged(it.Count)
		if !it.Each.IsZero() {
			text += ", " + p.measure(it.Each) + " each"
		}
		p.field(indent, m, text)
	case *ast.Makes:
		text := strings.TrimSpace("makes "+it.Near) + " " + it.Amount.Text(p.comma)
		if !it.Name.IsZero() {
			text += " " + title(it.Name)
		}
		if !it.Each.IsZero() {
			text += ", " + p.measure(it.Each) + " each"
		}
		p.field(indent, m, text)
	case *ast.Keeps:
		p.field(indent, m, "keeps "+keep(it.Keep))
	case *ast.Tested:
		p.field(indent, m, "tested "+p.ranged(it.Count))
	case *ast.Units:
		p.field(indent, m, "units "+it.System.Text)
	case *ast.WholeBatches:
		p.field(indent, m, "whole batches")
	case *ast.ServeHow:
		text := "serve " + it.State
		if it.Within != nil {
			text += ", within " + it.Within.String()
		}
		p.field(indent, m, text)
	case *ast.Takes:
		text := "takes " + it.Total.String()
		if it.Work != nil {
			text += ", work " + it.Work.String()
		}
		p.field(indent, m, text)
	case *ast.As:
		text := "as " + title(it.Ref)
		for _, also := range it.Also {
			text += ", " + title(also)
		}
		p.field(indent, m, text+", but")
	case *ast.Without:
		p.field(indent, m, "without "+names(it.Names))
	case *ast.Replace:
		text := "replace " + title(it.Name) + " with "
		if it.Line.Amount != nil {
			text += it.Line.Amount.Text(p.comma) + " "
		}
		if text += title(it.Line.Name); it.Line.Note.Text != "" {
			text += ", " + it.Line.Note.Text
		}
		p.field(indent, m, text)
	case *ast.Change:
		text := it.Key + " " + itoa(it.Step)
		if !it.Begins.IsZero() {
			text += `, "` + it.Begins.Text + `"`
		}
		if len(it.Items) == 0 {
			p.field(indent, m, text)
			return
		}
		p.head(indent, m, text)
		for _, s := range it.Items {
			p.methodItem(indent+indent, s)
		}
	case *ast.Common:
		p.common(it)
	case *ast.About:
		p.about(indent, it)
	case *ast.Noted:
		p.noted(indent, it)
	case *ast.Gather:
		text := "gather"
		if len(it.PercentOf) > 0 {
			text += ", percent of " + names(it.PercentOf)
		}
		p.head(indent, m, text)
		p.gather(indent+indent, it.Items)
	case *ast.Method:
		p.head(indent, m, "method")
		for _, s := range it.Items {
			p.methodItem(indent+indent, s)
		}
	case *ast.Bad:
		p.bad(indent, it)
	}
}

func (p *printer) gather(in string, items []ast.GatherItem) {
	for _, it := range items {
		switch it := it.(type) {
		case *ast.Line:
			p.gathered(in, it)
		case *ast.SubList:
			text := "for "
			if it.Article != "" {
				text += it.Article + " "
			}
			p.head(in, &it.Meta, text+title(it.Name))
			p.gather(in+indent, it.Items)
		case *ast.Choice:
			for i, o := range it.Options {
				word := "or "
				if i == 0 {
					word = "either "
				}
				p.head(in, &o.Meta, word+title(o.Label))
				p.gather(in+indent, o.Items)
			}
		case *ast.Bad:
			p.bad(in, it)
		}
	}
}

// gathered writes a gathered line and what stands below it.
func (p *printer) gathered(in string, l *ast.Line) {
	p.above(in, &l.Meta)
	p.lineAndMargin(in, p.gatherText(l, amountWidth), l.Clauses)
	if l.Said.Text != "" {
		p.line(in+indent, `said "`+l.Said.Text+`"`)
	}
	for _, other := range l.Instead {
		p.lineAndMargin(in+indent, "instead "+p.gatherText(other, 0), other.Clauses)
	}
}

// gatherText is amount, name, brackets and note. The amount is padded to a
// width, so that names stand below each other where amounts are short.
func (p *printer) gatherText(l *ast.Line, width int) string {
	text := ""
	if l.Share != nil {
		text = share(l.Share) + " "
	}
	if l.Amount != nil {
		text = l.Amount.Text(p.comma)
		if pad := width - wide(text); pad > 0 {
			text += strings.Repeat(" ", pad)
		}
		text += " "
		if l.Size != "" {
			text += l.Size + " "
		}
	}
	text += gatherName(l)
	if l.Brackets.Text != "" {
		text += " (" + l.Brackets.Text + ")"
	}
	if l.Note.Text != "" {
		text += ", " + l.Note.Text
	}
	return text
}

// lineAndMargin writes a line of a list with its margin in its column, or
// below it when it is long.
func (p *printer) lineAndMargin(in, text string, clauses []ast.Clause) {
	if len(clauses) == 0 {
		p.line(in, text)
		return
	}
	margin := p.margin(gathered, clauses)
	lead := max(2, marginAt-wide(in+text))
	p.line(in, text+strings.Repeat(" ", lead)+margin)
}

func (p *printer) methodItem(in string, it ast.MethodItem) {
	switch it := it.(type) {
	case *ast.Step:
		p.above(in, &it.Meta)
		for i, l := range it.Lines {
			if i == 0 {
				p.line(in, "- "+l.Text)
			} else {
				p.line(in+indent, l.Text)
			}
		}
		p.below(in+indent, it.Clauses)
		if it.Said.Text != "" {
			p.line(in+indent, `said "`+it.Said.Text+`"`)
		}
		for _, m := range it.Moments {
			p.moment(in+indent, m)
		}
	case *ast.Pause:
		p.field(in, &it.Meta, "pause up to "+keep(it.Keep))
	case *ast.Bad:
		p.bad(in, it)
	}
}

// below writes the margin of a step on lines of its own: one if it fits, else
// one for each clause.
func (p *printer) below(in string, clauses []ast.Clause) {
	if len(clauses) == 0 {
		return
	}
	if text := p.margin(step, clauses); wide(in+text) <= lineWidth {
		p.line(in, text)
		return
	}
	for _, c := range sortedClauses(step, clauses) {
		p.line(in, "| "+p.clause(c))
	}
}

// moment writes a moment of a step: on one line with its margin if that fits.
func (p *printer) moment(in string, m *ast.Moment) {
	head := "at half time: "
	if m.At != nil {
		head = "at " + m.At.String() + ": "
	}
	if m.Sight.Text != "" {
		say := *m.At
		say.About = false
		head = "when " + m.Sight.Text + ", say " + say.String() + ": "
	}
	if len(m.Lines) == 1 {
		text := head + m.Lines[0].Text
		if len(m.Clauses) > 0 {
			text += " " + p.margin(step, m.Clauses)
		}
		if wide(in+text) <= lineWidth {
			p.line(in, text)
			return
		}
	}
	for i, l := range m.Lines {
		if i == 0 {
			p.line(in, head+l.Text)
		} else {
			p.line(in+indent, l.Text)
		}
	}
	p.below(in+indent, m.Clauses)
}
