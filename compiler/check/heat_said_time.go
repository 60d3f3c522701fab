package check

import (
	"time"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

// saidTimes compares the times of a sentence with the margin. The margin may
// be longer, for a step does more than one thing; it cannot be shorter.
var saidTimes = &Rule{
	Code: "H101", Title: "The sentence says a time that the margin has not.", Family: Heat, Severity: diag.Question,
	What:    "A sentence tells for how long something is cooked or left, and the margin has no time, or one that is shorter.",
	Why:     "The cook reads the sentence and the plan reads the margin; one of them will be wrong.",
	Fix:     "Write in the margin what the sentence says, or correct the sentence.",
	Bad:     "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Simmer the leeks for 20 minutes. | ring low | work 2 min | leave 10 min\n",
	At:      "6:28",
	Good:    "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Simmer the leeks for 20 minutes. | ring low | work 2 min | leave 20 min\n",
	Sources: []string{"the Tamis notation, 2.7"},
	Check: func(p *Pass) {
		p.eachStep(func(r *resolve.Recipe, s *resolve.Step, prose saying) {
			_, _, most, ok := stepLengths(s)
			if !ok {
				return
			}
			for _, pause := range r.Pauses {
				if pause.After == s.Index+1 {
					most += pause.UpTo
				}
			}
			if next := s.Index + 1; next < len(r.Steps) { // "then chill overnight", and the next step does
				if _, _, after, counted := stepLengths(r.Steps[next]); counted {
					most = max(most, after)
				} else {
					most = forever
				}
			}
			for _, t := range prose.times() {
				if !lasts(prose, t) {
					continue
				}
				least := t.span.High
				switch {
				case t.span.Overnight:
					least = t.span.Low
				case t.span.About:
					least = t.span.Low * 9 / 10
				}
				words := prose.text[t.from:t.to]
				switch {
				case len(s.Phases) == 0 && most < least:
					p.Report(prose.place(t.from, t.to), "the sentence says %s, and the margin has no time", words).
						WithHelp("write `| leave %s` below it, or `watch`, or `work`", marginTime(t))
				case most < least:
					p.Report(prose.place(t.from, t.to), "the sentence says %s, and the margin allows %s in all", words, lengthOf(most)).
						WithHelp("write the same time in both")
				}
			}
		})
	},
}

func marginTime(t saidTime) string {
	if t.span.Overnight {
		return "overnight"
	}
	s := t.span
	s.About = false
	return s.String()
}

var (
	beforeTime = mustCompile(`(?i)\b(?:for|simmer|boil|bake|roast|cook|fry|steam|rest|leave|stand|chill|prove|rise|soak|marinate|knead|poach|grill|toast|blanch|braise|stew|infuse|cool|refrigerate)(?: it| them)?(?: for)?(?: about| around| at least| a good| up to| another| a further)?\s+$`)
	bareTime   = mustCompile(`(?i)\b(?:leave|stand|chill|soak|rest|prove|cool|marinate|refrigerate|steep|drain|drip|hang|fridge|cool place|refrigerator|water|place|covered|it|them)\s+$`)
	afterNight = mustCompile(`(?i)^\s*(?:[.,;)]|$|(?:in|at|until|or|so|and|to|under|with)\b)`)
	otherTime  = mustCompile(`(?i)\b(?:keeps?|kept|stores?|stored|storage|before|earlier|ahead|within|ago|advance|every|freeze|frozen|more if|if it|if they|last|first|previous|longer|later)\b`)
	oldTime    = mustCompile(`(?i)\b(?:soaked|left|chilled|marinated|thawed|proved|salted|drained)\s+$`)
)

// lasts tells whether a time in a sentence is how long the step lasts, and not
// how long a thing keeps or what to do in the last minutes.
func lasts(prose saying, t saidTime) bool {
	before := prose.text[:t.from]
	if otherTime.MatchString(prose.sentenceAt(t.from)) || t.span.High > 60*24*time.Hour {
		return false
	}
	if t.span.Overnight {
		return bareTime.MatchString(before) && !oldTime.MatchString(before) && afterNight.MatchString(prose.text[t.to:])
	}
	return beforeTime.MatchString(before)
}
