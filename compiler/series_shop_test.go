package compiler_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/sheets"
)

// Lemons that give their zest to one part and their juice to another are bought once: the
// row names the parts, and no amounts of theirs that come to more than is bought.
func TestWhatIsBoughtForItsPartsIsNotAddedUp(t *testing.T) {
	seen := 0
	for _, d := range example(t, "regatta-picnic", compiler.Options{Sheets: []sheets.Kind{sheets.Series}}).Documents {
		for _, s := range d.Sheets {
			if s.Kind != sheets.Shopping {
				continue
			}
			for _, b := range s.Blocks {
				tb, ok := b.(*sheets.Table)
				if !ok {
					continue
				}
				for _, g := range tb.Groups {
					for _, r := range g.Rows {
						if how := runText(r.Cells[1].Sub) + runText(r.Cells[2].Sub); strings.Contains(how, "for the zest") && strings.Contains(how, "for the juice") && strings.HasPrefix(runText(r.Cells[3].Runs), "part ") {
							seen++
							require.Regexp(t, `^part \d( · part \d)*$`, runText(r.Cells[3].Runs))
						}
					}
				}
			}
		}
	}
	require.NotZero(t, seen)
}

// What the meal of a series needs besides its parts is bought with the rest: what was shown
// and eaten before is made again. One box has the egg for a pie and those for a cake two weeks
// later, as long as eggs keep.
func TestTheMealOfASeriesIsShoppedFor(t *testing.T) {
	on := map[string][]string{}
	byPart := map[string]string{}
	for _, d := range example(t, "regatta-picnic", compiler.Options{Sheets: []sheets.Kind{sheets.Series}}).Documents {
		for _, s := range d.Sheets {
			for _, b := range s.Blocks {
				tb, ok := b.(*sheets.Table)
				if !ok || s.Kind != sheets.Shopping {
					continue
				}
				for _, g := range tb.Groups {
					for _, r := range g.Rows {
						what := runText(r.Cells[2].Runs)
						if s.ID == "shopping" {
							on[what] = append(on[what], strings.Join([]string{g.Note, runText(r.Cells[1].Runs), runText(r.Cells[3].Runs)}, ": "))
						} else {
							byPart[g.Title+": "+what] = runText(r.Cells[1].Runs) + ", " + runText(r.Cells[4].Runs)
						}
					}
				}
			}
		}
	}
	// by hand: pie, chicken, trout and courgettes are made again for twelve
	require.Equal(t, []string{"Friday 16 July 2027: 12: part 5", "Thursday 22 July 2027: 12: Regatta picnic"}, on["trout fillets"])
	require.Equal(t, []string{"Friday 9 July 2027: 1 kg: part 4", "Thursday 22 July 2027: 1 kg: Regatta picnic"}, on["pork shoulder"])
	require.Equal(t, []string{"Friday 2 July 2027: 2: part 3", "Thursday 22 July 2027: 2: Regatta picnic"}, on["chickens"])
	require.Equal(t, []string{"Friday 2 July 2027: 1 box: part 4: 1 · part 6: 4 · Regatta picnic: 1"}, on["eggs"])
	require.Empty(t, on["egg"])
	require.Equal(t, "12, Thu 22 Jul", byPart["Regatta picnic, besides the parts: trout fillets"])
	require.Empty(t, byPart["Regatta picnic, besides the parts: lamb leg"], "part 6 has it")
}
