package planner

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Each finding of translating, with its place, once.
func TestFindings(t *testing.T) {
	for _, c := range []struct {
		name, text, code, at, message string
	}{
		{
			"a time that grows with what cannot be counted",
			atOne + `Salad
dish Salad
  serves 6
  gather
    300 g    onions
  method
    - Slice the onions.
      | work 3 min per 200 ml onion
` + cottage,
			"P102", "work 3 min per 200 ml onion",
			"Salad: this time grows with onion, and how much of that there is cannot be told",
		},
		{
			"a time that goes by what one weighs",
			atOne + `Salad
dish Salad
  serves 6
  gather
    3        kohlrabi
  method
    - Slice the kohlrabi.
      | work 3 min per 100 g kohlrabi
` + cottage + "  kohlrabi | piece 200 g\n",
			"P108", "work 3 min per 100 g kohlrabi",
			"Salad: this time goes by kohlrabi, each counted as 200 g (the larder)",
		},
		{
			"a by-product that waits on nobody's word",
			`menu Lunch
  covers 6
  on the table 2027-09-19 13:00
  at Cottage
  course First
    Broth
  course Main, 2 h after First
    Pie
dish Broth
  serves 6
  gather
    1 kg     chicken
  method
    - Lift out the chicken.
      | work 10 min | makes 500 g picked meat
  serve warm, within 10 min
dish Pie
  serves 6
  gather
    500 g    picked meat
  method
    - Layer the picked meat.
      | work 5 min
    - Bake.
      | oven 180 C | leave 30 min
  serve hot, within 5 min
` + cottage,
			"P103", "makes 500 g picked meat",
			"picked meat waits 1 h 25 min, and nobody has said how long it keeps",
		},
		{
			"work for someone who is not there",
			`menu Lunch
  covers 6
  on the table 2027-09-19 13:00
  at Cottage
  hours on the day, 09:00 to 14:00, Ana
  course Main
    Salad
dish Salad
  serves 6
  gather
    300 g    leaves
  method
    - Dress the leaves.
      | work 3 min | by Jo
kitchen Cottage
  cooks Ana, Jo
larder
  units metric
`,
			"P105", "- Dress the leaves.\n      | work 3 min | by Jo",
			"step 1 of Salad (Dress the leaves) is for Jo, who has no hours on this menu",
		},
		{
			"hours that do not count",
			`menu Lunch
  covers 6
  hours on the day, 09:00 to 14:00
  course Main
    Salad
dish Salad
  serves 6
  gather
    300 g    leaves
  method
    - Dress the leaves.
      | work 3 min
larder
  units metric
`,
			"P106", "hours on the day, 09:00 to 14:00",
			"these hours do not count, for the menu has no serving time",
		},
		{
			"a strand longer than its host",
			atOne + `Plate
dish Plate
  serves 6
  gather
    300 g    leaves
  method
    - Blanch the leaves.
      | ring high | leave 10 min
    - Whip the cream.
      | meanwhile | work 15 min
    - Toss.
      | work 5 min
` + cottage,
			"P107", "- Whip the cream.\n      | meanwhile | work 15 min",
			"what is done meanwhile takes 15 min, and step 1 of Plate lasts 10 min",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			line, diags := planText(t, c.text)
			require.NotNil(t, line, "it is planned all the same")
			audit(t, line)
			d := only(t, diags)
			require.Equal(t, c.code, d.Code)
			require.Equal(t, c.message, d.Message)
			require.Equal(t, c.at, d.At.Span.Text())
			require.NotEmpty(t, d.Help)
		})
	}
}
