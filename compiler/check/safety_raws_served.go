package check

import (
	"strings"

	"tamis/compiler/hazard"
	"tamis/compiler/larder"
	"tamis/lang/diag"
)

// servedRaw calls f for things that a dish brings to the table unheated, where
// the writer gives no caution.
func servedRaw(p *Pass, is func(*plate, *hazard.Item) bool, f func(d *plate, at span, i *hazard.Item)) {
	seen := once{}
	for _, d := range p.frailFirst() {
		if d.recipe.Base || len(d.Stages) == 0 || d.recipe.ServeHow == nil {
			continue
		}
		for _, i := range d.End.Items {
			if at := i.Line.NameAt; !i.Heated && is(d, i) && !d.warned(i) && !seen.again(at) {
				f(d, at, i)
			}
		}
	}
}

var rawMeat = &Rule{
	Code: "S143", Title: "Meat that is served raw.", Family: Safety, Severity: diag.Hint,
	What:    "A dish is served with raw meat in it that no step heats, and the text has no caution about it. Where children, the old, the ill or the pregnant eat, it is a warning.",
	Why:     "Raw meat carries germs and worms; who eats it must know.",
	Fix:     "Say so in a `caution` to those who eat it, and cut it from a whole piece whose outside is seared or trimmed.",
	Sources: []string{"FDA Food Code, 3-603.11, as states adopt it", "FDA Food Code 2022, 3-801.11, from memory"},
	Bad: `dish Sliced fillet with capers
  serves 4
  gather
    300 g    beef fillet
    20 g     capers
  method
    - Slice the fillet very thin and scatter with the capers.
      | work 10 min
  serve cold
`,
	At: "4:14",
	Good: `dish Sliced fillet with capers
  serves 4
  gather
    300 g    beef fillet
    20 g     capers
  method
    - Slice the fillet very thin and scatter with the capers.
      | work 10 min | caution served raw: not for the pregnant, the very young or the ill
  serve cold
`,
	Check: func(p *Pass) {
		servedRaw(p, func(d *plate, i *hazard.Item) bool {
			return i.Flesh && !i.Before && !i.IsKind("cured") && !i.IsKind("bones") && !i.Is(hazard.Poultry) && !i.Is(hazard.Mince) && !i.Is(hazard.Pork) && !d.cures()
		}, func(d *plate, at span, i *hazard.Item) {
			p.common(p.ReportAs(d.rawFor(), at, "no step cooks the %s: it is served raw", i.Line.Name)).
				WithHelp("say so to those who eat it: `| caution served raw: not for …`; cut it from a whole piece, trimmed on the day, and keep it cold")
		})
	},
}

// cures tells whether a step salts, smokes or dries meat to keep: other rules ask
// about that.
func (d *plate) cures() bool {
	return d.Tells("dry meat", "cold smoke", "cure it")
}

var rawShellfish = &Rule{
	Code: "S144", Title: "Shellfish served raw, or not cooked through.", Family: Safety, Severity: diag.Hint,
	What:    "Oysters, clams, mussels, scallops, prawns or crab are served and no step heats them, or shells that stay shut are forced open. Where children, the old, the ill or the pregnant eat, it is a warning.",
	Why:     "Shellfish gather what is in the water: norovirus, vibrio, poisons of algae. Lemon juice and ice do not help.",
	Fix:     "Say so in a `caution` to those who eat it, buy from a seller with the label of the beds, or cook them through.",
	Sources: []string{"FDA Food Code, 3-603.11, as states adopt it", noSource},
	Bad: `dish Oysters with shallot
  serves 4
  gather
    24       oysters
    2        shallots, chopped
  method
    - Open the oysters and top with the shallots.
      | work 25 min
  serve cold
`,
	At: "4:14",
	Good: `dish Oysters with shallot
  serves 4
  gather
    24       oysters
    2        shallots, chopped
  method
    - Open the oysters and top with the shallots.
      | work 25 min | caution raw oysters: not for the pregnant, the old or the ill
  serve cold
`,
	Check: func(p *Pass) {
		servedRaw(p, func(d *plate, i *hazard.Item) bool { return i.Shell && !i.Before },
			func(d *plate, at span, i *hazard.Item) {
				p.common(p.ReportAs(d.rawFor(), at, "no step cooks the %s: raw shellfish is not for everybody", i.Line.Name)).
					WithHelp("say so to those who eat it: `| caution raw shellfish: not for …`, or cook them through")
			})
		seen := once{}
		for _, d := range p.dishes() {
			for _, st := range d.Stages {
				said := st.SaidBy("force open")
				if said == "" || !st.After.Totals.Shell {
					continue
				}
				if at := saidAt(st.Step, said); !seen.again(at) {
					p.common(p.ReportAs(diag.Warning, at, "shellfish that stay shut were dead before they were cooked, and are not forced open")).
						WithHelp("throw away those that are open before cooking, and those that stay shut after it")
				}
			}
		}
	},
}

var rawMilk = &Rule{
	Code: "S145", Title: "Milk, cheese or juice that is not pasteurised.", Family: Safety, Severity: diag.Hint,
	What:    "Raw milk, or cheese, cream or butter of raw milk, or juice that is not pasteurised, is served and no step heats it through. Where children, the old, the ill or the pregnant eat, it is a warning.",
	Why:     "Raw milk and juice may carry listeria, salmonella, campylobacter and E. coli.",
	Fix:     "Use pasteurised, heat it, or say so in a `caution` to those who eat it.",
	Sources: []string{hazard.Find("raw milk").Source, juiceSource, noSource},
	Bad: `dish Junket
  serves 4
  gather
    1 litre  unpasteurised milk
    40 g     sugar
    10 ml    rennet
  method
    - Warm the milk to blood heat with the sugar, stir in the rennet and leave to set.
      | ring low | watch 5 min
  serve cold
`,
	At: "4:14",
	Good: `dish Junket
  serves 4
  gather
    1 litre  milk
    40 g     sugar
    10 ml    rennet
  method
    - Warm the milk to blood heat with the sugar, stir in the rennet and leave to set.
      | ring low | watch 5 min
  serve cold
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.frailFirst() {
			if d.recipe.Base && !speaksIn(d.recipe.Name, milkFoods...) || len(d.Stages) == 0 {
				continue
			}
			for _, i := range d.End.Items {
				juice := speaksIn(i.Line.Name, "juice", "cider")
				if !i.Says("raw milk") || !dairyName(i) && !juice || d.scalded(i) || d.warned(i) || seen.again(i.Line.NameAt) {
					continue
				}
				source := hazard.Find("raw milk").Source
				if juice {
					source = juiceSource
				}
				p.advised(p.ReportAs(d.rawFor(), i.Line.NameAt, "the %s is not pasteurised, and no step heats it through", i.Line.Name), source).
					WithHelp("use pasteurised, or say so to those who eat it: `| caution not pasteurised: not for the pregnant, the very young, the old or the ill`")
			}
		}
	},
}

// juiceSource is who warns of juice that is not pasteurised.
const juiceSource = "the US Food and Drug Administration, whose warning on the labels of juice was seen quoted"

// milkFoods are foods that a base of raw milk is finished as.
var milkFoods = []string{"kefir", "cheese", "curd", "curds", "yoghurt", "yogurt", "butter", "cream", "clabber", "labneh", "labne", "junket", "buttermilk", "skyr", "quark", "ayran", "lassi", "fromage", "crème fraîche", "cajeta", "ice cream"}

func dairyName(i *hazard.Item) bool {
	return i.Has("dairy") || speaksOf(strings.ToLower(i.Line.Name), "milk", "cheese", "cream", "butter", "brie", "curd", "yoghurt", "yogurt", "crème", "kefir", "tomme", "camembert")
}

// scalded tells whether a step brings a thing to the boil, bakes it, or says a core
// that pasteurises.
func (d *plate) scalded(i *hazard.Item) bool {
	for _, st := range d.Stages {
		if !st.Heats || !i.In(st) || st.Tells("lukewarm") {
			continue
		}
		if core, said := st.Step.Core.Celsius(); st.Boils() || len(st.Step.Heats) > 0 || said && core >= 63 {
			return true
		}
	}
	return false
}

var rawSprouts = &Rule{
	Code: "S169", Title: "Sprouted seeds served raw.", Family: Safety, Severity: diag.Hint,
	What:    "Beansprouts or other sprouted seeds are served and no step heats them. Where children, the old, the ill or the pregnant eat, it is a warning. Cress and Brussels sprouts are other things.",
	Why:     "In the damp warmth in which seeds sprout, the germs in them grow too, and washing does not reach them.",
	Fix:     "Cook them right through, or say so in a `caution` to those who eat them.",
	Sources: []string{noSource},
	Bad: `dish Sprout salad
  serves 4
  gather
    300 g    beansprouts
    1        carrot, grated
  method
    - Toss the beansprouts with the carrot.
      | work 5 min
  serve cold
`,
	At: "4:14",
	Good: `dish Fried sprouts
  serves 4
  gather
    300 g    beansprouts
    1        carrot, grated
    20 ml    rapeseed oil
  method
    - Fry the beansprouts and the carrot in the rapeseed oil.
      | ring high | watch 5 min
  serve hot, within 10 min
`,
	Check: func(p *Pass) {
		servedRaw(p, func(_ *plate, i *hazard.Item) bool { return i.Has(larder.Sprouts) && !i.Cooked },
			func(d *plate, at span, i *hazard.Item) {
				p.common(p.ReportAs(d.rawFor(), at, "no step cooks the %s: raw sprouts are not for everybody", i.Line.Name)).
					WithHelp("cook them right through, or say so to those who eat them: `| caution raw sprouts: not for …`")
			})
	},
}
