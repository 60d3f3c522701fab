package planner

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/events"
	"tamis/render/plantext"
)

// An oven is set in the degrees of the kitchen's practice, as dials have them:
// 350 °F is 176.67 °C by definition, and 180 °C by the customary British oven table.
func TestOvenInTheDegreesOfTheKitchen(t *testing.T) {
	for practice, want := range map[string]string{"US": "Heat the main oven to 350 °F", "UK": "Heat the main oven to 180 °C"} {
		line := onTime(t, atOne+`Bake
dish Bake
  serves 6
  gather
    10       eggs
  method
    - Bake the eggs.
      | oven 350 F | leave 50 min
`+strings.Replace(cottage, "kitchen Cottage\n", "kitchen Cottage\n  rules "+practice+"\n", 1))
		require.Contains(t, plantext.RunSheet(events.Of(line), 1), want)
		var b strings.Builder
		require.NoError(t, plantext.WriteMoment(&b, events.Of(line), events.Moment(line.Jobs[0].Start())))
		require.Contains(t, b.String(), strings.TrimPrefix(want, "Heat the main oven to "))
	}
}
