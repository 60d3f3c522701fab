package timeline

import (
	"strings"

	"tamis/lang/quantity"
)

// setting is what an oven is set to, in the degrees of the kitchen: "180 °C fan",
// "350 °F".
func (t *Timeline) setting(h *Heat) string {
	deg := quantity.Temperature{Low: h.Celsius, High: h.Celsius, Scale: quantity.Celsius}
	practice := ""
	if k := t.Meal.Kitchen; k != nil {
		practice = k.Practice
	}
	if m := t.Meal.Menu; m != nil && m.Practice != "" {
		practice = m.Practice
	}
	if strings.HasPrefix(practice, "US") {
		deg = deg.Customary(quantity.Fahrenheit)
	}
	text := deg.Print()
	if h.Fan {
		text += " fan"
	}
	return text
}
