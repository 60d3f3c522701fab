package build

import (
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
)

// asData gives the document the recipes of makings of the meal in hand as data, each once.
func (b *builder) asData(makings ...*demand.Making) {
	for _, m := range makings {
		if !slices.Contains(b.written, m.Recipe) {
			b.written = append(b.written, m.Recipe)
			b.doc.Recipes = append(b.doc.Recipes, b.recipe(m))
		}
	}
}

// recipe is a recipe at its written size as data.
func (b *builder) recipe(m *demand.Making) sheets.Recipe {
	r := m.Recipe
	out := sheets.Recipe{Name: r.Name, Base: r.Base}
	for _, c := range r.Own.Credits {
		switch c.Kind {
		case resolve.By:
			out.By = append(out.By, c.Text.Text)
		case resolve.FromSource:
			out.Source = append(out.Source, c.Text.Text)
		case resolve.Link:
			out.Links = append(out.Links, c.Text.Text)
		}
	}
	for _, n := range r.Own.Notes.Also {
		out.Also = append(out.Also, n.Text)
	}
	for _, n := range r.Own.Notes.Equipment {
		out.Equipment = append(out.Equipment, n.Text)
	}
	if r.About != nil {
		out.About = r.About.Text.Text
	}
	if r.Serves != nil {
		out.Serves = r.Serves.String()
	}
	if r.Makes != nil && r.Own.Yield != nil {
		out.Makes = strings.TrimSpace(b.dash(b.fig.Written(r.Own.Yield.Measure, r.System) + " " + r.Makes.What))
	}
	if t := r.Takes; t != nil {
		out.Takes = max(t.Total.High, t.Total.UpTo)
		if t.Work != nil {
			out.Work = t.Work.High
		}
	}
	for _, l := range r.PercentOf {
		out.PercentOf = append(out.PercentOf, l.Name)
	}
	for _, l := range r.Lines {
		list := ""
		if l.Sub != nil {
			list = l.Sub.Name
		}
		g := sheets.Gathered{List: list, Text: b.writtenLine(l), Name: l.Name, Margin: lineMargin(l)}
		if o := l.Option; o != nil {
			g.Option = optionHead(r, o)
		}
		for _, in := range l.Instead {
			g.Instead = append(g.Instead, strings.TrimSpace(in.AmountText+" "+in.Name))
		}
		out.Lines = append(out.Lines, g)
	}
	pauses := map[int][]string{}
	for _, p := range r.Pauses {
		pauses[p.After] = append(pauses[p.After], p.Span.Text())
	}
	for _, s := range r.Steps {
		w := sheets.Written{Text: s.Prose.Text, Above: strings.Join(pauses[s.Index], "; ")}
		for _, c := range s.Margin {
			if text := clauseText(c); text != "" {
				w.Margin = append(w.Margin, text)
			}
		}
		sure := s.Confirmed()
		for i := range sure.Phases {
			_, most, _ := sure.Phases[i].Written()
			w.Lasts += most
		}
		for _, mo := range s.Moments {
			w.Inside = append(w.Inside, mo.When()+": "+mo.Prose.Text)
		}
		out.Steps = append(out.Steps, w)
	}
	if r.ServeHow != nil {
		out.Ends = append(out.Ends, strings.Join(strings.Fields(r.ServeHow.Span.Text()), " "))
	}
	if r.Keeps != nil {
		out.Ends = append(out.Ends, "keeps "+r.Keeps.String())
	}
	return out
}

// optionHead is how an option of a choice is headed in a list: "either plain", "or with
// almonds". Of one that a variant has left alone nothing is to be chosen.
func optionHead(r *resolve.Recipe, o *resolve.Option) string {
	var left []*resolve.Option
	for _, l := range r.Lines {
		if l.Option != nil && l.Option.Choice == o.Choice && !slices.Contains(left, l.Option) {
			left = append(left, l.Option)
		}
	}
	switch {
	case len(left) < 2:
		return ""
	case left[0] == o:
		return "either " + o.Label
	}
	return "or " + o.Label
}

// writtenLine is a line of a list without its margin, its amount as it was written or in the
// units that were asked for.
func (b *builder) writtenLine(l *resolve.Line) string {
	text := l.AmountText
	if l.Written != nil && l.Share == nil && len(l.Written.Measure.Terms) > 0 && l.Written.Kind == 0 {
		text = b.fig.Written(l.Written.Measure, l.Recipe.System)
	}
	for _, part := range []string{l.Size, l.Name} {
		text = strings.TrimSpace(text + " " + part)
	}
	if l.Brackets.Text != "" {
		text += " (" + l.Brackets.Text + ")"
	}
	if note := b.fig.Note(l); note != "" {
		text += ", " + note
	}
	if l.ToTaste {
		text += ", to taste"
	}
	if l.Optional {
		text += ", optional"
	}
	return text
}

// lineMargin are the clauses of a line as they stand in its margin.
func lineMargin(l *resolve.Line) (out []string) {
	for i, text := range strings.Split(l.Span.Text(), "\n") {
		if text = strings.TrimSpace(text); i > 0 && !strings.HasPrefix(text, "|") {
			continue
		}
		for _, c := range strings.Split(text, "|")[1:] {
			if c = strings.Join(strings.Fields(c), " "); c != "" && c != "to taste" && c != "optional" {
				out = append(out, c)
			}
		}
	}
	return out
}

// clauseText is a clause as it stands in the margin; empty where it was read from the
// sentence, which says it itself.
func clauseText(c resolve.Clause) string {
	if resolve.FromSentence(c) {
		return ""
	}
	text := strings.Join(strings.Fields(c.Where().Text()), " ")
	if resolve.Unconfirmed(c) && !strings.HasSuffix(text, "?") {
		text += " ?"
	}
	return text
}
