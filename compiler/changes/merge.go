package changes

import (
	"regexp"
	"slices"
	"strings"

	"tamis/compiler"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// Merge is a book in the four states of a merge: as it was when two branches began, as
// each of them has it, and put together. All are compiled with plans.
type Merge struct {
	Base, Together *compiler.Result
	Branches       [2]Branch
}

// Branch is one side of a merge.
type Branch struct {
	Name string
	*compiler.Result
}

// Broken is what is wrong with a book that was put together and with neither branch: a
// name that one changed and the other still says, a sentence that takes something else
// than it takes in either, what a base no longer makes, an amount for another number of
// people, a finding that neither has. Text alone does not tell: no line of it clashes.
func (m Merge) Broken() *diag.List {
	found, told := &diag.List{}, map[where]bool{}
	for i := range m.Branches {
		m.leftBehind(found, told, m.Branches[i], m.Branches[1-i])
	}
	m.findings(found, told, diag.Error)
	was, sides := pairedWith(m.Base, m.Together), [2]map[*resolve.Recipe]*resolve.Recipe{}
	for i, b := range m.Branches {
		sides[i] = pairedWith(b.Result, m.Together)
	}
	for _, r := range asked(m.Together.Model) {
		s := merged{m, r, was[r], [2]*resolve.Recipe{sides[0][r], sides[1][r]}, found, told}
		s.lines(sides)
		s.steps()
		s.size()
	}
	m.findings(found, told, diag.Question)
	return found
}

// pairedWith are the recipes of a state, by what they became.
func pairedWith(was, now *compiler.Result) map[*resolve.Recipe]*resolve.Recipe {
	out := map[*resolve.Recipe]*resolve.Recipe{}
	for _, p := range recipes(was.Model, now.Model) {
		if p.now != nil {
			out[p.now] = p.was
		}
	}
	return out
}

// where is a line of a file.
type where struct {
	file *source.File
	line int
}

func placeOf(s source.Span) where { return where{s.File, s.Position().Line} }

// leftBehind finds names that one branch changed and the other still says.
func (m Merge) leftBehind(found *diag.List, told map[where]bool, by, other Branch) {
	together := map[*resolve.Recipe]*resolve.Recipe{} // what a recipe of the branch became
	for now, was := range pairedWith(by.Result, m.Together) {
		if was != nil {
			together[was] = now
		}
	}
	for _, p := range recipes(m.Base.Model, by.Model) {
		if p.was == nil || p.now == nil {
			continue
		}
		if p.was.Name != p.now.Name && !slices.ContainsFunc(by.Model.Recipes, func(r *resolve.Recipe) bool { return r.Key == p.was.Key }) {
			for _, f := range m.Together.Tree.Files {
				has := ""
				for _, o := range by.Tree.Files {
					if o.Path == f.Path {
						has = o.Source.Text
					}
				}
				m.says(found, told, f.Source.Span(0, len(f.Source.Text)), has, p.was.Name, p.now.Name, by, other)
			}
		}
		now := together[p.now]
		if now == nil {
			continue
		}
		before, _ := p.before()
		for _, l := range p.now.Lines {
			if o := before[l]; o != nil && o.Key != l.Key && !gathers(now, o.Key) {
				m.says(found, told, now.Span, p.now.Span.Text(), o.Name, l.Name, by, other)
			}
		}
	}
}

func gathers(r *resolve.Recipe, key string) bool {
	return slices.ContainsFunc(r.Lines, func(l *resolve.Line) bool { return l.Key == key })
}

// says reports an old name in a part of the text, in the lines that the branch that
// changed it does not have.
func (m Merge) says(found *diag.List, told map[where]bool, in source.Span, has, old, now string, by, other Branch) {
	own := map[string]bool{}
	for l := range strings.Lines(has) {
		own[strings.TrimSpace(l)] = true
	}
	forms := []string{regexp.QuoteMeta(old), regexp.QuoteMeta(larder.PluralName(old)), regexp.QuoteMeta(larder.Singular(old))}
	find := regexp.MustCompile(`(?i)(?:^|[^\pL-])(` + strings.Join(forms, "|") + `)(?:$|[^\pL-])`)
	start := in.Start
	for l := range strings.Lines(in.Text()) {
		if hit := find.FindStringSubmatchIndex(l); hit != nil && !own[strings.TrimSpace(l)] && !strings.Contains(strings.ToLower(l), strings.ToLower(now)) {
			at := in.File.Span(start+hit[2], start+hit[3])
			if !told[placeOf(at)] {
				told[placeOf(at)] = true
				found.Warnf("F201", at, "%s is called %s in %s, and %s still says %s here", old, now, by.Name, other.Name, at.Text()).
					Because("neither branch is wrong by itself, and no line of theirs clashes").
					WithHelp("write %q", now)
			}
		}
		start += len(l)
	}
}

// merged is a recipe that was put together, with what it was in each state; nil where
// it was not there.
type merged struct {
	Merge
	now, was *resolve.Recipe
	side     [2]*resolve.Recipe
	found    *diag.List
	told     map[where]bool
}

// lines finds what something makes in a branch and nothing makes together.
func (m merged) lines(sides [2]map[*resolve.Recipe]*resolve.Recipe) {
	for _, l := range m.now.Lines {
		if l.From != nil || l.Product != nil || l.NameAt.IsZero() || m.told[placeOf(l.NameAt)] {
			continue
		}
		for i, r := range m.side {
			o, other := lineOf(r, l), lineOf(m.side[1-i], l)
			if o == nil || o.From == nil && o.Product == nil || other != nil && other.From == nil && other.Product == nil {
				continue // where both branches have the line, it is theirs to say
			}
			maker := "the base"
			if o.From != nil {
				maker = titleOf(o.From)
			} else {
				maker = titleOf(o.Product.Recipe)
			}
			m.told[placeOf(l.NameAt)] = true
			m.found.Warnf("F203", l.NameAt, "in %s %s is made by %s; together nothing makes it, and it would be bought", m.Branches[i].Name, l.Name, maker).
				Because("the other branch has given it another name, or taken it away").
				WithHelp("write the name that it has now")
			break
		}
	}
}

func lineOf(r *resolve.Recipe, l *resolve.Line) *resolve.Line {
	if r == nil {
		return nil
	}
	for _, o := range r.Lines {
		if o.Key == l.Key && sub(o) == sub(l) {
			return o
		}
	}
	return nil
}

// steps finds sentences that are read otherwise than the branches say: what a branch
// changed about a sentence is expected, and of the rest what both have.
func (m merged) steps() {
	met := map[string]int{}
	for _, s := range m.now.Steps {
		text := s.Prose.Text
		n := met[text]
		met[text]++
		at := s.Prose.Span
		if at.IsZero() {
			at = s.Span
		}
		was, _ := factsOf(m.was, text, n)
		a, inA := factsOf(m.side[0], text, n)
		b, inB := factsOf(m.side[1], text, n)
		var want []string
		switch {
		case inA && inB:
			want = bothWays(was, a, b)
		case inA:
			want = a
		case inB:
			want = b
		default:
			continue // it was written when they were put together
		}
		is, _ := factsOf(m.now, text, n)
		if sameFacts(want, is) || slices.ContainsFunc(s.Lines, func(l resolve.Text) bool { return m.told[placeOf(l.Span)] }) {
			continue
		}
		for _, l := range s.Lines {
			m.told[placeOf(l.Span)] = true
		}
		m.found.Warnf("F202", at, "put together, this sentence is read otherwise than in either branch").
			Because("together it %s; by the branches it %s", told(is), told(want)).
			WithHelp("see whether what it speaks of is still gathered, and how much of it the other sentences take")
	}
}

// factsOf is how the n-th step of a recipe that says something is read.
func factsOf(r *resolve.Recipe, text string, n int) (out []string, ok bool) {
	if r == nil || r.Reading == nil {
		return nil, false
	}
	for _, s := range r.Steps {
		if s.Prose.Text != text {
			continue
		}
		if n > 0 {
			n--
			continue
		}
		if sr := r.Reading.Of(s); sr != nil {
			for _, fact := range sr.Lines() {
				fact, _, _ = strings.Cut(fact, ", leaves ") // what is left is for the next sentence to say
				out = append(out, fact)
			}
		}
		return out, true
	}
	return nil, false
}

// bothWays is what two branches make of a list: what both have, and what one has added.
func bothWays(was, a, b []string) (out []string) {
	for _, f := range append(slices.Clone(a), b...) {
		if inA, inB := slices.Contains(a, f), slices.Contains(b, f); (inA && inB || !slices.Contains(was, f)) && !slices.Contains(out, f) {
			out = append(out, f)
		}
	}
	return out
}

func sameFacts(a, b []string) bool {
	a, b = slices.Clone(a), slices.Clone(b)
	slices.Sort(a)
	slices.Sort(b)
	return slices.Equal(slices.Compact(a), slices.Compact(b))
}

func told(facts []string) string {
	if len(facts) == 0 {
		return "takes nothing"
	}
	return strings.Join(facts, ", ")
}

// size finds amounts of one branch in a recipe that the other wrote for another number.
func (m merged) size() {
	if m.was == nil || m.side[0] == nil || m.side[1] == nil {
		return
	}
	for i, by := range m.side {
		other := m.side[1-i]
		if serves(by) == serves(m.was) || serves(other) != serves(m.was) || !rescaled(m.was, by) {
			continue
		}
		for _, l := range m.now.Lines {
			w, o, mine := lineOf(m.was, l), lineOf(other, l), lineOf(by, l)
			if l.Quantity == nil || o == nil || !sameAmount(l, o) || w != nil && (sameAmount(w, o) || mine == nil) || w == nil && mine != nil {
				continue
			}
			at := l.NameAt
			if at.IsZero() || m.told[placeOf(at)] {
				continue
			}
			m.found.Warnf("F204", at, "%s of %s is by %s, where the recipe %s; %s has made it over, and it %s", l.AmountText, l.Name, m.Branches[1-i].Name, serves(m.was), m.Branches[i].Name, serves(by)).
				Because("the amounts around it are for another number").
				WithHelp("make this amount over too")
		}
	}
}

// rescaled tells whether amounts were changed along with the number they are for.
func rescaled(was, now *resolve.Recipe) bool {
	return slices.ContainsFunc(now.Lines, func(l *resolve.Line) bool {
		o := lineOf(was, l)
		return o != nil && l.Quantity != nil && !sameAmount(o, l)
	})
}

// findings are those that neither branch has, but for lines of which something is said
// already.
func (m Merge) findings(found *diag.List, told map[where]bool, least diag.Severity) {
	type kind struct{ code, text string }
	of := func(d diag.Diagnostic) kind {
		k := kind{code: d.Code}
		if !d.At.Span.IsZero() {
			k.text = strings.Join(strings.Fields(d.At.Span.Text()), " ")
		}
		return k
	}
	known := map[kind]bool{}
	for _, b := range m.Branches {
		for d := range b.Diags.All() {
			known[of(d)] = true
		}
	}
	for _, d := range m.Together.Diags.Sorted() {
		if d.Severity < least || known[of(d)] {
			continue
		}
		if !d.At.Span.IsZero() {
			if told[placeOf(d.At.Span)] {
				continue
			}
			told[placeOf(d.At.Span)] = true
		}
		found.Add(d)
	}
}
