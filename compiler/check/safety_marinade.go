package check

import (
	"slices"

	"tamis/compiler/hazard"
	"tamis/lang/diag"
)

var marinadeRaw = &Rule{
	Code: "S137", Title: "a marinade of raw meat served unboiled", Family: Safety, Severity: diag.Warning,
	What:    "Raw meat or fish lies in a marinade, and a later step serves, spoons or brushes the marinade on without boiling it.",
	Why:     "What ran out of the raw meat is in the marinade.",
	Fix:     "Boil the marinade first, or keep a part of it aside before the meat goes in.",
	Sources: []string{noSource},
	Bad: `dish Ginger chicken
  practice UK
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
  practice UK
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
			soaked := false
			for i, st := range d.Stages {
				used := st.Says("marinade") && !st.Heats && st.Says("spoon", "spooned", "serve", "pour", "drizzle", "brush", "baste", "dress", "pass", "sauce") &&
					!st.Says("boil", "boiled", "discard", "throw", "drain", "lift", "pat", "wipe", "shake", "over the meat", "into a bag")
				if at := saidAt(st.Step, "marinade"); soaked && used && !d.boilsFrom(i) && !seen.again(at) {
					p.common(p.Report(at, "raw meat lay in this marinade, and no step boils it")).
						WithHelp("boil it first, or keep some aside before the meat goes in")
				}
				soaked = soaked || st.Says("marinate", "marinade", "marinating") && !st.Heats && slices.ContainsFunc(st.After.Items, rawFlesh)
			}
		}
	},
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
