package build

import (
	"regexp"
	"strconv"

	"tamis/compiler/sheets"
	"tamis/lang/quantity"
)

// celsius is a temperature or a span that a published limit names, and whether it is the
// most that is allowed; what stands in brackets stands beside its Fahrenheit.
var celsius = regexp.MustCompile(`\([^)]*\)|(?:(-?\d+) to |(to ))?(-?\d+) °C( or below)?`)

// inDegrees says the temperatures of limits in the degrees that were asked for, with
// their own beside them: rounded so that who keeps to the one keeps to the other.
func (b *builder) inDegrees(text string) string {
	if b.opt.Units != quantity.US {
		return text
	}
	return celsius.ReplaceAllStringFunc(text, func(found string) string {
		m := celsius.FindStringSubmatch(found)
		from, to, least, most := m[1], m[2], m[3], m[4]
		f, ok := fahrenheit(least)
		if !ok {
			return found
		}
		if from != "" || to != "" || most != "" { // what is cooled to, or kept below: no warmer
			f = f.Floor()
		}
		text, own := f.Ceil().Text(false), least
		if hot, ok := fahrenheit(from); ok {
			text, own = hot.Ceil().Text(false)+" to "+text, from+" to "+own
		}
		return to + text + " °F (" + own + " °C)" + most
	})
}

func fahrenheit(text string) (f quantity.Number, ok bool) {
	c, err := strconv.Atoi(text)
	return quantity.Frac(int64(9*c), 5).Add(quantity.Int(32)), err == nil
}

func (b *builder) cautionsInDegrees(items []sheets.Caution) []sheets.Caution {
	for i := range items {
		items[i].Text = b.inDegrees(items[i].Text)
	}
	return items
}
