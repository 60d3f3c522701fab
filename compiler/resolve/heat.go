package resolve

import (
	"tamis/lang/ast"
	"tamis/lang/quantity"
)

// heats turns the writer's oven settings into degrees Celsius, as an oven without
// a fan is set. What each stands for is the oven table's to say (quantity).
func heats(c *ast.Heat) (out []Heat) {
	for _, h := range c.Phases {
		w := quantity.Heat{Gas: h.Gas, Word: h.Word}
		if h.Gas == "" && h.Word == "" && h.Temp != nil {
			w.Temp, w.Fan = *h.Temp, h.Fan
		}
		heat := Heat{Written: w}
		if t, ok := w.Conventional(); ok {
			heat.Low, heat.High = t.Low, t.High
		}
		if h.For != nil {
			heat.For = h.For.High
		}
		out = append(out, heat)
	}
	return out
}
