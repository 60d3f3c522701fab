package changes

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"tamis/compiler/hazard"
	"tamis/compiler/practice"
	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
)

func titleOf(r *resolve.Recipe) string {
	if r.Base {
		return "base " + r.Name
	}
	return "dish " + r.Name
}

// lines are what is otherwise with a recipe.
func (p pair) lines(was, now *resolve.Model) (out []string) {
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if p.was.Name != p.now.Name {
		say("was called %s", p.was.Name)
	}
	if a, b := p.was.Scope.Dir, p.now.Scope.Dir; a != b {
		say("was in %s, is now in %s", folder(a), folder(b))
	}
	if p.was.Base != p.now.Base {
		say("was a %s", strings.Fields(titleOf(p.was))[0])
	}
	if a, b := serves(p.was), serves(p.now); a != b {
		say("%s, before %s", said(b), said(a))
	}
	out = append(out, p.gathered()...)
	out = append(out, p.steps()...)
	a, b := allergens(was, p.was), allergens(now, p.now)
	for _, x := range b {
		if !slices.Contains(a, x) {
			say("now contains %s", x)
		}
	}
	for _, x := range a {
		if !slices.Contains(b, x) {
			say("no longer lists %s among what it contains", x)
		}
	}
	return out
}

func folder(dir string) string {
	if dir == "." {
		return "the book's own folder"
	}
	return dir
}

func said(text string) string {
	if text == "" {
		return "does not say for how many it is"
	}
	return text
}

func serves(r *resolve.Recipe) string {
	var parts []string
	if r.Serves != nil {
		parts = append(parts, "serves "+r.Serves.String())
	}
	if r.Makes != nil && r.Own.Yield != nil {
		parts = append(parts, strings.TrimSpace("makes "+r.Own.Yield.String()+" "+r.Makes.What))
	}
	return strings.Join(parts, ", ")
}

func allergens(m *resolve.Model, r *resolve.Recipe) []string {
	if r.Reading == nil {
		return nil
	}
	return hazard.AllergensOf(hazard.AllergenList(practice.OfRecipe(m.Books, r).Written), hazard.AllThings(r.Reading)).Contains
}

// before pairs what is gathered with what it was: by name, then, of lines that are left
// over, one of the same amount in the same place is the same under another name.
func (p pair) before() (before map[*resolve.Line]*resolve.Line, used map[*resolve.Line]bool) {
	before, used = map[*resolve.Line]*resolve.Line{}, map[*resolve.Line]bool{}
	for _, l := range p.now.Lines {
		for _, o := range p.was.Lines {
			if !used[o] && o.Key == l.Key && sub(o) == sub(l) {
				before[l], used[o] = o, true
				break
			}
		}
	}
	for i, l := range p.now.Lines {
		if before[l] != nil || i >= len(p.was.Lines) {
			continue
		}
		if o := p.was.Lines[i]; !used[o] && o.AmountText == l.AmountText {
			before[l], used[o] = o, true
		}
	}
	return before, used
}

// gathered compares two lists.
func (p pair) gathered() (out []string) {
	before, used := p.before()
	for _, l := range p.now.Lines {
		o := before[l]
		switch {
		case o == nil:
			out = append(out, "new: "+whole(l))
			continue
		case o.Key != l.Key:
			out = append(out, fmt.Sprintf("%s in place of %s", whole(l), o.Name))
		case !sameAmount(o, l):
			out = append(out, fmt.Sprintf("%s: %s, before %s", l.Name, amount(l), amount(o)))
		}
		if o.Note.Text != l.Note.Text {
			out = append(out, fmt.Sprintf("%s: %s, before %s", l.Name, note(l), note(o)))
		}
	}
	for _, o := range p.was.Lines {
		if !used[o] {
			out = append(out, "gone: "+whole(o))
		}
	}
	return out
}

func sub(l *resolve.Line) string {
	if l.Sub == nil {
		return ""
	}
	return l.Sub.Key
}

func whole(l *resolve.Line) string { return strings.TrimSpace(l.AmountText + " " + l.Name) }

func amount(l *resolve.Line) string {
	if l.AmountText == "" {
		return "no amount"
	}
	return l.AmountText
}

func note(l *resolve.Line) string {
	if l.Note.IsZero() {
		return "nothing said"
	}
	return l.Note.Text
}

// sameAmount tells whether two lines want as much, however it is written.
func sameAmount(a, b *resolve.Line) bool {
	if a.Quantity != nil && b.Quantity != nil {
		return a.Quantity.Same(*b.Quantity) && a.Quantity.Value.Equal(b.Quantity.Value)
	}
	return a.AmountText == b.AmountText
}

// steps compares two methods: steps that say the same belong together, in order; of
// those in between, one and one are the same step in other words.
func (p pair) steps() (out []string) {
	a, b := p.was.Steps, p.now.Steps
	common := longest(a, b)
	i, j := 0, 0
	for _, c := range append(common, [2]int{len(a), len(b)}) {
		for i < c[0] || j < c[1] {
			switch {
			case i < c[0] && j < c[1]:
				out = append(out, fmt.Sprintf("step %d is in other words: %s", j+1, b[j].Line))
				out = append(out, step(a[i], b[j])...)
				i, j = i+1, j+1
			case i < c[0]:
				out = append(out, fmt.Sprintf("gone: step %d, %s", i+1, a[i].Line))
				i++
			default:
				out = append(out, fmt.Sprintf("new: step %d, %s", j+1, b[j].Line))
				j++
			}
		}
		if i < len(a) && j < len(b) {
			out = append(out, step(a[i], b[j])...)
			i, j = i+1, j+1
		}
	}
	return out
}

// longest are the pairs of steps that say the same, as many as there are in order.
func longest(a, b []*resolve.Step) (out [][2]int) {
	much := make([][]int, len(a)+1)
	for i := range much {
		much[i] = make([]int, len(b)+1)
	}
	for i := len(a) - 1; i >= 0; i-- {
		for j := len(b) - 1; j >= 0; j-- {
			if a[i].Prose.Text == b[j].Prose.Text {
				much[i][j] = much[i+1][j+1] + 1
			} else {
				much[i][j] = max(much[i+1][j], much[i][j+1])
			}
		}
	}
	for i, j := 0, 0; i < len(a) && j < len(b); {
		switch {
		case a[i].Prose.Text == b[j].Prose.Text:
			out = append(out, [2]int{i, j})
			i, j = i+1, j+1
		case much[i+1][j] >= much[i][j+1]:
			i++
		default:
			j++
		}
	}
	return out
}

// step compares what two steps take of time, heat and place.
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
		if p.Kind == kind {
			parts = append(parts, strings.TrimSuffix(strings.TrimPrefix(strings.Join(strings.Fields(p.Span.Text()), " "), string(p.Word)+" "), " ?"))
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
		parts = append(parts, h.Written.String())
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
