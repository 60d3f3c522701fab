package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
	"tamis/lang/prose"
	"tamis/lang/quantity"
)

// saidDegrees compares the temperatures of a sentence with the margin.
var saidDegrees = &Rule{
	Code: "H102", Title: "The sentence says a temperature that the margin has not.", Family: Heat, Severity: diag.Question,
	What:    "A sentence names an oven heat, or what the middle must reach, and the margin has none or another one. A heat of a fan oven may stand beside the one without.",
	Why:     "The cook sets the oven by the sentence, and the plan shares it out by the margin.",
	Fix:     "Write the same temperature in both, or leave it out of the sentence.",
	Bad:     "dish Baked leeks\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Bake the leeks at 200 C until soft. | oven 180 C | leave 40 min\n",
	At:      "6:25",
	Good:    "dish Baked leeks\n  serves 4\n  gather\n    600 g leeks\n  method\n    - Bake the leeks at 180 C until soft. | oven 180 C | leave 40 min\n",
	Sources: []string{"the Tamis notation, 2.7", "the Tamis notation, Appendix A, for words and gas marks"},
	Check: func(p *Pass) {
		p.eachStep(func(_ *resolve.Recipe, s *resolve.Step, said saying) {
			ovens, others := marginDegrees(s)
			for _, d := range said.degrees() {
				at, words := said.place(d.from, d.to), said.text[d.from:d.to]
				sentence := said.sentenceAt(d.from)
				if d.isOven() {
					switch {
					case len(ovens) > 0 && !anyNear(ovens, d):
						p.Report(at, "the sentence says %s, and the margin %s", words, marginOven(s)).
							WithHelp("write the same heat in both")
					case len(ovens) == 0 && (s.Rings > 0 || s.Grill) && orElse.MatchString(said.text[:d.from]): // the margin has the one, and the cook may take the other
					case len(ovens) == 0 && len(others) == 0 && bakeWord.MatchString(sentence):
						p.Report(at, "the sentence says %s, and the margin has no oven", words).
							WithHelp("write `| oven %s` below it, with the time", d.margin())
					}
					continue
				}
				if d.whose != prose.OfCore {
					continue
				}
				switch {
				case len(others) > 0 && !anyNear(others, d):
					p.Report(at, "the sentence says %s, and the margin has another temperature", words).
						WithHelp("write the same temperature in both")
				case len(others) == 0:
					p.Report(at, "the sentence says %s, and the margin has no such temperature", words).
						WithHelp("write `| core %s` below it", d.margin())
				}
			}
		})
	},
}

var (
	bakeWord = mustCompile(`(?i)\b(bake|roast|oven)`)
	orElse   = mustCompile(`(?i)\bor,? (else )?(it may |you may |may )?(be )?(\w+ )?in(to)? (a |an |the )?$`)
	// ovenTalk is about an oven that is being heated or left, not cooked in.
	ovenTalk = mustCompile(`(?i)\b(preheat|(heat|light|warm|turn|get|set) (up |on |down |off )?(the|your|an) oven|oven (heats|warms|comes|on\b|off\b))`)
)

// hottestFood is as hot as the middle of anything gets, in C; only fat and
// sugar get hotter.
const hottestFood = 105

// saidHeat is a temperature in prose, in Celsius as it stands: one figure of those
// that are said of one heat.
type saidHeat struct {
	from, to  int
	low, high float64
	fan       bool
	gas       bool
	word      bool
	temp      quantity.Temperature // as written; the zero one for a mark or a word
	whose     prose.Whose
}

// isOven tells whether it is the heat of an oven and not of the food.
func (d saidHeat) isOven() bool {
	return d.whose == prose.OfOven || d.whose == prose.Unknown && d.low > hottestFood
}

func (d saidHeat) margin() string {
	if d.temp.Scale == 0 {
		return "180 C"
	}
	return d.temp.String()
}

// degrees are the temperatures the text tells, in order, each scale by itself.
func (s saying) degrees() (out []saidHeat) {
	for _, h := range s.clock().Heats {
		for _, o := range h.Others {
			out = append(out, saidHeat{from: o.From, to: o.To, low: o.Low, high: o.High, fan: o.Heat.Fan, gas: o.Heat.Gas != "", word: o.Heat.Word != "", temp: o.Heat.Temp, whose: h.Whose})
		}
	}
	return out
}

type degreeRange struct{ low, high float64 }

// marginDegrees are the temperatures of a margin: of the oven, with and
// without a fan, and all others.
func marginDegrees(s *resolve.Step) (ovens, others []degreeRange) {
	for _, h := range s.Heats {
		ovens = append(ovens,
			degreeRange{float64(h.Low), float64(h.High)},
			degreeRange{float64(h.Low - quantity.FanOffset), float64(h.High - quantity.FanOffset)})
	}
	for _, c := range clausesOf(s) {
		if t := tempOf(c); t != nil {
			others = append(others, degreeRange{prose.Celsius(t.Low, t.Scale), prose.Celsius(t.High, t.Scale)})
		}
	}
	return ovens, others
}

// tempOf is the temperature of a clause that is not an oven's; nil: it has none.
func tempOf(c resolve.Clause) *quantity.Temperature {
	switch c := c.(type) {
	case *resolve.InPlace:
		return c.Temp
	case *resolve.Target:
		return c.Temp
	case *resolve.Hold:
		return c.Temp
	}
	return nil
}

// anyNear tells whether a temperature said is one of those in the margin. What
// tables give for the same setting differs by a mark or by ten degrees.
func anyNear(list []degreeRange, d saidHeat) bool {
	room := 3.0
	switch {
	case d.gas || d.word:
		room = 15
	case d.temp.Scale == quantity.Fahrenheit:
		room = 6
	}
	for _, r := range list {
		if d.low <= r.high+room && d.high >= r.low-room {
			return true
		}
	}
	return false
}

func marginOven(s *resolve.Step) string {
	if c := resolve.First[*resolve.InOven](s.Margin); c != nil {
		return c.Span.Text()
	}
	return "another oven"
}
