package check

import (
	"slices"
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var keptUnused = &Rule{
	Code: "U307", Title: "Kept back, and never used.", Family: Names, Severity: diag.Question,
	What: "A step reserves or keeps back something, and no later sentence speaks of it. `save the bones for stock` says where it goes, and is passed over.",
	Why:  "A cook finds it in a jug when the plates have gone out.",
	Fix:  "Name it in the step where it goes in, or say what it is kept for.",
	Bad: `dish Pasta with cheese
  serves 4
  gather
    400 g    pasta
    150 g    hard cheese
  method
    - Boil the pasta and drain it, reserving the cooking water. | ring high | work 2 min | leave 10 min
    - Toss with the hard cheese. | work 2 min
`,
	At: "7:36",
	Good: `dish Pasta with cheese
  serves 4
  gather
    400 g    pasta
    150 g    hard cheese
  method
    - Boil the pasta and drain it, reserving the cooking water. | ring high | work 2 min | leave 10 min
    - Toss with the hard cheese and loosen with the cooking water. | work 2 min
`,
	Sources: []string{"common practice, no source"},
	Check:   checkKeptUnused,
}

var (
	// what is kept back: "reserve the cooking water", "set the crumbs aside".
	keepsBack   = mustCompile(`(?i)\b(?:reserv(?:e|ing)|sav(?:e|ing)|keep(?:ing)? back|hold(?:ing)? back|set(?:ting)? aside|put(?:ting)? (?:by|aside))\s+(?:(?:a|an|the|all the|some of the|half the|a little of the|a cup of the|a ladle of the)\s+)((?:[\p{L}'’-]+\s?){1,4})`)
	keptAside   = mustCompile(`(?i)\b(?:set|put|keep|hold|setting|putting|keeping|holding)\s+(?:the|a|an|all the|some of the|half the)\s+((?:[\p{L}'’-]+\s){1,3}?)(?:aside|by|back)\b([^.,;:]*\bfor\b)?`)
	keepsBackOf = mustCompile(`(?i)^(?:keep|hold)`)
	phraseEnd   = mustCompile(`(?i)^(and|or|in|on|to|for|from|with|until|while|then|but|as|at|by|of|into|under|over|when|where|which|that|hot|warm|cold|covered|aside|back|out|is|are)$`)
)

// saysWhatFor is the rest of a clause that says what a thing is kept for.
var saysWhatFor = mustCompile(`(?i)^[^.,;:]*\bfor\b`)

var wordRun = mustCompile(`[\p{L}'’-]+`)

// kept is something that a passage keeps back: its last word, and its place.
type kept struct {
	head, words string
	from, to    int
}

// keptIn finds what a passage keeps back without saying what for.
func keptIn(text string) (out []kept) {
	for _, m := range keepsBack.FindAllStringSubmatchIndex(text, -1) {
		var words []string
		to := m[2]
		for _, w := range wordRun.FindAllStringIndex(text[m[2]:], 4) {
			word := text[m[2]+w[0] : m[2]+w[1]]
			if phraseEnd.MatchString(word) || strings.ContainsAny(text[to:m[2]+w[0]], ".,;:()") {
				break
			}
			words = append(words, word)
			to = m[2] + w[1]
		}
		if len(words) > 0 && !saysWhatFor.MatchString(text[to:]) {
			out = append(out, kept{head: larder.Fold(words[len(words)-1]), words: strings.Join(words, " "), from: m[0], to: to})
		}
	}
	for _, m := range keptAside.FindAllStringSubmatchIndex(text, -1) {
		words := strings.Fields(text[m[2]:m[3]])
		returned := strings.HasSuffix(strings.ToLower(text[:m[1]]), "back") && !keepsBackOf.MatchString(text[m[0]:]) // put the meat back
		if m[4] < 0 && !returned {
			out = append(out, kept{head: larder.Fold(words[len(words)-1]), words: strings.Join(words, " "), from: m[0], to: m[1]})
		}
	}
	return out
}

func checkKeptUnused(p *Pass) {
	for _, r := range p.Recipes() {
		for i, s := range r.Steps {
			if !mine(r, s.Span) {
				continue
			}
			for n, prose := range p.passages(s) {
				for _, k := range keptIn(prose.text) {
					rest := prose.text[k.to:]
					for _, later := range p.passages(s)[n+1:] {
						rest += " " + later.text
					}
					if spokenOf(r, r.Steps[i+1:], rest, k.head) {
						continue
					}
					p.Report(prose.place(k.from, k.to), "the %s is kept, and no later step uses it", k.words).
						WithHelp("name it where it goes in").
						WithHelp("or say what it is kept for: `for stock`, `for the table`")
				}
			}
		}
	}
}

// spokenOf tells whether later sentences or margins name a thing by its last
// word, or speak of what was reserved.
func spokenOf(r *resolve.Recipe, later []*resolve.Step, text, head string) bool {
	for _, s := range later {
		text += " " + proseOf(s)
		for _, c := range clausesOf(s) {
			text += " " + c.Names().Text
		}
	}
	for _, pr := range r.Products {
		if headOf(pr.Name) == head {
			return true // it has a name that others can gather
		}
	}
	for _, twins := range headTwins {
		if slices.Contains(twins, head) && slices.ContainsFunc(twins, func(w string) bool { return hasWord(text, w) }) {
			return true
		}
	}
	return hasWord(text, head) || hasWord(text, "reserved")
}
