package check

import (
	"time"

	"tamis/compiler/hazard"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var riceWarm = &Rule{
	Code: "S116", Title: "Cooked rice that waits warm.", Family: Safety, Severity: diag.Warning,
	What:    "Cooked rice is held warm, or left out for longer than rice may take to cool.",
	Why:     "A germ in rice lives through cooking, and makes a poison in warm rice that heat does not undo.",
	Fix:     "Hold it hot with degrees, or cool it within the hour in a thin layer.",
	Sources: []string{"UK Food Standards Agency consumer advice, as seen quoted"},
	Bad: `dish Rice salad
  rules UK home
  serves 4
  gather
    300 g    basmati rice
    600 ml   water
  method
    - Simmer the rice in the water, covered, until tender.
      | ring low | leave 15 min | hold warm up to 2 h
  serve warm
`,
	At: "9:35",
	Good: `dish Rice salad
  rules UK home
  serves 4
  gather
    300 g    basmati rice
    600 ml   water
  method
    - Simmer the rice in the water, covered, until tender.
      | ring low | leave 15 min | hold hot up to 2 h, above 63 C
  serve warm
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for _, st := range d.Stages {
				if !st.After.Rice() || !st.After.Cooked {
					continue
				}
				r := d.choice.Rule("cool", "rice", "first", "all")
				l := r.Shortest()
				if c := st.Step.Hold; c != nil && c.State != "hot" && c.State != "cold" && longestOf(c.UpTo) > l.Time && !seen.again(c.Span) {
					p.cite(p.ReportAs(softer(diag.Warning, r), c.Span, "cooked rice is kept hot or cooled, not warm"), r, l).
						WithHelp("write `hold hot up to %s, above 63 C`, or cool it within %s", lengthOf(longestOf(c.UpTo)), l.Length())
				}
				c := st.Spell(resolve.WordLeave, resolve.WordRest, resolve.WordStand)
				if c == nil || st.Heats || st.Cools || st.Before.Warmth != hazard.Hot || out(st) <= l.Time || seen.again(c.Span) {
					continue
				}
				p.cite(p.ReportAs(softer(diag.Warning, r), c.Span, "cooked rice stands here for %s; it wants to be cold within %s", lengthOf(out(st)), l.Length()), r, l).
					WithHelp("spread it thinly to cool, or hold it hot with degrees")
			}
		}
	},
}

// out is the time a step leaves food neither cold nor hot.
func out(st *hazard.Stage) time.Duration {
	switch st.Step.Place {
	case "fridge", "freezer":
		return 0
	}
	if c := st.Step.Hold; c != nil && c.State == "hot" {
		return 0
	}
	return idle(st)
}
