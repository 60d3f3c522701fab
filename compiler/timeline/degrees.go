package timeline

import "tamis/lang/quantity"

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
