package compiler_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A finding stands at the food's own heat; jars that are scalded are no cooked food; a
// bottle of wine holds what bottles of wine hold.
func TestFindingsStandWhereTheFoodIs(t *testing.T) {
	for _, c := range []struct {
		name, dish, code string
		at               string // the text of the finding's place; "" where nothing is found
	}{
		{"cooked through in the stew, not where the sauce is reduced", "    600 g chicken thighs\n    1 onion\n  method\n    - Simmer the chicken thighs with the onion.\n      | ring low | work 5 min | leave 40 min\n    - Reduce the sauce.\n      | ring high | watch 5 min\n", "S102", "ring low"},
		{"browned first, then baked through", "    600 g chicken thighs\n  method\n    - Brown the chicken thighs.\n      | ring high | watch 6 min\n    - Bake.\n      | oven 200 C | leave 35 min\n", "S102", "oven 200 C"},
		{"scalded jars before a ferment", "    1 kg white cabbage\n    20 g fine salt\n  method\n    - Scald the jars.\n      | ring high | leave 10 min\n    - Rub the cabbage with the salt and pack it into the jars.\n      | work 10 min\n    - Ferment.\n      | stand 10 days, room\n", "S121", ""},
		{"too little salt, jars scalded or not", "    1 kg white cabbage\n    5 g fine salt\n  method\n    - Scald the jars.\n      | ring high | leave 10 min\n    - Rub the cabbage with the salt and pack it into the jars.\n      | work 10 min\n    - Stand.\n      | stand 10 days, room\n", "S121", "stand 10 days, room"},
		{"boiled beans in jars", "    1 kg green beans\n    20 g fine salt\n    1 litre water\n  method\n    - Boil the green beans in the water with the salt.\n      | ring high | leave 10 min\n    - Fill into jars.\n      | work 10 min\n    - Stand.\n      | stand 10 days, room\n", "S121", "stand 10 days, room"},
		{"a bottle of wine", "    1 bottle red wine\n    4 pears\n  method\n    - Poach the pears in the red wine.\n      | ring low | leave 30 min\n", "D203", ""},
		{"a bottle of beer may be one of three", "    1 bottle beer\n    4 pears\n  method\n    - Poach the pears in the beer.\n      | ring low | leave 30 min\n", "D203", "1 bottle"},
		{"a tin of tomatoes", "    2 tins chopped tomatoes\n  method\n    - Boil the tomatoes.\n      | ring low | leave 30 min\n", "D203", "2 tins"},
	} {
		_, all := alarms("dish Plate\n  serves 6\n  rules UK\n  gather\n" + c.dish + "  serve hot\n")
		at := ""
		for _, d := range all {
			if d.Code == c.code {
				at = d.At.Span.Text()
			}
		}
		assert.Equal(t, c.at, at, c.name)
	}
}
