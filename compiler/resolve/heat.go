package resolve

import (
	"tamis/lang/ast"
	"tamis/lang/quantity"
)

// FanOffset is how many Celsius degrees a fan oven is set below one without.
// Common practice, no source: older tables have 25.
const FanOffset = 20

// heatOf turns one oven setting into a range of Celsius degrees, as an oven
// without a fan is set, and the words it is printed in. Words and gas marks
// are read from the customary table: no standard stands behind them.
func heatOf(h ast.HeatPhase) (low, high int, shown string) {
	switch {
	case h.Gas != "":
		n, _, _ := quantity.ReadNumber(h.Gas, quantity.Options{})
		if m, ok := quantity.GasMarkOf(n); ok {
			return m.Customary, m.Customary, "gas " + m.Name + " (" + degrees(m.Customary, m.Customary) + ")"
		}
		return 0, 0, "gas " + h.Gas
	case h.Word != "":
		low, high, _ = wordHeat(h.Word)
		return low, high, h.Word + " oven (" + degrees(low, high) + ")"
	case h.Temp == nil:
		return 0, 0, ""
	}
	low, high = celsius(h.Temp.Low, h.Temp.Scale), celsius(h.Temp.High, h.Temp.Scale)
	shown = h.Temp.Print()
	if h.Fan {
		low, high = low+FanOffset, high+FanOffset
		shown += " fan"
	}
	return low, high, shown
}

func celsius(deg int, scale quantity.Scale) int {
	if scale != quantity.Fahrenheit {
		return deg
	}
	c := quantity.FtoC(quantity.Int(int64(deg))).Add(quantity.Frac(1, 2)).Floor()
	n, _ := c.Int64()
	return int(n)
}

func degrees(low, high int) string {
	return quantity.Temperature{Low: low, High: high, Scale: quantity.Celsius}.Print()
}

// wordHeat is the range of Celsius degrees of a named oven.
func wordHeat(word string) (low, high int, ok bool) {
	h, ok := quantity.HeatNamed(word)
	return h.Celsius.Low, h.Celsius.High, ok
}
