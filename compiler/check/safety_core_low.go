package check

import (
	"time"

	"tamis/compiler/hazard"
	"tamis/compiler/practice"
	"tamis/lang/diag"
)

var coreLow = &Rule{
	Code: "S103", Title: "A core temperature below the limit.", Family: Safety, Severity: diag.Warning,
	What:    "Raw poultry, mince, pork, liver, stuffing, a rolled or pierced joint, game, fish or egg is cooked to less than the published figure of the rules, or not for as long. Times under a minute need not be written.",
	Why:     "Germs in the middle live through what is too cool or too short.",
	Fix:     "Raise the `core`, or give it the time that a lower one needs: `core 70 C for 2 min`.",
	Sources: []string{"UK Food Standards Agency cooking guidance, as seen quoted", "FDA Food Code 2022, 3-401.11, as states adopt it", "USDA FSIS consumer advice, as seen quoted", "Victoria Department of Health, advice"},
	Bad: `dish Turkey burgers
  rules UK
  serves 4
  gather
    500 g    turkey mince
  method
    - Shape the turkey mince and fry on both sides.
      | ring medium | work 5 min | watch 10 min | core 68 C
`,
	At: "8:51",
	Good: `dish Turkey burgers
  rules UK
  serves 4
  gather
    500 g    turkey mince
  method
    - Shape the turkey mince and fry on both sides.
      | ring medium | work 5 min | watch 10 min | core 70 C for 2 min
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			for _, c := range d.raws(hazard.Poultry, hazard.Mince, hazard.Pork, hazard.Stuffing, hazard.Rolled, hazard.Offal, hazard.Game, hazard.Fish, hazard.Egg) {
				if len(c.cores) > 0 {
					lowCore(p, d, c, seen)
				} else {
					lowBath(p, d, c, seen)
				}
			}
		}
	},
}

// lowCore reports the last `core` if none is enough.
func lowCore(p *Pass, d *plate, c *raw, seen once) {
	r := c.ruling(d)
	if len(r.Sets) == 0 {
		return
	}
	for _, st := range c.cores {
		if r.Short(*st.Step.Core.Temp, coreTime(st.Step.Core)) == nil {
			return
		}
	}
	core := c.cores[len(c.cores)-1].Step.Core
	l := r.Short(*core.Temp, coreTime(core))
	if seen.again(core.Span) {
		return
	}
	p.cite(p.ReportAs(softer(diag.Warning, r), core.Span, "the middle of %s is to reach %s", foods(c.items), l.Core()), r, l).
		WithHelp("write `core %s`, and test with a clean probe", coreText(r, l))
}

// comesUp is how long food in a bath takes to be as hot in the middle. Common practice,
// no source.
const comesUp = time.Hour

// bath is the stage in which food of one kind lies in a bath of so many degrees, and what
// the time there falls short of; nil where there is none, or other heat cooks it through.
func (c *raw) bath(r practice.Ruling) (at *hazard.Stage, short *practice.Limit) {
	for _, st := range c.heated {
		t, ok := st.Bath()
		switch {
		case ok:
			at, short = st, r.Short(t, max(0, max(st.Time, st.SaidTime())-comesUp))
		case !(st.Tells("brown only") || st.Time <= 5*time.Minute):
			return nil, nil
		}
	}
	return at, short
}

// lowBath reports a bath in which the middle cannot get as hot, or not for so long.
func lowBath(p *Pass, d *plate, c *raw, seen once) {
	r := c.ruling(d)
	st, l := c.bath(r)
	if st == nil || l == nil || seen.again(wordsAt(st.Step)) {
		return
	}
	p.cite(p.ReportAs(softer(diag.Warning, r), wordsAt(st.Step), "the middle of %s is to reach %s, and gets no hotter than its bath", foods(c.items), l.Core()), r, l).
		WithHelp("write `core %s`, and test with a clean probe", coreText(r, l))
}
