package check

import (
	"slices"
	"strings"
	"time"

	"tamis/compiler/hazard"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

var marinadeRaw = &Rule{
	Code: "S137", Title: "A marinade of raw meat served unboiled.", Family: Safety, Severity: diag.Warning,
	What:    "Raw meat or fish lies in a marinade, and a later step serves, spoons or brushes the marinade, or what was left of it, on without boiling it; or a brush, a spoon or a bowl that touched raw meat touches what is cooked.",
	Why:     "What ran out of the raw meat is in the marinade.",
	Fix:     "Boil the marinade first, or keep a part of it aside before the meat goes in.",
	Sources: []string{noSource},
	Bad: `dish Ginger chicken
  rules UK
  serves 4
  gather
    600 g    chicken thighs
    60 ml    soy sauce
    30 g     ginger, grated
  method
    - Turn the chicken thighs in the soy sauce and ginger and leave to marinate.
      | work 4 min | stand 2 h, fridge
    - Grill the chicken on both sides.
      | grill high | watch 15 min | core 75 C
    - Serve with the marinade spooned over.
      | work 2 min
`,
	At: "13:22",
	Good: `dish Ginger chicken
  rules UK
  serves 4
  gather
    600 g    chicken thighs
    60 ml    soy sauce
    30 g     ginger, grated
  method
    - Turn the chicken thighs in the soy sauce and ginger and leave to marinate.
      | work 4 min | stand 2 h, fridge
    - Grill the chicken on both sides.
      | grill high | watch 15 min | core 75 C
    - Boil the marinade hard and spoon it over.
      | ring high | watch 4 min
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			soaked, aside := false, false
			for i, st := range d.Stages {
				used := !st.Heats && usesMarinade(st.Step.Prose.Text)
				if soaked && used && !d.boilsFrom(i) {
					if at := saidAt(st.Step, "marinade"); !seen.again(at) {
						p.common(p.Report(at, "raw meat lay in this marinade, and no step boils it")).
							WithHelp("boil it first, or keep some aside before the meat goes in")
					}
				}
				if said := st.SaidBy("left liquid"); said != "" && said != "marinade" && soaked && !aside && !st.Tells("discard") && !st.Boils() && !d.boilsFrom(i) {
					if at := saidAt(st.Step, said); !seen.again(at) {
						p.common(p.Report(at, "raw meat lay in this, and no step boils it")).
							WithHelp("boil it first, or keep some aside before the meat goes in")
					}
				}
				if said := st.SaidBy("brush again"); said != "" && touchedRaw(st) {
					if at := saidAt(st.Step, said); !seen.again(at) {
						p.common(p.Report(at, "this touched raw meat, and touches what is cooked")).
							WithHelp("take a clean brush and a part of the sauce that was kept aside")
					}
				}
				aside = aside || st.Tells("kept aside")
				soaked = soaked || brushesRaw(st) || !st.Heats && st.Tells("marinate") && slices.ContainsFunc(st.After.Items, rawFlesh) && len(st.After.Items) > 1 || st.Says("marinate", "marinade", "marinating") && !st.Heats && slices.ContainsFunc(st.After.Items, rawFlesh) || d.lies(st)
			}
		}
	},
}

// brushesRaw tells whether a step brushes raw meat with something wet.
func brushesRaw(st *hazard.Stage) bool {
	return st.Says("brush", "brushed", "baste", "mop", "paint", "painted", "spoon over", "glaze") && slices.ContainsFunc(st.Taken, wetThing) &&
		slices.ContainsFunc(st.After.Items, func(i *hazard.Item) bool { return rawFlesh(i) && i.RawAt(st.N) })
}

// usesMarinade tells whether some sentence puts the marinade on what is eaten. What
// another clause does with the rest of it, thrown away or drained off, does not
// make good what this one does.
func usesMarinade(text string) bool {
	for _, sentence := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune(".;!?\n", r) }) {
		if !speaksOf(sentence, "marinade") || speaksOf(sentence, "boil", "boiled", "over the meat", "into a bag") {
			continue
		}
		for _, clause := range strings.FieldsFunc(strings.NewReplacer(" and ", ",", " then ", ",").Replace(sentence), func(r rune) bool { return r == ',' }) {
			if speaksOf(clause, "marinade") && speaksOf(clause, "spoon", "spooned", "spooning", "serve", "served", "pour", "poured", "drizzle", "drizzled", "brush", "baste", "dress", "pass", "sauce", "trickle") &&
				!speaksOf(clause, "discard", "throw", "drain", "lift", "pat", "wipe", "shake", "away", "off") {
				return true
			}
		}
	}
	return false
}

// lies tells whether raw meat lies in something wet for a while.
func (d *plate) lies(st *hazard.Stage) bool {
	if st.Heats || !slices.ContainsFunc(st.After.Items, rawFlesh) || !slices.ContainsFunc(st.After.Items, wetThing) {
		return false
	}
	_, long := d.waitsFor(st)
	return long >= 10*time.Minute || st.Tells("overnight")
}

func wetThing(i *hazard.Item) bool {
	q := i.Line.Quantity
	return q != nil && q.Dim == quantity.Volume && !rawFlesh(i)
}

func rawFlesh(i *hazard.Item) bool {
	return !i.Before && (len(i.Kinds) > 0 && !i.Is(hazard.Egg) || i.Has("raw meat"))
}

// boilsFrom tells whether a step from here on, or one before it, boils the
// marinade.
func (d *plate) boilsFrom(from int) bool {
	for i, st := range d.Stages {
		if st.Boils() && (i > from || st.Says("marinade")) {
			return true
		}
	}
	return false
}
