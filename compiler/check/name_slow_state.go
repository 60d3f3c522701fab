package check

import (
	"strings"
	"sync"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var slowState = &Rule{
	Code: "U316", Title: "Soaked, and no time for it.", Family: Names, Severity: diag.Question,
	What: "The list has a thing soaked, thawed, marinated or the like, which takes hours, and neither the line nor a step gives it a time.",
	Why:  "The plan begins too late: for beans by a night.",
	Fix:  "Write the time after the line: `| leave 12 h`, or make a step of it: `| thaw 12 h, fridge`.",
	Bad: `dish Chick pea stew
  serves 6
  gather
    400 g    dried chick peas, soaked
    200 g    carrots, sliced
  method
    - Simmer the chick peas with the carrots, covered, until soft. | ring low | work 2 min | leave 1 h 30 min
`,
	At: "4:32",
	Good: `dish Chick pea stew
  serves 6
  gather
    400 g    dried chick peas, soaked          | leave 12 h
    200 g    carrots, sliced
  method
    - Simmer the chick peas with the carrots, covered, until soft. | ring low | work 2 min | leave 1 h 30 min
`,
	Sources: []string{"common practice, no source"},
	Check:   checkSlowState,
}

// slowStates are states that take hours, each with the stem of what is done.
var slowStates = map[string]string{
	"soaked": "soak", "pre-soaked": "soak", "presoaked": "soak", "thawed": "thaw", "defrosted": "(defrost|thaw)", "marinated": "marinat",
	"brined": "brin", "overnight": "overnight", "proved": "prov", "cured": "cur",
}

var slowStems = func() map[string]*pattern {
	out := map[string]*pattern{}
	for word, stem := range slowStates {
		out[word] = mustCompile(`(?i)\b` + stem)
	}
	return out
}()

func checkSlowState(p *Pass) {
	for _, r := range p.Recipes() {
		all := sync.OnceValue(func() string {
			var said strings.Builder
			for _, s := range r.Steps {
				said.WriteString(" " + proseOf(s))
				for _, c := range clausesOf(s) {
					said.WriteString(" " + string(c.Begins()))
				}
			}
			return said.String()
		})
		for _, l := range r.Lines {
			if l.From != nil || l.Carried != "" || l.Product != nil || !ownLine(r, l) || len(r.Steps) == 0 || leftAlone(l) {
				continue
			}
			note := noteOf(l)
			if note.text == "" {
				continue
			}
			for _, w := range wordRun.FindAllStringIndex(note.text, -1) {
				word := strings.ToLower(note.text[w[0]:w[1]])
				stem := slowStems[word]
				if stem == nil || stem.MatchString(all()) || shortWait.MatchString(note.text[w[1]:]) {
					continue
				}
				wait := "12 h"
				if stem == slowStems["soaked"] {
					switch {
					case soonSoft.MatchString(l.Name):
						continue
					case softInHalfAnHour.MatchString(l.Name):
						wait = "30 min"
					}
				}
				p.Report(note.place(w[0], w[1]), "%s %s %s beforehand, and no time is given for it", l.Name, isOrAre(l.Name), word).
					WithHelp("write it after the line: `| leave %s`", wait).
					WithHelp("or make a step of it, with `stand` or `thaw` in its margin")
				break
			}
		}
	}
}

// soonSoft are things that soak while something else is fetched, and softInHalfAnHour those
// that want about that long: what is left over night are pulses, salt fish, whole grains.
// Common practice, no source.
var (
	soonSoft         = mustCompile(`(?i)\b(gelatine?|agar|saffron|noodles?|vermicelli|rice papers?|wakame|seaweed|nori|bread|breadcrumbs|crumbs|crusts?|skewers?|sponge fingers)\b`)
	softInHalfAnHour = mustCompile(`(?i)\b(mushrooms?|porcini|ceps?|shiitake|morels?|chill?i(?:es|s)?|chipotles?|anchos?|tomatoes|raisins|sultanas|currants|rice|couscous|bulgh?ur|tamarind|oats|oatmeal|kombu|onions?)\b`)
)

// shortWait is a time of minutes behind a word: "soaked for 10 minutes".
var shortWait = mustCompile(`(?i)^ (?:for |in [^,]*? for )?(?:about )?\d+ ?(?:min|minutes?)\b`)

// leftAlone tells whether a line has a time of its own in which it is left.
func leftAlone(l *resolve.Line) bool {
	for _, sp := range l.Prep {
		if sp.Kind == resolve.Leave {
			return true
		}
	}
	return false
}

// noteOf is what a line says behind its comma, with its place.
func noteOf(l *resolve.Line) saying { return sayingOf([]resolve.Text{l.Note}) }
