package build

import (
	"regexp"
	"strconv"

	"tamis/compiler/sheets"
	"tamis/lang/quantity"
)

// celsius is a temperature that a published limit names, and whether it is the most
// that is allowed.
var celsius = regexp.MustCompile(`(\(?)(-?\d+) °C( or below)?`)

// inDegrees says the temperatures of limits in the degrees that were asked for, with
// their own beside them: rounded so that who keeps to the one keeps to the other.
func (b *builder) inDegrees(text string) string {
	if b.opt.Units != quantity.US {
		return text
	}
	return celsius.ReplaceAllStringFunc(text, func(found string) string {
		m := celsius.FindStringSubmatch(found)
		c, err := strconv.Atoi(m[2])
		if err != nil || m[1] != "" { // it stands beside its Fahrenheit
			return found
		}
		f := quantity.Frac(int64(9*c), 5).Add(quantity.Int(32))
		if m[3] != "" {
			f = f.Floor()
		}
		return f.Ceil().Text(false) + " °F (" + m[2] + " °C)" + m[3]
	})
}

func (b *builder) cautionsInDegrees(items []sheets.Caution) []sheets.Caution {
	for i := range items {
		items[i].Text = b.inDegrees(items[i].Text)
	}
	return items
}
