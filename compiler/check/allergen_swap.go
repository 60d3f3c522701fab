package check

import (
	"slices"
	"strings"

	"tamis/compiler/hazard"
	"tamis/compiler/larder"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

var swapAllergen = &Rule{
	Code: "A105", Title: "A swap that brings an allergen and does not say so.", Family: Allergens, Severity: diag.Hint,
	What:    "What stands after `instead`, or in another option, holds an allergen that the first does not, and neither its name nor its note says which.",
	Why:     "Whoever swaps at the last minute does not look at the list of allergens again.",
	Fix:     "Say it in the note: `instead 30 g tahini, sesame`.",
	Sources: []string{"Regulation (EU) 1169/2011 Annex II, as seen reproduced", "FD&C Act 201(qq), as seen quoted"},
	Bad: `dish Bean dip
  rules UK
  serves 4
  gather
    400 g    cooked white beans
    30 ml    olive oil
      instead 30 g tahini
  method
    - Crush the beans with the olive oil.
      | work 5 min
`,
	At: "7:20",
	Good: `dish Bean dip
  rules UK
  serves 4
  gather
    400 g    cooked white beans
    30 ml    olive oil
      instead 30 g tahini, which is sesame
  method
    - Crush the beans with the olive oil.
      | work 5 min
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			list := listOf(d.choice)
			for _, l := range d.recipe.Lines {
				for _, in := range l.Instead {
					if seen.again(in.NameAt) {
						continue
					}
					var brings []larder.Content
					for _, t := range hazard.SwapOf(l, in) {
						brings = append(brings, t.Contains...)
					}
					added := more(list, brings, hazard.Things([]*resolve.Line{l}))
					askSwap(p, in.NameAt, list, added, in.Name+" "+in.Note.Text+" "+in.Brackets.Text)
				}
			}
			for _, c := range d.recipe.Choices {
				askOptions(p, c, list, seen)
			}
		}
	},
}

// askOptions compares each option with the first, the one that holds when
// nobody chooses, and the first with the one after it where its kind does not say what it holds.
func askOptions(p *Pass, c *resolve.Choice, list string, seen once) {
	for n, o := range c.Options {
		than := c.Options[0]
		if n == 0 {
			if len(c.Options) < 2 {
				return
			}
			than = c.Options[1]
		}
		words := o.Label
		var brings []larder.Content
		for _, l := range hazard.Things(o.Lines) {
			if n > 0 || !speaksForItself(l) {
				brings = append(brings, l.Contains...)
			}
		}
		for _, l := range o.Lines { // what is read of a base is its line here, not its list
			words += " " + l.Name + " " + l.Note.Text + " " + l.Brackets.Text
		}
		if at := o.LabelAt; !seen.again(at) {
			askSwap(p, at, list, more(list, brings, hazard.Things(than.Lines)), words)
		}
	}
}

// speaksForItself tells whether everybody knows by its kind what a thing holds: butter is milk.
func speaksForItself(t hazard.Thing) bool {
	return t.Item != nil && slices.ContainsFunc([]larder.Flag{larder.Dairy, larder.Egg, larder.RawEgg, larder.Fish, larder.Shellfish, larder.Nut}, t.Item.Has)
}

// more is what a list of allergens names among some contents and not among
// those of the things they stand in for. What depends on the maker is left out.
func more(list string, brings []larder.Content, first []hazard.Thing) (out []string) {
	var has []string
	for _, l := range first {
		for _, a := range larder.Builtin().Regulate(list, l.Contains) {
			has = append(has, a.Substance)
		}
	}
	for _, a := range larder.Builtin().Regulate(list, brings) {
		if !a.Depends && !slices.Contains(has, a.Substance) && !slices.Contains(out, a.Substance) {
			out = append(out, a.Substance)
		}
	}
	return out
}

func askSwap(p *Pass, at span, list string, added []string, said string) {
	said = larder.Fold(strings.ToLower(said))
	added = slices.DeleteFunc(added, func(s string) bool {
		return strings.Contains(said, strings.TrimSuffix(larder.Fold(s), "s"))
	})
	if len(added) == 0 {
		return
	}
	p.Report(at, "this brings %s, and does not say so", wordList(added)).
		Because("%s The list is that of %s. %s", p.rule.Why, law(list), comeFirst).
		WithHelp("say it in the note after a comma: `, holds %s`", wordList(added))
}
