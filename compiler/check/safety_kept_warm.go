package check

import (
	"tamis/lang/diag"
)

var keptWarm = &Rule{
	Code: "S118", Title: "cooked food kept out of the fridge", Family: Safety, Severity: diag.Warning,
	What:    "Cooked meat, fish, eggs, dairy, rice or vegetables keep, pause or stand in the room, the larder or a warm place for longer than the practice allows food to be out, or a sentence leaves them out overnight.",
	Why:     "At the warmth of a room germs double every twenty minutes or so.",
	Fix:     "Cool it and put it in the fridge, or hold it hot.",
	Sources: []string{"FSANZ 2-hour/4-hour rule", "FDA Food Code 2022, 3-501.19(B), as states adopt it", "USDA National Agricultural Library, leftover food answer", "Food Hygiene Regulations (Northern Ireland) 2006 Sch. 4 para 5"},
	Bad: `dish Egg custard
  practice AU
  serves 4
  gather
    500 ml   milk
    4        eggs
  method
    - Stir the milk and eggs over the heat until thick.
      | ring low | watch 10 min | core 75 C
    - Leave under a cloth to settle.
      | stand 6 h, room
  serve at room temperature
`,
	At: "11:9",
	Good: `dish Egg custard
  practice AU
  serves 4
  gather
    500 ml   milk
    4        eggs
  method
    - Stir the milk and eggs over the heat until thick.
      | ring low | watch 10 min | core 75 C
    - Set the pan in iced water until cold.
      | work 5 min | leave 40 min | reach 5 C
    - Chill.
      | stand 6 h, fridge
  serve cold
`,
	Check: func(p *Pass) {
		seen := once{}
		for _, d := range p.dishes() {
			d.leftOut(p, seen)
			for _, s := range d.stays() {
				if s.place == "fridge" || s.place == "freezer" || !s.pot.Cooked || !s.pot.Grows() || s.pot.Baked() || d.jarred() || plainFat(s, d) || inOil(s.pot, d) {
					continue
				}
				r := d.choice.Rule("time as control", "cold")
				l := r.Shortest()
				if s.time <= l.Time || seen.again(s.at) {
					continue
				}
				p.cite(p.ReportAs(softer(diag.Warning, r), s.at, "cooked food is out for %s; the figure is %s", lengthOf(s.time), l.Length()), r, l).
					WithHelp("cool it and write `fridge`, or hold it hot with degrees")
			}
		}
	},
}

// leftOut reports a sentence that leaves cooked food out overnight, where the
// margin names no place.
func (d *plate) leftOut(p *Pass, seen once) {
	for _, st := range d.Stages {
		if st.Place != "" || !st.After.Cooked || !st.After.Grows() || st.After.Baked() || !st.Says("overnight", "until tomorrow", "till tomorrow", "until the morning") ||
			!st.Says("on the side", "worktop", "counter", "room temperature", "larder", "pantry", "on the hob", "on the stove", "in the pan", "in the oven", "in the pot") {
			continue
		}
		at := saidAt(st.Step, "overnight", "until tomorrow", "till tomorrow", "until the morning")
		r := d.choice.Rule("time as control", "cold")
		l := r.Shortest()
		if seen.again(at) || st.Thorough() {
			continue
		}
		p.cite(p.ReportAs(softer(diag.Warning, r), at, "cooked food is out for a night; the figure is %s", l.Length()), r, l).
			WithHelp("cool it and put it in the fridge: `| stand overnight, fridge`")
	}
}
