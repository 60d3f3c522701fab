package check

import (
	"slices"
	"strings"
	"time"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
	"tamis/lang/source"
)

// tookLonger compares a step's time with what it took those who cooked it.
var tookLonger = &Rule{
	Code: "H144", Title: "A step takes this kitchen another time.", Family: Heat, Severity: diag.Question,
	What:    "Three `cooked` lines or more say how long a step took, as in `step 3 took 50 min`, and the one in the middle is not what its margin says. A tenth is let pass.",
	Why:     "Another stove, another pot, other hands: the plan should go by what happens here.",
	Fix:     "Write your own figure into the margin; `--fix` does not do it unasked, an editor offers it.",
	Bad:     "dish Leek pot\n  serves 4\n  cooked 2027-05-01: step 1 took 50 min\n  cooked 2027-06-05, Bea: step 1 took 45 min, less salt\n  cooked 2027-07-03: step 1 took 1 h\n  gather\n    600 g leeks\n  method\n    - Simmer the leeks. | ring low | leave 30 min\n",
	At:      "9:38",
	Good:    "dish Leek pot\n  serves 4\n  cooked 2027-05-01: step 1 took 50 min\n  cooked 2027-06-05, Bea: step 1 took 45 min, less salt\n  cooked 2027-07-03: step 1 took 1 h\n  gather\n    600 g leeks\n  method\n    - Simmer the leeks. | ring low | leave 50 min\n",
	Sources: []string{"the Tamis notation, 2.6", "common practice, no source, for three times and a tenth"},
	Check: func(p *Pass) {
		for _, r := range p.Recipes() {
			p.took(r)
		}
	},
}

// TookOften is how many times make a habit.
const TookOften = 3

func (p *Pass) took(r *resolve.Recipe) {
	by := map[int][]time.Duration{}
	for _, t := range r.Own.Notes.Took() {
		by[t.Step] = append(by[t.Step], t.Length)
	}
	for _, s := range r.Steps {
		times := by[s.Index+1]
		if len(times) < TookOften || !mine(r, s.Span) {
			continue
		}
		slices.Sort(times)
		own := times[len(times)/2]
		if len(times)%2 == 0 {
			own = (own + times[len(times)/2-1]) / 2
		}
		own = own.Round(time.Minute)
		low, high, longest := planned(s)
		switch {
		case longest == nil && len(s.Phases) == 0:
			p.Report(firstLine(s), "step %d has no time, and took %s when it was cooked (%d times)", s.Index+1, lengthOf(own), len(times)).
				WithHelp("write `| leave %s` or `| work %s`", lengthOf(own), lengthOf(own))
		case longest == nil || own*10 >= low*9 && own*10 <= high*11:
		case !mine(r, longest.Span) || longest.Said:
			p.Report(firstLine(s), "step %d is planned for %s, and took %s when it was cooked (%d times)", s.Index+1, rangeText(low, high), lengthOf(own), len(times)).
				WithHelp("write `| %s %s`", longest.Kind, lengthOf(own))
		default:
			p.ownFigure(s, longest, low, high, own, len(times))
		}
	}
}

// ownFigure offers what a step took in place of the length of its longest phase; the
// others stay.
func (p *Pass) ownFigure(s *resolve.Step, longest *resolve.Spell, low, high, own time.Duration, times int) {
	d := p.Report(longest.Span, "step %d is planned for %s, and took %s when it was cooked (%d times)", s.Index+1, rangeText(low, high), lengthOf(own), times)
	rest := own - (high - longest.Fixed.High)
	at, ok := lengthIn(longest.Span)
	if !ok || rest <= 0 {
		d.WithHelp("write the times of the step so that they come to %s", lengthOf(own))
		return
	}
	d.WithHelp("write `%s %s`", longest.Kind, lengthOf(rest))
	d.Replace("write "+lengthOf(rest)+", what it took in this kitchen", false, at, lengthOf(rest))
}

// planned is how long a step is planned for at its written size, and which phase is the
// longest; nil where its length is no fixed time.
func planned(s *resolve.Step) (low, high time.Duration, longest *resolve.Spell) {
	if s.Times > 1 {
		return 0, 0, nil
	}
	for i := range s.Phases {
		ph := &s.Phases[i]
		if ph.Fixed == nil || ph.Per != nil || ph.Every != nil || ph.Fixed.Overnight {
			return 0, 0, nil
		}
		low, high = low+ph.Fixed.Low, high+ph.Fixed.High
		if longest == nil || ph.Fixed.High > longest.Fixed.High {
			longest = ph
		}
	}
	return low, high, longest
}

func rangeText(low, high time.Duration) string {
	if low == high {
		return lengthOf(low)
	}
	return lengthOf(low) + " to " + lengthOf(high)
}

// lengthIn is where a clause says its length, with the mark of what nobody has confirmed.
func lengthIn(clause source.Span) (source.Span, bool) {
	text := clause.Text()
	from := strings.IndexAny(text, "0123456789½¼¾⅓⅔")
	if i := strings.Index(text, "about "); i >= 0 && i < from {
		from = i
	}
	if from < 0 {
		return source.Span{}, false
	}
	_, n, problems := quantity.ReadSpan(text[from:], quantity.Options{})
	if n == 0 || len(problems) > 0 {
		return source.Span{}, false
	}
	if mark := strings.TrimLeft(text[from+n:], " "); mark == "?" {
		n = len(text) - from
	}
	return clause.File.Span(clause.Start+from, clause.Start+from+n), true
}
