package check

import (
	"time"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/prose"
)

// saidTimes compares the times of a sentence with the margin. The margin may
// be longer, for a step does more than one thing; it cannot be shorter.
var saidTimes = &Rule{
	Code: "H101", Title: "The sentence says a time that the margin has not.", Family: Heat, Severity: diag.Question,
	What:    "A sentence tells for how long something is cooked or left, and the margin has a time that is shorter, or longer than the most the sentence allows. Where the margin has no time at all, that of the sentence is planned with: H123.",
	Why:     "The cook reads the sentence and the plan reads the margin; one of them will be wrong.",
	Fix:     "Write in the margin what the sentence says, or correct the sentence.",
	Bad:     "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Simmer the leeks for 20 minutes. | ring low | work 2 min | leave 10 min\n",
	At:      "6:28",
	Good:    "dish Leek pot\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Simmer the leeks for 20 minutes. | ring low | work 2 min | leave 20 min\n",
	Sources: []string{"the Tamis notation, 2.7"},
	Check: func(p *Pass) {
		p.eachStep(func(r *resolve.Recipe, s *resolve.Step, said saying) {
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
			lasting := 0
			for _, t := range said.times() {
				if t.Lasting() {
					lasting++
				}
			}
			for _, t := range said.times() {
				if !lasts(&t) {
					continue
				}
				words := said.text[t.From:t.To]
				if t.Role == prose.AtMost {
					if least, _, _, ok := stepLengths(s); ok && lasting == 1 && least > max(t.Span.High, t.Span.UpTo) && s.Phases[0].Kind != resolve.Work {
						p.Report(said.place(t.From, t.To), "the sentence says %s, and the margin has %s", words, lengthOf(least)).
							WithHelp("write the same time in both")
					}
					continue
				}
				least := t.Span.High
				switch {
				case t.Span.Overnight:
					least = t.Span.Low
				case t.Span.About:
					least = t.Span.Low * 9 / 10
				}
				switch {
				case len(s.Phases) == 0 && most < least:
					p.Report(said.place(t.From, t.To), "the sentence says %s, and the margin has no time", words).
						WithHelp("write `| leave %s` below it, or `watch`, or `work`", marginTime(&t))
				case most < least:
					p.Report(said.place(t.From, t.To), "the sentence says %s, and the margin allows %s in all", words, lengthOf(most)).
						WithHelp("write the same time in both")
				}
			}
		})
	},
}

func marginTime(t *prose.Time) string {
	if t.Span.Overnight {
		return "overnight"
	}
	s := t.Span
	s.About = false
	return s.String()
}

// lasts tells whether a time in a sentence is how long the step lasts, and not
// how long a thing keeps, what to do in the last minutes, or a time for so much.
func lasts(t *prose.Time) bool {
	return t.Lasting() && t.Role != prose.Per && t.Span.High <= 60*24*time.Hour
}
