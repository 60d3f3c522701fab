package check

import (
	"fmt"
	"slices"
	"strings"

	"tamis/compiler/resolve"
	"tamis/compiler/timeline"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// servedMany is for how many plating and clearing are work to be planned: common
// practice, no source.
const servedMany = 10

// usualService is what service takes where nobody says: common practice, no source.
var usualService = []struct {
	kind       resolve.ServiceKind
	what, line string
}{
	{resolve.Plates, "plating", "plates 20 s a cover"},
	{resolve.Clears, "clearing", "clears 5 min, after each course"},
	{resolve.CleansDown, "cleaning down", "cleans down 30 min"},
}

// serviceUntimed offers the time that service takes.
var serviceUntimed = &Rule{
	Code: "P305", Title: "Service that nobody has timed.", Family: Plan, Severity: diag.Hint,
	What:    "A meal for ten or more by the clock, and neither the menu nor its kitchen says how long plating, or clearing, or cleaning down takes. What is served hot wants hot plates, too.",
	Why:     "The plan leaves no hands for them, and they are wanted when everybody is at the stove.",
	Fix:     "Write the lines with your own minutes; `tamis check --fix --offered` writes the usual ones, each with a `?`.",
	Bad:     "menu Supper\n  covers 12\n  on the table 2027-05-02 19:00\n  course First\n    Leek pot\n\ndish Leek pot\n  serves 4\n",
	At:      "1:6",
	Good:    "menu Supper\n  covers 12\n  on the table 2027-05-02 19:00\n  plates 20 s a cover\n  cleans down 30 min\n  course First\n    Leek pot\n\ndish Leek pot\n  serves 4\n",
	Sources: []string{"common practice, no source"},
	Whole:   true,
	Check: func(p *Pass) {
		for _, m := range p.Model.Menus {
			if !m.Asked || m.Covers < servedMany || m.Serve == nil || m.NameAt.IsZero() {
				continue
			}
			said := slices.Clone(m.Service)
			if m.Kitchen != nil {
				said = append(said, m.Kitchen.Service...)
			}
			text := ""
			var what, lines []string
			for _, s := range usualService {
				if s.kind == resolve.Clears && len(m.Courses) < 2 || slices.ContainsFunc(said, func(o resolve.Service) bool { return o.Kind == s.kind }) {
					continue
				}
				what, lines = append(what, s.what), append(lines, "`"+s.line+"`")
				text += "\n  " + s.line + " ?"
			}
			if text == "" {
				continue
			}
			if c := firstHot(m); c != nil && !slices.ContainsFunc(m.Tasks, func(t *resolve.Task) bool { return strings.Contains(strings.ToLower(t.Name), "plates") }) {
				text += fmt.Sprintf("\n  task Warm the plates, work 5 min, before %s ?", c.Name)
			}
			end := m.NameAt
			end.Start = end.End
			take := "take"
			if len(what) == 1 {
				take = "takes"
			}
			d := p.Report(m.NameAt, "%d eat, and nobody has said how long %s %s", m.Covers, timeline.Listed(what), take).
				WithHelp("write it into the menu or its kitchen: %s", strings.Join(lines, ", "))
			d.Fixes = append(d.Fixes, diag.Fix{Title: "write the usual times into the menu, each with a `?`", Offered: true, Edits: []diag.Edit{{Span: end, Text: text}}})
		}
	},
}

// firstHot is the first course with a name that has something hot.
func firstHot(m *resolve.Menu) *resolve.Course {
	for _, c := range m.Courses {
		if c.Name != "" && slices.ContainsFunc(c.Servings, func(s *resolve.Serving) bool {
			return s.Recipe != nil && s.Recipe.ServeHow != nil && s.Recipe.ServeHow.State == "hot"
		}) {
			return c
		}
	}
	return nil
}

// oneMoment asks about courses that are served at one moment.
var oneMoment = &Rule{
	Code: "P306", Title: "Two courses at one moment.", Family: Plan, Severity: diag.Question,
	What:    "Two courses of a menu are served at the same minute.",
	Why:     "What comes at once is one course; if the second should wait, nobody has said how long.",
	Fix:     "Say when it comes, `course Main, 30 min after First`, or make one course of the two.",
	Bad:     "menu Supper\n  covers 4\n  on the table 2027-05-02 19:00\n  course First\n    Leek pot\n  course Main\n    Bean pot\n\ndish Leek pot\n  serves 4\n\ndish Bean pot\n  serves 4\n",
	At:      "6:10",
	Good:    "menu Supper\n  covers 4\n  on the table 2027-05-02 19:00\n  course First\n    Leek pot\n  course Main, 30 min after First\n    Bean pot\n\ndish Leek pot\n  serves 4\n\ndish Bean pot\n  serves 4\n",
	Sources: []string{"common practice, no source"},
	Whole:   true,
	Check: func(p *Pass) {
		for _, m := range p.Model.Menus {
			if !m.Asked || m.Serve == nil {
				continue
			}
			for i, c := range m.Courses {
				k := slices.IndexFunc(m.Courses[:i], func(o *resolve.Course) bool { return o.At == c.At && o.Name != "" })
				if k < 0 || c.Name == "" || c.NameAt == (source.Span{}) {
					continue
				}
				p.Report(c.NameAt, "%s and %s are served at one moment", m.Courses[k].Name, c.Name).
					See(m.Courses[k].NameAt, "the first").
					WithHelp("say when it comes: `course %s, 30 min after %s`", c.Name, m.Courses[k].Name).
					WithHelp("or put its dishes into %s", m.Courses[k].Name)
			}
		}
	},
}
