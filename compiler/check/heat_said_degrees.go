package check

import (
	"tamis/compiler/resolve"
	"tamis/lang/diag"
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
		p.eachStep(func(_ *resolve.Recipe, s *resolve.Step, prose saying) {
			ovens, others := marginDegrees(s)
			for _, d := range prose.degrees() {
				at, words := prose.place(d.from, d.to), prose.text[d.from:d.to]
				sentence := prose.sentenceAt(d.from)
				if d.isOven(sentence) {
					switch {
					case len(ovens) > 0 && !anyNear(ovens, d):
						p.Report(at, "the sentence says %s, and the margin %s", words, marginOven(s)).
							WithHelp("write the same heat in both")
					case len(ovens) == 0 && (s.Rings > 0 || s.Grill) && orElse.MatchString(prose.text[:d.from]): // the margin has the one, and the cook may take the other
					case len(ovens) == 0 && len(others) == 0 && bakeWord.MatchString(sentence):
						p.Report(at, "the sentence says %s, and the margin has no oven", words).
							WithHelp("write `| oven %s` below it, with the time", d.margin())
					}
					continue
				}
				if !middle.MatchString(sentence) {
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
	middle   = mustCompile(`(?i)\b(core|middle|centre|center|inside|thermometer|probe|thickest)\b`)
	// ovenTalk is about an oven that is being heated or left, not cooked in.
	ovenTalk = mustCompile(`(?i)\b(preheat|(heat|light|warm|turn|get|set) (up |on |down |off )?(the|your|an) oven|oven (heats|warms|comes|on\b|off\b))`)
)

// hottestFood is as hot as the middle of anything gets, in C; only fat and
// sugar get hotter.
const hottestFood = 105

var frying = mustCompile(`(?i)\b(oil|fat|fry|fryer|sugar|syrup|caramel|jam|thermometer)\b`)

// saidHeat is a temperature in prose, in Celsius of an oven without a fan.
type saidHeat struct {
	from, to  int
	low, high float64
	fan       bool
	gas       bool
	word      bool
	temp      quantity.Temperature // as written; the zero one for a mark or a word
}

// isOven tells whether it is the heat of an oven and not of the food.
func (d saidHeat) isOven(sentence string) bool {
	if ovenTalk.MatchString(sentence) {
		return false
	}
	return d.gas || d.word || d.fan || d.low > hottestFood && !frying.MatchString(sentence)
}

func (d saidHeat) margin() string {
	if d.temp.Scale == 0 {
		return "180 C"
	}
	return d.temp.String()
}

var (
	gasSaid  = mustCompile(`(?i)\bgas (?:mark )?(\d\b|1/4|1/2|¼|½)`)
	wordSaid = mustCompile(`(?i)\b((?:very |moderately )?(?:slow|hot)|moderate) oven\b`)
	fanAfter = mustCompile(`(?i)^ ?\(?fan\b`)
	fanNext  = mustCompile(`(?i)^ ?\(?fan (oven )?(at )?\d`) // "200 C (fan 180 C)": the other one
	fanFirst = mustCompile(`(?i)\bfan (oven )?(at )?$`)
)

// degrees are the temperatures the text tells, in order.
func (s saying) degrees() (out []saidHeat) {
	end := 0
	for _, m := range figureStart.FindAllStringSubmatchIndex(s.text, -1) {
		at := m[2]
		if at < end {
			continue
		}
		out, end = s.degreesAt(at, end, out)
	}
	// "180/160 C" and the like: what stands behind a stroke.
	for i := 0; i+1 < len(s.text); i++ {
		if s.text[i] == '/' && s.text[i+1] >= '0' && s.text[i+1] <= '9' {
			out, _ = s.degreesAt(i+1, 0, out)
		}
	}
	for _, m := range gasSaid.FindAllStringSubmatchIndex(s.text, -1) {
		n, _, _ := quantity.ReadNumber(s.text[m[2]:m[3]], quantity.Options{Prose: true})
		if g, ok := quantity.GasMarkOf(n); ok {
			c := float64(g.Customary)
			out = append(out, saidHeat{from: m[0], to: m[1], low: c, high: c, gas: true})
		}
	}
	for _, m := range wordSaid.FindAllStringSubmatchIndex(s.text, -1) {
		if h, ok := quantity.HeatNamed(s.text[m[2]:m[3]]); ok {
			out = append(out, saidHeat{from: m[0], to: m[1], low: float64(h.Celsius.Low), high: float64(h.Celsius.High), word: true})
		}
	}
	return out
}

func (s saying) degreesAt(at, end int, out []saidHeat) ([]saidHeat, int) {
	t, n, problems := quantity.ReadTemperature(s.text[at:], quantity.Options{Prose: true})
	if n == 0 || len(problems) > 0 || t.Scale == 0 {
		return out, end
	}
	d := saidHeat{from: at, to: at + n, low: celsius(t.Low, t.Scale), high: celsius(t.High, t.Scale), temp: t}
	d.fan = fanAfter.MatchString(s.text[d.to:]) && !fanNext.MatchString(s.text[d.to:]) || fanFirst.MatchString(s.text[:at])
	return append(out, d), d.to
}

func celsius(n int, scale quantity.Scale) float64 {
	if scale == quantity.Fahrenheit {
		return quantity.FtoC(quantity.Int(int64(n))).Float()
	}
	return float64(n)
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
			others = append(others, degreeRange{celsius(t.Low, t.Scale), celsius(t.High, t.Scale)})
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
