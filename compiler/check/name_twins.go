package check

import (
	"slices"
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var nearTwins = &Rule{
	Code: "U303", Title: "A short name that fits two lines.", Family: Names, Severity: diag.Question,
	What: "A step says a short name that fits two lines of the list. One of them has gone in before, so the name is read as the other.",
	Why:  "A cook may take it for the one that is in the pan already.",
	Fix:  "Write the whole name.",
	Bad: `dish Bean toasts
  serves 2
  gather
    30 ml    rapeseed oil
    200 g    green beans
    20 ml    herb oil
  method
    - Fry the green beans in the rapeseed oil. | ring high | work 5 min
    - Shake the pan until the oil shimmers. | work 2 min
`,
	At: "9:31",
	Good: `dish Bean toasts
  serves 2
  gather
    30 ml    rapeseed oil
    200 g    green beans
    20 ml    herb oil
  method
    - Fry the green beans in the rapeseed oil. | ring high | work 5 min
    - Dress with the herb oil. | work 2 min
`,
	Sources: []string{"common practice, no source"},
	Check:   checkNearTwins,
}

func checkNearTwins(p *Pass) {
	for _, r := range p.Recipes() {
		for _, rd := range p.readings(r) {
			for _, sr := range rd.Steps {
				if mine(r, sr.Step.Span) {
					twinsIn(p, rd, sr)
				}
			}
		}
	}
}

func twinsIn(p *Pass, rd *resolve.Reading, sr *resolve.StepReading) {
	whole := map[*resolve.Line]bool{} // said in full earlier in the step
	for _, t := range sr.Takes {
		if t.Line == nil {
			continue
		}
		written := t.NameAt.Text()
		if written == t.Line.Name {
			whole[t.Line] = true
			continue
		}
		name, says := foldedWords(t.Line.Name), foldedWords(written)
		if slices.Equal(name, says) {
			whole[t.Line] = true
			continue
		}
		if t.Refers || t.ByMargin || whole[t.Line] || !tail(name, says) {
			continue
		}
		for _, o := range rd.Lines {
			if o == t.Line || o.Key == t.Line.Key || !tail(foldedWords(o.Name), says) {
				continue
			}
			p.Report(t.NameAt, "is %s the %s, or the %s", strings.ToLower(t.NameAt.Text()), t.Line.Name, o.Name).
				Because("it is read as %s, since %s went in before", t.Line.Name, o.Name).
				See(t.Line.NameAt, "this is taken").
				See(o.NameAt, "this went in before").
				WithHelp("write `%s`", t.Line.Name).
				WithHelp("or leave it out where only the pan is meant: `until it shimmers`")
			break
		}
	}
}

// tail tells whether words end in these, with something before them.
func tail(words, end []string) bool {
	return len(words) > len(end) && len(end) > 0 && slices.Equal(words[len(words)-len(end):], end)
}
