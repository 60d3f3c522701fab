package parse

import "tamis/lang/diag"

// repeated is one slip that a writer made on line after line, such as a dash
// before each line of a list. It is said once, at the first, and its fix mends
// them all.
type repeated struct {
	code, message, why, title string
	edits                     []diag.Edit
}

// add notes the slip at [from,to) of a line, which text mends. What else is
// wrong with the line is not said: it may come of the slip.
func (r *repeated) add(p *parser, l *line, from, to int, text string) {
	if p.quiet(from) {
		return
	}
	r.edits = append(r.edits, diag.Edit{Span: p.span(from, to), Text: text})
	p.mute(l)
}

func (r *repeated) report(p *parser) {
	if len(r.edits) == 0 {
		return
	}
	d := diag.Diagnostic{
		Code: r.code, Severity: diag.Error, Message: r.message, At: diag.Label{Span: r.edits[0].Span}, Why: r.why,
		Fixes: []diag.Fix{{Title: r.title, Safe: true, Edits: r.edits}},
	}
	if n := len(r.edits) - 1; n > 0 {
		d.At.Text = "and on " + plural(n, "more line", "more lines")
	}
	p.diags.Add(d)
	r.edits = nil
}
