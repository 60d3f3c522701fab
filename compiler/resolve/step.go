package resolve

import (
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// method reads the steps and pauses of a recipe.
func (b *builder) method(r *Recipe) {
	if r.method == nil {
		return
	}
	o := b.offering(r)
	for _, it := range r.method.Items {
		switch x := it.(type) {
		case *ast.Step:
			for _, part := range o.step(x) {
				b.step(r, part)
			}
		case *ast.Pause:
			p := &Pause{Span: x.Span, Keep: Keep(x.Keep), Number: len(r.Pauses) + 1, After: len(r.Steps), UpTo: longest(&x.Keep.Time), Place: x.Keep.Place}
			r.Pauses = append(r.Pauses, p)
		}
	}
	for _, s := range r.Steps { // steps may name what later ones make
		b.afters(r, s)
	}
	b.strands(r)
}

// longest is the longest time a span allows.
func longest(s *quantity.Span) time.Duration {
	return max(s.High, s.UpTo)
}

func (b *builder) step(r *Recipe, of part) {
	x := of.Step
	s := &Step{
		Passage: passageOf(x.Prose, x.Lines), Span: x.Span, written: of.of, Recipe: r, Index: len(r.Steps), Pause: len(r.Pauses), Cooks: 1, Times: 1,
		Plain: of.plain, Said: Text(x.Said), Title: TitleOf(x.Prose.Text), Line: LineOf(x.Prose.Text),
	}
	r.Steps = append(r.Steps, s)
	for i, c := range x.Clauses {
		cl := b.clauseOf(c)
		cl.head().Said = i >= len(x.Clauses)-of.said
		s.Margin = append(s.Margin, cl)
		b.clause(r, s, c, cl)
	}
	sortPhases(s.Phases)
	for _, m := range x.Moments {
		b.moment(r, s, m)
	}
	if of.offer != nil {
		of.offer.Steps = append(of.offer.Steps, s)
	}
}

// Then is what the sentence of a step says is done at its end, "drain", in small
// letters; "" when it says nothing of the kind.
func (s *Step) Then() string { return ThenOf(s.Prose.Text) }

// ThenOf is Then of a step's prose.
func ThenOf(prose string) string {
	text := strings.TrimRight(prose, " .!")
	i := strings.LastIndex(text, " then ")
	if i < 0 {
		return ""
	}
	t := strings.TrimSpace(text[i+len(" then "):])
	for i, c := range t {
		if strings.ContainsRune(".;:", c) && !amongFigures(t, i) {
			return t[:i]
		}
	}
	return t
}

// sortPhases puts phases in the order in which they come, however they were written.
func sortPhases(phases []Spell) {
	slices.SortStableFunc(phases, func(a, b Spell) int { return a.rank() - b.rank() })
}

// rank is where a phase stands among those of its step.
func (s *Spell) rank() int {
	switch {
	case s.Word == WordThenWork:
		return 3
	case s.Kind == Leave:
		return 2
	case s.Kind == Watch:
		return 1
	}
	return 0
}

func passageOf(prose ast.Text, lines []ast.Text) Passage {
	p := Passage{Prose: Text(prose)}
	for _, l := range lines {
		p.Lines = append(p.Lines, Text(l))
	}
	return p
}

func (b *builder) moment(r *Recipe, s *Step, x *ast.Moment) {
	m := &Moment{Passage: passageOf(x.Prose, x.Lines), At: x.At, Sight: x.Sight.Text}
	s.Moments = append(s.Moments, m)
	before := len(s.Makes)
	for _, c := range x.Clauses {
		cl := b.clauseOf(c)
		m.Margin = append(m.Margin, cl)
		if made, ok := cl.(*Made); ok {
			b.products(r, s, m, made)
		}
	}
	for _, c := range m.Margin {
		if k, ok := c.(*Keeping); ok {
			for _, p := range s.Makes[before:] { // what this moment gives
				p.Keeps = &k.Keep
			}
		}
	}
}

// clause notes in the step what a clause of its margin says.
func (b *builder) clause(r *Recipe, s *Step, written ast.Clause, c Clause) {
	switch c := c.(type) {
	case *Spell:
		if c.Each.Name.Text != "" {
			c.EachLine = b.lineMeant(r, c.Each.Name)
			if c.EachLine == nil {
				c.EachMade = b.piecesNamed(r, c.Each.Name.Text)
			}
			if c.EachLine == nil && c.EachMade == 0 && r.productNamed(b.fold(c.Each.Name.Text)) == nil {
				b.notGathered(r, c.Each.Name, "this time grows with")
			}
		}
		s.Phases = append(s.Phases, *c)
		if c.Place != "" && s.Place == "" {
			s.Place = c.Place
		}
	case *InOven:
		s.Heats = c.Heats
		s.Oven, s.Shelf, s.Shelves = b.fold(c.Name.Text), c.Shelf, max(1, c.Shelves)
		s.Fan, s.Shut = c.Fan, c.Shut
	case *OnRing:
		s.Rings, s.Level = max(1, c.Count), c.Level
	case *UnderGrill:
		s.Grill, s.Level = true, c.Level
	case *InPlace:
		s.Place = string(c.Word)
	case *WithTool:
		s.Tools = append(s.Tools, b.fold(c.Name.Text))
	case *InVessel:
		s.Vessel, s.Vessels = b.fold(c.Name.Text), max(1, c.Count)
		if !c.Of.IsZero() {
			if c.Line = b.lineMeant(r, c.Of); c.Line == nil {
				c.Made = b.piecesNamed(r, c.Of.Text)
			}
			if c.Line == nil && c.Made == 0 {
				b.notGathered(r, c.Of, "the vessel holds so many of")
			}
		}
	case *Into:
		s.Into = c
	case *Target:
		switch c.Word {
		case WordCore:
			s.Core = c
		case WordReach:
			s.Reach = c
		}
	case *Made:
		b.products(r, s, nil, c)
	case *Keeping:
		for _, p := range s.Makes {
			p.Keeps = &c.Keep
		}
	case *Hold:
		s.Hold = c
	case *Within:
		s.Within = nil
		if c.Time != nil {
			t := longest(c.Time)
			s.Within = &t
		}
	case *Helpers:
		s.Cooks = max(1, c.Count)
	case *Plain:
		b.plain(r, s, written)
	}
}

// plain notes what stands in no clause of the model.
func (b *builder) plain(r *Recipe, s *Step, c ast.Clause) {
	switch c := c.(type) {
	case *ast.Mark:
		switch c.Word {
		case "meanwhile":
			s.Meanwhile = true
		case "any time":
			s.AnyTime = true
		case "only if needed":
			s.OnlyIfNeeded = true
		case "twice":
			s.Times = 2
		case "three times":
			s.Times = 3
		case "four times":
			s.Times = 4
		case "only after a pause", "only before a pause", "not after a pause", "not before a pause":
			b.paused(r, s, c)
		}
	case *ast.Timing:
		if c.Time == nil {
			return
		}
		t := longest(c.Time)
		if c.Word == "start" {
			s.StartBefore = &t
		} else {
			s.DoneBefore = &t
		}
	case *ast.Named: // if, unless
		b.condition(r, s, c)
	case *ast.Hands:
		for _, n := range c.Cooks {
			s.By = append(s.By, b.fold(n.Text))
		}
	}
}

func (b *builder) condition(r *Recipe, s *Step, c *ast.Named) {
	cond := Condition{Unless: c.Word == "unless"}
	key := b.fold(c.Name.Text)
	switch {
	case r.option(key) != nil:
		cond.Option = r.option(key)
	default:
		labels := r.labels()
		d := b.diags.Errorf("U121", c.Name.Span, "%s does not offer %q", r.Name, c.Name.Text)
		switch {
		case len(labels) == 0:
			d.WithHelp("options are declared in the gather list: `either plain`, `or with almonds`")
		default:
			if near := diag.Nearest(c.Name.Text, labels); near != "" {
				d.Replace("write "+near, false, c.Name.Span, near)
			}
			d.WithHelp("this %s offers %s", r.kind(), and(labels))
		}
		return
	}
	s.If = append(s.If, cond)
}

// paused notes that a step hangs on the pause above it, or on the one below.
func (b *builder) paused(r *Recipe, s *Step, c *ast.Mark) {
	cond := Condition{Unless: strings.HasPrefix(c.Word, "not"), Paused: true, Pause: s.Pause}
	if strings.Contains(c.Word, "before") {
		cond.Pause++
	}
	if cond.Pause == 0 || cond.Pause > r.pausesWritten() {
		b.noPause(r, s, c)
		return
	}
	s.If = append(s.If, cond)
}

// pausesWritten is how many pauses a method has, those below a step too.
func (r *Recipe) pausesWritten() (n int) {
	for _, it := range r.method.Items {
		if _, ok := it.(*ast.Pause); ok {
			n++
		}
	}
	return n
}

// noPause reports `only after a pause` without a pause above, or `only before a pause` without
// one below; the other word where it would be right.
func (b *builder) noPause(r *Recipe, s *Step, c *ast.Mark) {
	where, other, its := "above", "before", "below"
	if s.Pause > 0 {
		where, other, its = "below", "after", "above"
	}
	if s.Pause == 0 && strings.Contains(c.Word, "before") {
		where, other = "below", ""
	}
	d := b.diags.Errorf("U120", c.Span, "no pause stands %s this step", where).
		Because("`after a pause` asks about the nearest pause above, `before a pause` about the next one below")
	if other != "" && r.pausesWritten() > 0 {
		how, _, _ := strings.Cut(c.Word, " ")
		right := how + " " + other + " a pause"
		d.Replace(fmt.Sprintf("write `%s`: the pause %s is meant", right, its), r.pausesWritten() == 1, c.Span, right)
		return
	}
	d.WithHelp("write `pause up to 1 day, fridge` on a line of its own where the dish may wait")
}

func (r *Recipe) kind() string {
	if r.Base {
		return "base"
	}
	return "dish"
}

func (r *Recipe) labels() (out []string) {
	for _, c := range r.Choices {
		for _, o := range c.Options {
			out = append(out, o.Label)
		}
	}
	return out
}

// and joins words as a sentence does.
func and(words []string) string {
	q := make([]string, len(words))
	for i, w := range words {
		q[i] = "`" + w + "`"
	}
	if len(q) < 2 {
		return strings.Join(q, "")
	}
	return strings.Join(q[:len(q)-1], ", ") + " and " + q[len(q)-1]
}

// afters finds the makers a step waits for instead of the step before.
func (b *builder) afters(r *Recipe, s *Step) {
	for _, c := range s.Margin {
		c, ok := c.(*After)
		if !ok {
			continue
		}
		key := b.fold(c.Name.Text)
		i := slices.IndexFunc(r.Products, func(p *Product) bool { return p.Key == key })
		switch {
		case i < 0:
			var made []string
			for _, p := range r.Products {
				made = append(made, p.Name)
			}
			d := b.diags.Errorf("U122", c.Name.Span, "no step of %s makes %q", r.Name, c.Name.Text)
			if near := diag.Nearest(c.Name.Text, made); near != "" {
				d.WithHelp("did you mean %q?", near)
			}
			d.WithHelp("name the moment where it is made: `| makes %s`", c.Name.Text)
		case r.Products[i].Step == s:
			b.diags.Errorf("U123", c.Span, "this step waits for what it makes itself")
		default:
			s.After = append(s.After, r.Products[i].Step)
		}
	}
}

// strands checks that every `meanwhile` has something to run beside.
func (b *builder) strands(r *Recipe) {
	for _, s := range r.Steps {
		if !s.Meanwhile {
			continue
		}
		first := s.Index == 0
		afterPause := slices.ContainsFunc(r.Pauses, func(p *Pause) bool { return p.After == s.Index })
		if first || afterPause {
			where := "first step"
			if afterPause {
				where = "first step after a pause"
			}
			b.diags.Errorf("U124", s.Span, "the %s cannot be done meanwhile", where).
				Because("`meanwhile` runs beside the step before it, and here there is none").
				WithHelp("take `meanwhile` out, or move the step below the one it runs beside")
			s.Meanwhile = false
		}
	}
}

// lineMeant finds the line a name means: by its whole name, else by its only
// short form.
func (b *builder) lineMeant(r *Recipe, n Text) *Line {
	if l := r.lineNamed(b.fold(n.Text)); l != nil {
		return l
	}
	f := b.finder(r, r.Lines, nil)
	words := b.words(n.Text)
	var found *Line
	for _, m := range f.at(words, 0, true) {
		if m.target.line != nil && m.length == len(words) {
			if found != nil {
				return nil
			}
			found = m.target.line
		}
	}
	return found
}

// piecesNamed is how many pieces of a name a block is shared into, at any step
// of it: 24 for `into 24 rolls`.
func (b *builder) piecesNamed(r *Recipe, name string) int {
	for _, it := range r.method.Items {
		if st, ok := it.(*ast.Step); ok {
			for _, c := range st.Clauses {
				if v, ok := c.(*ast.InVessel); ok && v.Word == "into" && v.Count > 0 && b.fold(v.Name.Text) == b.fold(name) {
					return v.Count
				}
			}
		}
	}
	if y := r.Makes; y != nil && y.What != "" && b.fold(y.What) == b.fold(name) {
		if n, whole := y.Quantity.Value.High.Int64(); whole {
			return int(n)
		}
	}
	return 0
}

func (r *Recipe) productNamed(key string) *Product {
	for _, p := range r.Products {
		if p.Key == key {
			return p
		}
	}
	return nil
}

func (b *builder) notGathered(r *Recipe, n Text, label string) {
	d := b.diags.Errorf("U126", n.Span, "nothing called %s is gathered here", n.Text).Labelled("%s this", label)
	var names []string
	for _, l := range r.Lines {
		names = append(names, l.Name)
	}
	if near := diag.Nearest(n.Text, names); near != "" {
		d.Replace("write "+near, false, n.Span, near).WithHelp("did you mean %q?", near)
	}
}

// How many letters of a step's first words stand on a bar, and on a line of a
// list.
const (
	titleMax = 34
	lineMax  = 76
)

// TitleOf is the beginning of a step's prose for a bar, LineOf the same for a line of a list.
func TitleOf(prose string) string { return title(prose, titleMax) }

func LineOf(prose string) string { return title(prose, lineMax) }

// title is the beginning of a sentence, cut at a pause of the voice; cut
// elsewhere it ends with a whole word.
func title(prose string, most int) string {
	t := prose[:pauseOfVoice(prose)]
	if utf8.RuneCountInString(t) <= most {
		return t
	}
	cut, n := 0, 0
	for i, c := range t {
		if c == ' ' {
			cut = i
		}
		if n++; n > most {
			break
		}
	}
	if cut == 0 {
		return t
	}
	t = t[:cut]
	for { // no title ends on a little word
		i := strings.LastIndexByte(t, ' ')
		if i <= 0 || !littleWords[strings.ToLower(t[i+1:])] {
			return t
		}
		t = t[:i]
	}
}

// pauseOfVoice is where a sentence ends, or pauses after at least three words:
// "Strain, skim" says more than "Strain".
func pauseOfVoice(prose string) int {
	for i, c := range prose {
		switch c {
		case '.', ';', ':':
			if amongFigures(prose, i) {
				continue
			}
			return i
		case ',', '(':
			if len(strings.Fields(prose[:i])) >= 3 {
				return len(strings.TrimRight(prose[:i], " "))
			}
		}
	}
	return len(prose)
}

// amongFigures tells whether a mark stands between two figures: the point of
// "2.5 litres" ends nothing.
func amongFigures(s string, i int) bool {
	return i > 0 && i+1 < len(s) && isDigit(s[i-1]) && isDigit(s[i+1])
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

var littleWords = map[string]bool{
	"a": true, "an": true, "the": true, "and": true, "or": true, "of": true, "to": true, "in": true, "on": true, "with": true,
	"for": true, "until": true, "then": true, "into": true, "at": true, "over": true, "from": true, "by": true, "as": true, "it": true, "its": true, "your": true,
}
