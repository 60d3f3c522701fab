package changes

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
)

// method compares two methods. Steps that say the same, or more of it than others do,
// belong together in order; one that says the same elsewhere has moved.
func (p pair) method(before map[*resolve.Line]*resolve.Line) (out []string) {
	a, b := p.was.Steps, p.now.Steps
	m := &methods{a, b, before}
	old, moved := m.together()
	next := 0
	gone := func(to int) {
		for ; next < to; next++ {
			if !slices.Contains(old, next) {
				out = append(out, fmt.Sprintf("gone: step %d, %s", next+1, a[next].Line))
			}
		}
	}
	for j, s := range b {
		i := old[j]
		switch {
		case i < 0:
			out = append(out, fmt.Sprintf("new: step %d, %s", j+1, s.Line))
			continue
		case moved[j]:
			out = append(out, fmt.Sprintf("step %d (%s) was step %d", j+1, s.Title, i+1))
		default:
			gone(i)
		}
		if !m.same(a[i], s) {
			out = append(out, fmt.Sprintf("step %d is in other words: %s", j+1, inOtherWords(a[i], s)))
		}
		out = append(out, step(a[i], s)...)
		out = append(out, m.takes(a[i], s)...)
	}
	gone(len(a))
	return out
}

// methods are two methods, and what is now gathered with what it was.
type methods struct {
	was, now []*resolve.Step
	before   map[*resolve.Line]*resolve.Line
}

// same tells whether two steps say the same, but for what has another name now.
func (m *methods) same(a, b *resolve.Step) bool {
	if a.Prose.Text == b.Prose.Text {
		return true
	}
	said := strings.ToLower(a.Prose.Text)
	for l, o := range m.before {
		if l.Key != o.Key {
			said = strings.ReplaceAll(said, strings.ToLower(o.Name), strings.ToLower(l.Name))
		}
	}
	return said == strings.ToLower(b.Prose.Text)
}

// How much a pair of steps is worth: what says the same goes before all, and what stands
// in each other's place is better than nothing.
const (
	asGood  = 10.0
	inPlace = 0.01
)

// together is which step each one was, -1 for none, and whether it stood elsewhere among the others.
func (m *methods) together() (old []int, moved []bool) {
	a, b := m.was, m.now
	worth := m.worths()
	best := make([][]float64, len(a)+1)
	for i := range best {
		best[i] = make([]float64, len(b)+1)
	}
	for i := len(a) - 1; i >= 0; i-- {
		for j := len(b) - 1; j >= 0; j-- {
			best[i][j] = max(best[i+1][j], best[i][j+1], best[i+1][j+1]+worth[i][j])
		}
	}
	old, moved = make([]int, len(b)), make([]bool, len(b))
	for j := range old {
		old[j] = -1
	}
	for i, j := 0, 0; i < len(a) && j < len(b); {
		switch {
		case worth[i][j] > 0 && best[i][j] == best[i+1][j+1]+worth[i][j]:
			old[j] = i
			i, j = i+1, j+1
		case best[i][j] == best[i+1][j]:
			i++
		default:
			j++
		}
	}
	for j := range b {
		for i := range a {
			if old[j] < 0 && worth[i][j] >= asGood && !slices.Contains(old, i) {
				old[j], moved[j] = i, true
			}
		}
	}
	return old, moved
}

// worths is what each pair of steps is worth. What says the same as another belongs to that one alone.
func (m *methods) worths() [][]float64 {
	worth := make([][]float64, len(m.was))
	has, had := make([]bool, len(m.now)), make([]bool, len(m.was))
	for i, a := range m.was {
		worth[i] = make([]float64, len(m.now))
		for j, b := range m.now {
			if m.same(a, b) {
				worth[i][j], had[i], has[j] = asGood, true, true
			}
		}
	}
	for i, a := range m.was {
		for j, b := range m.now {
			if !had[i] && !has[j] {
				worth[i][j] = inPlace + inCommon(saidWords(a), saidWords(b))
			}
		}
	}
	return worth
}

func saidWords(s *resolve.Step) []string { return strings.Fields(strings.ToLower(s.Prose.Text)) }

// inOtherWords is what a step says now where it said something else, with the words beside it,
// or its beginning where little is as it was.
func inOtherWords(a, b *resolve.Step) string {
	x, y := strings.Fields(a.Prose.Text), strings.Fields(b.Prose.Text)
	from := 0
	for from < min(len(x), len(y)) && x[from] == y[from] {
		from++
	}
	to := 0
	for to < min(len(x), len(y))-from && x[len(x)-1-to] == y[len(y)-1-to] {
		to++
	}
	if 2*(from+to) < len(y) || from == len(x) && from == len(y) {
		return b.Line
	}
	part := func(words []string) string {
		first, last := max(0, from-2), min(len(words), len(words)-to+2)
		text := strings.Join(words[first:last], " ")
		if first > 0 {
			text = "… " + text
		}
		if last < len(words) {
			text += " …"
		}
		return text
	}
	return fmt.Sprintf("%q, before %q", part(y), part(x))
}

// takes compares how much two steps take of what both recipes gather.
func (m *methods) takes(a, b *resolve.Step) (out []string) {
	x, y := taken(a), taken(b)
	say := func(format string, args ...any) {
		out = append(out, fmt.Sprintf("step %d (%s): %s", b.Index+1, b.Title, fmt.Sprintf(format, args...)))
	}
	was := map[*resolve.Line]bool{}
	for _, t := range y {
		o := m.before[t.Line]
		if o == nil {
			continue
		}
		was[o] = true
		i := slices.IndexFunc(x, func(u resolve.Take) bool { return u.Line == o })
		switch {
		case i < 0:
			say("takes %s, before none of it", t.Says())
		case !alikeTaken(x[i], t):
			say("takes %s, before %s", t.Says(), x[i].Says())
		}
	}
	for _, u := range x {
		if !was[u.Line] && m.gathers(u.Line) {
			say("takes no %s, before %s", u.Line.Name, u.Says())
		}
	}
	return out
}

// gathers tells whether what was gathered still is.
func (m *methods) gathers(o *resolve.Line) bool {
	for _, was := range m.before {
		if was == o {
			return true
		}
	}
	return false
}

// taken is what a step takes, of each line the first.
func taken(s *resolve.Step) (out []resolve.Take) {
	if s.Recipe.Reading == nil {
		return nil
	}
	sr := s.Recipe.Reading.Of(s)
	if sr == nil {
		return nil
	}
	for _, t := range sr.Takes {
		if t.Line != nil && !t.Refers && !slices.ContainsFunc(out, func(u resolve.Take) bool { return u.Line == t.Line }) {
			out = append(out, t)
		}
	}
	return out
}

// alikeTaken tells whether two steps take the same share, or neither says how much.
func alikeTaken(a, b resolve.Take) bool {
	vague := func(t resolve.Take) bool { return t.Line.ToTaste || t.Unmeasured || t.AfterSome }
	return vague(a) == vague(b) && (vague(a) || a.Part.Equal(b.Part))
}

// step compares what two steps take of time, heat and place, and what else their margins say.
func step(a, b *resolve.Step) (out []string) {
	say := func(format string, args ...any) {
		out = append(out, fmt.Sprintf("step %d (%s): %s", b.Index+1, b.Title, fmt.Sprintf(format, args...)))
	}
	for _, kind := range []resolve.SpellKind{resolve.Work, resolve.Watch, resolve.Leave} {
		x, y := spells(a, kind), spells(b, kind)
		if x == y {
			continue
		}
		more := ""
		if d := length(b, kind) - length(a, kind); d > 0 && x != "" {
			more = ", " + timeline.SpanWords(int(d/time.Minute)) + " longer"
		} else if d < 0 && y != "" {
			more = ", " + timeline.SpanWords(int(-d/time.Minute)) + " shorter"
		}
		say("%s %s, before %s%s", kind, orNone(y), orNone(x), more)
	}
	if x, y := heats(a), heats(b); x != y {
		say("oven %s, before %s", orNone(y), orNone(x))
	}
	if x, y := ring(a), ring(b); x != y {
		say("%s, before %s", orNone(y), orNone(x))
	}
	if a.Place != b.Place {
		say("in the %s, before %s", orNone(b.Place), orNone(a.Place))
	}
	for _, d := range otherwise(rest(a, b), rest(b, a)) {
		say("%s", d)
	}
	return out
}

// rest is what the margin of a step says that step has no words of its own for, and its
// moments; without what another margin leaves to its sentence.
func rest(s, other *resolve.Step) (out []string) {
	for _, c := range s.Margin {
		switch c.(type) {
		case *resolve.Spell, *resolve.OnRing, *resolve.InPlace, *resolve.InOven:
			continue
		}
		if resolve.FromSentence(c) || slices.ContainsFunc(other.Margin, func(o resolve.Clause) bool { return resolve.FromSentence(o) && o.Begins() == c.Begins() }) {
			continue
		}
		out = append(out, clauseText(c.Where()))
	}
	if s.Shelf != "" {
		out = append(out, s.Shelf+" shelf")
	}
	if s.Shelves > 1 {
		out = append(out, fmt.Sprintf("%d shelves", s.Shelves))
	}
	if s.Fan != "" {
		out = append(out, "fan "+s.Fan)
	}
	for _, m := range s.Moments {
		out = append(out, m.When()+": "+m.Prose.Text)
	}
	return out
}

func orNone(text string) string {
	if text == "" {
		return "none"
	}
	return text
}

func spells(s *resolve.Step, kind resolve.SpellKind) string {
	var parts []string
	for _, p := range s.Phases {
		switch {
		case p.Kind != kind:
		case resolve.FromSentence(&p) && p.Fixed != nil: // as the margin would have it
			parts = append(parts, p.Fixed.String())
		default:
			parts = append(parts, strings.TrimPrefix(clauseText(p.Span), string(p.Word)+" "))
		}
	}
	return strings.Join(parts, " and ")
}

func length(s *resolve.Step, kind resolve.SpellKind) (d time.Duration) {
	for _, p := range s.Phases {
		if p.Kind == kind && p.Fixed != nil {
			d += p.Fixed.High
		}
	}
	return d
}

func heats(s *resolve.Step) string {
	var parts []string
	for _, h := range s.Heats {
		part := h.Written.String()
		if h.For > 0 {
			part += " for " + timeline.SpanWords(int(h.For/time.Minute))
		}
		parts = append(parts, part)
	}
	return strings.Join(parts, " then ")
}

func ring(s *resolve.Step) string {
	switch {
	case s.Rings == 0:
		return ""
	case s.Rings == 1:
		return strings.TrimSpace("a ring " + s.Level)
	}
	return strings.TrimSpace(fmt.Sprintf("%d rings %s", s.Rings, s.Level))
}
