package draft

import (
	"strings"

	"tamis/lang/diag"
	"tamis/lang/quantity"
)

var (
	// thousands are figures in groups of three: 1,500. A nought before the comma is a decimal.
	thousands = lazily(`(^|[^\d.,])([1-9]\d{0,2}(?:,\d{3})+)($|[^\d,])`)
	// eitherWay are 1.500 g and 2.000 ml: fifteen hundred where they were written in most
	// countries, one and a half in a few. Nobody weighs thousandths of a gram.
	eitherWay = lazily(`(?i)(?:^|[^\d.,])[1-9]\d{0,2}(?:\.\d{3})+ ?(?:g|gr|grams?|grammes?|ml|millilit(?:re|er)s?)\b`)
)

// inches are 8" or 8″: a length, and no count of things.
var inches = lazily(`(\d|[¼½¾⅓⅔⅛⅜⅝⅞]) ?(?:"|″|”|'')(\s|$|[^\s\pL])`)

// inInches writes the sign of inches so that it is no quotation mark. "00" flour has none.
func inInches(s string) string {
	var b strings.Builder
	for {
		m := inches.FindStringSubmatchIndex(s)
		if m == nil {
			return b.String() + s
		}
		b.WriteString(s[:m[3]])
		if out := b.String(); (strings.Count(out, `"`)+strings.Count(out, "“")-strings.Count(out, "”"))%2 != 0 {
			b.WriteString(s[m[3]:m[4]])
		} else {
			b.WriteString("″")
		}
		s = s[m[4]:]
	}
}

// ungrouped writes 1,500 as 1500, as the notation has it.
func ungrouped(s string) string {
	return thousands.ReplaceAllStringFunc(s, func(m string) string {
		last := strings.TrimRight(m, ",") // what follows is no comma but the end, or a sign
		return strings.ReplaceAll(last, ",", "") + m[len(last):]
	})
}

// behind is an amount that stands after its name: "flour, 30g".
var behind = lazily(`(?i)^(\pL[^\d,;|"()/]*?)[,:]? +((?:about )?\d[\d./]*(?:(?: to | ?[-–] ?)\d[\d./]*)? ?(?:kg|g|grams?|ml|cl|l|litres?|oz|ounces?|lbs?|pounds?|cups?|tbsps?|tsps?|tablespoons?|teaspoons?|pints?))\.?$`)

// inFront puts an amount that stands behind its name before it.
func inFront(s string) string {
	m := behind.FindStringSubmatch(s)
	if m == nil {
		return s
	}
	if _, n, _ := quantity.ReadAmount(m[2]+" x", quantity.Options{}); n < len(m[2]) {
		return s
	}
	return m[2] + " " + strings.TrimSpace(m[1])
}

// either is the second of two measures of one thing, "400g/14oz".
var either = lazily(`(?i)\d ?[a-z]+ ?/ ?(\d[\d.½¼¾]*) ?(?:g|kg|ml|l|oz|lb|fl oz|pints?|cups?)\b`)

// dropsOne tells whether a line lacks the second of two measures.
func dropsOne(raw, line string) bool {
	m := either.FindStringSubmatch(raw)
	return m != nil && !strings.Contains(line, m[1])
}

// doubtful tells of the lines whose figure can be read in two ways.
func (d *drafting) doubtful(r *recipe) {
	for _, g := range r.groups {
		for _, l := range g.lines {
			if eitherWay.MatchString(l) {
				d.tell("\""+diag.Visible(l)+"\" can mean thousands as well as a decimal, so it is kept as it was written: write its amount without the point.", nil)
			}
		}
	}
}
