package timeline

import (
	"strings"

	"tamis/lang/quantity"
)

// Setting is what an oven is set to: "180 °C fan", or "350 °F" where the
// practice of the meal counts so.
func Setting(celsius int, fan, fahrenheit bool) string {
	deg := quantity.Temperature{Low: celsius, High: celsius, Scale: quantity.Celsius}
	if fahrenheit {
		deg = deg.Customary(quantity.Fahrenheit)
	}
	text := deg.Print()
	if fan {
		text += " fan"
	}
	return text
}

// Setting is the setting of a spell, by the practice of the menu or its kitchen.
func (t *Timeline) Setting(h *Heat) string {
	practice := ""
	if k := t.Meal.Kitchen; k != nil {
		practice = k.Practice
	}
	if m := t.Meal.Menu; m != nil && m.Practice != "" {
		practice = m.Practice
	}
	return Setting(h.Celsius, h.Fan, strings.HasPrefix(practice, "US"))
}
