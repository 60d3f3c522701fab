package compiler_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
)

// bird is a roast that is cooked for so many: `serves 8`, for 8 the written weight.
func bird(list, margin string, covers int) string {
	return fmt.Sprintf(`menu Sunday
  covers %d
  on the table 2027-09-19 13:00
  at Home
  course Main
    Bird
kitchen Home
  cooks Ana
  oven main, 2 shelves
dish Bird
  serves 8
  units imperial
  gather
%s
    50 g butter
  method
    - Roast everything.
      | oven 180 C | work 10 min | %s | core 75 C
`, covers, list, margin)
}

// roasted is how long it is left, in minutes.
func roasted(t *testing.T, m *made) int {
	t.Helper()
	for _, j := range m.Timelines[0].Jobs {
		for _, p := range j.Phases {
			if p.Kind == resolve.Leave && j.Step != nil {
				return p.End - p.Start
			}
		}
	}
	require.Fail(t, "nothing is roasted")
	return 0
}

// Times by weight, by hand. Points: 2 h 30 min at 10 lb and 4 h 30 min at 16 lb, 20 min
// a pound between; 15 min a pound below the first (2 h 30 min by 10), which is asked;
// above, 20 min a pound more, asked unless the longest is said.
func TestTimesByWeight(t *testing.T) {
	const points = "leave 2 h 30 min at 10 lb, 4 h 30 min at 16 lb"
	for _, c := range []struct {
		list, margin string
		covers, want int
		asked        bool
	}{
		{"    10 lb turkey", points, 8, 150, false},
		{"    16 lb turkey", points, 8, 270, false},
		{"    13 lb turkey", points, 8, 210, false},
		{"    4 lb turkey", points, 8, 60, true},
		{"    2 lb turkey", points, 8, 30, true},
		{"    10 lb turkey", points, 12, 250, false},
		{"    10 lb turkey", points, 16, 350, true},
		{"    10 lb turkey", points + ", at most 5 h", 16, 300, false},
		{"    10 lb turkey", "leave 2 h 30 min at 10 lb turkey, 4 h 30 min at 16 lb", 8, 150, false},
		{"    10 lb turkey\n    13 lb goose", points, 8, 210, false},
		{"    10 lb turkey\n    13 lb goose", "leave 2 h 30 min at 10 lb turkey, 4 h 30 min at 16 lb", 8, 150, false},
		{"    10 lb turkey\n    14 lb goose", "leave 15 min per lb of the largest", 8, 210, false},
		{"    2 turkeys (about 12 lb each)", "leave 15 min per lb of the largest", 8, 180, false},
		{"    2 turkeys (about 12 lb each)", "leave 15 min per lb of the largest", 16, 180, false},
		{"    2 turkeys, 12 lb each", points, 16, 190, false},
		{"    10 lb turkey", "leave 20 min plus 15 min per lb of the largest", 8, 170, false},
	} {
		m := compiled(t, tried{text: bird(c.list, c.margin, c.covers)})
		require.Equal(t, c.want, roasted(t, m), "%s at %d: %s", c.list, c.covers, c.margin)
		asked := false
		for _, d := range m.Diags.Sorted() {
			asked = asked || d.Code == "P112"
			require.NotContains(t, []string{"P102", "P101"}, d.Code, "%s: %s", c.list, d.Message)
		}
		require.Equal(t, c.asked, asked, "%s at %d: %s", c.list, c.covers, c.margin)
	}
}

// What is printed beside the step is what was planned; without a plan, what was written.
func TestTimesByWeightOnPaper(t *testing.T) {
	m := compiled(t, tried{text: bird("    13 lb turkey", "leave 2 h 30 min at 10 lb, 4 h 30 min at 16 lb, at most 5 h", 8)})
	require.Contains(t, m.words(sheets.Prep), "leave 3 h 30 min")
	m = compiled(t, tried{text: `dish Bird
  serves 8
  units imperial
  gather
    13 lb turkey
  method
    - Roast the turkey.
      | oven 180 C | work 5 min | leave 2 h 30 min at 10 lb, 4 h 30 min at 16 lb, at most 5 h
`})
	require.Contains(t, m.words(sheets.Prep), "leave 2 h 30 min at 10 lb, 4 h 30 min at 16 lb, at most 5 h")
	s := m.recipe("Bird").Steps[0]
	least, most, ok := s.Phases[1].Written()
	require.True(t, ok)
	require.Equal(t, 210.0, least.Minutes())
	require.Equal(t, 210.0, most.Minutes())
}

// `15 min per lb` of five pounds lasts 1 h 15 min for whoever asks whether it got hot
// for long enough, too; it used to count as a quarter of an hour.
func TestAGrowingTimeCountsWhole(t *testing.T) {
	m := compiled(t, tried{text: `dish Broth
  serves 8
  units imperial
  gather
    5 lb chicken
  method
    - Simmer the chicken.
      | ring low | work 5 min | leave 15 min per lb
`})
	_, most, ok := m.recipe("Broth").Steps[0].Phases[1].Written()
	require.True(t, ok)
	require.Equal(t, 75.0, most.Minutes())
}
