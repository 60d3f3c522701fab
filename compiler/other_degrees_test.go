package compiler_test

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/lang/diag"
)

// besides are texts with degrees where a figure in Fahrenheit, read as one in Celsius, is on
// the other side of a limit.
var besides = map[string]string{
	"cooled all the way in five hours": "dish Stew\n  rules US\n  serves 4\n  gather\n    800 g braising beef\n    500 ml water\n  method\n    - Simmer the beef in the water.\n      | ring low | leave 2 h\n    - Leave to cool.\n      | leave 5 h | reach 5 C\n  serve cold\n",
	"smoked at a core of 20":           "dish Smoked mackerel\n  serves 4\n  gather\n    800 g mackerel fillets\n  method\n    - Hang the mackerel fillets in cold smoke.\n      | leave 10 h | core 20 C\n  serve cold\n",
	"raw milk at blood heat":           "dish Junket\n  serves 4\n  gather\n    1 litre raw milk\n    10 ml rennet\n  method\n    - Warm the raw milk gently, stir in the rennet and leave to set.\n      | ring low | watch 5 min | core 37 C\n  serve cold\n",
	"brought back, then kept warm":     "dish Stew\n  rules SCOTLAND\n  serves 4\n  gather\n    800 g braising beef\n    500 ml water\n  method\n    - Simmer the beef in the water.\n      | ring low | leave 2 h\n    - Spread in trays and cool in iced water.\n      | work 5 min | leave 1 h\n    pause up to 1 day, fridge\n    - Heat through, stirring.\n      | ring medium | watch 10 min | core 83 C\n    - Keep on a low ring.\n      | ring low | leave 10 min | core 63 C\n  serve hot\n",
}

// Degrees are degrees: a text in Fahrenheit is asked of food and hands what the same text
// in Celsius is. A figure falls on the warm side of a limit as it did before, so it is
// rounded up.
func TestFahrenheitIsFollowedAsCelsius(t *testing.T) {
	degrees := regexp.MustCompile(`(oven|core|reach|hold|dial|kept|keep|at) (-?\d+) C\b`)
	compared := 0
	same := func(name, text string) {
		want, _ := alarms(text)
		for _, every := range []int{1, 2} { // all of them, and every second
			at := 0
			other := degrees.ReplaceAllStringFunc(text, func(s string) string {
				if at++; at%every != 0 {
					return s
				}
				m := degrees.FindStringSubmatch(s)
				n, _ := strconv.Atoi(m[2])
				return fmt.Sprintf("%s %d F", m[1], int(math.Ceil(float64(n)*9/5))+32)
			})
			compared++
			got, _ := alarms(other)
			assert.Equal(t, want, got, "%s\n%s", name, other)
		}
	}
	for _, half := range []string{"open", "blind", "later", "mended", "fresh", "again"} {
		for _, c := range ownCases(t, half) {
			if degrees.MatchString(c.text) {
				same(c.name, c.text)
			}
		}
	}
	for name, text := range besides {
		same(name, text)
	}
	require.Greater(t, compared, 120)
}

// What is said of a heat is said as it was written: 50 degrees are 10 of another scale.
func TestACommentOnAHeatIsInItsOwnDegrees(t *testing.T) {
	for written, said := range map[string]string{"oven 50 F": "50 °F", "oven 10 C": "10 °C", "oven fan 15 C": "15 °C fan"} {
		r := compileText(t, "dish Roast\n  serves 4\n  gather\n    1 kg turnips\n  method\n    - Roast the turnips. | "+written+" | work 5 min | leave 1 h\n  serve hot\n", compiler.Options{NoPlan: true, NoPages: true})
		i := slices.IndexFunc(r.Diags.Sorted(), func(d diag.Diagnostic) bool { return d.Code == "H140" })
		require.GreaterOrEqual(t, i, 0, written)
		require.Equal(t, "this sets the oven to "+said, r.Diags.Sorted()[i].Message)
	}
}
