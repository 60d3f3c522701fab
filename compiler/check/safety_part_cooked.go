package check

import (
	"slices"
	"time"

	"tamis/compiler/hazard"
	"tamis/lang/diag"
)

var partCooked = &Rule{
	Code: "S149", Title: "Meat cooked in part, and kept.", Family: Safety, Severity: diag.Warning,
	What:    "Raw meat is browned, parboiled or cooked in part, then chilled or left, and finished later.",
	Why:     "The middle was warm and is still raw: what germs there were have grown, and the second cooking starts from more.",
	Fix:     "Cook it through in one go, with `core`, cool it fast and bring it back; or brown it just before it goes on.",
	Sources: []string{"FDA Food Code 2022, 3-401.14, as states adopt it", "USDA advice, as seen quoted"},
	Bad: `dish Braised shin
  serves 6
  gather
    2 kg     beef shin
    1 litre  beef stock
  method
    - Brown the beef shin well.
      | ring high | watch 15 min
    - Chill.
      | stand overnight, fridge
    - Braise it in the stock.
      | oven 150 C | leave 4 h
`,
	At: "7:7",
	Good: `dish Braised shin
  serves 6
  gather
    2 kg     beef shin
    1 litre  beef stock
  method
    - Brown the beef shin well.
      | ring high | watch 15 min
    - Braise it in the stock.
      | oven 150 C | leave 4 h
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for n, st := range d.Stages {
				if !st.Heats || st.Step.Core != nil || !st.After.Totals.Flesh || st.Thorough() {
					continue
				}
				part := st.Tells("part cook") || st.Tells("brown only") && st.Time <= 25*time.Minute && st.Opens("brown", "sear", "seal", "colour", "mark")
				if !part && d.saysDoneLater(n) && !seen.again(wordsAt(st.Step)) {
					p.common(p.ReportAs(diag.Question, wordsAt(st.Step), "is %s cooked through here, before it is kept", strongName(st.After))).
						WithHelp("if it is, say so with `core` here as well; if it is not, cook it in one go")
					continue
				}
				if !part || d.cookedBefore(n) || !d.waitsThenHeats(n) || seen.again(wordsAt(st.Step)) {
					continue
				}
				p.Report(wordsAt(st.Step), "%s is cooked in part here, kept, and finished later", strongName(st.After)).
					Because("%s A first heating of at most 60 minutes, cooled at once, under a written procedure, is what the FDA Food Code 2022 3-401.14 allows trade kitchens, as states adopt it. %s", p.rule.Why, comeFirst).
					WithHelp("cook it through in one go, or brown it just before the rest of the cooking")
			}
		}
	},
}

// saysDoneLater tells whether raw meat in pieces is cooked shortly by a step, then kept, and
// only what heats it after that says how hot the middle gets.
func (d *plate) saysDoneLater(n int) bool {
	st := d.Stages[n]
	if max(st.Time, st.SaidTime()) > 20*time.Minute || d.cookedBefore(n) || !d.waitsThenHeats(n) || st.Says("through", "done", "tender", "soft", "pink", "clear") {
		return false
	}
	if !slices.ContainsFunc(st.After.Items, func(i *hazard.Item) bool {
		return i.RawAt(n) && (i.Is(hazard.Poultry) || i.Is(hazard.Pork)) && !i.Is(hazard.Mince) && !i.IsKind("cured") && !i.IsKind("bones")
	}) {
		return false
	}
	return slices.ContainsFunc(d.Stages[n+1:], func(o *hazard.Stage) bool { return o.Heats && o.Step.Core != nil })
}

// cookedBefore tells whether a step before this one cooked the meat through.
func (d *plate) cookedBefore(n int) bool {
	return slices.ContainsFunc(d.Stages[:n], func(st *hazard.Stage) bool { return st.Heats && (st.Thorough() || st.Step.Core != nil) })
}

// waitsThenHeats tells whether food is chilled, paused or left after a step, and
// then heated.
func (d *plate) waitsThenHeats(n int) bool {
	first := d.Stages[n]
	waits := first.PutsAway()
	if waits && first.Says("tomorrow", "next day", "later", "on the day", "another day", "finish", "finished") {
		return true
	}
	for _, st := range d.Stages[n+1:] {
		waits = waits || st.Pause != nil || st.Chills || st.Tells("overnight") && !st.Heats
		if st.Heats {
			return waits
		}
	}
	return false
}

var frozenCook = &Rule{
	Code: "S150", Title: "Meat that goes to the heat frozen in the middle.", Family: Safety, Severity: diag.Warning,
	What:    "A whole bird or a joint is cooked from frozen or half thawed, or frozen meat goes into a slow cooker.",
	Why:     "The middle stays cold long after the outside is done, and in a slow cooker for hours.",
	Fix:     "Thaw it first: `thaw 1 day, fridge`, longer for a large piece.",
	Sources: []string{"US Department of Agriculture advice, as seen quoted", noSource},
	Bad: `dish Easy stew
  serves 6
  gather
    1.2 kg   frozen stewing beef
    500 ml   beef stock
  method
    - Tip the beef and the stock into the slow cooker.
      | tool slow cooker | leave 8 h
`,
	At: "7:7",
	Good: `dish Easy stew
  serves 6
  gather
    1.2 kg   frozen stewing beef
    500 ml   beef stock
  method
    - Thaw the beef.
      | thaw 1 day, fridge
    - Tip the beef and the stock into the slow cooker.
      | tool slow cooker | leave 8 h
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			thawed := false
			for _, st := range d.Stages {
				thawed = thawed || thawing(st)
				if !st.Heats {
					continue
				}
				half := st.Tells("half frozen")
				if !st.After.Totals.Flesh || !half && (thawed || !st.After.Totals.Frozen && !st.Tells("from frozen")) {
					continue
				}
				for _, i := range st.After.Items {
					if !i.Flesh || !i.RawAt(st.N) || !half && (thawed || !i.Frozen && !st.Tells("from frozen")) || st.Before.Warmth == hazard.Hot && !half {
						continue
					}
					if !half && !st.SlowCooker() && !large(i) || seen.again(wordsAt(st.Step)) {
						continue
					}
					p.common(p.Report(wordsAt(st.Step), "the %s is frozen, or half thawed, when the heat is put to it", i.Line.Name)).
						WithHelp("thaw it right through first: a step with `| thaw 1 day, fridge`, more for a large piece")
					break
				}
			}
		}
	},
}

// thawing tells whether a step thaws something right through.
func thawing(st *hazard.Stage) bool {
	return st.Has(thawWord) || st.Tells("thaw") && !st.Heats
}

// large tells whether a thing is a whole bird or a joint.
func large(i *hazard.Item) bool {
	q := i.Line.Quantity
	if q == nil || i.Is(hazard.Mince) || speaksIn(i.Line.Name, "thighs", "wings", "drumsticks", "legs", "breasts", "fillets", "steaks", "chops", "strips", "pieces", "diced", "burgers", "sausages", "meatballs", "escalopes", "nuggets", "goujons", "joints") {
		return false
	}
	return q.Dim == 0 && i.Is(hazard.Poultry) || i.Grams() >= 1500
}

var refrozen = &Rule{
	Code: "S151", Title: "Thawed, and frozen again raw.", Family: Safety, Severity: diag.Warning,
	What:    "Raw meat, fish or shellfish that was frozen is thawed and goes back into the freezer before it is cooked.",
	Why:     "Each thaw gives germs time, and frost only stops them.",
	Fix:     "Thaw only what is used, or cook it before it is frozen again.",
	Sources: []string{"UK Food Standards Agency consumer advice, from memory", noSource},
	Bad: `dish Mince in portions
  serves 6
  gather
    1 kg     frozen minced beef
  method
    - Thaw the minced beef.
      | thaw 1 day, fridge
    - Pack it in portions and freeze.
      | work 10 min | stand 4 weeks, freezer
`,
	At: "8:7",
	Good: `dish Mince in portions
  rules UK
  serves 6
  gather
    1 kg     minced beef
  method
    - Pack the minced beef in portions and freeze.
      | work 10 min | stand 4 weeks, freezer
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			thawed, heated := false, false
			for _, st := range d.Stages {
				if !thawed && !thawing(st) {
					continue
				}
				again := st.Tells("refreeze") || thawed && st.Tells("to freezer") || st.Place == "freezer" || st.Pause != nil && st.Pause.Pause.Place == "freezer"
				atOnce := st.Tells("thaw") && (st.Tells("refreeze") || st.Follows("to freezer", "thaw")) // it goes back at once
				if (thawed || atOnce) && !heated && touchedRaw(st) && (again || atOnce) && !seen.again(wordsAt(st.Step)) {
					p.common(p.Report(wordsAt(st.Step), "%s was thawed, and is frozen again raw", strongName(st.After))).
						WithHelp("thaw only what is used, or cook it before it goes back")
				}
				thawed = thawed || thawing(st)
				heated = heated || st.Heats
			}
		}
	},
}
