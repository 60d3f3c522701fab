package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var addedAgain = &Rule{
	Code: "U318", Title: "Added twice.", Family: Names, Severity: diag.Question,
	What: "Two steps add a thing, and the first takes all of it, for it says no amount. The second is read as what is in the pan already.",
	Why:  "A cook who put all of it in has none left to add.",
	Fix:  "Say in the first how much goes in there: `half the sugar`, and then `the rest of the sugar`.",
	Bad: `dish Meringue
  serves 6
  gather
    150 ml   whole milk
    200 g    caster sugar
    400 ml   double cream
  method
    - Warm the milk and stir in the sugar. | ring low | work 5 min
    - Whip the cream, add the sugar and fold both together. | work 6 min
`,
	At: "9:31",
	Good: `dish Meringue
  serves 6
  gather
    150 ml   whole milk
    200 g    caster sugar
    400 ml   double cream
  method
    - Warm the milk and stir in half the sugar. | ring low | work 5 min
    - Whip the cream, add the rest of the sugar and fold both together. | work 6 min
`,
	Sources: []string{"common practice, no source"},
	Check:   checkAddedAgain,
}

var (
	adding   = mustCompile(`(?i)\b(?:add|stir in|whisk in|beat in|mix in|fold in|tip in|pour in|pour on|pour over|sprinkle in|sprinkle over|scatter over|drizzle over|trickle in|work in|rub in)(?: the| your| all the)? $`)
	takenOut = mustCompile(`(?i)\b(lift\w*|remov\w*|tak\w* (?:them |it )?out|set\w* \w* ?aside|tip\w* out|drain\w*|strain\w*|scoop\w*|turn\w* out|reserv\w*|save|pour\w* off|aside|out of)\b`)
)

// addingLength is more than the longest match of adding.
const addingLength = 64

func checkAddedAgain(p *Pass) {
	for _, r := range p.Recipes() {
		for _, rd := range p.readings(r) {
			p.addedAgain(r, rd)
		}
	}
}

func (p *Pass) addedAgain(r *resolve.Recipe, rd *resolve.Reading) {
	first := map[*resolve.Line]resolve.Take{} // added whole
	from := map[*resolve.Line]int{}           // since which step
	outs := []int{0}                          // how many of the steps so far take something out
	for _, sr := range rd.Steps {
		n := len(outs) - 1
		prose := p.saying(sr.Step)
		for _, t := range sr.Takes {
			at := prose.offset(t.Span)
			if t.Line == nil || t.ByMargin || t.Line.ToTaste || at < 0 || !adding.MatchString(prose.text[max(0, at-addingLength):at]) {
				continue
			}
			in, added := first[t.Line]
			if !t.Refers {
				if t.All && !t.Rest {
					if !added {
						from[t.Line] = n
					}
					first[t.Line] = t
				}
				continue
			}
			if !added || outs[n] > outs[from[t.Line]] || !mine(r, t.Span) || in.Span == t.Span {
				continue
			}
			p.Report(t.Span, "all the %s went in before, and here it is added again", t.Line.Name).
				See(in.Span, "all of it goes in here").
				WithHelp("say there how much goes in: `half the %s`, and here `the rest of the %s`", t.NameAt.Text(), t.NameAt.Text())
			delete(first, t.Line)
		}
		if takenOut.MatchString(proseOf(sr.Step)) {
			n = outs[n] + 1
		} else {
			n = outs[n]
		}
		outs = append(outs, n)
	}
}
