package check

import (
	"regexp"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/source"
)

// oneTin asks about a tin of one size into which another amount goes.
var oneTin = &Rule{
	Code: "H145", Title: "More in one tin than was written.", Family: Heat, Severity: diag.Question,
	What:    "A step bakes in one tin or dish whose size or kind is named, for a time that does not grow, and the menu makes the block a quarter larger, or a fifth smaller, than it is written.",
	Why:     "Twice the batter overflows, or is raw in the middle when its edge is done; half of it is dry.",
	Fix:     "Say into how many it goes, `into 1 cake tin`: the menu then takes as many as are full; or cook for a number that fills it; or, where it was tried, `tested 6 to 12`.",
	Bad:     "menu Tea\n  covers 16\n  course Table\n    Seed cake\n\ndish Seed cake\n  serves 8\n  gather\n    200 g butter\n    200 g plain flour\n  method\n    - Cream the butter, and fold in the flour. | work 10 min\n    - Bake in a 20 cm tin. | oven 170 C | leave 45 min\n  serve cold\n",
	At:      "13:43",
	Good:    "menu Tea\n  covers 16\n  course Table\n    Seed cake\n\ndish Seed cake\n  serves 8\n  gather\n    200 g butter\n    200 g plain flour\n  method\n    - Cream the butter, and fold in the flour. | into 1 cake tin | work 10 min\n    - Bake. | oven 170 C | leave 45 min\n  serve cold\n",
	Sources: []string{noSource},
	Check: func(p *Pass) {
		for _, meal := range p.Meals {
			for _, m := range meal.Makings {
				if m.Reading != nil && m.Recipe.Asked && m.Recipe.Tested == nil && otherSize(m.Factor) && m.Factor.Sign() > 0 {
					p.inOneTin(meal, m)
				}
			}
		}
	},
	After: Demanded,
}

// inOneTin looks at the first step of a making that bakes in one tin: named there, or
// where it was filled.
func (p *Pass) inOneTin(meal *demand.Meal, m *demand.Making) {
	tin, at := "", source.Span{}
	for _, sr := range m.Reading.Steps {
		s := sr.Step
		if s.Into != nil && s.Into.IntoVessels() {
			return
		}
		if name, span := tinOf(s); name != "" {
			tin, at = name, span
		}
		sp := onceThrough(s)
		if tin == "" || sp == nil || len(s.Heats) == 0 {
			continue
		}
		if sizeKnown(meal, s) || !mine(m.Recipe, sp.Span) {
			return
		}
		d := p.Report(sp.Span, "%s is made %s times over: one %s gets %s of what was written, and the written time", m.Recipe.Name, timesOver(m.Factor), tin, percentOf(m.Factor))
		if at != s.Span {
			d.See(at, "the tin")
		}
		d.WithHelp("if it is several of that size, say so where they are filled: `into 1 %s`; the menu takes as many as are full", withoutSize.ReplaceAllString(tin, "")).
			WithHelp("or name a tin of another size and its time; or, where it was tried, write `tested` and for how many")
		return
	}
}

// inATin tells whether oneTin asks about a making.
func inATin(m *demand.Making) bool {
	tin := false
	for _, sr := range m.Reading.Steps {
		name, _ := tinOf(sr.Step)
		if tin = tin || name != ""; tin && len(sr.Step.Heats) > 0 && onceThrough(sr.Step) != nil {
			return true
		}
	}
	return false
}

// tinOf is the one tin or dish that a step names: in its margin, or, by its size, in its
// sentence.
func tinOf(s *resolve.Step) (string, source.Span) {
	if c := resolve.First[*resolve.InVessel](s.Margin); c != nil {
		if c.Count == 0 && len(c.Holds.Terms) == 0 && tinName.MatchString(larder.Fold(c.Name.Text)) {
			return c.Name.Text, c.Span
		}
		return "", source.Span{}
	}
	if m := tinSaid.FindStringSubmatch(s.Prose.Text); m != nil {
		return strings.ToLower(m[1]), s.Span
	}
	return "", source.Span{}
}

var (
	// tinName is a tin by its size, or of a kind that gives what is baked its depth.
	tinName = regexp.MustCompile(`\d ?(cm|mm|inch|inches|in|")|^(.* )?(cake|loaf|pie|tart|flan|quiche|bundt|springform|sponge|sandwich|brownie|pudding|gratin|terrine|souffle|soufflé)[ -](tin|pan|dish|mould|case|basin|ring)$`)
	tinSaid = regexp.MustCompile(`(?i)\b(?:an?|the|one)\s+((?:[\p{L}-]+,?\s+){0,3}?\d+(?:\.\d+)?(?:\s*[x×]\s*\d+)?\s*-?\s*(?:cm|inch|in\.?|")\s+(?:[\p{L}-]+,?\s+){0,3}?(?:tin|pan|mould|dish|basin|terrine|ring))\b`)
	// withoutSize cuts the size off a tin's name.
	withoutSize = regexp.MustCompile(`(?i)^.*\d\s*-?\s*(?:cm|mm|inches|inch|in\.?|")\s+`)
)
