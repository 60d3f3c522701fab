package check

import (
	"slices"
	"strings"
	"time"

	"tamis/compiler/hazard"
	"tamis/compiler/larder"
	"tamis/lang/diag"
)

var jarShelf = &Rule{
	Code: "S121", Title: "Something low in acid in a jar on the shelf.", Family: Safety, Severity: diag.Warning,
	What:    "Meat, fish, vegetables, pulses or mushrooms are filled into jars, bottles or tins and kept out of the fridge, with too little vinegar or sugar for their weight; tomatoes and figs without lemon juice; eggs, also in vinegar.",
	Why:     "In a sealed jar without acid the germ of botulism lives through boiling water and grows unseen; only a tested process under pressure stops it.",
	Fix:     "Keep it in the fridge or the freezer, or follow a tested recipe of your food authority to the letter.",
	Sources: []string{"advice of the US centres for disease control, as seen quoted"},
	Bad: `base Bottled beans
  makes 2 kg
  keeps 6 weeks, cool place
  gather
    1.5 kg   green beans, topped
    1 litre  water
    15 g     fine salt
  method
    - Boil the green beans in the water with the salt.
      | ring high | watch 10 min
    - Fill into hot jars, cover with the liquid and seal.
      | work 20 min
`,
	At: "3:3",
	Good: `base Pickled beans
  makes 2 kg
  keeps 6 weeks, cool place
  gather
    1.5 kg   green beans, topped
    1 litre  cider vinegar
    200 g    caster sugar
    15 g     fine salt
  method
    - Boil the green beans in the cider vinegar with the sugar and salt.
      | ring high | watch 10 min
    - Fill into hot jars and seal.
      | work 20 min
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			first := d.jarsFrom()
			if first < 0 {
				continue
			}
			for _, s := range append(d.stays(), d.left()...) {
				if s.n < first || s.place == "fridge" || s.place == "freezer" || s.time <= 12*time.Hour || d.InOil(s.pot) || !d.lowAcid(s.pot) || seen.again(s.at) {
					continue
				}
				p.Report(s.at, "this is low in acid, and is not for a jar on the shelf").
					Because("%s This is advice of the US centres for disease control, as seen quoted. %s", p.rule.Why, comeFirst).
					WithHelp("write `%s, fridge`, or freeze it", lengthOf(min(s.time, 48*time.Hour))).
					WithHelp("for the shelf use a tested recipe of your food authority, to the letter")
			}
			d.jarsBySentence(p, first, seen)
		}
	},
}

// jarsFrom is the step that fills jars: the first that speaks of them, or the last where only
// the title or the yield does; -1 where nothing does.
func (d *plate) jarsFrom() int {
	first := slices.IndexFunc(d.Stages, func(st *hazard.Stage) bool { return st.Tells("jar") })
	title := d.recipe.Name
	if m := d.recipe.Makes; m != nil {
		title += ", " + m.What
		if u := m.Quantity.Unit; u != nil {
			title += ", " + u.Name
		}
	}
	if first < 0 && hazard.SignsOf(title).Tell("jar") {
		return len(d.Stages) - 1
	}
	return first
}

// jarredBy tells whether it is in jars by a step.
func (d *plate) jarredBy(n int) bool {
	first := d.jarsFrom()
	return first >= 0 && first <= n
}

// jarsBySentence is the same of what only a sentence puts on the shelf: jars that are boiled,
// or that keep in the cellar.
func (d *plate) jarsBySentence(p *Pass, first int, seen once) {
	stays := d.stays()
	for _, st := range d.Stages {
		said := st.SaidBy("shelf keep")
		if st.N < first || said == "" || st.SaidBy("jar") == "" || st.Tells("cold place") || slices.ContainsFunc(stays, func(s stay) bool { return s.n >= st.N && s.time > 12*time.Hour }) {
			continue
		}
		if at := saidAt(st.Step, said); d.lowAcid(st.After) && !d.InOil(st.After) && !seen.again(at) {
			p.Report(at, "this is low in acid, and is not for a jar on the shelf").
				Because("%s This is advice of the US centres for disease control, as seen quoted. %s", p.rule.Why, comeFirst).
				WithHelp("keep it in the fridge for a few days, or freeze it").
				WithHelp("for the shelf use a tested recipe of your food authority, to the letter")
		}
	}
}

// boiledInJars tells whether what is in jars is boiled there and nobody speaks of
// fermenting: then brine is no more than salted water.
func (d *plate) boiledInJars() bool {
	boiled := false
	for _, st := range d.Stages {
		if st.Says("ferment", "ferments", "fermented", "fermenting", "fermentation", "bubbles", "bubbling", "sours") {
			return false
		}
		boiled = boiled || st.SaidBy("jar") != "" && st.Says("boil", "boils", "boiled", "boiling", "simmer", "process", "bath", "pressure") && !st.Says("scald", "sterilise", "sterilize", "rinse", "wash")
	}
	return boiled
}

// What keeps things low in acid from the germ of botulism, as a part of their own
// weight: vinegar or lemon juice, or sugar. For fruit that is only nearly sour
// enough, such as tomatoes and figs, two tablespoons of lemon juice to a quart are
// the advice. Common practice, no source.
const (
	sourKeeps   = 0.25
	sweetKeeps  = 0.8
	nearlyKeeps = 0.012
	brineKeeps  = 0.015
)

var nearlySour = []string{"tomato", "tomatoes", "fig", "figs", "melon", "banana", "bananas", "papaya", "mango", "mangoes", "dates", "persimmon", "persimmons", "watermelon", "asian pear", "asian pears", "elderberries"}

// lowAcid tells whether what is in a pot is too low in acid for a jar out of the
// fridge: flesh, egg or milk whatever is with it; vegetables, fungi and moist
// pulses with too little vinegar or sugar; tomatoes and their like without lemon.
func (d *plate) lowAcid(pot hazard.Pot) bool {
	wet := wet(pot)
	low, nearly, acid, sugar, salt := 0.0, 0.0, 0.0, 0.0, 0.0
	unknown := false
	for _, i := range pot.Items {
		name := strings.ToLower(i.Line.Name)
		g := i.Grams()
		switch {
		case isSalt(i):
			salt += g
		case i.Sour:
			acid += g
			unknown = unknown || g == 0
		case i.Sweet, speaksOf(name, "sugar", "syrup"):
			sugar += g
			unknown = unknown || g == 0
		case i.IsKind("cured"), i.IsKind("keeps"), i.IsKind("oil"):
		case meatOrEgg(i):
			return !pot.Dough && !pot.Baked() && !i.Has("dairy")
		case speaksOf(name, nearlySour...):
			nearly += max(g, 1)
		case i.Has(larder.RawFlour), speaksOf(name, "dried", "powder", "flakes", "ground", "seeds", "seed", "ketchup", "juice") && !i.Line.Water && !wet:
		case vegetable(i, name):
			low += max(g, 1)
		}
	}
	if low+nearly == 0 {
		return false
	}
	sour := pot.From == nil && salt >= brineKeeps*(low+nearly) && salt > 0 && !d.boiledInJars()
	if sour || unknown || sugar >= sweetKeeps*(low+nearly) {
		return false
	}
	if low > 0.2*(low+nearly) { // a few onions in a pot of tomatoes are not the rule
		return acid < sourKeeps*low && !(acid+nearly*nearlyKeeps > low)
	}
	return acid < nearlyKeeps*nearly && sugar < 0.4*nearly
}

// wet tells whether there is water or stock in a pot.
func wet(pot hazard.Pot) bool {
	return slices.ContainsFunc(pot.Items, func(i *hazard.Item) bool { return i.Line.Water || speaksIn(i.Line.Name, "stock", "broth") })
}

func meatOrEgg(i *hazard.Item) bool {
	return i.Has(larder.Meat) || i.Has(larder.Fish) || i.Has(larder.Shellfish) || i.Has(larder.Egg) || i.Has(larder.RawEgg) || i.Flesh || i.Shell
}

// vegetable tells whether a thing is a vegetable, a fungus or a pulse, and no dry
// store. Chillies, garlic, ginger and herbs season.
func vegetable(i *hazard.Item, name string) bool {
	if speaksOf(name, "nuts", "oats", "coffee", "tea", "rice", "muesli", "cereal", "flour", "couscous", "noodles", "pasta", "chilli", "chillies", "chili", "chilies", "garlic clove", "cloves garlic", "herb", "herbs", "rhubarb") {
		return false
	}
	if it := i.Item(); it != nil {
		for _, c := range it.Classes {
			if c == "vegetable" || c == "mushroom" || c == "greens" {
				return true
			}
		}
	}
	return i.Plant || speaksOf(name, "beans", "peas", "lentils", "chickpeas", "corn", "pumpkin", "squash", "vegetables", "asparagus", "okra", "artichokes", "artichoke", "soup")
}
