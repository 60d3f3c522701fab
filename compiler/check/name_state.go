package check

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var stateFromNowhere = &Rule{
	Code: "U317", Title: "Melted, and nobody melted it.", Family: Names, Severity: diag.Question,
	What: "A step speaks of a thing as melted, toasted, drained or the like, and neither the list nor anything before it says so.",
	Why:  "The cook finds it in another state than the step needs.",
	Fix:  "Write the state after the comma in the list, or a step that brings it about.",
	Bad: `dish Oat biscuits
  serves 6
  gather
    150 g    rolled oats
    100 g    butter
    60 g     honey
  method
    - Stir the oats and the honey into the melted butter. | work 4 min
`,
	At: "8:44",
	Good: `dish Oat biscuits
  serves 6
  gather
    150 g    rolled oats
    100 g    butter, melted
    60 g     honey
  method
    - Stir the oats and the honey into the melted butter. | work 4 min
`,
	Sources: []string{"common practice, no source"},
	Check:   checkStates,
}

// broughtAbout are the states that a step may bring about, each with the words that
// do it: roasted, by roasting or in an oven.
var broughtAbout = func() map[string]*pattern {
	out := map[string]*pattern{}
	for _, state := range larder.States() {
		out[state] = mustCompile(`(?i)\b(` + strings.Join(larder.BringsAbout(state), "|") + `)\b`)
	}
	return out
}()

// lastWord is the word at the end of a text before a blank, and where it begins;
// empty where something else stands there.
func lastWord(text string) (from int, word string) {
	end := strings.TrimRight(text, " \t\n\r\f")
	if len(end) == len(text) {
		return 0, ""
	}
	from = len(end)
	for from > 0 {
		c, n := utf8.DecodeLastRuneInString(end[:from])
		if c != '-' && !unicode.IsLetter(c) {
			break
		}
		from -= n
	}
	return from, end[from:]
}

// sought is how much of a growing text was searched for a pattern.
type sought struct {
	upTo  int
	found bool
}

// soughtIn tells whether a pattern stands in a text that grows by whole words;
// what was searched before is not searched again.
func (p *pattern) soughtIn(text string, done map[*pattern]*sought) bool {
	s := done[p]
	if s == nil {
		s = &sought{}
		done[p] = s
	}
	if !s.found {
		s.found = p.MatchString(text[s.upTo:])
		s.upTo = len(text)
	}
	return s.found
}

// placeOf is where a clause leaves or keeps something; empty: it does not say.
func placeOf(c resolve.Clause) string {
	switch c := c.(type) {
	case *resolve.Spell:
		if c.Word != resolve.WordRest { // which is always in the room
			return c.Place
		}
	case *resolve.Keeping:
		return c.Keep.Place
	}
	return ""
}

// isOrAre is the verb that a name of food takes: the butter is, the whites are.
func isOrAre(name string) string {
	name = strings.ToLower(name)
	if strings.HasSuffix(name, "s") && !strings.HasSuffix(name, "ss") && !strings.HasSuffix(name, "us") && !strings.HasSuffix(name, "is") {
		return "are"
	}
	return "is"
}

func checkStates(p *Pass) {
	for _, r := range p.Recipes() {
		rds := p.readings(r)
		var before strings.Builder // what the first so many steps say
		told := 0
		done := map[*pattern]*sought{}
		for i, s := range r.Steps {
			prose := p.saying(s)
			for _, t := range takesOf(rds, s) {
				at := prose.offset(t.NameAt)
				if t.Line == nil || t.ByMargin || at <= 0 || t.Line.From != nil || t.Line.Product != nil || !mine(r, s.Span) {
					continue
				}
				from, word := lastWord(prose.text[:at])
				state := strings.ToLower(word)
				how := broughtAbout[state]
				if how == nil {
					continue
				}
				for ; told < i; told++ {
					before.WriteString(marginSays(r.Steps[told]) + " " + proseOf(r.Steps[told]) + " ")
				}
				if how.MatchString(marginSays(s)+" "+prose.text[:from]) || how.soughtIn(before.String(), done) || how.MatchString(lineNote(t.Line)+" "+t.Line.Name) || hasWord(lineNote(t.Line), state) {
					continue
				}
				p.Report(prose.place(from, from+len(state)), "nothing says how the %s %s %s", t.NameAt.Text(), isOrAre(t.NameAt.Text()), state).
					See(t.Line.Span, "gathered here").
					WithHelp("write `%s, %s` in the list, or a step that does it", t.Line.Name, state)
			}
		}
	}
}

// marginSays is how the clauses of a step begin, and the places they name.
func marginSays(s *resolve.Step) string {
	var b strings.Builder
	for _, c := range clausesOf(s) {
		b.WriteString(" " + string(c.Begins()) + " " + placeOf(c))
	}
	return b.String()
}
