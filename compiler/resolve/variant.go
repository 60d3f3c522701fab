package resolve

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"tamis/lang/ast"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// What a variant changes in the blocks it is like: lines left out or replaced, and
// steps left out, replaced or put in. It is carried out on the statements, before any
// of them gets a meaning. The sentences that come along stay as they are; what has
// another name now, and a step that has another number, is said otherwise when they are
// read (Reworded), and nothing else in them.

// changed is a block's statements with `as … but` carried out, and what its reader
// must know.
type changed struct {
	items   []ast.RecipeItem
	gone    []*ast.Line               // lines left out
	speaks  []Spoken                  // of what came along, in its own changes
	renamed map[*ast.Line][]string    // what a line was called in the sentences that came along
	numbers map[*ast.Step]map[int]int // the steps that came along: the number of each step their sentences know; 0: gone
}

// variant carries out what x changes in the statements it took from others.
func (b *builder) variant(r *Recipe, c *changed) {
	for _, it := range r.ast.Items {
		switch x := it.(type) {
		case *ast.Without:
			for _, n := range x.Names {
				if old := b.inherited(c, n, "left out"); old != nil {
					c.replaceLine(old, nil)
					c.gone = append(c.gone, old)
					c.speaks = append(c.speaks, Spoken{nameText(n), old.Name.Span})
				}
			}
		case *ast.Replace:
			b.swap(c, x)
		}
	}
	b.changeSteps(r, c)
}

// inherited is the line of a name among those that came along; an unknown one is
// reported.
func (b *builder) inherited(c *changed, n ast.Name, what string) *ast.Line {
	var names []string
	for _, it := range c.items {
		if g, ok := it.(*ast.Gather); ok {
			if l := findLine(g.Items, b.fold(n.Text), b.fold); l != nil {
				return l
			}
			allLines(g.Items, func(l *ast.Line) { names = append(names, l.Name.Text) })
		}
	}
	d := b.diags.Errorf("U143", n.Span, "%s is not gathered there, so it cannot be %s", n.Text, what).
		WithHelp("write the name as it stands in the list of the other block")
	if near := diag.Nearest(n.Text, names); near != "" {
		d.Replace("write "+near, false, n.Span, near)
	}
	return nil
}

func allLines(items []ast.GatherItem, do func(*ast.Line)) {
	for _, it := range items {
		switch x := it.(type) {
		case *ast.Line:
			do(x)
		case *ast.SubList:
			allLines(x.Items, do)
		case *ast.Choice:
			for _, o := range x.Options {
				allLines(o.Items, do)
			}
		}
	}
}

// replaceLine puts a line in place of another; nil takes it out.
func (c *changed) replaceLine(old, line *ast.Line) {
	for i, it := range c.items {
		if g, ok := it.(*ast.Gather); ok {
			out := *g
			out.Items = replaceLines(g.Items, map[*ast.Line]*ast.Line{old: line})
			c.items[i] = &out
		}
	}
}

// swap puts another thing in place of a line. Where that is gathered too, both
// amounts are wanted, if they can be added.
func (b *builder) swap(c *changed, x *ast.Replace) {
	old := b.inherited(c, x.Name, "replaced")
	if old == nil {
		return
	}
	c.speaks = append(c.speaks, Spoken{nameText(x.Name), old.Name.Span})
	line := *x.Line
	if line.Amount == nil {
		line.Amount, line.AmountAt = old.Amount, old.AmountAt
	}
	was := append([]string{old.Name.Text}, c.renamed[old]...)
	var other *ast.Line
	for _, it := range c.items {
		if g, ok := it.(*ast.Gather); ok && other == nil {
			other = findLine(g.Items, b.fold(line.Name.Text), b.fold)
		}
	}
	if other != nil && other != old {
		sum := *other
		if sum.Amount != nil && line.Amount != nil && sum.Amount.Kind == quantity.Plain && line.Amount.Kind == quantity.Plain {
			a := *sum.Amount
			a.Measure.Terms = slices.Concat(a.Measure.Terms, line.Amount.Measure.Terms)
			sum.Amount = &a
		}
		b.diags.Askf("U145", x.Span, "%s is gathered there already; is this so much more of it?", line.Name.Text).
			See(other.Name.Span, "here").
			Because("both amounts are added up, and both sentences take of the one line").
			WithHelp("give the whole amount in the `gather` list here, and write `without %s`", old.Name.Text)
		c.replaceLine(old, nil)
		c.replaceLine(other, &sum)
		c.renamed[&sum] = append(was, c.renamed[other]...)
		return
	}
	c.replaceLine(old, &line)
	c.renamed[&line] = was
}

// changeSteps leaves steps out, replaces them and puts others in. All changes speak of
// the steps by the numbers they have there.
func (b *builder) changeSteps(r *Recipe, c *changed) {
	at := slices.IndexFunc(c.items, func(it ast.RecipeItem) bool { _, ok := it.(*ast.Method); return ok })
	var steps []*ast.Step
	if at >= 0 {
		for _, it := range c.items[at].(*ast.Method).Items {
			if s, ok := it.(*ast.Step); ok {
				steps = append(steps, s)
			}
		}
	}
	before, after, instead := map[*ast.Step][]ast.MethodItem{}, map[*ast.Step][]ast.MethodItem{}, map[*ast.Step]*ast.Change{}
	any := false
	for _, it := range r.ast.Items {
		x, ok := it.(*ast.Change)
		if !ok {
			continue
		}
		s := b.stepMeant(x, steps)
		if s == nil {
			continue
		}
		any = true
		switch x.Key {
		case "before step":
			before[s] = append(before[s], x.Items...)
		case "after step":
			after[s] = append(after[s], x.Items...)
		default:
			instead[s] = x
		}
	}
	if !any {
		return
	}
	out := *c.items[at].(*ast.Method)
	out.Items = nil
	moved, number := map[int]int{}, 0
	add := func(items []ast.MethodItem) {
		for _, it := range items {
			if _, ok := it.(*ast.Step); ok {
				number++
			}
		}
		out.Items = append(out.Items, items...)
	}
	for _, it := range c.items[at].(*ast.Method).Items {
		s, ok := it.(*ast.Step)
		if !ok {
			add([]ast.MethodItem{it})
			continue
		}
		add(before[s])
		was := slices.Index(steps, s) + 1
		if x := instead[s]; x == nil {
			moved[was] = number + 1
			add([]ast.MethodItem{s})
		} else if len(x.Items) > 0 {
			moved[was] = number + 1
			add(x.Items)
		}
		add(after[s])
	}
	c.items[at] = &out
	for _, s := range steps {
		known := map[int]int{}
		for i := range steps {
			n := i + 1
			if k, ok := c.numbers[s]; ok {
				n = k[i+1]
			}
			known[i+1] = moved[n]
		}
		c.numbers[s] = known
	}
}

// stepMeant is the step a change speaks of: the one of its number, if it begins so,
// else the only one that does, with a question.
func (b *builder) stepMeant(x *ast.Change, steps []*ast.Step) *ast.Step {
	begins := func(s *ast.Step) bool {
		return x.Begins.IsZero() || strings.HasPrefix(b.fold(s.Prose.Text), strings.TrimRight(b.fold(x.Begins.Text), ".…"))
	}
	if x.Step >= 1 && x.Step <= len(steps) && begins(steps[x.Step-1]) {
		return steps[x.Step-1]
	}
	var found []int
	for i, s := range steps {
		if !x.Begins.IsZero() && begins(s) {
			found = append(found, i)
		}
	}
	what := fmt.Sprintf("step %d there does not begin so", x.Step)
	if x.Step < 1 || x.Step > len(steps) {
		what = fmt.Sprintf("there is no step %d: the other block has %d", x.Step, len(steps))
	}
	d := b.diags.Askf("U142", x.Span, "%s", what).
		Because("a step that was put in there would move this change to another one, and nobody would see it")
	if x.Step >= 1 && x.Step <= len(steps) {
		d.See(steps[x.Step-1].Prose.Span, "step %d", x.Step)
	}
	if len(found) == 1 {
		d.WithHelp("step %d begins so, and is changed: write `%s %d`", found[0]+1, x.Key, found[0]+1)
		return steps[found[0]]
	}
	d.WithHelp("write the number of the step and its first words, as in `%s 2, \"Strain\"`", x.Key)
	return nil
}

// Rewording is a place of a sentence that came from another block and says something
// else here: the name of what replaces a thing, or the number a step has now.
type Rewording struct {
	At   source.Span
	Text string
}

// cameAlong tells whether a step was written in another block.
func (s *Step) cameAlong() bool {
	r := s.Recipe.Span
	return s.Span.File != r.File || s.Span.Start < r.Start || s.Span.End > r.End
}

// ghosts are the forms that sentences of other blocks may use besides: the old names of
// what was replaced, and of what was left out.
func (b *builder) ghosts(f *finder, r *Recipe, lines []*Line) *finder {
	if len(r.gone) == 0 && !slices.ContainsFunc(lines, func(l *Line) bool { return len(l.was) > 0 }) {
		return f
	}
	out := &finder{forms: slices.Clone(f.forms), first: maps.Clone(f.first)}
	for _, l := range lines {
		for _, name := range l.was {
			out.addName(b.cutUp(name), target{line: l})
		}
	}
	for _, l := range r.gone {
		out.addName(b.cutUp(l.Name), target{line: l})
	}
	return out
}

// stillNeeds asks about a sentence that speaks of what was left out.
func (sc *scanner) stillNeeds(l *Line, at source.Span) {
	sc.diags.Askf("U141", at, "%s is left out of %s, and this sentence still needs it", l.Name, sc.recipe.Name).
		Because("the sentence comes from another block and is printed as it stands").
		WithHelp("write the step anew in %s: `replace step %d, \"%s\"` and the step below it", sc.recipe.Name, sc.now.Index+1, firstWords(sc.now.Prose.Text))
}

// ofVessel tells whether the word at i is a vessel, which is called by what it is for: "the
// milk pan" stays one.
func (sc *scanner) ofVessel(i int) bool {
	return i < len(sc.words) && !sc.words[i].stop && slices.Contains([]string{"pan", "saucepan", "pot", "jug", "bowl", "bottle", "churn", "dish", "tin"}, sc.words[i].key)
}

// firstWords are the first words of a sentence, as a change quotes them.
func firstWords(text string) string {
	words := strings.Fields(text)
	return strings.Trim(strings.Join(words[:min(3, len(words))], " "), ".,;:")
}

var stepNumber = regexp.MustCompile(`(?i)\bstep (\d{1,3})\b`)

// renumber says which numbers of steps a sentence that came along has otherwise.
func (rd *reader) renumber(s *Step, lines []Text) (out []Rewording) {
	known := rd.recipe.numbers[s.written]
	for _, l := range lines {
		for _, m := range stepNumber.FindAllStringSubmatchIndex(l.Text, -1) {
			n, _ := strconv.Atoi(l.Text[m[2]:m[3]])
			now, ok := known[n]
			at := l.Span.File.Span(l.Span.Start+m[2], l.Span.Start+m[3])
			switch {
			case !ok || now == n:
			case now == 0:
				rd.diags.Askf("U141", at, "step %d is left out of %s, and this sentence still speaks of it", n, rd.recipe.Name).
					Because("the sentence comes from another block and is printed as it stands").
					WithHelp("write the step anew in %s: `replace step %d, \"%s\"` and the step below it", rd.recipe.Name, n, firstWords(s.Prose.Text))
			default:
				out = append(out, Rewording{at, strconv.Itoa(now)})
			}
		}
	}
	return out
}

// reword gives a step that came along the words it has here.
func (s *Step) reword(list []Rewording) {
	if len(list) == 0 {
		return
	}
	s.Passage.reword(list)
	for _, m := range s.Moments {
		m.Passage.reword(list)
	}
	s.Title, s.Line = TitleOf(s.Prose.Text), LineOf(s.Prose.Text)
}

func (p *Passage) reword(list []Rewording) {
	var parts []string
	for _, l := range p.Lines {
		text, shift := l.Text, 0
		for _, w := range list {
			if w.At.File != l.Span.File || w.At.Start < l.Span.Start || w.At.End > l.Span.Start+len(l.Text) {
				continue
			}
			from, to := w.At.Start-l.Span.Start+shift, w.At.End-l.Span.Start+shift
			text = text[:from] + w.Text + text[to:]
			shift += len(w.Text) - (w.At.End - w.At.Start)
		}
		parts = append(parts, text)
	}
	p.Prose.Text = strings.Join(parts, " ")
}
