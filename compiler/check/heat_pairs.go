package check

import (
	"math"

	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/quantity"
)

// heatPairs compares settings that stand side by side in a sentence: "180 C /
// 350 F / gas 4".
var heatPairs = &Rule{
	Code: "H103", Title: "Two settings of one oven that disagree.", Family: Heat, Severity: diag.Question,
	What:    "Degrees of Celsius and Fahrenheit, of a fan oven or a gas mark stand side by side in a sentence, and are not the same heat by any table.",
	Why:     "Every reader sets the oven by another of the figures.",
	Fix:     "Take the figures from Appendix A, or give one of them only: the sheets print the others.",
	Bad:     "dish Baked leeks\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Bake the leeks at 180 C/300 F until soft. | oven 180 C | leave 40 min\n",
	At:      "6:25",
	Good:    "dish Baked leeks\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Bake the leeks at 180 C/350 F until soft. | oven 180 C | leave 40 min\n",
	Sources: []string{"the Tamis notation, Appendix A", "NSW Government healthy-kids conversion chart, oven temperatures, for the 20 degrees of a fan; tables differ by a mark or by 10 degrees"},
	Check: func(p *Pass) {
		p.eachStep(func(_ *resolve.Recipe, _ *resolve.Step, prose saying) {
			heats := prose.degrees()
			for i, a := range heats {
				for _, b := range heats[i+1:] {
					if b.from < a.from {
						a, b = b, a
					}
					if b.from < a.to || !beside.MatchString(prose.text[a.to:b.from]) || a.word || b.word || sameHeat(a, b) {
						continue
					}
					p.Report(prose.place(a.from, b.to), "%s is not the heat of %s", prose.text[a.from:a.to], prose.text[b.from:b.to]).
						WithHelp("%s is about %s", prose.text[a.from:a.to], otherSetting(a, b))
				}
			}
		})
	},
}

// beside is what may stand between two settings of one oven.
var beside = mustCompile(`(?i)^\s*(fan)?\s*[(/,=]\s*(fan\s*)?$`)

// sameHeat allows for what tables differ by. A fan's degrees may be 10 to 30
// below the others.
func sameHeat(a, b saidHeat) bool {
	room := 3.0
	switch {
	case a.gas || b.gas:
		room = 11
	case a.temp.Scale != b.temp.Scale:
		room = 9
	}
	diff := a.low - b.low
	if a.fan != b.fan {
		if b.fan {
			diff -= quantity.FanOffset
		} else {
			diff += quantity.FanOffset
		}
		room = max(room, 10)
	}
	return math.Abs(diff) <= room
}

// otherSetting is heat a in the terms that b is written in.
func otherSetting(a, b saidHeat) string {
	c := a.low
	if a.fan {
		c += quantity.FanOffset
	}
	if b.fan {
		c -= quantity.FanOffset
	}
	t := quantity.Temperature{Low: int(math.Round(c)), High: int(math.Round(c)), Scale: quantity.Celsius}
	switch {
	case b.gas:
		if g, ok := quantity.GasMarkNear(t); ok {
			return "gas " + g.Name
		}
	case b.temp.Scale == quantity.Fahrenheit:
		if g, ok := quantity.GasMarkNear(t); ok && math.Abs(float64(g.Customary)-c) < 3 {
			return quantity.Temperature{Low: g.Fahrenheit, High: g.Fahrenheit, Scale: quantity.Fahrenheit}.String()
		}
		f := int(quantity.CtoF(quantity.Int(int64(t.Low))).Float()/5+0.5) * 5
		return quantity.Temperature{Low: f, High: f, Scale: quantity.Fahrenheit}.String()
	}
	return t.String()
}
