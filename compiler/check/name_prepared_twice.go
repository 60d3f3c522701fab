package check

import (
	"maps"
	"slices"
	"strings"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var preparedTwice = &Rule{
	Code: "U302", Title: "Prepared in the list and again in a step.", Family: Names, Severity: diag.Question,
	What: "The list says how a thing is cut, and the step where it goes in says it again or says otherwise; or it is peeled, drained or the like in both places.",
	Why:  "The cook finds it sliced on the board and is told to dice it.",
	Fix:  "Say it in one place: after the comma in the list, or in the step.",
	Bad: `dish Onion toasts
  serves 4
  gather
    400 g    onions, sliced
    30 g     butter
    4 slices bread
  method
    - Dice the onions and cook them slowly in the butter. | work 25 min
    - Heap on the bread. | work 2 min
`,
	At: "8:7",
	Good: `dish Onion toasts
  serves 4
  gather
    400 g    onions, sliced
    30 g     butter
    4 slices bread
  method
    - Cook the onions slowly in the butter. | work 25 min
    - Heap on the bread. | work 2 min
`,
	Sources: []string{"common practice, no source"},
	Check:   checkPreparedTwice,
}

// cuts are the ways to cut a thing up, each with what it is then.
var cuts = map[string]string{
	"slice": "sliced", "dice": "diced", "chop": "chopped", "mince": "minced", "shred": "shredded", "grate": "grated", "cube": "cubed",
	"quarter": "quartered", "halve": "halved", "crush": "crushed", "crumble": "crumbled", "snip": "snipped", "tear": "torn",
}

// treatments are other things done to an ingredient once, each with what it is then.
var treatments = map[string]string{
	"peel": "peeled", "toast": "toasted", "wash": "washed", "rinse": "rinsed", "drain": "drained", "stone": "stoned", "pit": "pitted",
	"core": "cored", "seed": "seeded", "deseed": "deseeded", "zest": "zested", "soak": "soaked", "sift": "sifted", "trim": "trimmed",
	"hull": "hulled", "top": "topped",
}

// prepared is what a note says of any of them.
var prepared = mustCompile(`(?i)\b(` + strings.Join(slices.Concat(slices.Sorted(maps.Values(cuts)), slices.Sorted(maps.Values(treatments))), "|") + `)\b`)

var imperative = mustCompile(`(?i)(?:^|[.!?:;,] *|\b(?:and|then|and then) +)([a-z]+)(?: (?:finely|coarsely|thinly|thickly|roughly))?( +(?:up )?(?:the|your|all the|both the|half the|whole) +| +)`)

func checkPreparedTwice(p *Pass) {
	for _, r := range p.Recipes() {
		rds := p.readings(r)
		first := firstUses(rds)
		for l, s := range first {
			note := lineNote(l)
			if !prepared.MatchString(note) || !mine(r, s.Span) {
				continue
			}
			for _, t := range takesOf(rds, s) {
				if t.Line == l && !t.Refers && !t.ByMargin {
					checkVerb(p, l, s, t, note)
					break
				}
			}
		}
	}
}

// checkVerb looks at the verb that acts on a name where it is taken.
func checkVerb(p *Pass, l *resolve.Line, s *resolve.Step, t resolve.Take, note string) {
	prose := p.saying(s)
	at := prose.offset(t.Span)
	if at < 0 {
		return
	}
	from, _ := prose.sentenceSpan(at)
	before := prose.text[from:at]
	for _, m := range imperative.FindAllStringSubmatchIndex(before, -1) {
		if strings.TrimSpace(dropArticle(before[m[1]:])) != "" {
			continue // something else stands between the verb and the name
		}
		verb := strings.ToLower(before[m[2]:m[3]])
		at := prose.place(from+m[2], from+m[3])
		if done, is := treatments[verb]; is && hasWord(note, done) {
			p.Report(at, "%s is %s in the list already", l.Name, done).
				See(l.Span, "here").WithHelp("say it in one place, here or after the comma")
			return
		}
		done, is := cuts[verb]
		if !is {
			continue
		}
		for _, other := range sortedKeys(cuts) {
			if was := cuts[other]; hasWord(note, was) {
				text := "%s is %s in the list already"
				args := []any{l.Name, was}
				if was != done {
					text, args = "%s is %s in the list, and %s here", []any{l.Name, was, done}
				}
				p.Report(at, text, args...).See(l.Span, "here").WithHelp("say it in one place, here or after the comma")
				return
			}
		}
	}
}

var leadingArticle = mustCompile(`(?i)^\s*(?:up )?(?:the|your|all the|both the|half the|whole)?\s*`)

func dropArticle(s string) string { return leadingArticle.re().ReplaceAllString(s, "") }
