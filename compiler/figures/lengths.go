package figures

import (
	"regexp"
	"slices"
	"strings"

	"tamis/compiler/demand"
	"tamis/compiler/resolve"
	"tamis/lang/quantity"
)

// Lengths of sentences and notes, "in 2 cm dice", in the units that were asked for. As
// written nothing is changed.

// aLength is a number, or a range of them, with a unit of length: 5 mm, 2-3 cm, a 1-inch.
var aLength = regexp.MustCompile(`(\d+(?:[.,]\d+)?(?: \d/\d|[½¼¾⅓⅔⅛])?|\d/\d|[½¼¾⅓⅔⅛])(?:( to | or |-|–)(\d+(?:[.,]\d+)?|\d/\d|[½¼¾]))?([ -]?)(cm|mm|inches|inch)\b`)

// lengthAt is a length of a text, and how it is printed.
type lengthAt struct {
	from, to int
	text     string
}

// lengths are those of a text that are printed in other units than they were written in;
// none where both are said.
func (s *Set) lengths(text string, system quantity.System) (out []lengthAt) {
	if s.opt.Units == quantity.NoSystem || !strings.Contains(text, "cm") && !strings.Contains(text, "mm") && !strings.Contains(text, "inch") {
		return nil
	}
	var kept [][2]int
	for _, m := range aLength.FindAllStringSubmatchIndex(text, -1) {
		part := func(i int) string {
			if m[2*i] < 0 {
				return ""
			}
			return text[m[2*i]:m[2*i+1]]
		}
		plain := part(1)
		if part(3) != "" {
			plain += " to " + part(3)
		}
		plain += " " + part(5)
		ms, n, _ := quantity.ReadMeasure(plain, quantity.Options{System: system}) // a 2 1/2 inch tin has its unit without its plural
		if n != len(plain) {
			continue
		}
		q, problem := ms.Quantity(system)
		if problem != nil || s.keeps(ms, system) {
			if problem == nil {
				kept = append(kept, [2]int{m[0], m[1]})
			}
			continue
		}
		said := s.Print(q, ms.Terms[0].Unit, system)
		if after := text[m[1]:]; len(after) > 1 && after[0] == ' ' && after[1] >= 'a' && after[1] <= 'z' && !measuredSo.MatchString(after) {
			said = strings.TrimSuffix(said, "es") // in 2 inch lengths
		}
		if part(4) == "-" {
			if at := strings.LastIndexByte(said, ' '); at > 0 {
				said = strings.TrimSuffix(said[:at]+"-"+said[at+1:], "es")
			}
		}
		out = append(out, lengthAt{m[0], m[1], said})
	}
	return slices.DeleteFunc(out, func(l lengthAt) bool { // 2 cm (3/4 inch) says both
		return slices.ContainsFunc(kept, func(k [2]int) bool {
			return k[0] >= l.to && k[0]-l.to <= near || l.from >= k[1] && l.from-k[1] <= near
		})
	})
}

// near is how few letters stand between a length and the same in other units.
const near = 4

// measuredSo are words behind a length that is said by itself: 2 inches thick.
var measuredSo = regexp.MustCompile(`^ (thick|long|wide|deep|across|apart|high|tall|from|of|in|and|or|above|below|round|at|on|all|over|under|up|down|to|with|for|by|between)\b`)

// Lengths is a note with its lengths in the units that were asked for.
func (s *Set) Lengths(note string, system quantity.System) string {
	var b strings.Builder
	at := 0
	for _, l := range s.lengths(note, system) {
		b.WriteString(note[at:l.from] + l.text)
		at = l.to
	}
	return b.String() + note[at:]
}

// Note is what stands behind the name of a line, as it is printed everywhere: its lengths in
// the units that were asked for, "at 28 C" as 28 °C or 82 °F, 1 1/2 as 1½.
func (s *Set) Note(l *resolve.Line) string {
	text := s.Lengths(l.Note.Text, l.Recipe.System)
	if !strings.ContainsAny(text, "0123456789") {
		return text
	}
	text = aHeat.ReplaceAllStringFunc(text, func(found string) string {
		t, n, problems := quantity.ReadTemperature(found, quantity.Options{System: l.Recipe.System})
		switch {
		case n != len(found) || len(problems) > 0:
			return found
		case s.opt.Units == quantity.US:
			t = t.To(quantity.Fahrenheit)
		case s.opt.Units != quantity.NoSystem:
			t = t.To(quantity.Celsius)
		}
		return t.Print()
	})
	return aFraction.ReplaceAllStringFunc(text, func(found string) string {
		whole, part, _ := strings.Cut(found, " ")
		if part == "" {
			whole, part = "", found
		}
		return whole + fractions[part]
	})
}

// aHeat is a temperature of a note, aFraction a number with a fraction that has a sign.
var (
	aHeat     = regexp.MustCompile(`\b\d+(?:(?: to |-|–)\d+)? ?°?[CF]\b`)
	aFraction = regexp.MustCompile(`\b(?:\d+ )?(?:1/2|1/3|2/3|1/4|3/4|1/8)\b`)
	fractions = map[string]string{"1/2": "½", "1/3": "⅓", "2/3": "⅔", "1/4": "¼", "3/4": "¾", "1/8": "⅛"}
)

var aboutWords = []string{"about ", "approximately ", "approx. ", "roughly ", "around ", "or ", "some "}

// Brackets is what stands in brackets behind a name. A measure there is a second one:
// "6 tbsp butter (3 oz)" is scaled with the first; of one thing, "1 shoulder (about
// 2 kg)", it is that of each.
func (s *Set) Brackets(a *demand.Amount) string {
	text := a.Line.Brackets.Text
	lead, rest := "", text
	for _, w := range aboutWords {
		if after, ok := strings.CutPrefix(rest, w); ok {
			lead, rest = w, after
			break
		}
	}
	system := a.Line.Recipe.System
	m, n, problems := quantity.ReadMeasure(rest, quantity.Options{System: system})
	tail := rest[n:]
	if n == 0 || len(problems) > 0 || len(m.Terms) == 0 || m.Terms[0].Unit == nil {
		return s.Lengths(text, system)
	}
	q, problem := m.Quantity(system)
	if problem != nil || q.Dim != quantity.Mass && q.Dim != quantity.Volume {
		return text
	}
	if w := a.Line.Quantity; s.opt.Units != quantity.NoSystem && tail == "" && w != nil && (w.Dim == quantity.Mass || w.Dim == quantity.Volume) {
		return "" // one of the two is enough in units that were asked for
	}
	by := ratio(a)
	each := tail == " each" || tail == " apiece"
	switch {
	case each:
		by = quantity.Int(1)
	case tail != "" && tail != " in all" && tail != " in total" && tail != " total":
		return text
	case by.Equal(quantity.Int(1)):
	case a.Line.Quantity == nil:
		return text
	case a.Line.Quantity.Dim == quantity.None && a.Line.Quantity.Value.Equal(quantity.Exactly(quantity.Int(1))):
		by, tail = quantity.Int(1), " each"
	}
	if by.Equal(quantity.Int(1)) && s.keeps(m, system) {
		return lead + rest[:n] + tail
	}
	return lead + s.Print(q.Scale(by), m.Terms[0].Unit, system) + tail
}
