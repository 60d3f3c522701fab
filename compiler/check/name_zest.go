package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var zestAfterJuice = &Rule{
	Code: "U305", Title: "Zest after juice.", Family: Names, Severity: diag.Question,
	What: "All of a citrus fruit is squeezed, and its zest is wanted later.",
	Why:  "A squeezed half cannot be grated.",
	Fix:  "Grate the zest first and put it by, or write `zested` after the fruit in the list.",
	Bad: `dish Lemon rice
  serves 4
  gather
    300 g    basmati rice
    1        lemon
  method
    - Cook the rice and squeeze in the lemon. | leave 15 min
    - Grate the lemon zest over it. | work 2 min
`,
	At: "8:23",
	Good: `dish Lemon rice
  serves 4
  gather
    300 g    basmati rice
    1        lemon, zested
  method
    - Cook the rice and squeeze in the lemon. | leave 15 min
    - Scatter the zest over it. | work 2 min
`,
	Sources: []string{"common practice, no source"},
	Check:   checkZestAfterJuice,
}

var (
	citrus   = map[string]bool{"lemon": true, "orange": true, "lime": true, "grapefruit": true, "clementine": true, "mandarin": true, "tangerine": true}
	squeezed = mustCompile(`(?i)\b(squeez(e|ed|ing)|juice|juiced)\b`)
	zesting  = mustCompile(`(?i)\b(zest|rind)\b`)
)

func checkZestAfterJuice(p *Pass) {
	for _, r := range p.Recipes() {
		for _, l := range r.Lines {
			if !citrus[headOf(l.Name)] || zesting.MatchString(lineNote(l)) || l.Note.Text != "" && hasWord(lineNote(l), "zested") {
				continue
			}
			for _, rd := range p.readings(r) {
				if juice := juicedAt(rd, l); juice != nil && reportZest(p, r, l, juice) {
					break
				}
			}
		}
	}
}

// juicedAt is the step that squeezes all of a fruit and has no zest of it.
func juicedAt(rd *resolve.Reading, l *resolve.Line) *resolve.Step {
	for _, sr := range rd.Steps {
		for _, t := range sr.Takes {
			if t.Line != l {
				continue
			}
			text := proseOf(sr.Step)
			if zesting.MatchString(text) {
				return nil // it is grated in this step, or before
			}
			if t.LeftAfter.Sign() <= 0 && !t.Refers && squeezed.MatchString(text) {
				return sr.Step
			}
		}
	}
	return nil
}

// reportZest looks for the zest of a fruit after it was squeezed. A zest that
// names another fruit is that one's.
func reportZest(p *Pass, r *resolve.Recipe, l *resolve.Line, juice *resolve.Step) bool {
	for _, s := range r.Steps[juice.Index+1:] {
		if !mine(r, s.Span) {
			continue
		}
		prose := p.saying(s)
		for _, m := range prose.find(zesting) {
			sentence := prose.sentenceAt(m[0])
			named, other := hasWord(sentence, headOf(l.Name)), false
			for fruit := range citrus {
				other = other || fruit != headOf(l.Name) && hasWord(sentence, fruit)
			}
			if !named && (other || fruitLines(r) > 1) {
				continue
			}
			p.Report(prose.place(m[0], m[1]), "%s is squeezed in step %d, and its zest is wanted here", l.Name, juice.Index+1).
				See(juice.Span, "squeezed here").
				WithHelp("say there that the zest is grated first and put by").
				WithHelp("or write `%s, zested` in the list", l.Name)
			return true
		}
	}
	return false
}

// fruitLines counts the citrus fruits, and their parts, in a list.
func fruitLines(r *resolve.Recipe) (n int) {
	for _, l := range r.Lines {
		for _, w := range foldedWords(l.Name) {
			if citrus[w] {
				n++
				break
			}
		}
	}
	return n
}
