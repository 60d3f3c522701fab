package compiler_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/resolve"
	"tamis/compiler/sheets"
)

func fried(covers int, list, margin string) string {
	return fmt.Sprintf(`menu Supper
  covers %d
  on the table 2027-09-19 13:00
  at Home
  course Main
    Fritters
kitchen Home
  cooks Ana
  rings 2
dish Fritters
  serves 7
  gather
%s
    1 litre oil
  method
    - Shape the batter.
      | into 7 fritters | work 5 min
    - Fry them in the oil.
      | ring high | %s
  serve hot, within 10 min
`, covers, list, margin)
}

// watchedFor is how long somebody stands by, in minutes.
func watchedFor(t *testing.T, m *made) (sum int) {
	t.Helper()
	for _, j := range m.Timelines[0].Jobs {
		for _, p := range j.Phases {
			if p.Kind == resolve.Watch {
				sum += p.End - p.Start
			}
		}
	}
	return sum
}

// A pan that holds so many pieces goes round in whole loads: of the pieces that the
// block shapes, or that its list counts. By hand: seven in sixes are two loads.
func TestLoadsByPieces(t *testing.T) {
	for _, c := range []struct {
		covers       int
		list, margin string
		want         int
	}{
		{7, "    400 g batter", "in deep pan, holds 6 fritters | watch 4 min per load", 8},
		{7, "    400 g batter", "in deep pan, holds 6 fritters | watch 4 min per 6 fritters", 8},
		{6, "    400 g batter", "in deep pan, holds 6 fritters | watch 4 min per 6 fritters", 4},
		{14, "    400 g batter", "in deep pan, holds 6 fritters | watch 4 min per load", 12},
		{7, "    400 g batter", "watch 4 min per 7 fritters", 4},
		{14, "    400 g batter", "watch 4 min per 7 fritters", 8},
	} {
		m := compiled(t, tried{text: fried(c.covers, c.list, c.margin)})
		require.Equal(t, c.want, watchedFor(t, m), "%d: %s", c.covers, c.margin)
		for _, d := range m.Diags.Sorted() {
			require.NotContains(t, []string{"P111", "P102", "U126"}, d.Code, "%s", d.Message)
		}
	}
	found := ""
	for _, d := range foundIn(t, map[string]string{"a.tamis": fried(7, "    400 g batter", "in deep pan, holds 6 dumplings | watch 4 min per load")}) {
		if d.Code == "U126" {
			found = d.At.Span.Text()
		}
	}
	require.Equal(t, "dumplings", found)
}

// Twice: the whole step and its waits, in a row; what it takes is for both.
func TestTwice(t *testing.T) {
	m := compiled(t, tried{text: `menu Supper
  covers 4
  on the table 2027-09-19 13:00
  at Home
  course Main
    Paste
kitchen Home
  cooks Ana
dish Paste
  serves 4
  gather
    200 g butter
    200 g flour
  method
    - Fold the butter into the flour, roll it out and let it rest.
      | twice | work 5 min | stand 30 min, fridge
    - Cut it.
      | work 3 min
  serve cold
`})
	var fold []int
	for _, j := range m.Timelines[0].Jobs {
		if j.Number == 1 {
			for _, p := range j.Phases {
				fold = append(fold, p.End-p.Start)
			}
		}
	}
	require.Equal(t, []int{5, 30, 5, 30}, fold)
	require.Contains(t, m.words(sheets.Prep), "twice, one after the other")
	require.Contains(t, m.words(sheets.Prep), "200 g butter")
	require.Regexp(t, `Again: fold the butter`, m.words(sheets.RunSheet))
	takes := m.recipe("Paste").Reading.Steps[0].Takes
	require.Equal(t, "1", takes[0].Part.String(), "not twice the butter")
}

// `into 5 rolls`, written for 6, is a whole number of rolls for any number of
// people: the nearest, and one at least. By hand: covers × 5/6.
func TestPiecesComeToTheNearestWholeOne(t *testing.T) {
	for covers, want := range map[int]string{
		1: "into 1 roll", 2: "into 2 rolls", 3: "into 3 rolls", 4: "into 3 rolls", 5: "into 4 rolls", 6: "into 5 rolls",
		7: "into 6 rolls", 8: "into 7 rolls", 9: "into 8 rolls", 12: "into 10 rolls", 13: "into 11 rolls",
	} {
		m := compiled(t, tried{text: fmt.Sprintf(`menu Tea
  covers %d
  on the table 2027-09-19 13:00
  at Home
  course Tea
    Rolls
kitchen Home
  cooks Ana
  oven main, 2 shelves
dish Rolls
  serves 6
  gather
    600 g dough
  method
    - Shape the dough into rolls. | into 5 rolls | work 10 min
`, covers)})
		require.Regexp(t, `\b`+want+`\b`, m.words(sheets.Prep), "for %d", covers)
	}
}
