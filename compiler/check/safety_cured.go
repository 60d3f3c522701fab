package check

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"tamis/compiler/hazard"
	"tamis/compiler/larder"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// What a kilogram of meat may be given of what cures it, in milligrams: 150 of nitrite,
// and 150 of nitrate or 250 left in what lay in a brine (UK Statutory Instrument
// 2007/1778, Schedule 1, as seen); 200 and 500 in the United States (21 CFR 172.170, as
// seen). 2.5 g of a cure of 6.25 per cent, the dose of its makers, bring 156.
const (
	mostNitrite   = 150
	mostNitrate   = 150
	mostInBrine   = 250
	mostNitriteUS = 200
	mostNitrateUS = 500
	offScales     = 10
)

// slowCure is how long meat may hang with nitrite alone; what hangs longer is given
// nitrate too, which lasts. Common practice, no source.
const slowCure = 6 * 7 * 24 * time.Hour

// ripening is how long sausage hangs out of the fridge before it must have a cure.
// Common practice, no source.
const ripening = 6 * 24 * time.Hour

var curingSalt = &Rule{
	Code: "S148", Title: "Curing salt: too much, too short-lived, or none.", Family: Safety, Severity: diag.Warning,
	What:    "Curing salt, saltpetre or nitrite is more than the meat may be given; meat hangs for more than six weeks with nitrite alone; or sausage or mince hangs to dry for six days or longer without any.",
	Why:     "Nitrite keeps botulism out of meat that ripens without air, and in quantity poisons those who eat it.",
	Fix:     "Weigh it: 2.5 g of a cure of 6.25 per cent to a kilogram of meat. Follow the maker's dose, and ask where in doubt.",
	Sources: []string{"UK Statutory Instrument 2007/1778, Schedule 1", "21 CFR 172.170", "EFSA Journal 2017;15(6):4786, table 5", noSource},
	Bad: `base House bacon
  makes 2 kg
  gather
    2 kg     pork belly
    50 g     salt
    25 g     pink curing salt
  method
    - Rub the pork belly with the salt and the pink curing salt.
      | work 10 min | stand 7 days, fridge
`,
	At: "6:14",
	Good: `base House bacon
  makes 2 kg
  gather
    2 kg     pork belly
    50 g     salt
    5 g      pink curing salt
  method
    - Rub the pork belly with the salt and the pink curing salt.
      | work 10 min | stand 7 days, fridge
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			meat, salted, mince := 0.0, false, false
			var quick *hazard.Item // a cure of nitrite alone
			slow := false
			for _, i := range d.End.Items {
				if i.Flesh || i.Is(hazard.Fish) {
					meat += i.Grams()
					mince = mince || i.Is(hazard.Mince) || d.ground(i)
				}
			}
			for _, i := range d.End.Items {
				c := cureOf(i)
				if c == nil {
					continue
				}
				salted = true
				if slow = slow || c.of == "nitrate" || lasting(i); noOne(i) {
					quick = i
				}
				brine := d.brineOf(i)
				whole, most, by := meat+brine, d.mostOf(c, brine >= mostRubbed*meat), "UK Statutory Instrument 2007/1778, Schedule 1"
				if d.american() {
					by = "21 CFR 172.170"
				}
				if meat == 0 || i.Grams() == 0 || i.Grams()*c.share*1e6 <= whole*(most+offScales) || seen.again(i.Line.NameAt) {
					continue
				}
				d := p.Report(i.Line.NameAt, "%s to a kilogram of meat is more than it may have", gramText(i.Grams()/whole*1000)+" of "+i.Line.Name).
					Because("%s %.0f mg of %s to a kilogram is the figure seen (%s); this brings %.0f, at %s per cent. %s", p.rule.Why, most, c.of, by, i.Grams()*c.share*1e6/whole, strings.TrimSuffix(strconv.FormatFloat(c.share*100, 'f', 2, 64), ".00"), comeFirst)
				if c.strong {
					d.WithHelp("a cure of 6.25 per cent nitrite is given at 2.5 g to a kilogram: write %s, and say which strength it is", gramText(whole/1000*2.5))
				} else {
					d.WithHelp("go by the dose of its maker, weighed")
				}
			}
			if quick != nil && !slow && meat > 0 && !d.cored() {
				d.hangsLong(p, quick, seen)
			}
			if salted || !mince {
				continue
			}
			for _, s := range append(d.stays(), d.left()...) {
				if s.time >= ripening && s.place != "fridge" && s.place != "freezer" && d.ripens() && !seen.again(s.at) {
					p.common(p.Report(s.at, "sausage that ripens out of the fridge wants curing salt, and there is none")).
						WithHelp("add curing salt by its maker's dose, and follow a tested recipe to the letter")
				}
			}
		}
	},
}

// noOne tells whether a cure is of nitrite alone by its own words, and lasting whether it
// has nitrate in it.
func noOne(i *hazard.Item) bool {
	return speaksIn(i.Line.Name+" "+i.Line.Note.Text, "no. 1", "no 1", "number 1", "number one", "no. one", "#1", "cure 1", "powder 1", "salt 1", "nitrite", "e250", "e249") && !lasting(i)
}

func lasting(i *hazard.Item) bool {
	return speaksIn(i.Line.Name+" "+i.Line.Note.Text, "no. 2", "no 2", "number 2", "number two", "no. two", "#2", "cure 2", "powder 2", "salt 2", "nitrate", "saltpetre", "saltpeter", "e251", "e252")
}

// hangsLong reports raw meat that hangs or stands for months with nitrite alone.
func (d *plate) hangsLong(p *Pass, c *hazard.Item, seen once) {
	for _, s := range append(d.stays(), d.left()...) {
		if s.time <= slowCure || s.keeps || s.place == "freezer" || !d.ripens() || seen.again(s.at) {
			continue
		}
		p.common(p.Report(s.at, "%s for %s: nitrite alone is used up before that", c.Line.Name, lengthOf(s.time))).
			See(c.Line.NameAt, "the cure").
			WithHelp("what hangs for months is cured with a cure no. 2, which holds nitrate too, at its maker’s dose and by a tested recipe")
	}
}

// ground tells whether a step minces a thing or fills it into skins.
func (d *plate) ground(i *hazard.Item) bool {
	return d.Tells("mince it", "casing") && slices.ContainsFunc(d.Stages, func(st *hazard.Stage) bool {
		return i.In(st) && (st.Tells("mince it") || st.Tells("casing"))
	})
}

// ripens tells whether a step hangs or dries it.
func (d *plate) ripens() bool {
	return slices.ContainsFunc(d.Stages, func(st *hazard.Stage) bool {
		return st.Tells("dry meat") || st.Says("hang", "hung", "ripen", "mature", "dry", "casings", "ferment")
	})
}

// cure is what cures meat, with the share of nitrite or nitrate in it.
type cure struct {
	of     string // nitrite, nitrate
	share  float64
	strong bool // No. 1, No. 2: 6.25 per cent, where nothing else is said
}

// cureOf tells whether a thing cures meat, and how strong it is: what its name or its
// note says in per cent, else as such things are sold.
func cureOf(i *hazard.Item) *cure {
	if !curing.MatchString(i.Line.Name) && !curing.MatchString(i.Line.Note.Text) {
		return nil
	}
	name := strings.ToLower(i.Line.Name + " " + i.Line.Note.Text)
	c := &cure{of: "nitrite"}
	switch {
	case strings.Contains(name, "himalayan"):
		return nil
	case speaksOf(name, "saltpetre", "saltpeter", "potassium nitrate", "sodium nitrate", "e252", "e251"):
		return &cure{of: "nitrate", share: 1}
	case speaksOf(name, "sodium nitrite", "potassium nitrite", "e250", "e249") && !speaksOf(name, "salt", "cure"):
		c.share = 1
		return c
	case speaksOf(name, "nitrite salt", "nitrited salt", "pökelsalz", "sel nitrité"):
		c.share = 0.006
	case speaksOf(name, "curing salt", "cure no", "curing powder", "pink salt", "pink cure", "prague powder", "tinted cure", "cure #1", "cure #2", "cure 1", "cure 2", "speed cure", "insta cure", "instacure", "bacon cure nitrite"):
		c.share, c.strong = 0.0625, true
	case speaksOf(name, "nitrite") && speaksOf(name, "salt", "cure"): // salt with 0.6 % nitrite
		c.share = 0.006
	default:
		return nil
	}
	if m := perCent.FindStringSubmatch(name); m != nil {
		if n, err := strconv.ParseFloat(strings.Replace(m[1], ",", ".", 1), 64); err == nil && 0.2 <= n && n <= 20 {
			c.share, c.strong = n/100, n == 6.25
		}
	}
	return c
}

// curing is a part of every name of a cure.
var curing = mustCompile(`(?i)(nitr|saltpet|e25[0-2]|e249|kelsalz|cur[ei]|pink|prague)`)

var perCent = regexp.MustCompile(`(\d+(?:[.,]\d+)?)\s*(?:%|per ?cent)`)

// american tells whether the rules of the United States hold.
func (d *plate) american() bool {
	return d.choice.Practice != nil && strings.HasPrefix(d.choice.Practice.Name, "US")
}

// mostOf is how many milligrams of what is in a cure a kilogram may have.
func (d *plate) mostOf(c *cure, brine bool) float64 {
	switch us := d.american(); {
	case c.of == "nitrite" && us:
		return mostNitriteUS
	case c.of == "nitrite":
		return mostNitrite
	case us:
		return mostNitrateUS
	case brine:
		return mostInBrine
	}
	return mostNitrate
}

// mostRubbed is how much water, against the meat, is in a sausage or a rub: more is a
// brine. Common practice, no source.
const mostRubbed = 0.25

// brineOf is about how much water a cure is let down with, in grams: what is in the pot when
// it goes in. What cured meat is soaked or boiled in later takes none of it away.
func (d *plate) brineOf(c *hazard.Item) (g float64) {
	for _, i := range d.End.Items {
		if i.Line.Water && i.Since() <= c.Since() {
			g += i.Grams()
		}
	}
	return g
}

var weakBrine = &Rule{
	Code: "S157", Title: "A ferment with too little salt.", Family: Safety, Severity: diag.Warning,
	What:    "Vegetables ferment at room temperature with less than 1.5 per cent of salt in all, or with none.",
	Why:     "Salt keeps the wrong germs away until the right ones have made it sour.",
	Fix:     "Weigh the salt: 2 to 3 per cent of the vegetables, and of the water too where there is a brine.",
	Sources: []string{noSource},
	Bad: `base Soured cabbage
  makes 2 kg
  gather
    2 kg     white cabbage, shredded
    10 g     salt
  method
    - Knead the cabbage with the salt and leave to ferment.
      | work 15 min | stand 3 weeks, room
`,
	At: "5:14",
	Good: `base Soured cabbage
  makes 2 kg
  gather
    2 kg     white cabbage, shredded
    45 g     salt
  method
    - Knead the cabbage with the salt and leave to ferment.
      | work 15 min | stand 3 weeks, room
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			if !d.Tells("low salt ferment") && !hazard.SignsOf(d.recipe.Name).Tell("low salt ferment") || !d.ferments() {
				continue
			}
			salt, plants, water, at := 0.0, 0.0, 0.0, span{}
			other := d.End.Dough
			for _, i := range d.End.Items {
				switch {
				case isSalt(i):
					salt += i.Grams()
					at = i.Line.NameAt
				case i.Line.Water:
					water += i.Grams()
				case i.Strong || i.Sour || i.Has(larder.Alcohol) || i.Sweet && i.Grams() > 100 || i.Has(larder.RawFlour) || i.IsKind("live") || speaksOf(strings.ToLower(i.Line.Name), "whey", "kefir", "koji", "scoby", "starter", "brine", "miso", "soy sauce", "fish sauce", "tea", "rice", "urad dal", "lentils", "culture"):
					other = true
				case i.Plant || speaksOf(strings.ToLower(i.Line.Name), "cabbage", "cucumbers", "cucumber", "radish", "radishes", "daikon", "turnips", "cauliflower", "tomatoes", "vegetables", "leaf cabbage", "napa", "gherkins", "chillies", "chilies", "habaneros", "peppers", "jalapeños", "jalapenos"):
					plants += i.Grams()
					if at.IsZero() {
						at = i.Line.NameAt
					}
				}
			}
			if other || plants == 0 || at.IsZero() || salt/(plants+water) >= 0.015 || d.Heated() || seen.again(at) {
				continue
			}
			p.common(p.Report(at, "%s per cent of salt is too little to ferment with", percentText(salt/(plants+water)))).
				WithHelp("write %s of salt, which is 2.25 per cent of all that is in the crock, and keep it under the brine", gramText((plants+water)*0.0225))
		}
	},
}

func isSalt(i *hazard.Item) bool {
	name := strings.ToLower(i.Line.Name)
	return speaksOf(name, "salt") && !speaksOf(name, "curing salt", "celery salt", "garlic salt", "salt cod", "salt beef", "salt pork", "saltpetre")
}

// ferments tells whether a step lets something sour at room temperature.
func (d *plate) ferments() bool {
	for _, s := range append(d.stays(), d.left()...) {
		if s.place != "fridge" && s.place != "freezer" && s.time >= 24*time.Hour {
			return true
		}
	}
	return false
}

// Heated tells whether any step heats.
func (d *plate) Heated() bool {
	return slices.ContainsFunc(d.Stages, func(st *hazard.Stage) bool { return st.Heats })
}

var dried = &Rule{
	Code: "S159", Title: "Raw meat or fish dried or smoked cold, and neither heated nor salted.", Family: Safety, Severity: diag.Warning,
	What:    "Raw meat or fish is dried, or smoked cold, and no step brings its middle to the figure for cooking, and less than 2.5 per cent of salt is in it.",
	Why:     "Warm air and cold smoke dry the outside and leave the germs alive.",
	Fix:     "Heat it first, with `core`; or salt it by weight and follow a tested recipe.",
	Sources: []string{"USDA FSIS consumer advice on jerky, from memory", noSource},
	Bad: `dish Smoked mackerel
  rules UK
  serves 4
  gather
    800 g    mackerel fillets
  method
    - Hang the mackerel fillets in cold smoke.
      | leave 10 h
  serve cold
`,
	At: "7:7",
	Good: `dish Smoked mackerel
  rules UK
  serves 4
  gather
    800 g    mackerel fillets
  method
    - Hot-smoke the mackerel fillets.
      | leave 1 h | core 70 C for 2 min
  serve cold
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			salt, flesh := 0.0, 0.0
			for _, i := range d.End.Items {
				if isSalt(i) || speaksOf(strings.ToLower(i.Line.Name), "curing salt") {
					salt += i.Grams()
				}
				if i.Flesh || i.Is(hazard.Fish) {
					flesh += i.Grams()
					if q := i.Line.Quantity; i.Grams() == 0 && q != nil && q.Dim == quantity.None {
						flesh += q.Value.High.Float() * someFlesh
					}
				}
			}
			if flesh == 0 || salt/flesh >= mostFresh {
				continue
			}
			for _, st := range d.Stages {
				if !st.Tells("cold smoke", "dry meat") && !hangs(st) || !slices.ContainsFunc(st.After.Items, func(i *hazard.Item) bool { return i.Flesh || i.Is(hazard.Fish) }) || d.cored() || seen.again(wordsAt(st.Step)) {
					continue
				}
				p.common(p.Report(wordsAt(st.Step), "nothing heats %s right through, and it is hardly salted", strongName(st.After))).
					WithHelp("heat it first: `| core 71 C`, or 160 F; or salt it by weight and follow a tested recipe")
			}
		}
	},
}

// hangs tells whether a step hangs raw food up for a day or longer: out of the cold it dries.
func hangs(st *hazard.Stage) bool {
	return st.Says("hang", "hangs", "hung", "hanging", "strung", "string up") && !st.Chills && !st.Heats && max(st.Time, st.SaidTime()) >= 24*time.Hour
}

// mostFresh is the share of salt below which smoke and air keep nothing. Common practice,
// no source.
const mostFresh = 0.025

// someFlesh is about what a piece of meat or fish weighs, in grams, of which nobody knows
// more. Common practice, no source.
const someFlesh = 120

// cored tells whether any step says a core of cooking.
func (d *plate) cored() bool {
	return slices.ContainsFunc(d.Stages, func(st *hazard.Stage) bool {
		c, said := st.Step.Core.Celsius()
		return said && c >= 60
	})
}

// gramText is a weight in grams as a cook weighs it: "2.5 g", "45 g".
func gramText(g float64) string {
	if g < 10 {
		return strconv.FormatFloat(g, 'f', 1, 64) + " g"
	}
	return strconv.FormatFloat(g, 'f', 0, 64) + " g"
}

// percentText is a share in per cent: "0.3", "1".
func percentText(share float64) string { return strconv.FormatFloat(share*100, 'f', 1, 64) }
