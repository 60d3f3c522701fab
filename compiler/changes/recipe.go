package changes

import (
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/hazard"
	"tamis/compiler/practice"
	"tamis/compiler/resolve"
	"tamis/lang/source"
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
	before, used := p.before()
	out = append(out, p.gathered(before, used)...)
	out = append(out, p.fields()...)
	out = append(out, p.method(before)...)
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
func (p pair) gathered(before map[*resolve.Line]*resolve.Line, used map[*resolve.Line]bool) (out []string) {
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
		for _, d := range otherwise(margin(o), margin(l)) {
			out = append(out, l.Name+": "+d)
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

// margin is what stands behind the bar of a gathered line, and in which way it is wanted.
func margin(l *resolve.Line) (out []string) {
	for _, s := range l.Prep {
		out = append(out, clauseText(s.Span))
	}
	if l.Option != nil {
		out = append(out, "for "+l.Option.Label)
	}
	for words, is := range map[string]bool{"to taste": l.ToTaste, "optional": l.Optional, "from the shop": l.Bought && l.Seller == "", "from " + l.Seller: l.Seller != ""} {
		if is {
			out = append(out, words)
		}
	}
	if l.Keeps != nil {
		out = append(out, "keeps "+l.Keeps.String())
	}
	for _, c := range l.Cautions {
		out = append(out, "caution "+c.Text)
	}
	slices.Sort(out)
	return out
}

// fields compares how it is served, how long it keeps, and what a headnote says.
func (p pair) fields() []string {
	of := func(r *resolve.Recipe) (out []string) {
		if r.Keeps != nil {
			out = append(out, "keeps "+r.Keeps.String())
		}
		if r.ServeHow != nil {
			out = append(out, clauseText(r.ServeHow.Span))
		}
		for _, p := range r.Pauses {
			out = append(out, clauseText(p.Span))
		}
		return out
	}
	out := otherwise(of(p.was), of(p.now))
	if a, b := headnote(p.was), headnote(p.now); a != b {
		out = append(out, "the headnote is in other words")
	}
	return out
}

func headnote(r *resolve.Recipe) string {
	if r.About == nil {
		return ""
	}
	return strings.Join(strings.Fields(r.About.Text.Text), " ")
}

// clauseText is a clause as the writer has it, whether or not it is confirmed.
func clauseText(at source.Span) string {
	return strings.TrimSuffix(strings.Join(strings.Fields(at.Text()), " "), " ?")
}

// otherwise compares things by how they are written: of what begins with the same word
// both are told, then what came, then what went.
func otherwise(was, now []string) (out []string) {
	gone := slices.DeleteFunc(slices.Clone(was), func(w string) bool { return slices.Contains(now, w) })
	first := func(text string) string { w, _, _ := strings.Cut(text, " "); return w }
	for _, n := range now {
		if slices.Contains(was, n) {
			continue
		}
		if i := slices.IndexFunc(gone, func(g string) bool { return first(g) == first(n) }); i >= 0 {
			out = append(out, n+", before "+gone[i])
			gone = slices.Delete(gone, i, i+1)
			continue
		}
		out = append(out, "now "+n)
	}
	for _, g := range gone {
		out = append(out, "no longer "+g)
	}
	return out
}
