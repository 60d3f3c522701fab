package parse

import (
	"strings"
	"unicode/utf8"

	"tamis/lang/ast"
	"tamis/lang/quantity"
)

// method reads the lines of a method.
func (p *parser) method(l *line) (items []ast.MethodItem) {
	numbers := repeated{
		code: codeNumbered, message: "steps are not numbered", title: "write a dash",
		why: "a number would have to change whenever a step is put in before it; the sheets number the steps",
	}
	defer func() { numbers.report(p) }()
	loose := false // the last step has no dash: what follows belongs to it
	deep := false  // a step that stands too deep has been reported
	for _, k := range l.kids {
		t := p.content(k)
		from := k.start
		n, _ := bullet(t)
		if last := lastStep(items); loose && last != nil && n == 0 && numbered(t) == 0 && !isWord(InMethod, t) {
			p.join(last, k)
			continue
		}
		loose = false
		switch {
		case n > 0:
			from += n
		case t[0] == '|':
			loose = true
			p.err(codeBarDepth, k.start, k.start+1, "a margin line stands deeper than the dash of its step").
				Replace("indent it", false, p.span(k.from, k.start), k.indent+"  ")
			p.mute(k)
			if len(items) > 0 {
				if st, ok := items[len(items)-1].(*ast.Step); ok {
					st.Clauses = p.margin(st.Clauses, OnStep, k.start, k.end)
					st.Span.End = k.end
				}
			}
			continue
		case p.hash(k, t):
			items = append(items, p.bad(k))
			continue
		case isWord(InMethod, t):
			items = append(items, p.pause(k))
			continue
		default:
			if n := numbered(t); n > 0 {
				numbers.add(p, k, k.start, k.start+n, "- ")
				from += n
			} else {
				from += p.noDash(k, t)
				loose = true
			}
		}
		items = append(items, p.steps(k, from, &deep)...)
	}
	return items
}

func lastStep(items []ast.MethodItem) *ast.Step {
	if len(items) == 0 {
		return nil
	}
	st, _ := items[len(items)-1].(*ast.Step)
	return st
}

// join gives a line that stands beside a step, and that step's slip has been
// reported, to the step.
func (p *parser) join(st *ast.Step, k *line) {
	p.mute(k)
	r := &stepReader{p: p, step: st, margin: len(st.Clauses) > 0, said: true, deep: new(bool)}
	*r.deep = true
	if n := len(st.Moments); n > 0 {
		r.moment, r.depth = st.Moments[n-1], ""
	}
	r.below(k)
	st.Prose = joinLines(st.Lines)
	for _, m := range st.Moments {
		m.Prose = joinLines(m.Lines)
	}
}

func isWord(place Place, t string) bool {
	w, _ := LookUp(place, t)
	return w != nil
}

// noDash reports a line at step depth that does not begin with a dash and a
// blank, and says where its words begin.
func (p *parser) noDash(k *line, t string) int {
	r, n := utf8.DecodeRuneInString(t)
	if strings.ContainsRune("-–—•*", r) {
		p.err(codeDashBlank, k.start, k.start+n, "a space is missing after the dash").
			Replace("put a space", true, p.span(k.start, k.start+n), "- ")
		p.mute(k)
		return n
	}
	if other, _ := LookUp(InRecipe, t); other != nil {
		switch other.Text {
		case "serve", "keeps", "makes", "serves", "gather", "method", "takes", "tested":
			if _, ok := p.fieldNode(InRecipe, k.start, k.end); ok {
				p.err(codeElsewhere, k.start, k.end, "`%s` stands in a dish or a base, not in its method", other.Text).
					WithHelp("line it up with `method`").
					Replace("line it up with `method`", false, p.span(k.from, k.start), k.parent.indent)
				p.mute(k)
				return 0
			}
		}
	}
	p.err(codeNoDash, k.start, k.end, "is this a new step, or the rest of the step above?").
		Because("a step begins with a dash, and its further lines stand deeper than the dash").
		WithHelp("for a new step put `- ` before it").
		WithHelp("for the rest of the step above, indent it by two more spaces").
		Replace("put a dash", false, p.span(k.start, k.start), "- ").
		Replace("indent it", false, p.span(k.from, k.start), k.indent+"  ")
	p.mute(k)
	return 0
}

// pause reads `pause up to 1 day, fridge`.
func (p *parser) pause(k *line) ast.MethodItem {
	n, s, _ := readField(p, &grammars.method, InMethod, k)
	defer s.done()
	if n == nil {
		return p.bad(k)
	}
	m := p.meta(k)
	p.noKids(k, &m, "`pause`")
	return &ast.Pause{Meta: m, Keep: s.keepOf(n.Pause)}
}

// stepReader gathers the lines of a step.
type stepReader struct {
	p      *parser
	step   *ast.Step
	moment *ast.Moment
	depth  string // the indentation of the moment's line
	margin bool   // the margin of the step, or of the moment, has begun
	said   bool   // a misplaced line of this step has been reported
	deep   *bool  // a step that stands too deep has been reported in this method
	more   []*line
}

// steps reads a step whose words begin at from, and the lines below it. Steps
// that stand too deep come after it.
func (p *parser) steps(k *line, from int, deep *bool) []ast.MethodItem {
	r := &stepReader{p: p, deep: deep, step: &ast.Step{Meta: ast.Meta{Span: p.span(k.start, k.end), Comments: k.comments, Gap: k.gap}}}
	r.prose(from, k.end)
	for _, kid := range k.kids {
		r.below(kid)
	}
	st := r.step
	st.Prose = joinLines(st.Lines)
	for _, m := range st.Moments {
		m.Prose = joinLines(m.Lines)
		if len(m.Lines) == 0 {
			p.err(codeMoment, m.Span.Start, m.Span.End, "at this moment, what?").WithHelp("write what is done: `at 30 min: Turn it.`")
		}
		p.clauseOrder(m.Clauses)
	}
	if len(st.Lines) == 0 && !p.quiet(k.start) {
		d := p.err(codeNoProse, k.start, max(from, k.start+1), "this step has no words")
		d.WithHelp("write what is done after the dash, then the margin")
	}
	p.clauseOrder(st.Clauses)
	items := []ast.MethodItem{st}
	for _, deep := range r.more {
		n, _ := bullet(p.content(deep))
		items = append(items, p.steps(deep, deep.start+n, r.deep)...)
	}
	return items
}

// joinLines joins written lines by a blank.
func joinLines(lines []ast.Text) ast.Text {
	switch len(lines) {
	case 0:
		return ast.Text{}
	case 1:
		return lines[0]
	}
	parts := make([]string, len(lines))
	for i, l := range lines {
		parts[i] = l.Text
	}
	return ast.Text{Text: strings.Join(parts, " "), Span: lines[0].Span.To(lines[len(lines)-1].Span)}
}

// prose takes a line of words and the margin that may follow them.
func (r *stepReader) prose(from, to int) {
	end := to
	bar := strings.IndexByte(r.p.text[from:to], '|')
	if bar >= 0 {
		end = from + bar
	}
	from += blanks(r.p.text[from:end])
	if n := trimEnd(r.p.text[from:end]); n > 0 {
		t := ast.Text{Text: r.p.text[from : from+n], Span: r.p.span(from, from+n)}
		if r.moment != nil {
			r.moment.Lines = append(r.moment.Lines, t)
		} else {
			r.step.Lines = append(r.step.Lines, t)
		}
	}
	if bar >= 0 {
		r.clauses(end, to)
	}
	r.extend(to)
}

func (r *stepReader) clauses(from, to int) {
	r.margin = true
	if r.moment != nil {
		r.moment.Clauses = r.p.margin(r.moment.Clauses, OnStep, from, to)
	} else {
		r.step.Clauses = r.p.margin(r.step.Clauses, OnStep, from, to)
	}
	r.extend(to)
}

func (r *stepReader) extend(to int) {
	r.step.Span.End = to
	if r.moment != nil {
		r.moment.Span.End = to
	}
}

// below takes a line under the step, then those under it.
func (r *stepReader) below(l *line) {
	p := r.p
	t := p.content(l)
	if n, plain := bullet(t); n > 0 && plain {
		if *r.deep {
			r.more = append(r.more, l)
			return
		}
		*r.deep = true
		p.err(codeStepDepth, l.start, l.start+n, "this step stands deeper than the one above it").
			Because("a dash at the beginning of a line is always a step").
			WithHelp("line it up with the step above").
			WithHelp("to make it part of the step above, take the dash out").
			Replace("line it up", false, p.span(l.from, l.start), dashIndent(l)).
			Replace("take the dash out", false, p.span(l.start, l.start+n), "")
		r.more = append(r.more, l)
		return
	}
	r.step.Comments = append(r.step.Comments, l.comments...)
	inMoment := r.moment != nil && len(l.indent) > len(r.depth)
	switch {
	case t[0] == '|':
		if r.moment != nil && !inMoment {
			if !r.said {
				p.err(codeMomentAfter, l.start, l.start+1, "the margin of the step stands above its moments").
					WithHelp("move it up below the step, or indent it if it belongs to the moment above")
				r.said = true
			}
			r.moment = nil
		}
		r.clauses(l.start, l.end)
	case p.momentHead(t) > 0:
		r.beginMoment(l, t)
	case r.moment == nil && r.step.Said.Text == "" && saidHead(t) > 0:
		n := saidHead(t)
		r.step.Said = ast.Text{Text: insideQuotes(tidy(t[n:])), Span: p.span(l.start+n, l.end)}
		r.extend(l.end)
	case r.moment != nil && !inMoment, r.margin:
		if !r.said {
			what := "the margin of this step has begun"
			if r.moment != nil {
				what = "the moments of this step have begun"
			}
			p.err(codeProseAfter, l.start, l.end, "%s, and this is prose", what).
				WithHelp("move the sentence above it, or begin a step of its own with a dash")
			r.said = true
		}
		r.extend(l.end)
	case p.hash(l, t):
	default:
		r.prose(l.start, l.end)
	}
	for _, k := range l.kids {
		r.below(k)
	}
}

// saidHead is the length of `said` and its blanks before words in quotes; 0 when a line
// is something else.
func saidHead(t string) int {
	n := matchGroup(t, "said")
	if n == 0 {
		return 0
	}
	n += blanks(t[n:])
	if r, _ := utf8.DecodeRuneInString(t[n:]); !isQuote(r) {
		return 0
	}
	return n
}

// dashIndent is the indentation of the step a line stands below.
func dashIndent(l *line) string {
	for n := l.parent; n != nil; n = n.parent {
		if n.isStep || !n.inStep {
			return n.indent
		}
	}
	return l.indent
}

// sightHead finds what to look for in `when risen, say 20 min:`, where the time begins, and
// the length of it all; 0 when it is none.
func (p *parser) sightHead(t string) (words string, at, length int) {
	n := matchGroup(t, "when")
	if n == 0 || t[n-1] == ':' {
		return "", 0, 0
	}
	for i := n; i < len(t) && t[i] != ':' && t[i] != '|'; i++ {
		if t[i] != ',' {
			continue
		}
		at := i + 1 + blanks(t[i+1:])
		k := matchGroup(t[at:], "say")
		if k == 0 || t[at+k-1] == ':' {
			continue
		}
		at += k
		at += blanks(t[at:])
		_, k, _ = quantity.ReadSpan(t[at:], p.opt)
		end := at + k + blanks(t[at+k:])
		if words := tidy(t[n:i]); k > 0 && words != "" && end < len(t) && t[end] == ':' {
			return words, at, end + 1
		}
	}
	return "", 0, 0
}

// momentHead is the length of `at 30 min:`, of `at half time:` or of `when risen, say 20 min:`.
func (p *parser) momentHead(t string) int {
	if _, _, n := p.sightHead(t); n > 0 {
		return n
	}
	n := matchGroup(t, "at")
	if n == 0 || t[n-1] == ':' {
		return 0
	}
	n += blanks(t[n:])
	if h := matchGroup(t[n:], "half time"); h > 0 {
		if t[n+h-1] == ':' {
			return n + h
		}
		return 0
	}
	_, k, _ := quantity.ReadSpan(t[n:], p.opt)
	if k == 0 {
		return 0
	}
	k += n
	k += blanks(t[k:])
	if k < len(t) && t[k] == ':' {
		return k + 1
	}
	return 0
}

func (r *stepReader) beginMoment(l *line, t string) {
	p := r.p
	n := p.momentHead(t)
	m := &ast.Moment{Meta: ast.Meta{Span: p.span(l.start, l.end)}}
	at := matchGroup(t, "at")
	at += blanks(t[at:])
	if words, from, k := p.sightHead(t); k > 0 {
		first := matchGroup(t, "when")
		first += blanks(t[first:])
		m.Sight, at = ast.Text{Text: words, Span: p.span(l.start+first, l.start+first+len(words))}, from
	}
	if matchGroup(t[at:], "half time") == 0 {
		v, _, probs := quantity.ReadSpan(t[at:], p.opt)
		s := p.piece(l.end)
		s.problems(l.start+at, probs)
		s.done()
		v.About = v.About || m.Sight.Text != ""
		m.At = &v
	}
	r.moment, r.depth, r.margin = m, l.indent, false
	r.step.Moments = append(r.step.Moments, m)
	r.prose(l.start+n, l.end)
}
