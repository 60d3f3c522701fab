package check

import (
	"strings"

	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var eggHalves = &Rule{
	Code: "U315", Title: "The other half of the egg.", Family: Names, Severity: diag.Hint,
	What: "Yolks are gathered and nothing speaks of the whites, or the other way round. A larder line that says what an egg `gives` settles it: then what is left over is worked out.",
	Why:  "A cook is left with a bowl of whites and no word about them.",
	Fix:  "Say in `about` or in a step what becomes of them, or write `egg | gives 1 egg white and 1 egg yolk` in the larder.",
	Bad: `dish Custard
  serves 6
  gather
    6        egg yolks
    600 ml   whole milk
    60 g     caster sugar
  method
    - Whisk the egg yolks and sugar, pour on the milk and cook until it coats a spoon. | ring low | watch 12 min | core 82 C
`,
	At: "4:14",
	Good: `dish Custard
  serves 6
  gather
    6        egg yolks
    600 ml   whole milk
    60 g     caster sugar
  method
    - Whisk the egg yolks and sugar, pour on the milk and cook until it coats a spoon. Freeze the whites for meringues. | ring low | watch 12 min | core 82 C
`,
	Sources: []string{"common practice, no source"},
	Whole:   true,
	Check:   checkEggHalves,
}

func checkEggHalves(p *Pass) {
	lines := map[string]bool{} // halves that some list has
	with := map[*resolve.Recipe]bool{}
	for _, r := range p.Recipes() {
		for _, l := range r.Lines {
			if half, _ := eggHalf(l.Item); half != "" {
				lines[half], with[r] = true, true
			}
		}
	}
	for _, r := range p.Recipes() {
		if !with[r] || len(says(r, larder.Fold("egg")).Gives) > 0 {
			continue
		}
		for _, l := range r.Lines {
			half, other := eggHalf(l.Item)
			if half == "" || lines[other] || !ownLine(r, l) || mentions(r, other) {
				continue
			}
			p.Report(l.NameAt, "nothing is said of the %ss", other).
				WithHelp("say in a step or in `about` what becomes of them: `freeze the %ss`", other).
				WithHelp("or let the larder count them: `egg | gives 1 egg white and 1 egg yolk`")
			break
		}
	}
}

// eggHalf is "yolk" or "white", and the other one.
func eggHalf(it *larder.Item) (half, other string) {
	switch {
	case it == nil:
	case it.Name == "egg yolk":
		return "yolk", "white"
	case it.Name == "egg white":
		return "white", "yolk"
	}
	return "", ""
}

// mentions tells whether a recipe has a word anywhere: in a step, a line, its
// notes or `about`.
func mentions(r *resolve.Recipe, word string) bool {
	if said(r, word) || hasWord(aboutText(r), word) {
		return true
	}
	for _, l := range r.Lines {
		if hasWord(lineNote(l), word) || hasWord(strings.ToLower(l.Name), word) {
			return true
		}
	}
	return false
}
