package check

import (
	"slices"
	"strings"
	"time"

	"tamis/compiler/hazard"
	"tamis/compiler/resolve"
	"tamis/lang/diag"
)

const thawWord = resolve.WordThaw

func speaksIn(text string, words ...string) bool { return speaksOf(strings.ToLower(text), words...) }

var rinsedBird = &Rule{
	Code: "S152", Title: "Raw poultry rinsed.", Family: Safety, Severity: diag.Warning,
	What:    "A step washes or rinses raw poultry.",
	Why:     "The water sprays campylobacter and salmonella over the sink and all that stands there; only heat rids the bird of them.",
	Fix:     "Leave the rinsing out; pat it dry with paper, and wash the hands.",
	Sources: []string{"Oregon Health Authority bulletin, 2023"},
	Bad: `dish Roast chicken
  rules UK
  serves 4
  gather
    1        chicken
  method
    - Rinse the chicken under the tap and pat it dry.
      | work 4 min
    - Roast it.
      | oven 190 C | leave 1 h 20 min | core 75 C
`,
	At: "7:7",
	Good: `dish Roast chicken
  rules UK
  serves 4
  gather
    1        chicken
  method
    - Pat the chicken dry with paper.
      | work 4 min
    - Roast it.
      | oven 190 C | leave 1 h 20 min | core 75 C
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for n, st := range d.Stages {
				said := st.SaidBy("rinse")
				if said == "" {
					continue
				}
				for _, i := range st.After.Items {
					if !i.Is(hazard.Poultry) || i.Before || !i.RawAt(n) || !st.Near("rinse", birdWords(i)...) || seen.again(saidAt(st.Step, said)) {
						continue
					}
					p.advised(p.Report(saidAt(st.Step, said), "raw poultry is not rinsed: the %s", i.Line.Name), hazard.Find("rinse").Source).
						WithHelp("leave the rinsing out, and pat it dry with paper")
				}
			}
		}
	},
}

// birdWords are the words by which a sentence speaks of poultry.
func birdWords(i *hazard.Item) []string {
	out := []string{"bird", "birds", "cavity", "inside and out", "carcass", "it under", "them under", "it well", "them well", "giblets"}
	for w := range strings.FieldsSeq(strings.ToLower(i.Line.Name)) {
		if len(w) > 3 && !slices.Contains([]string{"whole", "large", "small", "free-range", "frozen", "fresh", "with", "skin", "boneless", "organic", "about"}, w) {
			out = append(out, w, strings.TrimSuffix(w, "s"))
		}
	}
	return out
}

var sameTools = &Rule{
	Code: "S153", Title: "What touched raw meat is used again.", Family: Safety, Severity: diag.Warning,
	What:    "A board, knife, plate, tray or pair of tongs that touched raw meat or fish is used for what is eaten as it is, or only wiped.",
	Why:     "What ran out of the raw meat gets on food that nothing heats again.",
	Fix:     "Take a clean one, or wash it in hot soapy water in between, and say so.",
	Sources: []string{"Oregon Health Authority bulletin, 2023"},
	Bad: `dish Chicken and cucumber
  rules UK
  serves 4
  gather
    500 g    chicken breasts
    1        cucumber
  method
    - Slice the chicken breasts, and on the same board the cucumber.
      | work 8 min
    - Fry the chicken.
      | ring high | watch 10 min | core 75 C
    - Serve with the cucumber.
      | work 2 min
`,
	At: "8:45",
	Good: `dish Chicken and cucumber
  rules UK
  serves 4
  gather
    500 g    chicken breasts
    1        cucumber
  method
    - Slice the cucumber, and then, on another board, the chicken breasts.
      | work 8 min
    - Fry the chicken.
      | ring high | watch 10 min | core 75 C
    - Serve with the cucumber.
      | work 2 min
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for _, st := range d.Stages {
				said := st.SaidBy("same tools")
				if said == "" || st.Tells("tools washed") && !strings.Contains(said, "wip") && !strings.Contains(said, "rins") || !touchedRaw(st) {
					continue
				}
				if at := saidAt(st.Step, said); !seen.again(at) {
					p.advised(p.Report(at, "what touched raw meat or fish is used again"), hazard.Find("same tools").Source).
						WithHelp("take a clean one, or write that it is washed in hot soapy water in between")
				}
			}
		}
	},
}

// touchedRaw tells whether raw meat, fish or shellfish is or was in hand.
func touchedRaw(st *hazard.Stage) bool {
	t := st.After.Totals
	return t.Flesh || t.Shell || t.Fish
}

var stuffedAhead = &Rule{
	Code: "S154", Title: "A bird stuffed ahead.", Family: Safety, Severity: diag.Warning,
	What:    "Stuffing goes into a raw bird and waits there, in the fridge or out of it, before the bird is cooked; or it goes in warm and waits.",
	Why:     "In the middle of the bird it is lukewarm for hours, and the heat reaches it last.",
	Fix:     "Keep the stuffing apart and cold, fill the bird just before it goes in, or bake the stuffing by itself.",
	Sources: []string{"US Department of Agriculture advice, as seen quoted", "Iowa Poison Control Center"},
	Bad: `dish Stuffed turkey
  rules US
  serves 8
  gather
    1        turkey
    600 g    breadcrumbs
    2        onions, chopped
  method
    - Mix the breadcrumbs with the onions and fill the cavity of the turkey.
      | work 15 min | stand overnight, fridge
    - Roast.
      | oven 170 C | leave 4 h | core 75 C
`,
	At: "10:23",
	Good: `dish Stuffed turkey
  rules US
  serves 8
  gather
    1        turkey
    600 g    breadcrumbs
    2        onions, chopped
  method
    - Mix the breadcrumbs with the onions and chill.
      | work 15 min | stand overnight, fridge
    - Fill the cavity of the turkey and roast it at once.
      | oven 170 C | work 10 min | leave 4 h | core 75 C
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			stuffed := false
			for _, st := range d.Stages {
				if st.Heats && (stuffed || st.Tells("stuff bird") && st.Has(resolve.WordOven)) {
					break
				}
				stuffed = stuffed || st.Tells("stuff bird") && hasFilling(st) && slices.ContainsFunc(st.After.Items, func(i *hazard.Item) bool {
					return i.Is(hazard.Poultry) && !i.Before || i.Is(hazard.Game)
				})
				if !stuffed {
					continue
				}
				at, long := d.waitsFor(st)
				if st.Tells("overnight", "ahead", "till a meal") && at.IsZero() {
					at, long = wordsAt(st.Step), halfDay
				}
				if long < time.Hour || seen.again(at) {
					continue
				}
				p.Report(at, "the bird waits with its stuffing in it").
					Because("%s A bird is filled just before it is cooked (US Department of Agriculture, as seen quoted; Iowa Poison Control Center). %s", p.rule.Why, comeFirst).
					WithHelp("keep the stuffing cold by itself, and fill the bird just before it goes into the oven")
			}
		}
	},
}

// hasFilling tells whether there is something in hand that a bird is stuffed with, and
// that the heat must reach: not a lemon.
func hasFilling(st *hazard.Stage) bool {
	return slices.ContainsFunc(st.After.Items, func(i *hazard.Item) bool {
		return i.Is(hazard.Mince) || i.Is(hazard.Stuffing) || speaksIn(i.Line.Name, "breadcrumbs", "crumbs", "bread", "rice", "sausagemeat", "stuffing", "chestnuts", "couscous", "oats", "forcemeat", "bulgur", "mince")
	})
}

// waitsFor is where and how long a step lets its food stand, rest or be left.
func (d *plate) waitsFor(st *hazard.Stage) (span, time.Duration) {
	for _, w := range []resolve.Word{resolve.WordStand, resolve.WordRest, resolve.WordLeave} {
		if c := st.Spell(w); c != nil {
			return c.Span, longestOf(c.Fixed)
		}
	}
	return span{}, 0
}

// cautionsOf are the cautions of a step.
func cautionsOf(st *hazard.Stage) (out []string) {
	for _, c := range st.Step.Margin {
		if c, ok := c.(*resolve.Caution); ok {
			out = append(out, c.Text.Text)
		}
	}
	return out
}
